"""A hand edit of a draft, in any form, becomes an edit, prints again after the checklist changed, and loses nothing."""

from __future__ import annotations

import pytest
from generated import checklists
from hands import FORMS, LABELS, NOTES, draft, filed, finding, findings, notes_of, printed, swapped, taken

from narrator.edits.model import Edits
from narrator.edits.take import take
from narrator.review.reading import read_text

GAP = "walls.stucco.no-roof-gap"
HOUSES = tuple(checklists(6, 16))
DRAFTS = {form: printed(draft(), form) for form in FORMS}


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("number", range(6))
def test_an_unedited_draft_gives_nothing(form: str, number: int) -> None:
    notes = HOUSES[number]
    found = taken(printed(draft(notes), form), form, notes)
    assert not (found.fresh or found.unplaced or found.back or found.second)
    assert not found.edits.edits


@pytest.mark.parametrize("form", FORMS)
def test_a_hand_edit_prints_again_after_lines_were_added_and_moved(form: str) -> None:
    text = swapped(DRAFTS[form], "stops 1/4 inch above the roof covering", "ends 1/4 inch above the shingles")
    text = swapped(text, "Shingles curl", "Shingles have curled") if "Shingles curl" in text else text
    found = taken(text, form)
    assert any(each.finding == GAP and each.field == "observation" for each in found.fresh)
    assert not found.unplaced
    lines = NOTES.splitlines()
    moved = "\n".join([*lines[:5], "Site", "mulch against siding | front | photo 26", *lines[11:], *lines[5:11]]) + "\n"
    report = draft(moved, found.edits)
    assert "ends 1/4 inch above the shingles" in finding(report, GAP)["observation"]
    assert "stops 1/4 inch" not in printed(report, "md")


@pytest.mark.parametrize("form", FORMS)
def test_taking_twice_changes_nothing(form: str) -> None:
    text = swapped(DRAFTS[form], "stops 1/4 inch above the roof covering", "ends 1/4 inch above the shingles")
    first = taken(text, form)
    second = taken(text, form, old=first.edits)
    assert not (second.fresh or second.unplaced or second.back)
    assert second.edits == first.edits
    third = taken(printed(draft(edits=first.edits), form), form, old=first.edits)
    assert third.edits == first.edits


def test_title_grade_and_trade_follow_to_page_one_and_the_sheets() -> None:
    report = draft()
    curled = next(each for each in findings(report) if each["code"] == "roof.shingles.curled")
    text = DRAFTS["md"]
    head = f"·\u00a0{curled['title']}\n\n*plan the repair ·\u00a0"
    text = swapped(text, head, "·\u00a0The rear shingles curl up\n\n*find out before you decide ·\u00a0")
    found = taken(text)
    assert {each.field for each in found.fresh} == {"title", "severity"}
    assert not found.unplaced
    after = draft(edits=found.edits)
    (page,) = [part for part in after["opening"] if part["kind"] == "find-out"]
    assert any("The rear shingles curl up" in item["text"] for item in page["items"])
    sheets = [row["title"] for sheet in after["trade_sheets"] for row in sheet["rows"]]
    assert "The rear shingles curl up" in sheets and curled["title"] not in sheets
    assert any(
        each["key"] == "severity" and each["was"] == "plan" for each in finding(after, curled["id"])["overrides"]
    )
    again = taken(text, old=found.edits)
    assert not (again.fresh or again.unplaced)


def test_a_changed_title_follows_into_its_story() -> None:
    report = draft()
    (story,) = report["connections"]
    title = finding(report, GAP)["title"]
    assert title[1:] in story["text"]
    found = taken(swapped(DRAFTS["md"], f"·\u00a0{title}\n", "·\u00a0Stucco stands on the shingles\n"))
    (after,) = draft(edits=found.edits)["connections"]
    assert "stucco stands on the shingles (number" in after["text"]
    assert after["trace"][-1]["end"] == len(after["text"])
    assert not taken(
        swapped(DRAFTS["md"], f"·\u00a0{title}\n", "·\u00a0Stucco stands on the shingles\n"), old=found.edits
    ).fresh


