"""The text of one entry as a small file for an editor, and what was changed in it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping
from typing import Any

from narrator.errors import Fault, NarratorError, did_you_mean
from narrator.source.firm.edits import WORDINGS
from narrator.source.firm.emit import pair
from narrator.source.firm.lock import canonical
from narrator.source.positions import Located, load

FIELDS = ("title", "severity", "why", "observation", "implication", "recommendation")
Path = tuple[str, ...]

_HEAD = """\
{title} ({code})
Change the words, save and close. Only what you change goes into the firm's folder; lines that begin with # are not read.
{{{{ place }}}} and its like print what the inspector typed: keep them, and write no figures of your own."""


def sheet(code: str, entry: Mapping[str, Any]) -> str:
    """The entry's texts, grade and reason, each wording under its name with the case that it is for."""
    title = entry["title"] if isinstance(entry["title"], str) else entry["title"][-1]["text"]
    lines = [f"# {line}" for line in _HEAD.format(title=" ".join(title.split()), code=code).splitlines()]
    out = ["\n".join(lines) + "\n"]
    for field in FIELDS:
        value = entry[field]
        if field == "severity":
            out.append(f"# one of: act-now, find-out, plan, upkeep\nseverity: {value}\n")
        elif isinstance(value, list):
            out.append(f"{field}:\n")
            for item in value:
                when = ", ".join(f"{key}: {one}" for key, one in item.get("when", {}).items())
                out.append(f"  # {f'when {when}' if when else 'in every other case'}\n")
                shown = {"name": item.get("name", ""), "text": _folded(item["text"])}
                body = "".join(pair(key, one, 2) for key, one in shown.items() if one)
                out.append(textwrap.indent(f"- {body[2:]}", "  "))
        else:
            out.append(pair(field, _folded(value), 0))
    return "".join(out)


def changes(text: str, shown: Mapping[str, Any], path: str) -> dict[Path, str]:
    """What the edited sheet says otherwise than the entry: key path -> new text. What was taken out counts as left alone.

    Raises NarratorError for a key or a wording that the entry does not have.
    """
    located = load(text, path)
    if not isinstance(located.value, dict):
        raise NarratorError([located.fault((), "The keys are gone: 'title: ...', 'severity: ...' and so on.")])
    old = dict(_texts(shown))
    out: dict[Path, str] = {}
    faults: list[Fault] = []
    for key, value in _texts(located.value):
        if key not in old:
            faults.append(_unknown(located, key, old))
        elif not isinstance(value, str | int | float):
            faults.append(located.fault(key[:1], "A text is needed here."))
        elif canonical(value) != canonical(old[key]):
            out[key] = _folded(str(value))
    if faults:
        raise NarratorError(faults)
    return out


def _texts(entry: Mapping[str, Any]) -> Iterator[tuple[Path, Any]]:
    for field, value in entry.items():
        if field in WORDINGS and isinstance(value, list):
            for item in value:
                named = isinstance(item, dict)
                yield (
                    (field, str(item.get("name", "")) if named else str(item), "text"),
                    item.get("text") if named else None,
                )
        else:
            yield (field,), value


def _unknown(located: Located, key: Path, old: Mapping[Path, Any]) -> Fault:
    names = [known[1] if len(known) > 1 and known[0] == key[0] else known[0] for known in old]
    name = key[1] if len(key) > 1 else key[0]
    message = f"'{name}' is not in this entry.{did_you_mean(name, names)} Here only what is there is changed."
    return located.fault(key[:1], message)


def _folded(text: str) -> str:
    return " ".join(str(text).split())
