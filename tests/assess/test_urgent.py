"""What could hurt someone: it leads page one, and only a named person with a reason takes it from there."""

from __future__ import annotations

from typing import Any

import pytest
from drafting import draft, notes

GAS = "gas smell | garage"
NAMED = "inspector: R. Vance\n"


def danger(report: dict[str, Any]) -> list[str]:
    """The findings at the head of page one."""
    first = report["opening"][0]
    return first["findings"] if first["kind"] == "danger" else []


@pytest.mark.parametrize(
    "typed",
    [
        GAS,
        f"{GAS} | upkeep",
        f"{GAS} | hold back",
        f"{GAS} | hold back - closed today",
        f'{GAS} | plan, because "the utility has closed it"',
        f"{NAMED}{GAS} | upkeep",
        f"{NAMED}{GAS} | hold back",
        f"toilet loose | hall bath\nleaves in gutter | rear\n{GAS}",
    ],
)
def test_it_leads_page_one(typed: str) -> None:
    assert danger(draft(typed)) == ["plumbing.gas.smell"]


def test_a_named_person_with_a_reason_may_grade_it_down_and_that_is_told() -> None:
    report = draft(f'{NAMED}{GAS} | plan, because "the utility has closed it"')
    assert danger(report) == []
    (finding,) = report["sections"][0]["findings"]
    assert (
        finding["overrides"][0]["was"] == "act-now" and finding["overrides"][0]["reason"] == "the utility has closed it"
    )
    assert notes(report, "override")


def test_a_named_person_with_a_reason_may_hold_it_back_and_that_is_told() -> None:
    report = draft(f"{NAMED}{GAS} | hold back - closed today")
    assert [item["reason"] for item in report["withheld"]] == ["closed today"]
    assert notes(report, "withheld")


def test_a_grade_typed_as_urgent_is_not_held_back_without_a_reason() -> None:
    typed = "toilet loose | hall bath | act-now, hold back"
    assert draft(NAMED + typed)["withheld"] == []
    assert draft(f"{NAMED}toilet loose | hall bath | hold back")["withheld"] != []


def test_the_note_says_what_is_missing() -> None:
    assert "because" in notes(draft(f"{NAMED}{GAS} | upkeep"), "override")[0]["text"]
    assert "inspector: NAME" in notes(draft(f'{GAS} | upkeep, because "closed"'), "override")[0]["text"]


def test_a_line_that_says_nobody_was_warned_is_asked_about() -> None:
    assert notes(draft(GAS), "notice")
    assert not notes(draft(f"{GAS} | warned occupant 14:10"), "notice")
