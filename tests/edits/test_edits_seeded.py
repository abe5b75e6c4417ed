"""The seeded edits that the comparison is held to (dropped negation, wrong side, wrong number, omission and harmless ones), taken:

what was changed prints again at the redraft or is kept as unplaced and said, nothing is lost, and a second reading adds nothing.
"""

from __future__ import annotations

from functools import cache
from random import Random
from typing import NamedTuple

import pytest
from hands import FORMS, LABELS, draft, findings, printed, taken
from seeded import HARMLESS, MATTERS, checklist

from narrator.edits.take import QUIET, Taken
from narrator.review.compare import compare
from narrator.review.kinds import Change
from narrator.review.plainly import level
from narrator.review.reading import read_text

DRAFTS = 4
WITHOUT_PLACE = frozenset({"finding merged", "finding moved"})
"""Edits of the order and number of findings, which come from the checklist."""


class Tried(NamedTuple):
    name: str
    notes: str
    form: str
    text: str
    said: str
    got: Taken


@cache
def tried() -> tuple[Tried, ...]:
    out = []
    for number in range(DRAFTS):
        notes = checklist(number)
        files = {form: printed(draft(notes), form) for form in FORMS}
        draw = Random(31 + number)
        for at, (name, make) in enumerate({**MATTERS, **HARMLESS}.items()):
            for turn in range(len(FORMS)):
                form = FORMS[(number + at + turn) % len(FORMS)]
                edit = make(files[form], form, draw)
                if edit:
                    out.append(Tried(name, notes, form, edit.text, edit.said, taken(edit.text, form, notes)))
                    break
    return tuple(out)


def left(one: Tried) -> list[Change]:
    """What the redraft does not have of the edited report."""
    after = read_text(printed(draft(one.notes, one.got.edits), one.form), "a", LABELS, one.form)
    found = compare(after, read_text(one.text, "b", LABELS, one.form))
    return [each for each in found.changes if each.kind not in QUIET]


def test_every_kind_of_edit_was_tried() -> None:
    assert {one.name for one in tried()} == {*MATTERS, *HARMLESS}


@pytest.mark.parametrize("name", sorted({*MATTERS, *HARMLESS} - WITHOUT_PLACE))
def test_what_was_edited_prints_again_or_is_kept_and_said(name: str) -> None:
    for one in (each for each in tried() if each.name == name):
        titles = {each["id"]: each["title"] for each in findings(draft(one.notes))}
        kept = {level(text) for each in one.got.unplaced for text in (each.text, each.before)}
        waiting = " ".join(one.got.waiting)
        follow = ("First page", "Notes for a price")  # brought in line with the edit, where the person left them alone
        for change in left(one):
            named = level(change.after) in kept or level(change.before) in kept
            # A limit that is gone here is told in full at the next finding that pointed to it.
            passed = (change.kind == "limit" or "not seen here: as at number" in change.after) and any(
                each.field.startswith("limits.") and titles[each.finding] not in change.where for each in one.got.fresh
            )
            assert named or passed or change.where.startswith(follow) or "grade down" in waiting, (one.said, change)
        assert one.got.fresh or one.got.unplaced, one.said


def test_nearly_every_edit_of_words_has_a_place() -> None:
    words = [one for one in tried() if one.name not in WITHOUT_PLACE]
    placed = [one for one in words if one.got.fresh and not one.got.unplaced]
    assert len(placed) >= 0.9 * len(words)


def test_a_merged_finding_is_told_to_be_left_out_on_its_line() -> None:
    merged = [one for one in tried() if one.name == "finding merged"]
    assert all(any("hold back" in each.said for each in one.got.unplaced) for one in merged)


def test_a_second_reading_adds_nothing() -> None:
    for one in tried():
        again = taken(one.text, one.form, one.notes, one.got.edits)
        assert not (again.fresh or again.unplaced or again.back), (one.name, one.said)
        assert again.edits == one.got.edits


def test_what_matters_is_worth_a_second_look() -> None:
    for one in tried():
        if one.name in ("dropped not", "swapped side", "changed digit", "grade lowered", "limit removed"):
            assert one.got.second or one.got.unplaced or one.got.waiting, (one.name, one.said)
