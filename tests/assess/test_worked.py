"""Values worked out from typed ones in a draft, figures chosen by them, and grades that follow margins."""

from __future__ import annotations

from typing import Any

import pytest
from drafting import at, draft, instance, notes

from narrator.assess.methods import CHOICES, METHODS
from narrator.source import index as store
from narrator.source.store import open_library


def measure(line: str, name: str) -> dict[str, Any]:
    """A measure of the only finding that a line makes."""
    return next(item for item in instance(line)["measures"] if item["name"] == name)


# Line, measure, value, unit, verdict. The sums are those of the worked examples in tests/published; the published
# figures are named in the criteria files.
WORKED = {
    # IRC R310.2.1: 5.7 square feet; 20 x 24 inches is 3.33.
    "egress": ("egress window too small | bedroom 2 | width 20 in, height 24 in", "area", 3.333333, "foot**2", "short"),
    # The same in metric: 0.61 m by 0.51 m.
    "egress metric": (
        "egress window too small | bedroom 2 | width 510 mm, height 610 mm",
        "area",
        0.3111,
        "meter**2",
        "short",
    ),
    # IRC R401.3: 6 inches in 10 feet; 2 inches are 1.67 percent.
    "grade": ("grade too flat | left side | fall 2 in, over 10 ft", "slope", 1.666667, "percent", "short"),
    # IRC Table M1502.4.6.1: a mitered elbow counts for 5 feet.
    "dryer": ("dryer duct too long | laundry room | length 24 ft, elbows 3", "counted", 39, "foot", "over"),
    # Builders' figure 1/2 inch over 20 feet (levelness), 1 1/2 inches over 12 feet are 2 1/2 over 20.
    "floor": ("floor slopes | dining room | drop 1 1/2 in, run 12 ft", "levelness", 2.5, "inch", "over"),
    # Common practice: 15 to 22 degrees across the coil.
    "coil": ("ac not cooling | house | return 74F, supply 68F", "split", 6, "delta_degF", "short"),
    # IRC R806.2: 1/150 of the floor.
    "vents": ("attic ventilation low | attic | vent area 3 sq ft, floor 1200 sq ft", "share", 0.0025, "dimensionless", "short"),
    # ASTM C1063: 18 feet the longer side, 2.5 to 1.
    "panel": ("no control joints in stucco | rear | width 30 ft, height 10 ft", "shape", 3, "dimensionless", "over"),
    # IRC R502.8.1: a notch of a sixth of the depth.
    "notch": ("joist notched | basement | depth 3 in, joist 9 1/4 in", "share", 0.324324, "dimensionless", "over"),
    # IRC R1003.9: two feet above any part of the house within ten.
    "chimney": ("chimney too low | main roof | height 70 in, ridge 8 ft, slope 8/12", "clear", 6, "inch", "short"),
}


@pytest.mark.parametrize("name", WORKED)
def test_a_value_is_worked_out_with_its_sources(name: str) -> None:
    line, measured, value, unit, verdict = WORKED[name]
    found = measure(line, measured)
    assert (found["value"], found["unit"], found["verdict"]) == (pytest.approx(value, abs=1e-4), unit, verdict)
    assert found["from"]


def test_what_was_typed_is_not_worked_out_again() -> None:
    found = measure("egress window too small | bedroom 2 | area 4 sq ft, width 20 in, height 24 in", "area")
    assert (found["value"], found["from"]) == (4, None)


def test_a_range_gives_a_range_and_a_bound_gives_nothing() -> None:
    found = measure("floor slopes | den | drop 1 to 1 1/2 in, run 12 ft", "levelness")
    assert (found["low"], found["high"]) == (pytest.approx(5 / 3, abs=1e-4), 2.5)
    names = [item["name"] for item in instance("floor slopes | den | drop <1 in, run 12 ft")["measures"]]
    assert names == ["drop", "run"]


def test_a_sum_without_an_answer_is_said() -> None:
    report = draft("attic insulation thin | attic | depth 4 in\nac not cooling | house | return 68F, supply 74F")
    said = [(note["lines"], note["text"]) for note in notes(report, "measure")]
    assert said[0][0] == [1] and "cellulose" in said[0][1]
    assert said[1][0] == [2] and "no cooler" in said[1][1]


def test_the_figure_follows_the_size_of_the_wire() -> None:
    """NEC 240.4(D): 20 amperes for 12 gauge copper, 15 for 12 gauge aluminum."""
    report = draft("breaker too big for wire | panel | breaker 30 A, wire 12 awg")
    ((_, part),) = at(report, 1)
    copper = next(item for item in part["measures"] if item["name"] == "breaker")
    assert (copper["criterion"]["id"], copper["verdict"]) == ("breaker-copper-12-awg", "over")
    aluminum = measure("breaker too big for wire | panel | breaker 20 A, wire 12 awg aluminum", "breaker")
    assert (aluminum["criterion"]["id"], aluminum["verdict"]) == ("breaker-aluminum-12-awg", "over")


def test_no_size_gives_no_verdict() -> None:
    assert measure("breaker too big for wire | panel | breaker 30 A", "breaker")["verdict"] is None


@pytest.mark.parametrize(
    ("line", "severity"),
    [
        ("deck guard low | deck | height 30 in", "plan"),
        ("deck guard low | deck | height 22 in", "act-now"),
        ("water pressure high | hose bib | pressure 90 psi", "plan"),
        ("water pressure high | hose bib | pressure 100 psi", "find-out"),
        ("decayed trim | rear door", "plan"),
        ("decayed trim | rear door\nstucco moisture | rear door | A1 30, A2 28, A3 26", "find-out"),
        ("decayed trim | rear door\nstucco moisture | front door | A1 30, A2 28, A3 26", "plan"),
    ],
)
def test_the_grade_follows_how_far_past_the_figure(line: str, severity: str) -> None:
    first = at(draft(line), 1)[0][1]["finding"]
    assert first["severity"] == severity
    if severity != "plan":
        assert first["why"]


def test_a_survey_is_counted_against_a_further_figure_and_says_its_middle() -> None:
    found = at(draft("stucco moisture | rear | A1 12, A2 19, A3 22, A4 26, A5 31"), 1)[0][1]
    text = found["finding"]["observation"]
    assert "with 22 % in the middle" in text
    assert "Three of five readings are above 20 %, and two are at 25 % or more." in text


def test_every_row_that_a_choice_can_name_is_in_the_library() -> None:
    index = open_library()
    for name, choice in CHOICES.items():
        rows = [store.criterion(index, row) for row in choice.rows]
        assert all(row is not None and row.judges for row in rows), name
        assert len({row.direction for row in rows if row is not None}) == 1, name
    assert all(method.roles for method in METHODS.values())