def test_a_danger_is_not_graded_down_without_a_reason() -> None:
    text = swapped(DRAFTS["md"], "*act now: gas, fire ·", "*plan the repair ·")
    found = taken(text)
    report = draft(edits=found.edits)
    gas = next(each for each in findings(report) if "gas" in each["danger"])
    assert gas["severity"] == "act-now"
    assert any("could hurt someone" in note for note in notes_of(report))
    assert any("could hurt someone" in each for each in found.waiting) and not found.unplaced
    told = draft(edits=taken(text, reason="The utility closed the valve and tagged it.").edits)
    gas = next(each for each in findings(told) if each["id"] == gas["id"])
    assert (gas["severity"], gas["why"]) == ("plan", "The utility closed the valve and tagged it.")


def test_an_added_paragraph_is_kept_where_it_was_typed() -> None:
    line = "In the front yard, the inspector wrote: “fountain pump hums”."
    found = taken(swapped(DRAFTS["md"], line, f"{line}\n\nPull the plug before anyone works on it."))
    (edit,) = found.fresh
    assert edit.text == f"{line}\nPull the plug before anyone works on it."
    assert f"{line}\n\nPull the plug before anyone works on it.\n" in printed(draft(edits=found.edits))


def test_a_paragraph_behind_a_full_limit_stays_behind_it() -> None:
    limit = finding(draft(), GAP)["limits"][0]["text"]
    text = swapped(DRAFTS["md"], f"{limit}\n", f"{limit}\n\nThe gutter end drips on this spot.\n")
    found = taken(text)
    after = printed(draft(edits=found.edits))
    assert f"{limit}\n\nThe gutter end drips on this spot.\n\n" in after
    assert not found.unplaced and not taken(text, old=found.edits).fresh


def test_the_first_word_of_a_finding_and_of_its_second_paragraph_can_change() -> None:
    report = draft()
    found = next(each for each in findings(report) if each["id"] == GAP)
    text = swapped(DRAFTS["md"], found["recommendation"][:30], "Now " + found["recommendation"][:30])
    text = swapped(text, found["observation"][:20], "Here " + found["observation"][:20])
    after = finding(draft(edits=taken(text).edits), GAP)
    assert after["observation"] == "Here " + found["observation"]
    assert "Now " + found["recommendation"][:30] in f"{after['implication']} {after['why']} {after['recommendation']}"


def test_a_dropped_finding_needs_a_reason_and_is_not_lost() -> None:
    report = draft()
    gone = finding(report, "own.fountain-pump-hums")
    start = DRAFTS["md"].index(f"### {gone['number']} ·")
    end = DRAFTS["md"].index("\n##", start + 5)
    found = taken(DRAFTS["md"][:start] + DRAFTS["md"][end + 1 :])
    assert not found.fresh
    said = [each for each in found.unplaced if each.finding == gone["id"]]
    assert said and "hold back" in said[0].said
    after = draft(edits=found.edits)
    assert finding(after, gone["id"])["observation"] == gone["observation"]
    assert any("hold back" in note for note in notes_of(after))
    held = draft(
        NOTES.replace(
            "own: fountain pump hums | front yard | plan",
            "own: fountain pump hums | front yard | hold back - not part of the house, plan",
        ),
        found.edits,
    )
    assert not any("hold back" in note for note in notes_of(held))


def test_words_typed_where_no_finding_stands_are_kept_as_unplaced() -> None:
    text = swapped(DRAFTS["md"], "## Terms", "The pool was covered with a tarp and we did not lift it.\n\n## Terms")
    found = taken(text)
    assert any("tarp" in each.text for each in found.unplaced)
    assert any("tarp" in note or "added" in note for note in notes_of(draft(edits=found.edits)))
    assert not taken(text, old=found.edits).unplaced


