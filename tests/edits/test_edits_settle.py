"""Settled lines: bound to their entry wherever they move, notes marked, nothing settled that nobody settled."""

from __future__ import annotations

from hands import NOTES, PATH, draft, findings, notes_of

from narrator.edits.model import Edits, Settled
from narrator.edits.settled import open_notes, steady_text

ODD = "frobnicated thing | rear wall | photo 50"
WITH = NOTES.replace("Roof\n", f"{ODD}\n\nRoof\n")
AT = WITH.splitlines().index(ODD) + 1


def settled(*items: Settled) -> Edits:
    return Edits(PATH, settled=items)


BOUND = settled(Settled(AT, ODD, "frobnicated thing", "walls.trim.decayed", by="Jo"))


def test_a_line_that_was_not_understood_is_bound_to_its_entry() -> None:
    assert any(item["text"].startswith("frobnicated") for item in draft(WITH)["unresolved"])
    report = draft(WITH, BOUND)
    assert not any(item["text"].startswith("frobnicated") for item in report["unresolved"])
    (one,) = [one for each in findings(report) for one in each["instances"] if AT in one["lines"]]
    assert one["matched"]["how"] == "settled" and "frobnicated thing" in one["words"]
    (note,) = [note for note in report["review_notes"] if note["kind"] == "likeness" and AT in note["lines"]]
    assert note["settled"] == {"by": "Jo", "answer": "walls.trim.decayed"}


def test_it_stays_with_its_line_when_that_moves() -> None:
    moved = WITH.replace(f"{ODD}\n\n", "\n").rstrip("\n") + f"\n\nWalls\n{ODD}\n"
    report = draft(moved, BOUND)
    at = moved.splitlines().index(ODD) + 1
    (one,) = [one for each in findings(report) for one in each["instances"] if at in one["lines"]]
    assert one["matched"]["how"] == "settled"


def test_a_line_that_is_gone_or_a_code_that_is_gone_is_said() -> None:
    assert any("no line says that any more" in text for text in notes_of(draft(NOTES, BOUND), "settled"))
    report = draft(WITH, settled(Settled(AT, ODD, "frobnicated thing", "walls.trim.gone")))
    assert any("not in the library" in text for text in notes_of(report, "settled"))
    assert any(item["text"].startswith("frobnicated") for item in report["unresolved"])


def test_an_answer_is_for_the_note_that_was_asked_and_for_no_other() -> None:
    notes = NOTES.replace("warned occupant 14:10", "photo 60")
    (asked,) = notes_of(draft(notes), "notice")
    line = next(at for at, text in enumerate(notes.splitlines(), 1) if text.startswith("gas smell"))
    text = notes.splitlines()[line - 1]
    edits = settled(Settled(line, text, answer="told the agent", notes=(steady_text(f"notice: {asked}"),), by="Jo"))
    report = draft(notes, edits)
    assert not notes_of(report, "notice")
    assert len(open_notes(report["review_notes"])) == len(draft(notes)["review_notes"]) - 1
    more = notes.replace("Roof\n", "gutter full | front\n\nRoof\n").replace(
        "Walls\n", "mulch against siding | front\n\nWalls\n"
    )
    assert not notes_of(draft(more, edits), "notice")  # its number and line moved
    other = notes.replace("Electrical\n", "Electrical\ngas smell | furnace, basement\n")
    assert [note for note in draft(other, edits)["review_notes"] if note["kind"] == "notice"]


def test_only_numbers_of_findings_and_lines_may_move_under_an_answer() -> None:
    assert steady_text("Number 7 (x): lines 3, 4") == steady_text("Number 12 (x): lines 30, 41")
    assert steady_text("Number 7 reads 12 %") != steady_text("Number 7 reads 13 %")
