"""Each kind of change by its name, what follows from one, and where text is read: everywhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from drafting import LIBRARY
from hypothesis import given, settings
from hypothesis import strategies as st

from narrator.commands.common import labels_of
from narrator.errors import NarratorError
from narrator.pipeline import draft_text
from narrator.publish import FORMATS, publish
from narrator.review import compare_html, compare_json, compare_txt
from narrator.review.compare import compare
from narrator.review.compare_house import compare_house
from narrator.review.kinds import KINDS, Comparison
from narrator.review.pieces import Reading
from narrator.review.reading import read_text

ROOT = Path(__file__).parents[2]
LABELS = labels_of(LIBRARY)
NOTES = (ROOT / "examples/stucco-house/checklist.txt").read_text(encoding="utf-8")
REPORT = draft_text(NOTES, "x", LIBRARY)
TEXT = (Path(__file__).with_name("stucco-house.md")).read_text(encoding="utf-8")
"""The example as it was drafted once: edits by hand are tried on words that stay as they are."""


def reading(text: str, name: str = "b") -> Reading:
    return read_text(text, name, LABELS, "md")


def redrafted(notes: str) -> Reading:
    return reading(publish(draft_text(notes, "x", LIBRARY), "md", LABELS))


BASE = reading(TEXT, "a")
DRAFT = reading(publish(REPORT, "md", LABELS), "a")


def ours(text: str) -> str:
    """With the no-break space behind our separators."""
    return text.replace("· ", "·\u00a0")


def edited(old: str, new: str) -> Comparison:
    """The example after one edit by hand."""
    old, new = ours(old), ours(new)
    assert old in TEXT, old
    return compare(BASE, reading(TEXT.replace(old, new, 1)))


def names(found: Comparison) -> list[str]:
    return [change.kind for change in found.changes]


EDITS = [
    ("We did not see what is below the ground.", "", "limit"),
    ("We did not see what is below", "We did see what is below", "negation"),
    (" the stucco stops 1/4 inch", " the stucco stops 3/4 inch", "measure"),
    ("Wood above 20 % is a reason to look", "Wood above 25 % is a reason to look", "criterion"),
    ("*act now: gas ·", "*plan the repair ·", "grade"),
    ("*act now: gas and fire ·", "*act now: gas ·", "grade"),
    ("· grading and drainage contractor ·", "· handyman ·", "trade"),
    ("· left side · photo\u00a025*", "· right side · photo\u00a025*", "side"),
    ("· left side · photo\u00a025*", "· kitchen · photo\u00a025*", "side"),
    ("· left side · photo\u00a025*", "· left side · photo\u00a026*", "photo"),
    ("On the left side, the soil", "On the right side, the soil", "side"),
    ("We think water has been getting in", "Water has been getting in", "stance"),
    ("The seller told us", "The records show", "stance"),
    ("That is an opinion:", "This is certain:", "stance"),
    ("gives you 10 days", "gives you 18 days", "deadline"),
    ("Ask your agent or lawyer today to confirm the day and hour, and go by their answer.", "", "deadline"),
    ("- We did not inspect the crawl space. The reason: hatch painted shut.\n", "", "limit"),
    ("We have no opinion on them, good or bad.", "", "limit"),
    ("Nobody has seen these parts. ", "", "limit"),
    ("A visual inspection is not a code inspection. ", "", "term"),
    ("licensed people who follow", "skilled people who follow", "term"),
    (
        "- Number 30: A smell of gas, at the meter, on the right side. Danger: gas and fire. Call first: gas utility.\n",
        "",
        "act",
    ),
    ("on the right side. Danger: gas and fire.", "on the left side. Danger: gas and fire.", "side"),
    ("Visited 4 March 2026 by R. Vance", "Visited 4 March 2026 by B. Hale", "header"),
    ("Visited 4 March 2026", "Visited 5 March 2026", "number"),
    ("Built: 1998.", "Built: 1989.", "number"),
    (
        "The new soil must stay below the siding.",
        "The new soil must stay below the siding, and the house is sound.",
        "claim",
    ),
    ("In a storm this soaks", "In a storm, and this is perfectly safe, this soaks", "claim"),
    ("Downspout empties beside the foundation\n", "Downspout leaks beside the foundation\n", "word"),
    ("Rain collects at", "Rain gathers at", "word"),
    ("Rain collects at", "Rain colelcts at", "spelling"),
    ("Rain collects at", "Rain  collects\nat", ""),
    ("## Words used here", "## Words used in here", "heading"),
    ("The seller left", "The seller left", ""),
]


@pytest.mark.parametrize(("old", "new", "kind"), [each for each in EDITS if ours(each[0]) in TEXT])
def test_one_edit_is_named(old: str, new: str, kind: str) -> None:
    found = edited(old, new)
    assert names(found)[:1] == ([kind] if kind else []), found.changes
    assert bool(found.mattering()) == bool(kind and KINDS[kind].matters)
    assert len(found.mattering()) <= 1


def test_most_of_these_edits_fit_the_example() -> None:
    """The list above is kept to what the example prints."""
    missing = [old for old, _, _ in EDITS if ours(old) not in TEXT]
    assert len(missing) <= 5, missing


def test_the_same_report_has_no_change() -> None:
    assert compare(BASE, BASE).changes == () and not compare(BASE, BASE).notes


@pytest.mark.parametrize("gone", ["kick", "hot water"])
def test_a_line_left_out_and_drafted_again_is_one_change_with_what_follows(gone: str) -> None:
    lines = NOTES.splitlines()
    at = next(number for number, line in enumerate(lines) if gone in line.lower())
    found = compare(DRAFT, redrafted("\n".join(lines[:at] + lines[at + 1 :])))
    heavy = found.mattering()
    assert [each.kind for each in heavy] == ["dropped"], heavy
    assert any(each.where.startswith("First page") for each in heavy[0].follows)
    assert any(each.where.startswith("Notes for a price") for each in heavy[0].follows)
    assert "renumbered" in names(found)
    back = compare(redrafted("\n".join(lines[:at] + lines[at + 1 :])), DRAFT)
    assert [each.kind for each in back.mattering()] == ["added"], back.mattering()


def test_a_grade_set_by_hand_takes_page_one_and_the_sheets_with_it() -> None:
    lines = NOTES.splitlines()
    at = next(number for number, line in enumerate(lines) if "kick" in line.lower())
    lines[at] += ', plan, because "x"'
    found = compare(DRAFT, redrafted("\n".join(lines)))
    assert found.changes[0].kind == "grade" and "lower" in found.changes[0].said
    assert any(each.where.startswith("First page") for each in found.changes[0].follows)


def test_a_figure_typed_anew_takes_its_row_with_it() -> None:
    lines = [line.replace("gap 1/4", "gap 1/8") for line in NOTES.splitlines()]
    found = compare(DRAFT, redrafted("\n".join(lines)))
    assert {each.kind for each in found.mattering()} == {"measure"}
    assert any(each.where.startswith("Notes for a price") for each in found.changes[0].follows)


def test_findings_merged_moved_and_renumbered_by_hand() -> None:
    at, end = TEXT.index("### 6 ·"), TEXT.index("### 7 ·")
    head = TEXT[at : TEXT.index("*\n\n", at) + 3]
    found = compare(BASE, reading(TEXT.replace(head, "")))
    assert [each.kind for each in found.mattering()] == ["merged"]
    assert "number 5" in found.changes[0].said
    block = TEXT[at:end]
    rest = TEXT.replace(block, "")
    place = rest.index("### 20 ·")
    found = compare(BASE, reading(rest[:place] + block + rest[place:]))
    assert not found.mattering() and names(found) == ["moved"]
    found = edited("### 6 ·", "### 66 ·")
    assert [each.kind for each in found.mattering()] == ["number"]


def test_a_finding_typed_by_hand_is_an_added_one() -> None:
    new = "### Rotten gate post\n\n*plan the repair · carpenter · left side · photo 99*\n\nThe gate post is soft at the ground.\n\n"
    at = TEXT.index("### 7 ·")
    found = compare(BASE, reading(TEXT[:at] + new + TEXT[at:]))
    assert [each.kind for each in found.mattering()] == ["added"]
    assert found.changes[0].where == "Rotten gate post"


def test_a_sentence_that_went_elsewhere_has_moved() -> None:
    said = "Rain collects at the lowest point, and with this slope that is the foundation. "
    text = TEXT.replace(said, "", 1).replace("\n\n## Terms", f"\n\n{said.strip()}\n\n## Terms", 1)
    assert names(compare(BASE, reading(text))) == ["moved"]


def test_a_sentence_written_anew_is_reworded_and_waits_for_a_person() -> None:
    found = edited(
        "Rain collects at the lowest point, and with this slope that is the foundation.",
        "Because of such grading, rain ends up standing at the foundation wall for days of the house.",
    )
    assert found.mattering() and {"reworded", "omitted"} & set(names(found))
    assert not found.mattering(frozenset(names(found)))


def test_two_houses_are_said() -> None:
    other = TEXT.replace("14 Larch Hollow Road", "15 Larch Hollow Road")
    assert any("different houses" in note for note in compare(BASE, reading(other)).notes)


def house(lines: str) -> Reading:
    return redrafted(f"property: 3 Elm Bank\nvisited: 4 March 2026\n{lines}")


def test_two_inspectors_on_one_house() -> None:
    one = house(
        """shingles curling | rear slope
