"""Two figures as one statement, the one figure without a name, and figures that nothing judges."""

from __future__ import annotations

import pytest
from drafting import at, draft, instance, kinds


def figures(line: str) -> dict[str, str]:
    return {item["name"]: item["text"] for item in instance(line)["measures"] if item["from"] is None}


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("floor slopes | den | drop 1 1/2 in over 12 ft", {"drop": "1 1/2 inches", "run": "12 feet"}),
        ('floor slopes 1" over 10 ft | den', {"drop": "1 inch", "run": "10 feet"}),
        ("grade | left side | fall 1 in in 10 ft", {"fall": "1 inch", "run": "10 feet"}),
        ("grade too flat | left side | 2 in per 10 ft", {"fall": "2 inches", "run": "10 feet"}),
        ("joist notch 3 in", {"depth": "3 inches"}),
        ("attic vents 4 sf, floor 1100 sf", {"vents": "4 square feet", "floor": "1,100 square feet"}),
    ],
)
def test_each_figure_finds_its_measure(line: str, wanted: dict[str, str]) -> None:
    assert figures(line) == wanted


def test_two_figures_without_a_name_are_asked_about() -> None:
    found = instance("joist notched | basement | 3 in, 9 1/4 in")
    assert found["measures"] == [] and found["words"] == ["3 in", "9 1/4 in"]


def test_a_series_goes_to_the_condition_that_takes_one() -> None:
    (name, part), *_ = at(draft("risers 7 7-1/4 8 7 6-3/4 | basement stairs"), 1)
    assert (name, part["finding"]["code"]) == ("findings", "stairs.riser.uneven")


@pytest.mark.parametrize("line", ["wire on breaker 30 A | panel", "ledger bolt spacing 30 in | deck", "attic insulation 12 in"])
def test_a_figure_that_nothing_judges_is_no_finding_under_a_plain_name(line: str) -> None:
    report = draft(line)
    assert kinds(report, 1) == {"unresolved"}
