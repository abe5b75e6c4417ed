"""An entry file as its stored form: plain lists and mappings that go into the index as JSON."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from narrator.errors import NarratorError
from narrator.measure.scan import scan
from narrator.source.layered import Layered
from narrator.source.model import TEXT_FIELDS
from narrator.source.positions import Located


def stored_entry(located: Located, code: str) -> dict[str, Any]:
    """The stored form of a valid entry file. Shapes are checked before (see `check`); here nothing is judged."""
    value = located.value
    trade = value["trade"] if isinstance(value["trade"], dict) else {"lead": value["trade"]}
    stored: dict[str, Any] = {
        "code": code,
        "file": located.path,
        "names": [str(name) for name in value["names"]],
        "room": value.get("room", ""),
        "element": str(value["element"]),
        "lead": trade["lead"],
        "with": trade.get("with", []),
        "ask": value.get("ask", []),
        "severity": value["severity"],
        "why": " ".join(str(value["why"]).split()),
        "why_line": located.pos(("why",)).line,
        "why_file": located.pos(("why",)).path,
        "danger": value.get("danger", []),
        "course": value["course"],
        "intrusive": bool(value.get("intrusive", False)),
        "basis": value.get("basis", "seen"),
        "raise": [
            [_raise_when(located, number), item["to"], " ".join(item["why"].split())]
            for number, item in enumerate(value.get("raise", []))
        ],
        "measures": [
            [
                name,
                spec["kind"],
                spec.get("criterion"),
                spec.get("label", name.replace("_", " ")),
                spec.get("also", []),
                bool(spec.get("context", False)),
                bool(spec.get("series", False)),
                spec.get("typical"),
                spec.get("hold", "each"),
                spec.get("worked", {}),
                spec.get("against", {}),
                spec.get("bands", []),
                spec.get("scale", ""),
            ]
            for name, spec in value.get("measures", {}).items()
        ],
        "leads_to": value.get("leads_to", []),
        "limits": value.get("limits", []),
        "call": " ".join(str(value.get("call", "")).split()),
    }
    for field in TEXT_FIELDS:
        stored[field] = _variants(located, field)
    return stored


def _raise_when(located: Located, number: int) -> dict[str, Any]:
    try:
        return raise_when(located.value["raise"][number]["when"])
    except ValueError as error:
        raise NarratorError([located.fault(("raise", number, "when"), f"{error}.")]) from None


def raise_when(when: Mapping[str, Any]) -> dict[str, Any]:
    """The conditions of a `raise` as stored: a margin (`{over by: 20 psi}`) as `[verdict, amount, unit]`.

    Raises:
        ValueError: a margin that is no figure with a unit.
    """
    out: dict[str, Any] = {}
    for name, wanted in when.items():
        if isinstance(wanted, str):
            out[name] = wanted
            continue
        ((key, text),) = wanted.items()
        found = scan(str(text))
        if len(found) != 1 or not found[0].quantity.unit or found[0].quantity.is_range:
            raise ValueError(f"'{text}' is not a margin; type a figure with its unit, such as '6 in' or '25 %'")
        out[name] = [key.removesuffix(" by"), str(found[0].quantity.low), found[0].quantity.unit]
    return out


def _variants(located: Located, field: str) -> list[list[Any]]:
    """`[name, when, text, line, pieces]` for each wording of a field; white space is folded as in print."""
    value = located.value[field]
    if not isinstance(value, list):
        return [["", {}, *_parsed(located, (field,), str(value))]]
    return [
        [str(item.get("name", "")), item.get("when", {}), *_parsed(located, (field, index, "text"), str(item["text"]))]
        for index, item in enumerate(value)
    ]


def _parsed(located: Located, key: tuple[str | int, ...], raw: str) -> list[Any]:
    """`[text, line, pieces]`, and a layer's file and seam; a template that prints anything but typed values is a fault at its own line."""
    text, line = fold(raw), text_line(located, key)
    file = located.home(key)[0].path
    # A text of another layer, or one with a sentence of it behind, says so; all others are stored as they always were.
    apart: list[Any] = [] if file == located.path else [file]
    seam = located.seams.get(key) if isinstance(located, Layered) else None
    if seam is not None:
        first = _pieces(located, key, fold(seam.before))
        rest = _pieces(located, key, text[len(fold(seam.before)) :])
        return [text, line, [*first, *rest], file, [len(first), seam.pos.path, seam.pos.line]]
    return [text, line, _pieces(located, key, text), *apart]


def _pieces(located: Located, key: tuple[str | int, ...], text: str) -> list[Any]:
    """A text as texts and names of values."""
    if "{" not in text:
        return [text]
    from jinja2 import TemplateError

    from narrator.compose.template import Untyped, explain, parse

    try:
        return parse(text)
    except (Untyped, TemplateError, RecursionError, ValueError) as error:
        fault = located.fault(key, explain(error))
        raise NarratorError([fault]) from None


def fold(text: str) -> str:
    """White space folded: a text of several lines prints as one paragraph."""
    return " ".join(text.split())


def text_line(located: Located, key: tuple[str | int, ...]) -> int:
    """The line a text starts on: for a block text (`|`) the line below its key."""
    located, key = located.home(key)
    line = located.pos(key).line
    at = located.lines[line - 1] if 0 < line <= len(located.lines) else ""
    return line + 1 if at.rstrip().endswith(("|", ">", "|-", ">-")) else line
