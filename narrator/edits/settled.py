"""Answers to what was open: lines found again by their text, bound to entries, and review notes marked as answered."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from narrator.edits.model import Settled, fold

if TYPE_CHECKING:
    from narrator.edits.model import Edits
    from narrator.read.model import Checklist
    from narrator.report import Report, ReviewNote

BOUND = ("likeness", "unresolved")
"""Kinds of note that a code answers."""

_NUMBER = re.compile(r"(?i)\b(numbers?|lines?|column) \d+(?:(?:, | and | to )\d+)*")


def placed(settled: Iterable[Settled], checklist: Checklist) -> dict[Settled, int | None]:
    """The line that each answer is for now: its own if the text still stands there, else the nearest with that text.

    One without a text is about no line that is read (a remark to oneself, or none at all): its notes are known by their words.
    """
    texts: dict[str, list[int]] = {}
    for line in checklist.lines:
        texts.setdefault(fold(line.text), []).append(line.number)
    out: dict[Settled, int | None] = {}
    for each in settled:
        found = texts.get(fold(each.text), [])
        out[each] = (
            each.number if not each.text else min(found, key=lambda number: abs(number - each.number), default=None)
        )
    return out


def codes(edits: Edits, checklist: Checklist) -> dict[tuple[int, str], str]:
    """The code for each line, and part of it, that was settled with one."""
    places = placed(edits.settled, checklist)
    return {(number, fold(each.what)): each.code for each, number in places.items() if each.code and number is not None}


def marked(report: Report, edits: Edits, checklist: Checklist, known: Mapping[str, bool]) -> Report:
    """The report with its answered notes marked. `known`: whether each settled code is in the library."""
    notes: list[ReviewNote] = [{**note} for note in report["review_notes"]]
    for each, number in placed(edits.settled, checklist).items():
        where = f"{edits.path}, line {each.line}"
        if number is None:
            said = f"Line {each.number} was settled (“{each.text}”), and no line says that any more. See {where}."
            notes.append({"kind": "settled", "lines": [], "text": said})
            continue
        if each.code and not known.get(each.code, False):
            said = f"The line was settled as '{each.code}', which is not in the library any more. See {where}."
            notes.append({"kind": "settled", "lines": [number], "text": said})
            continue
        for note in notes:
            if _answers(each, number, note):
                note["settled"] = {"by": each.by or None, "answer": each.answer or each.code}
    notes.sort(key=lambda note: (note["lines"][:1] or [0], note["kind"], note["text"]))
    return {**report, "review_notes": notes}


def _answers(answer: Settled, number: int, note: ReviewNote) -> bool:
    if answer.text and number not in note["lines"]:
        return False
    if answer.code and note["kind"] == "likeness" and f"({answer.code})" in note["text"]:
        return fold(f"'{answer.what}'") in fold(note["text"])
    return steady(note) in {steady_text(each) for each in answer.notes}


def steady(note: ReviewNote) -> str:
    """A note as it is known again when numbers and lines have moved; every other figure counts."""
    return steady_text(f"{note['kind']}: {note['text']}")


def steady_text(text: str) -> str:
    """See `steady`."""
    return fold(_NUMBER.sub(r"\1", text))


def open_notes(notes: Sequence[ReviewNote]) -> list[ReviewNote]:
    """Review notes that nobody has answered."""
    return [note for note in notes if "settled" not in note]
