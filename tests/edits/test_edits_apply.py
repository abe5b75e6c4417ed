"""Edits at a redraft: facts that changed under them are said and never lost; what is gone is said; all stays traced."""

from __future__ import annotations

import json
from itertools import pairwise

import pytest
from hands import LABELS, NOTES, PATH, draft, finding, findings, notes_of, printed, swapped, taken

from narrator.edits.model import Edit, Edits, fingerprint
from narrator.source.positions import load
from narrator.source.schema import schema_faults

GAP = "walls.stucco.no-roof-gap"
SEEN = finding(draft(), GAP)["observation"]
EDITED = taken(swapped(printed(draft()), "the stucco stops", "the stucco ends")).edits


def edited(field: str, text: str, base: str, code: str = GAP, reason: str = "") -> Edits:
    return Edits(PATH, (Edit(text, base, code, field, fingerprint=fingerprint(base), reason=reason, line=5),))


def test_a_figure_that_changed_under_an_edit_prints_and_is_said() -> None:
    notes = swapped(NOTES, "gap 1/4 in", "gap 1/2 in")
    report = draft(notes, EDITED)
    assert "1/2 inch" in finding(report, GAP)["observation"]
    assert "1/4 inch" not in finding(report, GAP)["observation"]
    (said,) = notes_of(report)
    assert "“1/4” is now “1/2”" in said


@pytest.mark.parametrize(
    ("old", "new", "figure"),
    [
        ("gap 1/4 in", "gap 3/4 in", "3/4 inch"),
        ("front, left of entry window | gap", "rear, right of patio door | gap", "patio door"),
        ("gap 1/4 in", 'gap 1/4 in, "mesh shows"', "mesh shows"),
        ("gap 1/4 in", "gap 1/4 in, x3", "hree"),
    ],
)
@pytest.mark.parametrize(
    "words", [("the stucco stops", "the stucco ends"), ("is common", "is usual"), ("front", "street front")]
)
def test_no_changed_fact_is_lost_under_any_edit(old: str, new: str, figure: str, words: tuple[str, str]) -> None:
    report = draft(swapped(NOTES, old, new), edited("observation", swapped(SEEN, *words), SEEN))
    assert figure in finding(report, GAP)["observation"]
    assert notes_of(report)


def test_an_edit_prints_beside_a_change_elsewhere_in_the_text_and_says_so() -> None:
    text = swapped(SEEN, "is common", "is what roofers ask for")
    report = draft(swapped(NOTES, "gap 1/4 in", "gap 1/2 in"), edited("observation", text, SEEN))
    now = finding(report, GAP)["observation"]
    assert "1/2 inch" in now and "is what roofers ask for" in now
    assert any("Both are printed" in note for note in notes_of(report))


def test_an_edit_whose_finding_is_gone_is_said_and_stays() -> None:
    notes = "\n".join(line for line in NOTES.splitlines() if "stucco tight" not in line) + "\n"
    report = draft(notes, EDITED)
    assert any("has nothing to stand on" in note and PATH in note for note in notes_of(report))
    assert "edits" not in report


def test_edited_texts_are_traced_to_the_file_and_its_line() -> None:
    report = draft(edits=EDITED)
    found = finding(report, GAP)
    spans = [span for span in found["trace"] if span["field"] == "observation"]
    assert spans[0]["start"] == 0 and spans[-1]["end"] == len(found["observation"])
    assert all(one["end"] == other["start"] for one, other in pairwise(spans))
    (edit,) = [span for span in spans if span["kind"] == "edit"]
    assert found["observation"][edit["start"] : edit["end"]].strip() == "ends"
    assert (edit["file"], edit["line"]) == (PATH, EDITED.edits[0].line)
    assert any(span["kind"] == "quantity" for span in spans)


def test_the_report_tells_each_edit_before_and_after() -> None:
    report = draft(edits=EDITED)
    (told,) = report["edits"]
    assert (told["finding"], told["field"], told["by"], told["applied"]) == (GAP, "observation", "Jo", True)
    assert (told["before"], told["after"]) == (SEEN, swapped(SEEN, "the stucco stops", "the stucco ends"))


def test_an_edited_report_has_the_form_of_one() -> None:
    wide = taken(
        swapped(printed(draft()), "We did not inspect the crawl space.", "We could not get into the crawl space."),
        old=EDITED,
    ).edits
    for report in (draft(edits=wide), draft(swapped(NOTES, "gap 1/4 in", "gap 1/2 in"), wide)):
        text = json.dumps(report, ensure_ascii=False)
        assert not schema_faults(load(text, "report.json"), "report")
        assert json.loads(printed(report, "json")) == report


def test_a_draft_without_edits_is_the_same_as_one_with_an_empty_file() -> None:
    assert draft(edits=Edits(PATH)) == draft()


def test_an_edit_of_a_grade_stands_back_when_the_grade_changed() -> None:
    found = finding(draft(), GAP)
    report = draft(edits=edited("severity", "upkeep", "plan"))
    assert finding(report, GAP)["severity"] == found["severity"] != "upkeep"
    assert any("was “plan” when you set “upkeep”" in note for note in notes_of(report))


def test_a_grade_raised_to_act_now_asks_who_was_warned() -> None:
    report = draft(edits=edited("severity", "act-now", "find-out"))
    assert finding(report, GAP)["severity"] == "act-now"
    assert any("no line says who was warned" in note for note in notes_of(report, "notice"))
    assert GAP in report["opening"][0]["findings"]


@pytest.mark.parametrize(
    ("field", "text", "base", "said"),
    [
        ("severity", "urgent", "find-out", "is not a grade"),
        ("trades", "stuco", "stucco with roof", "Did you mean 'stucco'?"),
        ("title", "", "Stucco nearly touches the roof", "cannot be empty"),
    ],
)
def test_what_cannot_be_done_is_said(field: str, text: str, base: str, said: str) -> None:
    before = finding(draft(), GAP)
    report = draft(edits=edited(field, text, base))
    assert finding(report, GAP)["title"] == before["title"] and finding(report, GAP)["trades"] == before["trades"]
    assert any(said in note for note in notes_of(report)), notes_of(report)


def test_a_never_word_by_hand_is_said() -> None:
    report = draft(edits=edited("observation", SEEN + " The rest is safe.", SEEN))
    assert any("“safe”" in note for note in notes_of(report, "wording"))


def test_a_term_in_other_words_is_said() -> None:
    term = draft()["terms"][0]
    edits = Edits(
        PATH, (Edit("Other terms.", term["text"], part="term", of=term["id"], fingerprint=fingerprint(term["text"])),)
    )
    report = draft(edits=edits)
    assert report["terms"][0]["text"] == "Other terms."
    assert any("put in other words" in note and term["text"][:60] in note for note in notes_of(report))


def test_a_limit_taken_out_where_others_point_to_it_is_told_at_the_next() -> None:
    report = draft()
    first = finding(report, GAP)["limits"][0]
    pointing = [
        each["id"]
        for each in findings(report)
        if any(one["at"] == finding(report, GAP)["number"] for one in each["limits"])
    ]
    assert pointing
    after = draft(edits=edited(f"limits.{first['id']}", "", first["text"]))
    said = [one for one in finding(after, pointing[0])["limits"] if one["id"] == first["id"]]
    assert said[0]["at"] is None
    assert first["text"] in printed(after)


def test_the_labels_are_those_of_the_library() -> None:
    assert LABELS.trade("stucco") == "stucco contractor"
