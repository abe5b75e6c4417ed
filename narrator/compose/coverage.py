"""What a standard of practice asks a report to speak of: which items this one has said something about, which not."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.resolve.vocabulary import Vocabulary
from narrator.resolve.words import understand

if TYPE_CHECKING:
    from narrator.report import Report

STATED = ("not present", "not inspected", "partly")


class Said(NamedTuple):
    """One thing that a report speaks of: its system, its kind, its name in lower case, the parts it is about."""

    system: str
    kind: str
    name: str
    parts: frozenset[str]
    lines: tuple[int, ...]


class Coverage(NamedTuple):
    """Items of a standard, in its order: `{id, system, clause, must, when, what}`, those reported with their `lines`."""

    reported: list[dict[str, Any]]
    missing: list[dict[str, Any]]


def said_in(report: Report, vocabulary: Vocabulary) -> list[Said]:
    """Everything that the sections of a report speak of, in printed order."""
    return list(_said(report, vocabulary))


def _said(report: Report, vocabulary: Vocabulary) -> Iterator[Said]:
    def parts(text: str) -> frozenset[str]:
        return understand(text, vocabulary).parts

    def made(system: str, kind: str, name: str, named: frozenset[str], lines: list[int]) -> Said:
        return Said(system, kind, " ".join(name.lower().split()), named, tuple(lines))

    for section in report["sections"]:
        system = section["system"]
        for row in section["descriptions"]:
            yield made(system, "description", row["name"], parts(row["name"]), row["lines"])
        for result in section["results"]:
            named = parts(_component(result["code"])) if result["code"] else frozenset()
            thing = parts(result["thing"])
            # A place among the words ("smoke alarms, on the basement stairs") is not what was looked at.
            looked = (thing - parts(result["place"] or "")) or thing
            yield made(system, "result", result["thing"], named | looked, result["lines"])
        for status in section["statuses"]:
            yield made(system, status["kind"], status["what"], parts(status["what"]), status["lines"])
        for found in section["findings"]:
            named = parts(_component(found["code"])) or parts(found["title"])
            yield made(system, "finding", found["title"], named, found["lines"])


def _component(code: str) -> str:
    """`walls.flashing.corroded` is about the flashing, whatever else its title names."""
    return code.split(".")[1].replace("-", " ")


def coverage(practice: Mapping[str, Any], said: list[Said], method: str, at: Sequence[int]) -> Coverage:
    """The items of a standard that the report has spoken of, and the others. `method`: that header, on the lines `at`."""
    out = Coverage([], [])
    for system in practice["systems"]:
        inside = [one for one in said if one.system in system.get("systems", (one.system,))]
        for item in system["items"]:
            row = {"id": item["id"], "system": system["id"]} | {
                key: item[key] for key in ("clause", "must", "when", "what")
            }
            found = {number for one in inside if _answers(one, item) for number in one.lines}
            if _names(method.lower(), item.get("method", ())):
                found.update(at)
            lines = sorted(found)
            if lines:
                out.reported.append({**row, "lines": lines})
            else:
                out.missing.append(row)
    return out


def _answers(one: Said, item: Mapping[str, Any]) -> bool:
    """A description answers by its name. What is to be described needs one, or a status that says why there is none."""
    if one.kind == "description" and one.name in item.get("described", ()):
        return True
    touched = bool(one.parts.intersection(item.get("parts", ()))) or _names(one.name, item.get("words", ()))
    if "method" in item:
        return touched and one.kind in STATED
    if item["must"] != "inspect" and "described" in item:
        return touched and one.kind in STATED
    return touched


def _names(text: str, words: list[str] | tuple[()]) -> bool:
    return any(re.search(rf"\b{re.escape(word)}", text) for word in words)
