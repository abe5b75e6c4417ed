"""The edits put into a report: texts replaced with their trace, and whatever they must not do silently said in review notes.

Where the text under an edit is still the one it was made from, the edit prints. Where that moved on and the two changes do not
touch, both print and a note says so. Where they touch, the new text prints and a note shows the edit: a changed figure is
never lost under old words.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.assess.wording import never_words
from narrator.compose.opening import Words
from narrator.edits import follow, grades
from narrator.edits.model import TEXTS, Edit, Edits, fingerprint, fold
from narrator.edits.slots import Slot, slot_of
from narrator.edits.words import merged, respanned, told
from narrator.review.plainly import level

if TYPE_CHECKING:
    from narrator.report import HandEdit, Report, ReviewNote

FIGURES = frozenset({"quantity", "count", "date", "words", "act"})
"""Kinds of span whose loss is said: what was typed and cannot be told from elsewhere in the sentence."""


class Means(NamedTuple):
    """What of the library an edit may touch: its trades, and what page one is worded with."""

    trades: Sequence[Mapping[str, Any]]
    words: Words


def applied(report: Report, edits: Edits, means: Means) -> Report:
    """The report with the edits in it. The one given stays as it is."""
    made = copy.deepcopy(report)
    notes: list[ReviewNote] = []
    done: list[HandEdit] = []
    titles = follow.titles_of(made)
    before = follow.notes_before(made)
    for edit in edits.edits:
        notes += _one(made, edit, edits.path, means, done)
    for item in edits.unplaced:
        lines = follow.lines_of(made, item.finding)
        if item.finding and lines is None:
            continue  # the finding it was about is no longer told
        said = f"Changed by hand, and without a place here: {item.where}: {item.said}"
        notes.append(
            _note(lines or [], f"{said} See {edits.path}, line {item.line}; take it out there when it is dealt with.")
        )
    follow.through(made, titles, before, means)
    if done:
        made["edits"] = done
    made["review_notes"] = sorted(
        [*made["review_notes"], *notes], key=lambda note: (note["lines"][:1] or [0], note["kind"], note["text"])
    )
    return made


def _note(lines: Sequence[int], text: str, kind: str = "edit") -> ReviewNote:
    return {"kind": kind, "lines": list(lines), "text": text}


def _one(report: Report, edit: Edit, path: str, means: Means, done: list[HandEdit]) -> list[ReviewNote]:
    """Put one edit in; gives back what should be looked at."""
    slot = slot_of(report, edit)
    if slot is None:
        name = f"{edit.finding}, {edit.field}" if edit.finding else " ".join(filter(None, (edit.part, edit.of)))
        said = f"Your edit of {name} has nothing to stand on any more: “{_short(edit.text)}”"
        return [_note([], f"{said} It stays in {path}, line {edit.line}.")]
    text, notes = _text(slot, edit)
    record: HandEdit = {
        "finding": edit.finding or None, "field": edit.field or edit.part, "of": edit.of or None, "before": slot.text, "after": slot.text,
        "by": edit.by or None, "reason": edit.reason or None, "file": path, "line": edit.line, "applied": False,
    }  # fmt: skip
    done.append(record)
    if text is None:
        return notes
    if slot.field in ("severity", "trades"):
        put = grades.put(slot, edit, text, means.trades)
        notes += [_note(slot.lines, said) for said in put.notes]
        record["applied"], record["after"] = put.done, text if put.done else slot.text
        return notes
    old = slot.text
    refused = slot.put(text)
    if refused:
        return [*notes, _note(slot.lines, f"{slot.name}: {refused} Your edit: “{_short(edit.text)}”")]
    record["applied"], record["after"] = True, text
    notes += _watched(slot, old, text, edit)
    _trace(slot, old, text, path, edit.line)
    return notes


def _text(slot: Slot, edit: Edit) -> tuple[str | None, list[ReviewNote]]:
    """What to print for an edit, None for what is there; and a note where the text under it moved on."""
    if fingerprint(slot.text) == edit.fingerprint or fold(slot.text) == fold(edit.text):
        return edit.text, []
    if slot.field in ("severity", "trades"):
        said = f"{slot.name}: this was “{edit.base}” when you set “{edit.text}”, and is “{slot.text}” now. It stays as it is now."
        return None, [_note(slot.lines, said)]
    moved = told(edit.base, slot.text)
    both = merged(edit.base, edit.text, slot.text)
    if both is None:
        said = (
            f"{slot.name}: what stands under your edit changed ({moved}), so the new words are printed and your edit is not: "
            f"“{_short(edit.text, 400)}” Edit the new draft, or take the edit out."
        )
        return None, [_note(slot.lines, said)]
    return both, [
        _note(slot.lines, f"{slot.name}: what stands under your edit changed ({moved}). Both are printed; read it.")
    ]


def _watched(slot: Slot, old: str, new: str, edit: Edit) -> list[ReviewNote]:
    """Notes on what an edit does beyond wording: a limit or term altered, a figure gone, a word that clients should not read."""
    notes = []
    if slot.field.startswith("limits.") or edit.part in ("limit", "term"):
        what = "was taken out" if not new else f"was put in other words ({told(old, new)})"
        notes.append(_note(slot.lines, f"{slot.name}: this {what} by hand. It said: “{_short(old, 400)}”"))
    gone = [
        old[span["start"] : span["end"]].strip()
        for span in slot.spans
        if span["kind"] in FIGURES and level(old[span["start"] : span["end"]]) not in level(new)
    ]
    if gone:
        shown = ", ".join(f"“{each}”" for each in dict.fromkeys(gone) if each)
        notes.append(_note(slot.lines, f"{slot.name}: your edit no longer says {shown}."))
    words = sorted({each.lower() for each in never_words(new)} - {each.lower() for each in never_words(old)})
    if words:
        shown = ", ".join(f"“{each}”" for each in words)
        notes.append(
            _note(
                slot.lines, f"{slot.name}: your edit says {shown}, which claims more than a look can show.", "wording"
            )
        )
    return notes


def _trace(slot: Slot, old: str, new: str, path: str, line: int) -> None:
    """The edited text's spans in place of the old ones."""
    if slot.trace is None:
        return
    spans = respanned(old, slot.spans, new, slot.traced, path, line)
    at = next((number for number, span in enumerate(slot.trace) if span["field"] == slot.traced), len(slot.trace))
    rest = [span for span in slot.trace if span["field"] != slot.traced]
    slot.trace[:] = [*rest[:at], *spans, *rest[at:]]


def _short(text: str, most: int = 160) -> str:
    text = " ".join(text.split())
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"


__all__ = ["TEXTS", "Means", "applied"]
