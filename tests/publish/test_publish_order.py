"""What is printed, and in which order."""

from __future__ import annotations

from copy import deepcopy

import pytest
from house import GAP, LABELS, report

from narrator.publish import publish
from narrator.publish.blocks import Condition, Heading, Items, Para, Table
from narrator.publish.labels import Labels
from narrator.publish.order import DRAFT, DRAFT_END, title, walk
from narrator.report import Report


def headings(made: Report) -> list[str]:
    return [block.text for part in walk(made, LABELS) for block in part.blocks if isinstance(block, Heading)]


def prose(made: Report, number: int) -> tuple[str, ...]:
    blocks = [block for part in walk(made, LABELS) for block in part.blocks if isinstance(block, Condition)]
    return next(block.paragraphs for block in blocks if block.ref.number == number)


def test_the_parts_stand_in_order() -> None:
    assert headings(report()) == [
        "Draft: what we found at 14 Alder Lane, Fernhill",
        "First",
        "Your deadline",
        "To find out before you decide",
        "What nobody has seen",
        "If time is short",
        "The rest",
        "The day of the visit",
        "Outside walls",
        "Numbers 3, 4 and 5, told together",
        "What we looked at or tested here",
        "Roof",
        "What we could not see here",
        "Electrical",
        "What we looked at or tested here",
        "Plumbing",
        "What we could not see here",
        "Photos",
        "In the inspector’s words",
        "What nobody has seen, line by line",
        "Notes for a price: stucco contractor",
        "Notes for a price: roofer",
        "Words used here",
        "Terms",
        "Lines still to settle (not for the client)",
    ]


def test_the_byline_is_a_sentence() -> None:
    made = report()
    head = walk(made, LABELS)[0]
    assert head.blocks[1:] == (
        Para(
            "Visited 4 March 2026 by R. Vance of Vance and Daughter, Home Inspections, for A. Moreno and J. Moreno.",
            "byline",
        ),
    )
    made["visited"] = made["firm"] = None
    made["clients"] = []
    assert walk(made, LABELS)[0].blocks[1:] == (Para("By R. Vance.", "byline"),)
    made["inspector"] = made["property"] = None
    assert walk(made, LABELS)[0].blocks == (Heading(1, "Draft: what we found"),)


def test_page_one_keeps_the_order_given_and_its_items_their_trades() -> None:
    made = report()
    opening = next(part for part in walk(made, LABELS) if part.role == "opening")
    assert [block.label for block in opening.blocks if isinstance(block, Items)] == [
        "",
        "Stucco contractor",
        "Carpenter",
        "Plumber",
    ]
    assert opening.blocks[-1] == Para("This page is not the whole report.", "whole")
    made["opening"].reverse()
    assert headings(made)[1:4] == ["The rest", "If time is short", "What nobody has seen"]


def test_a_part_of_an_unknown_kind_prints_without_a_heading() -> None:
    made = report()
    made["opening"] = [{"kind": "anything", "text": "A word.", "findings": [GAP], "items": [{"text": "One line."}]}]
    assert headings(made)[1] == "The day of the visit"
    assert "A word.\n\n- One line.\n" in publish(made, "md", LABELS)


def test_a_part_that_names_no_number_points_to_its_findings() -> None:
    assert "One more repair to plan, and one piece of upkeep. See numbers 6 and 7." in publish(report(), "txt", LABELS)


def test_the_prose_runs_from_what_was_seen_to_what_to_do() -> None:
    first, then = prose(report(), 3)
    assert first.startswith("At the front wall") and first.endswith("We did not see inside the wall.")
    assert then.startswith("Water held at this edge can reach wood that nobody can see. Ask the seller")
    assert then.endswith("Also ask the seller for receipts.")
    assert len(prose(report(), 7)) == 1


def test_whom_else_to_ask_is_not_said_twice() -> None:
    made = report()
    made["sections"][0]["findings"][0]["recommendation"] = "Ask for the receipt of the last repair."
    assert "Also ask" not in " ".join(prose(made, 3))
    assert prose(made, 6)[1].endswith("Also ask the local permit office.")


def test_the_reason_is_printed_once() -> None:
    assert " ".join(prose(report(), 1)).count("Leaking gas can catch fire.") == 1


