"""400 edits seeded into 20 drafts: those that matter are found and named, the harmless ones raise no alarm."""

from __future__ import annotations

from functools import cache
from random import Random
from typing import NamedTuple

import pytest
from drafting import LIBRARY
from seeded import EXPECTED, FORMATS, HARMLESS, MATTERS, SEED, Edit, checklist

from narrator.commands.common import labels_of
from narrator.pipeline import draft_text
from narrator.publish import publish
from narrator.review.compare import compare
from narrator.review.kinds import Change, Comparison
from narrator.review.plainly import level
from narrator.review.reading import read_text

DRAFTS, EDITS = 20, 20
LABELS = labels_of(LIBRARY)
TURN = ("dropped not", "swapped side", "changed digit", "grade lowered", "limit removed", "finding merged")
TURN_HARMLESS = ("finding moved", "synonym", "typo", "reordered", "extra paragraph")


class Tried(NamedTuple):
    draft: int
    form: str
    edit: Edit
    found: Comparison


@cache
def tried() -> tuple[Tried, ...]:
    """Every edit with its comparison. Of each draft 20: 12 that matter and 8 that do not, in all four formats."""
    out = []
    for number in range(DRAFTS):
        report = draft_text(checklist(number), "x", LIBRARY)
        files = {form: publish(report, form, LABELS) for form in FORMATS}
        reads = {form: read_text(files[form], "a", LABELS, form) for form in FORMATS}
        draw = Random(SEED * 31 + number)
        names = [*TURN, *TURN, *(TURN_HARMLESS[(number + at) % 5] for at in range(8))]
        for at, name in enumerate(names):
            make = {**MATTERS, **HARMLESS}[name]
            edit = form = None
            for turn in range(len(FORMATS)):
                form = FORMATS[(number + at + turn) % len(FORMATS)]
                edit = make(files[form], form, draw)
                if edit:
                    break
            assert edit and form, f"draft {number} has nothing for: {name}"
            assert edit.text != files[form]
            out.append(Tried(number, form, edit, compare(reads[form], read_text(edit.text, "b", LABELS, form))))
    return tuple(out)


def kinds(change: Change) -> set[str]:
    return {change.kind, *change.also}


def at_the_place(one: Tried, change: Change) -> bool:
    """Whether a change speaks of the words that were edited: they stand in its texts, or its name is that of the finding."""
    said = level(one.edit.said)
    texts = [level(each) for each in (change.before, change.after, change.where)]
    return any(said in text or text in said for text in texts if text) or any(
        said[cut : cut + 12] in text for text in texts for cut in range(0, max(1, len(said) - 12), 4)
    )


def named(one: Tried) -> bool:
    return any(kinds(change) & EXPECTED[one.edit.kind] and at_the_place(one, change) for change in one.found.changes)


def shown(one: Tried) -> str:
    told = [f"{change.kind} {change.also} at {change.where}: {change.said}" for change in one.found.changes]
    return f"draft {one.draft}, {one.form}, {one.edit.kind} at {one.edit.said!r}: {told}"


def test_400_edits_are_tried_in_every_format() -> None:
    assert len(tried()) == DRAFTS * EDITS == 400
    assert {(each.form, each.edit.kind) for each in tried()} >= {(form, "typo") for form in FORMATS}
    assert {each.edit.kind for each in tried()} == set(EXPECTED)


def test_what_matters_is_found_and_rightly_named() -> None:
    """At least 99 of 100, and each as something that matters."""
    heavy = [each for each in tried() if each.edit.kind in MATTERS]
    missed = [shown(each) for each in heavy if not (named(each) and each.found.mattering())]
    assert len(missed) <= len(heavy) * 0.01, missed


def test_harmless_edits_raise_no_alarm() -> None:
    """At most 2 of 100; and they are shown all the same, by their own name."""
    light = [each for each in tried() if each.edit.kind in HARMLESS]
    alarms = [shown(each) for each in light if each.found.mattering()]
    assert len(alarms) <= len(light) * 0.02, alarms
    unseen = [shown(each) for each in light if not named(each)]
    assert len(unseen) <= len(light) * 0.02, unseen


def test_one_edit_is_told_once() -> None:
    """Beside the seeded edit nothing else that matters is named."""
    heavy = [each for each in tried() if each.edit.kind in MATTERS]
    more = [shown(each) for each in heavy if len(each.found.mattering()) > 1]
    assert len(more) <= len(heavy) * 0.02, more


@pytest.mark.parametrize("one", FORMATS)
@pytest.mark.parametrize("other", FORMATS)
def test_one_draft_in_two_formats_is_one_report(one: str, other: str) -> None:
    for number in range(0, DRAFTS, 5):
        report = draft_text(checklist(number), "x", LIBRARY)
        reads = [read_text(publish(report, form, LABELS), form, LABELS, form) for form in (one, other)]
        assert compare(*reads).changes == ()
