"""JSON Schemas of the product, and their faults in plain words with line and column."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

from narrator.errors import Fault, did_you_mean
from narrator.source.positions import Located


def schema_folder() -> Path:
    """Where the schemas lie: in the wheel beside the package, in a clone beside it."""
    inside = Path(__file__).resolve().parent.parent / "_schemas"
    return inside if inside.is_dir() else Path(__file__).resolve().parents[2] / "schemas"


@cache
def _validator(name: str) -> Any:
    from jsonschema import Draft202012Validator  # heavy: only when a file is checked

    data = json.loads((schema_folder() / f"{name}.schema.json").read_text(encoding="utf-8"))
    return Draft202012Validator(data)


def schema_faults(located: Located, name: str) -> list[Fault]:
    """Every way in which a file does not fit a schema, at its own line and column."""
    errors = _leaves(_validator(name).iter_errors(located.value))
    return list(dict.fromkeys(fault for error in errors for fault in _faults(located, error)))


def report_fault(value: object) -> str:
    """What keeps a value from being a report, the first thing alone, and where; nothing if it is one."""
    error = next(_leaves(_validator("report").iter_errors(value)), None)
    where = ".".join(map(str, error.absolute_path)) if error else ""
    return f"{where or 'the whole file'}: {str(error.message)[:160]}." if error else ""


def _leaves(errors: Iterable[Any]) -> Iterator[Any]:
    """`if`/`then` and `anyOf` report the branch that speaks of the matter, not the whole."""
    for error in errors:
        if error.context and error.validator in ("anyOf", "allOf", "if", "oneOf"):
            deepest = max(error.context, key=lambda item: (len(item.absolute_path), item.validator != "type"))
            yield from _leaves([deepest])
        else:
            yield error


def _faults(located: Located, error: Any) -> list[Fault]:
    """The faults of one error: a fault for each key that is too many or missing."""
    key = tuple(error.absolute_path)
    if error.validator == "additionalProperties":
        known = sorted(error.schema.get("properties", {}))
        extra = sorted(set(error.instance) - set(known))
        listed = f"Known keys: {', '.join(known)}."
        return [
            located.fault((*key, name), f"'{_short(name)}' is not a key here.{did_you_mean(name, known)} {listed}")
            for name in extra
        ]
    if error.validator == "required":
        missing = [name for name in error.validator_value if name not in error.instance]
        return [located.fault(key, f"'{name}' is missing here.") for name in missing]
    return [_fault(located, key, error)]


def _fault(located: Located, key: tuple[str | int, ...], error: Any) -> Fault:
    value = error.instance
    kind = error.validator
    if kind == "enum":
        choices = [str(choice) for choice in error.validator_value]
        return located.fault(key, f"'{value}' is not one of: {', '.join(choices)}.{did_you_mean(str(value), choices)}")
    if kind == "const":
        return located.fault(key, f"'{value}' stands here; it must be '{error.validator_value}'.")
    if kind == "type":
        names = {
            "object": "keys and values",
            "array": "a list [..]",
            "string": "text",
            "integer": "a whole number",
            "number": "a number",
            "boolean": "true or false",
            "null": "nothing",
        }
        wanted = error.validator_value if isinstance(error.validator_value, list) else [error.validator_value]
        return located.fault(
            key,
            f"{' or '.join(names.get(str(name), str(name)) for name in wanted)} is needed here, not {_said(value)}.",
        )
    if kind in ("minItems", "minProperties", "minLength"):
        return located.fault(
            key, f"At least {error.validator_value} {'characters' if kind == 'minLength' else 'items'} are needed here."
        )
    if kind == "pattern":
        return located.fault(
            key,
            f"'{_short(value)}' does not have the form that is needed here ({error.schema.get('description', error.validator_value)}).",
        )
    return located.fault(key, f"{error.message[:160]}.")


def _short(value: Any) -> str:
    text = str(value)
    return text if len(text) <= 40 else text[:37] + "..."


def _said(value: Any) -> str:
    """A wrong value as a message shows it."""
    return "nothing" if value is None else f"'{_short(value)}'"