def test_a_limit_said_elsewhere_is_pointed_to() -> None:
    made = report()
    assert prose(made, 4)[0].endswith("Wood that stays this wet feeds rot (not seen here: as at number 3).")
    made["sections"][0]["findings"][1] = deepcopy(made["sections"][0]["findings"][1])
    made["sections"][0]["findings"][1]["limits"][0]["text"] = "As at number 3, we did not see inside."
    assert prose(made, 4)[0].endswith("As at number 3, we did not see inside.")


def test_danger_is_named_only_beside_the_most_urgent_grade() -> None:
    assert LABELS.severity("act-now", ["fire"]) == "act now: fire"
    assert LABELS.severity("plan", ["fall"]) == "plan the repair"
    assert LABELS.severity(None, []) == "not graded"
    assert Labels(severities={"plan": "B"}).severity("plan", []) == "B"
    assert Labels().trade("gas-utility") == "gas utility"


def test_own_words_and_photos_of_a_description_are_not_lost() -> None:
    walls = next(part for part in walk(report(), LABELS) if part.anchor == "walls")
    assert walls.blocks[1] == Para(
        "Wall covering: hard-coat stucco: “patched near the door”. Trim: painted wood (windows) (photo\u00a011)."
    )


def test_a_story_is_told_once_in_the_first_system_that_has_a_part_of_it() -> None:
    made = report()
    made["connections"][0]["findings"].append("roof.covering.curled")
    assert [each for each in headings(made) if "told together" in each] == ["Numbers 3, 4, 5 and 6, told together"]


def test_an_unseen_thing_is_listed_unless_its_system_has_said_it() -> None:
    rows = next(part for part in walk(report(), LABELS) if part.role == "unseen").blocks[1]
    assert isinstance(rows, Items)
    assert [row.text for row in rows.rows] == ["Furniture stood along the north wall of the living room."]


def test_a_trade_sheet_has_a_row_a_place_and_columns_to_fill_in() -> None:
    sheet = next(part for part in walk(report(), LABELS) if part.role == "sheet")
    table = sheet.blocks[2]
    assert isinstance(table, Table)
    assert table.head[-3:] == ("Price", "Date", "Firm")
    assert table.rows[0] == (
        "3", "Stucco nearly touches the roof (with roofer)", "front wall, left of the entry window", "gap 1/4 inch",
        "12 to 14", "We did not see inside the wall.", "", "", "",
    )  # fmt: skip
    assert {len(row) for row in table.rows} == {len(table.head)}
    made = report()
    made["trade_sheets"][0]["rows"][0]["count"] = 3
    made["trade_sheets"][0]["rows"][0]["words"] = ["soft at edge"]
    table = next(part for part in walk(made, LABELS) if part.role == "sheet").blocks[2]
    assert isinstance(table, Table)
    assert table.rows[0][3] == "3 of them; gap 1/4 inch; “soft at edge”"


def test_a_draft_says_so_and_an_issued_report_does_not() -> None:
    made = report()
    assert title(made).startswith("Draft: ")
    txt, md, html = (publish(made, to, LABELS) for to in ("txt", "md", "html"))
    assert txt.startswith(DRAFT + "\n") and txt.endswith(DRAFT_END + "\n")
    assert md.startswith("# Draft: what we found at 14 Alder Lane") and md.endswith(f"*{DRAFT_END}*\n")
    assert f'<p class="running" aria-hidden="true">{DRAFT}</p>' in html and f'<p class="end">{DRAFT_END}</p>' in html
    made["state"] = "issued"
    made["issue"] = {"by": "R. Vance", "on": "2026-03-06"}
    for to in ("txt", "md", "html"):
        text = publish(made, to, LABELS)
        assert "raft" not in text.replace("draft %}", "") and "still to settle" not in text
        assert "Issued 6 March 2026 by R. Vance." in text


@pytest.mark.parametrize("to", ["md", "html", "txt"])
def test_review_notes_are_not_for_the_report(to: str) -> None:
    made = report()
    made["review_notes"][0]["text"] = "Only for the inspector."
    assert "Only for the inspector." not in publish(made, to, LABELS)
    assert made["opening"][1]["text"] in publish(made, to, LABELS)


def test_an_empty_report_prints() -> None:
    made = report()
    for key, value in made.items():
        if isinstance(value, list):
            made[key] = []  # type: ignore[literal-required]
    made["property"] = made["visited"] = made["inspector"] = made["firm"] = None
    made["conditions"] = made["library"] = {}
    assert publish(made, "txt", LABELS) == (
        f"{DRAFT}\n\n\nDraft: what we found\n\n\nWritten with narrator 0.1.0.\n\n\n{DRAFT_END}\n"
    )
