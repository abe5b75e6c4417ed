"""Drafts as tests read them: where each line of a checklist ended up, and what was made of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from narrator.pipeline import draft_text, grammar_of
from narrator.read.model import Line
from narrator.read.notation import read_checklist
from narrator.source.store import open_library

LIBRARY = open_library()


def read(text: str) -> tuple[Line, ...]:
    """The lines of a checklist as the reader alone sees them."""
    return read_checklist(text, "notes.txt", grammar_of(LIBRARY)).lines


def one(text: str) -> Line:
    """The only line of a text."""
    (line,) = read(text)
    return line


def draft(text: str) -> dict[str, Any]:
    """The report of a checklist."""
    return draft_text(text, "notes.txt", LIBRARY)  # type: ignore[return-value]


def parts_of(report: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every part of a report that a line can end up in, with the name of its place. A finding is told by its instances."""
    for number in report["header_lines"]:
        yield "header", {"lines": [number]}
    for key in ("headings", "notes", "photos", "withheld", "unresolved"):
        for item in report[key]:
            yield key, item
    for section in report["sections"]:
        for key in ("descriptions", "results", "statuses"):
            for item in section[key]:
                yield key, item
        for finding in section["findings"]:
            for instance in finding["instances"]:
                yield "findings", {**instance, "finding": finding}


def at(report: dict[str, Any], number: int) -> list[tuple[str, dict[str, Any]]]:
    """What one line became."""
    return [(name, part) for name, part in parts_of(report) if number in part["lines"]]


def kinds(report: dict[str, Any], number: int) -> set[str]:
    """The kinds of place that one line ended up in."""
    return {name for name, _ in at(report, number)}


def instances(text: str, number: int | None = None) -> list[dict[str, Any]]:
    """The instances that a line made (the last one of the text unless said)."""
    found = text.count("\n") + 1 if number is None else number
    return [part for name, part in at(draft(text), found) if name == "findings"]


def instance(text: str) -> dict[str, Any]:
    """The only instance that the last line made."""
    (found,) = instances(text)
    return found


def notes(report: dict[str, Any], kind: str) -> list[dict[str, Any]]:
    """Review notes of a kind."""
    return [note for note in report["review_notes"] if note["kind"] == kind]
