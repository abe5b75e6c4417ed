"""What is open on a line of a checklist, and an answer to it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import click

from narrator.edits.model import Edits, Settled, fold
from narrator.edits.settled import BOUND, open_notes, steady

if TYPE_CHECKING:
    from narrator.read.model import Checklist, Line
    from narrator.report import Report, ReviewNote


class Open(NamedTuple):
    """What nobody has answered on a line. `text` is the line's, '' for notes that speak of no line."""

    number: int
    text: str
    notes: tuple[ReviewNote, ...]


def open_on(report: Report, checklist: Checklist, number: int) -> Open:
    """What is open on a line; 0 is for notes without a line. Raises a usage error for a line that is not there."""
    text = next((line.text for line in checklist.lines if line.number == number), None)
    if text is None and number and not any(number in note["lines"] for note in report["review_notes"]):
        last = max((line.number for line in checklist.lines), default=0)
        what = "is left out, blank or not there" if number <= last else "is not there"
        raise click.UsageError(f"{checklist.path}: line {number} {what}; its lines go from 1 to {last}.")
    notes = [
        note for note in open_notes(report["review_notes"]) if number in note["lines"] or not (number or note["lines"])
    ]
    return Open(number, text or "", tuple(notes))


def with_code(edits: Edits, found: Open, report: Report, checklist: Checklist, code: str, by: str) -> Edits:
    """The edits with a line bound to an entry. Raises a usage error where the line has nothing to bind."""
    lines = [line for line in checklist.lines if line.number == found.number and line.kind == "finding" and line.what]
    if not lines:
        raise click.UsageError(
            f"{checklist.path}: line {found.number} is no finding, so no code goes with it. Change the line, or use --answer."
        )
    what = _piece(found, lines, report, code).what
    answered = tuple(steady(note) for note in found.notes if note["kind"] in BOUND and fold(what) in fold(note["text"]))
    return _put(edits, Settled(found.number, found.text, what, code, "", answered, by))


def _piece(found: Open, lines: Sequence[Line], report: Report, code: str) -> Line:
    """The part of the line that the code is for: the only one, the one taken for it by likeness, or the only unresolved one."""
    if len(lines) == 1:
        return lines[0]
    taken = [
        one["matched"]["typed"]
        for section in report["sections"]
        for finding in section["findings"]
        if finding["code"] == code
        for one in finding["instances"]
        if found.number in one["lines"]
    ]
    alike = [line for line in lines if line.what in taken]
    loose = [
        line
        for line in lines
        if any(note["kind"] == "unresolved" and line.what in note["text"] for note in found.notes)
    ]
    for some in (alike, loose):
        if len(some) == 1:
            return some[0]
    shown = "; ".join(line.what for line in lines)
    raise click.UsageError(
        f"Line {found.number} holds several findings ({shown}). Put each on its own line, then settle it."
    )


def with_answer(edits: Edits, found: Open, answer: str, by: str) -> Edits:
    """The edits with every open note of a line answered, but a likeness, which takes a code. Raises a usage error for none."""
    if not found.notes:
        raise click.UsageError(f"Nothing is open on line {found.number}.")
    asked = [note for note in found.notes if note["kind"] != "likeness"]
    if not asked:
        code = found.notes[0]["text"].rpartition("(")[2].rstrip(").")
        raise click.UsageError(
            f"Only the meaning of line {found.number} is open. If it is right, confirm its code: "
            f"narrator settle CHECKLIST {found.number} {code}"
        )
    return _put(edits, Settled(found.number, found.text, "", "", answer, tuple(steady(note) for note in asked), by))


def _put(edits: Edits, made: Settled) -> Edits:
    """The same line's earlier answer gives way to a new one of its kind."""
    kept = tuple(each for each in edits.settled if not _replaces(made, each))
    return edits._replace(settled=(*kept, made))


def _replaces(made: Settled, old: Settled) -> bool:
    if (old.number, fold(old.text)) != (made.number, fold(made.text)):
        return False
    if made.code or old.code:
        return bool(made.code and old.code and fold(made.what) == fold(old.what))
    return set(old.notes) <= set(made.notes)