def test_reordered_findings_are_no_edit() -> None:
    text = DRAFTS["md"]
    heads = [at for at in range(len(text)) if text.startswith("### ", at)]
    one, other, end = next(
        three
        for three in zip(heads, heads[1:], heads[2:], strict=False)
        if all("·" in text[at : at + 12] for at in three)
    )
    found = taken(text[:one] + text[other:end] + text[one:other] + text[end:])
    assert not found.fresh and not found.unplaced


def test_a_limit_taken_out_is_said_and_a_figure_lost_is_said() -> None:
    report = draft()
    limit = finding(report, GAP)["limits"][0]
    found = taken(swapped(DRAFTS["md"], " " + limit["text"], ""))
    assert [each.field for each in found.fresh] == [f"limits.{limit['id']}"]
    after = draft(edits=found.edits)
    assert not finding(after, GAP)["limits"]
    assert any("taken out" in note and limit["text"] in note for note in notes_of(after))
    lost = draft(edits=taken(swapped(DRAFTS["md"], "stops 1/4 inch above", "stops just above")).edits)
    assert any("no longer says “1/4 inch”" in note for note in notes_of(lost))


def test_an_edit_taken_back_leaves_the_file() -> None:
    found = taken(swapped(DRAFTS["md"], "stops 1/4 inch", "ends 1/4 inch"))
    back = taken(DRAFTS["md"], old=found.edits)
    assert len(back.back) == 1 and not back.edits.edits


def test_a_second_edit_of_a_text_keeps_the_first_base() -> None:
    first = taken(swapped(DRAFTS["md"], "stops 1/4 inch", "ends 1/4 inch"))
    text = swapped(printed(draft(edits=first.edits)), "Trade advice differs", "Advice in the trade differs")
    second = taken(text, old=first.edits)
    (edit,) = second.edits.edits
    assert edit.base == finding(draft(), GAP)["observation"]
    assert "ends 1/4 inch" in edit.text and "Advice in the trade differs" in edit.text


def test_a_digit_and_a_side_are_worth_a_second_look() -> None:
    text = swapped(DRAFTS["md"], "stops 1/4 inch above", "stops 3/4 inch above")
    found = taken(text)
    assert {each.kind for each in found.second} & {"measure", "number", "criterion"}


def test_status_note_and_description_are_edited_too() -> None:
    text = swapped(DRAFTS["md"], "We did not inspect the crawl space.", "We could not get into the crawl space.")
    text = swapped(text, "Buyers walked the whole house with me.", "The buyers walked the house with me.")
    text = swapped(text, "Wall cladding: stucco over wood frame", "Wall cladding: stucco on a wood frame")
    found = taken(text)
    assert {each.part for each in found.fresh} == {"status", "note", "description"}
    assert not found.unplaced
    assert any("could not get into the crawl space" in each["text"] for each in draft(edits=found.edits)["unseen"])


@pytest.mark.parametrize("number", range(6))
def test_any_word_changed_in_a_generated_draft_comes_back(number: int) -> None:
    notes = HOUSES[number]
    report = draft(notes)
    for found in list(findings(report))[:8]:
        text = printed(report)
        words = found["implication"].split()
        if len(words) < 6 or text.count(found["implication"][:40]) != 1:
            continue
        text = swapped(text, found["implication"][:40], "Mind this: " + found["implication"][:40])
        got = taken(text, notes=notes)
        after = finding(draft(notes, got.edits), found["id"])
        said = f"{after['observation']} {after['implication']}"
        assert f"Mind this: {found['implication'][:40]}" in said, (number, found["id"])
        assert not got.unplaced


def test_the_file_alone_decides() -> None:
    found = taken(swapped(DRAFTS["md"], "stops 1/4 inch", "ends 1/4 inch"))
    assert draft(edits=filed(found.edits)) == draft(edits=found.edits)
    same = take(read_text(DRAFTS["md"], "x", LABELS, "md"), Edits("x"), lambda e: draft(NOTES, e), LABELS, "", "")
    assert not same.fresh
