"""Calculations of the house's systems: edges, and properties that hold for all figures."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrator.measure.calculations import (
    age,
    combustion,
    drainage,
    dryer,
    electrical,
    heating,
    plumbing,
    ventilation,
)
from narrator.measure.criterion import Criterion, from_mapping

FIGURES = st.fractions(F(1, 16), 400, max_denominator=16)


def life(value: object, comparison: str = "max", role: str = "typical") -> Criterion:
    return from_mapping(
        {
            "id": "life", "system": "age", "role": role, "element": "heater", "quantity": "age", "value": value,
            "comparison": comparison, "unit": "year", "source": {"document": "a table"}, "known_by": "memory",
        }
    )  # fmt: skip


@given(FIGURES, st.fractions(0, 1), st.integers(1, 4))
def test_vents_are_shared_out_whole(area: F, share: F, rows: int) -> None:
    split = ventilation.split_vents(area, share, rows)
    assert split.high + split.low == area and split.each_low * rows == split.low


@given(FIGURES, FIGURES)
def test_counted_vents_are_enough_and_one_fewer_is_not(area: F, each: F) -> None:
    count = ventilation.vent_count(area, each)
    assert (count - 1) * each < area <= count * each


@given(FIGURES)
def test_area_and_ratio_turn_each_other_round(area: F) -> None:
    assert ventilation.vent_ratio(ventilation.net_free_area(area, F(1, 150)), area) == F(1, 150)


@pytest.mark.parametrize(
    ("area", "bedrooms", "cfm"),
    [(1, 0, 30), (1500, 1, 30), (1501, 1, 45), (1500, 2, 45), (3000, 3, 60), (4500, 5, 90), (6001, 7, 135),
     (7500, 8, 150), (7501, 8, 165), (20000, 12, 165)],
)  # fmt: skip
def test_whole_house_table(area: int, bedrooms: int, cfm: int) -> None:
    """IRC Table M1505.4.3(1), read in a reproduction."""
    assert ventilation.whole_house_airflow_table(F(area), bedrooms) == cfm


@given(st.fractions(0, 60), st.lists(st.tuples(st.integers(0, 4), st.fractions(0, 5, max_denominator=12)), max_size=3))
def test_a_duct_is_as_long_as_its_elbows_make_it(straight: F, elbows: list[tuple[int, F]]) -> None:
    within = dryer.equivalent_length(straight, elbows) <= 35
    assert within == (straight <= dryer.allowable_straight(F(35), elbows))


def test_elbows_that_are_included() -> None:
    assert [dryer.length_with_elbows_included(F(14), count) for count in (0, 2, 3, 4)] == [14, 14, 12, 10]


@given(FIGURES, FIGURES)
def test_slope_and_fall_turn_each_other_round(slope: F, run: F) -> None:
    assert drainage.drain_slope(drainage.drain_fall(slope, run), run) == slope


def test_drains_that_run_back() -> None:
    assert drainage.drain_slope(F(-1), F(4)) == F(-1, 4)


@pytest.mark.parametrize(
    ("degrees", "seconds"),
    [("119.9", None), ("120", 300), ("129", 300), ("130", 30), ("145", 6), ("150", 2), ("160", 2)],
)
def test_burns(degrees: str, seconds: int | None) -> None:
    """CPSC tap water scald alert, read in a reproduction."""
    assert plumbing.burn_seconds(F(degrees)) == seconds


def test_a_timed_flow() -> None:
    assert plumbing.flow_rate(F(5), F(60)) == 5


@pytest.mark.parametrize(
    ("ampacity", "up", "breaker"),
    [("55", True, 60), ("55", False, 50), ("65", True, 70), ("50", True, 50), ("50", False, 50), ("15", True, 15),
     ("115", True, 125), ("115", False, 110), ("400", True, 400)],
)  # fmt: skip
def test_standard_breakers(ampacity: str, up: bool, breaker: int) -> None:
    """NEC 240.4(B) and 240.6(A), read in reproductions: 115 A goes up to 125 A, or down to 110 A."""
    assert electrical.largest_breaker(F(ampacity), next_size_up=up) == breaker


@given(FIGURES, st.fractions(1, 12, max_denominator=4))
def test_receptacles_reach_the_whole_wall(wall: F, reach: F) -> None:
    count = electrical.fewest_receptacles(wall, reach)
    assert (count - 1) * 2 * reach < wall <= count * 2 * reach


def test_currents() -> None:
    assert electrical.ampacity(F(30)) == 30
    assert electrical.ampacity(F(40), [F("0.8"), F("0.91")]) == F("29.12")
    assert electrical.load_amps(F(1500), F(120)) == F("12.5")
    assert electrical.voltage_drop_percent(F(120), F(114)) == 5
    assert electrical.voltage_drop_percent(F(120), F(121)) < 0


@pytest.mark.parametrize(
    ("outdoors", "cautions"),
    [
        (None, ("outdoors-unknown",)),
        ("65", ()),
        ("64", ("outdoors-below-65",)),
        ("60", ("outdoors-below-65",)),
        ("59", ("outdoors-below-65", "outdoors-below-60")),
    ],
)
def test_cooling_and_the_weather(outdoors: str | None, cautions: tuple[str, ...]) -> None:
    found = heating.cooling_difference(F(75), F(57), None if outdoors is None else F(outdoors))
    assert found == heating.CoilDifference(F(18), cautions)


def test_a_coil_without_effect() -> None:
    assert heating.cooling_difference(F(75), F(75), F(80)) == heating.CoilDifference(F(0), ("no-effect",))
    assert heating.heating_difference(F(70), F(68)) == heating.CoilDifference(F(-2), ("no-effect",))


def test_heating_and_the_weather() -> None:
    assert heating.heating_difference(F(68), F(118)).degrees_f == 50
    assert heating.heating_difference(F(68), F(98), F(71)).cautions == ()
    assert heating.heating_difference(F(68), F(98), F(71), heat_pump=True).cautions == ("outdoors-above-70",)
    assert heating.heating_difference(F(68), F(98), heat_pump=True).cautions == ("outdoors-unknown",)


def test_combustion_air() -> None:
    assert combustion.room_volume(F(10), F(10), F(8)) == 800
    assert combustion.opening_area(F(40000), F(1, 1000), F(100)) == 100
    assert combustion.opening_area(F(140000), F(1, 1000), F(100)) == 140


@pytest.mark.parametrize(
    ("made", "visited", "least", "most"), [(2005, 2024, 18, 19), (2024, 2024, 0, 0), (2023, 2024, 0, 1)]
)
def test_ages_from_years(made: int, visited: int, least: int, most: int) -> None:
    assert age.age_from_years(made, visited) == age.Ages(least, most)


def test_standing_is_no_pass_mark() -> None:
    ten, span = life(10), life([3, 12], "range")
    assert [age.standing(F(years), ten).place for years in (9, 10, 11)] == ["under", "within", "past"]
    assert [age.standing(F(years), span).place for years in (2, 3, 12, 13)] == ["under", "within", "within", "past"]
    assert age.standing(F(18), ten) == age.Standing("past", F(9, 5), "a table")
    with pytest.raises(ValueError, match="life is no typical life"):
        age.standing(F(5), life(10, role="limit"))
