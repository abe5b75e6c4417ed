"""Measured values held against published figures."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrator.measure.quantity import Quantity
from narrator.measure.scan import parse_value
from narrator.measure.verdict import Criterion, from_mapping, judge, usual


def criterion(**changes: Any) -> Criterion:
    """A least gap of 2 inches, changed."""
    row: dict[str, Any] = {
        "id": "gap",
        "system": "stucco",
        "role": "limit",
        "element": "wall",
        "quantity": "gap",
        "comparison": "min",
        "value": 2,
        "unit": "inch",
        "source": {"document": "a document", "edition": "2024", "section": "1.2"},
        "known_by": "read",
    }
    return from_mapping({**row, **changes})


def typed(text: str) -> Quantity:
    value = parse_value(text)
    assert value is not None, text
    return value


LEAST = criterion()
MOST = criterion(id="opening", comparison="max", value=4, inclusive=False)
CRACK = criterion(id="crack", comparison="max", value="1/8")
RAIL = criterion(id="rail", comparison="range", value=[34, 38])
GAP = criterion(id="roof-gap", spread=[1, 2])
SPLIT = criterion(id="split", comparison="range", value=[15, 20], unit="delta_degF", spread=[[15, 20], [16, 22]])
HATCH = criterion(id="hatch", value=[22, 30])
VENT = criterion(id="vent", comparison="ratio", limit="min", value=0.006666, fraction="1/150", unit="dimensionless")
RAMP = criterion(id="ramp", comparison="ratio", limit="max", value="1/12", unit="dimensionless")
WOOD = criterion(id="wood", comparison="max", value=20, unit="percent", instrument=2)
BLOCK = criterion(id="block", comparison="equal", value=1.5)
ROOF = criterion(id="roof", value=2, unit="inch/foot")
TRIPPED = criterion(id="tripped", value=1, unit="dimensionless")
ALARM = criterion(id="alarm", comparison="max", value=10, unit="year")

VERDICTS = [
    (LEAST, "1/4 in", "short"), (LEAST, "2 in", "meets"), (LEAST, "3 in", "meets"), (LEAST, "1 15/16 in", "short"),
    (LEAST, "50 mm", "short"), (LEAST, "51 mm", "meets"), (LEAST, "1 ft", "meets"), (LEAST, "~2 in", "too close"),
    (LEAST, "~2 1/4 in", "meets"),
    (LEAST, "<4 in", "too close"), (LEAST, "<2 in", "short"), (LEAST, "<1 in", "short"), (LEAST, ">2 in", "meets"),
    (LEAST, ">1 in", "too close"),
    (LEAST, "1 to 3 in", "short"), (LEAST, "2 to 3 in", "meets"),
    (MOST, "3 7/8 in", "meets"), (MOST, "4 in", "over"), (MOST, "4 1/2 in", "over"), (MOST, "3 to 5 in", "over"),
    (MOST, "<4 in", "meets"),
    (MOST, ">4 in", "over"), (MOST, "<5 in", "too close"), (MOST, ">3 in", "too close"), (MOST, "~4 in", "too close"),
    (CRACK, "<1/16 in", "meets"), (CRACK, "1/8 in", "meets"), (CRACK, "3/16 in", "over"),
    (CRACK, ">1/8 in", "over"), (CRACK, "<1/4 in", "too close"),
    (RAIL, "36 in", "meets"), (RAIL, "34 in", "meets"), (RAIL, "33 1/2 in", "short"), (RAIL, "39 in", "over"),
    (RAIL, "33 to 39 in", "short"),
    (RAIL, "33 to 42 in", "over"), (RAIL, "35 to 37 in", "meets"), (RAIL, "<34 in", "short"),
    (RAIL, "<36 in", "too close"), (RAIL, ">38 in", "over"),
    (GAP, "1/4 in", "short"), (GAP, "1 in", "too close"), (GAP, "1 1/2 in", "too close"), (GAP, "2 in", "meets"),
    (GAP, "3 in", "meets"),
    (SPLIT, "18 F", "meets"), (SPLIT, "21 F", "too close"), (SPLIT, "15 F", "too close"), (SPLIT, "25 F", "over"),
    (SPLIT, "10 F", "short"), (SPLIT, "10 C", "meets"),
    (HATCH, "22 to 30 in", "meets"), (HATCH, "21 to 40 in", "short"), (HATCH, "25 to 29 in", "short"),
    (HATCH, "20 in", "short"), (HATCH, "36 in", "too close"),
    (VENT, "1/150", "meets"), (VENT, "1/300", "short"), (VENT, "1 %", "meets"), (RAMP, "1/12", "meets"),
    (RAMP, "1 in 12", "meets"), (RAMP, "1 1/4 in 12", "over"),
    (BLOCK, "1 1/2 in", "meets"), (BLOCK, "1 in", "short"), (BLOCK, "2 in", "over"),
    (ROOF, "4/12", "meets"), (ROOF, "1 in 12", "short"), (ROOF, "20 %", "meets"), (ROOF, "9 degrees", "short"),
    (ROOF, "10 degrees", "meets"),
    (TRIPPED, "11 of 12", "short"), (TRIPPED, "12 of 12", "meets"), (WOOD, "18 %", "meets"), (WOOD, "18", "meets"),
    (WOOD, "23 %", "over"),
    (ALARM, "12 yrs", "over"), (ALARM, "12", "over"), (ALARM, "18 months", "meets"),
]  # fmt: skip


@pytest.mark.parametrize(("limit", "value", "verdict"), VERDICTS, ids=lambda one: getattr(one, "id", one))
def test_verdicts(limit: Criterion, value: str, verdict: str) -> None:
    bare = typed(value)
    if value == "1/12":  # typed so it is a slope
        assert bare.unit == "inch/foot"
    assert judge(bare, limit) == verdict


@pytest.mark.parametrize(
    ("value", "margin", "verdict"),
    [
        ("18 %", 2, "too close"),
        ("22 %", 2, "too close"),
        ("17 %", 2, "meets"),
        ("23 %", 2, "over"),
        ("20 %", 0, "meets"),
    ],
)
def test_uncertainty_of_the_reading(value: str, margin: int, verdict: str) -> None:
    assert WOOD.instrument == 2
    assert judge(typed(value), WOOD, F(margin)) == verdict


@pytest.mark.parametrize(("value", "unit"), [("3 lb", "pound"), ("18 %", "percent"), ("2", ""), ("made 2005", "date")])
def test_what_cannot_be_held_against_a_length(value: str, unit: str) -> None:
    assert typed(value).unit == unit
    with pytest.raises(ValueError, match=r"cannot be said|no unit"):
        judge(typed(value), LEAST)


@pytest.mark.parametrize(
    "other",
    [{"role": "band"}, {"role": "typical"}, {"id": "stair-riser-height-older"}, {"id": "guard-height-existing"}],
)
def test_only_todays_limits_judge(other: dict[str, str]) -> None:
    with pytest.raises(ValueError, match="is no limit to judge by"):
        judge(typed("3 in"), criterion(**other))


def test_usual_in_plain_words() -> None:
    assert usual(LEAST) == "2 inches"
    assert usual(GAP) == "1 to 2 inches"
    assert usual(RAIL) == "34 to 38 inches"
    assert usual(MOST) == "less than 4 inches"
    assert usual(criterion(inclusive=False)) == "more than 2 inches"
    assert usual(SPLIT) == "15 to 20 °F or 16 to 22 °F"
    assert usual(HATCH) == "22 by 30 inches"
    assert usual(VENT) == "1/150"
    assert usual(criterion(value="3/32")) == "3/32 inch"
    assert usual(criterion(value=0.019)) == "0.019 inch"
    assert usual(LEAST, "millimeter") == "51 mm"
    assert usual(criterion(value=120, unit="degF"), "degC") == "49 °C"
    with pytest.raises(ValueError, match="cannot be said"):
        usual(LEAST, "pound")


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"id": ""}, "'id' is missing"),
        ({"comparison": "about"}, "'comparison' is 'about', not one of"),
        ({"comparison": "ratio"}, "'limit' is missing"),
        ({"limit": "max"}, "only a ratio has a 'limit'"),
        ({"unit": "cubit"}, "'cubit' is not a unit"),
        ({"value": "two"}, "'value' must be a figure like 2, 0.5 or '1/150', not 'two'"),
        ({"value": "1/0"}, "'value' must be a figure"),
        ({"value": None}, "'value' must be a figure"),
        ({"value": [1, 2, 3]}, "'min' takes 1 or 2 in 'value', not 3"),
        ({"value": []}, "'min' takes 1 or 2 in 'value', not 0"),
        ({"comparison": "range"}, "'range' takes 2 in 'value', not 1"),
        ({"comparison": "equal", "value": [1, 2]}, "'equal' takes 1 in 'value', not 2"),
        ({"spread": [[1, 2]]}, "each figure of 'spread' must have the form of 'value'"),
        ({"spread": "1 to 2"}, "'spread' must be a list"),
        ({"source": "somewhere"}, "'source' must say"),
        ({"role": "law"}, "'role' is 'law'"),
        ({"known_by": "hearsay"}, "'known_by' is 'hearsay'"),
        ({"inclusive": "perhaps"}, "'inclusive' must be true or false"),
    ],
)
def test_faults_of_a_criterion_are_named(changes: dict[str, Any], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        criterion(**changes)


def test_figures_are_exact_whether_text_or_number() -> None:
    assert criterion(value="0.1").value == criterion(value=0.1).value == (F(1, 10),)
    assert criterion(value="2", inclusive="false").inclusive is False
    assert criterion(value=0).value == (F(0),)


LENGTHS = st.fractions(min_value=0, max_value=10, max_denominator=64)


@given(LENGTHS, LENGTHS, st.sampled_from(["", "~", "<", ">"]), st.fractions(0, 1, max_denominator=16))
def test_more_uncertainty_never_turns_one_verdict_into_its_opposite(a: F, b: F, bound: str, margin: F) -> None:
    value = Quantity(min(a, b), max(a, b), "inch", bound)
    for limit in (LEAST, MOST, GAP):
        sure, unsure = judge(value, limit), judge(value, limit, margin)
        assert unsure in {sure, "too close"}