no gfci | kitchen; hall bath
stucco tight to roof | front | gap 1/4 in
loose toilet | hall bath"""
    )
    other = house(
        """no gfci | kitchen
stucco tight to roof | front | gap 1/2 in
shingles curling | rear slope | upkeep, because "x"
cover plate missing | garage"""
    )
    found = compare_house(one, other)
    kinds = [(each.kind, each.where.split(", ", 1)[1]) for each in found.changes]
    assert ("measured", "Stucco nearly touches the roof") in kinds
    assert any(kind == "graded" and "hingles" in where for kind, where in kinds)
    assert any(kind == "missed" and "oilet" in where for kind, where in kinds)
    assert any(kind == "missed" and "GFCI" in where for kind, where in kinds), "the bath is only in the first"
    assert any(kind == "extra" and "over plate" in where for kind, where in kinds)
    assert len(kinds) == 5, kinds
    assert "1/4 inch" in next(each.said for each in found.changes if each.kind == "measured")
    assert compare_house(one, one).changes == ()
    back = compare_house(other, one)
    assert sorted(each.kind for each in back.changes) == ["extra", "extra", "graded", "measured", "missed"]


PAIRS = {"left": "right", "right": "left", "front": "rear", "rear": "front", "above": "below", "below": "above"}
LOST = {"negation", "limit", "stance", "deadline"}
FIGURES = {"number", "measure", "criterion", "deadline", "photo", "header"}


def spots(text: str, form: str) -> list[tuple[int, int, str, set[str]]]:
    """Each side, negation and figure that a reader sees, with what it is made into."""
    shown = text[: text.index("Written with narrator")]
    if form == "html":  # what a browser shows: no tags, no styles, no drawings
        shown = re.sub(
            r"(?s)<title>.*?</title>|<style>.*?</style>|<svg.*?</svg>|<[^>]*>|&#\d+;",
            lambda found: "\x00" * len(found[0]),
            shown,
        )
    found = [(*m.span(), PAIRS[m[0]], {"side", "negation"}) for m in re.finditer(rf"\b(?:{'|'.join(PAIRS)})\b", shown)]
    found += [(*m.span(), "", LOST) for m in re.finditer(r"\bnot (?!been issued|see:;)", shown)]
    found += [(*m.span(), "7" if m[0] != "7" else "4", FIGURES) for m in re.finditer(r"\d", shown)]
    return found


@pytest.mark.parametrize("form", ["md", "html", "txt"])
def test_every_part_of_a_report_is_read(form: str) -> None:
    """First page, conditions, deadline, unseen, stories, results, sheets, glossary, notes: a wrong word is found in each."""
    text = publish(REPORT, form, LABELS)
    base = read_text(text, "a", LABELS, form)
    tried = spots(text, form)[:: 7 if form == "md" else 11]
    missed = []
    for start, end, new, kinds in tried:
        after = read_text(text[:start] + new + text[end:], "b", LABELS, form)
        told = compare(base, after).mattering()
        if not any({each.kind, *each.also} & kinds for each in told) or len(told) > 2:
            missed.append((text[start - 40 : end + 40], [(each.kind, each.where, each.said) for each in told]))
    assert len(tried) > 60
    assert len(missed) <= len(tried) // 100, missed


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.tuples(st.integers(0, 60_000), st.integers(0, 400), st.text(max_size=8)), max_size=6),
    st.sampled_from(FORMATS),
)
def test_any_hand_edit_is_compared_or_refused(cuts: list[tuple[int, int, str]], form: str) -> None:
    """Stretches taken out and others put in, anywhere: no fault of ours, and nothing lost on the way."""
    text = publish(REPORT, form, LABELS)
    for at, size, new in cuts:
        text = text[: at % len(text)] + new + text[at % len(text) + size :]
    try:
        after = read_text(text, "b", LABELS, form)
    except NarratorError:
        return
    found = compare(DRAFT, after)
    assert sum(each.kind == "dropped" for each in found.changes) + len(after.findings) >= len(DRAFT.findings) - sum(
        each.kind == "merged" for each in found.changes
    )
    for written in (compare_txt.write(found), compare_html.write(found), compare_json.write(found)):
        assert written.endswith("\n")
    assert compare_house(DRAFT, after).same_house
