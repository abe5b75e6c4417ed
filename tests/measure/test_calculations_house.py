"""Calculations of the house itself: edges, and properties that hold for all figures."""

from __future__ import annotations

import math
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrator.measure.calculations import (
    chimney,
    decks,
    fall,
    guards,
    insulation,
    masonry,
    openings,
    slopes,
    stairs,
    structure,
    stucco,
)

TAPE = st.fractions(F(1, 16), 200, max_denominator=16)


@given(TAPE, TAPE)
def test_a_pitch_says_one_slope_three_ways(rise: F, run: F) -> None:
    pitch = slopes.roof_pitch(rise, run)
    assert math.tan(math.radians(pitch.degrees)) == pytest.approx(float(pitch.percent) / 100)
    assert pitch.area_factor == pytest.approx(1 / math.cos(math.radians(pitch.degrees)))
    assert slopes.slope_degrees(rise, run) == pytest.approx(pitch.degrees)


def test_a_flat_roof() -> None:
    assert slopes.roof_pitch(F(0)) == slopes.RoofPitch(0.0, F(0), 1.0)
    assert slopes.sloped_area(F(1000), F(0)) == 1000


@given(st.fractions(-24, 24, max_denominator=16), TAPE)
def test_grade_is_scaled_and_signed(fall_in: F, run: F) -> None:
    grade = slopes.grade(fall_in, run)
    assert grade.fall_in_10_ft == grade.percent * F(6, 5)
    assert grade.toward_house == (fall_in < 0) == (grade.degrees < 0)
    assert slopes.fall_for_percent(grade.percent, run * 12) == fall_in


@given(st.lists(TAPE, min_size=2, max_size=20))
def test_neighbours_never_differ_more_than_the_whole_flight(values: list[F]) -> None:
    found = stairs.variation(values)
    assert 0 <= found.adjacent <= found.spread == found.largest - found.smallest
    before, after = values[found.adjacent_at - 1 : found.adjacent_at + 1]
    assert abs(after - before) == found.adjacent


@given(TAPE, st.fractions(1, 12, max_denominator=16))
def test_fewest_risers_are_low_enough_and_one_fewer_is_not(rise: F, limit: F) -> None:
    count = stairs.fewest_risers(rise, limit)
    assert stairs.riser_height(rise, count) <= limit
    assert count == 1 or stairs.riser_height(rise, count - 1) > limit


def test_the_pair_of_risers_that_differs_most_is_named() -> None:
    found = stairs.variation([F("7.5"), F("7.5"), F("8.25"), F("7.75")])
    assert (found.spread, found.adjacent, found.adjacent_at) == (F(3, 4), F(3, 4), 2)


def test_what_passes_a_guard() -> None:
    assert guards.ball_passes(F(4), F(4)) and not guards.ball_passes(F(63, 16), F(4))
    assert not guards.ball_passes(F(0), F(4))
    assert guards.clear_between(F(5), F(3, 2)) == F(7, 2)
    assert guards.largest_ball(F(5), F(30)) == 5


def test_the_triangle_of_a_stair() -> None:
    """A circle in a triangle of sides 6, 8 and 10 has the diameter 4 (geometry: 6 + 8 - 10)."""
    assert guards.stair_triangle(F(6), F(8)) == pytest.approx(4)
    assert guards.stair_triangle(F("7.75"), F(10)) == pytest.approx(5.098, abs=0.001)
    with pytest.raises(ValueError, match="no triangle"):
        guards.stair_triangle(F(7), F(10), F(12))


@given(st.fractions(5, 9, max_denominator=16), st.fractions(9, 12, max_denominator=16), st.fractions(0, 2))
def test_a_wider_gap_under_the_rail_lets_more_through(riser: F, tread: F, gap: F) -> None:
    lower, higher = guards.stair_triangle(riser, tread), guards.stair_triangle(riser, tread, gap)
    assert lower <= higher
    # The distance from the circle's center to the rail, to the riser and to the tread is one and the same.
    radius, slope = higher / 2, math.hypot(riser, tread)
    to_rail = (riser * tread - radius * (riser + tread)) / slope + gap
    assert to_rail == pytest.approx(radius)


@given(TAPE, st.fractions(1, 20, max_denominator=16))
def test_height_for_area_turns_area_round(width: F, area: F) -> None:
    assert openings.clear_area(width, openings.height_for_area(width, area)) == area


@pytest.mark.parametrize(
    ("pane", "hazard"),
    [
        ((12, 10, 70, 36), True),
        ((9, 10, 70, 12), False),
        ((12, 18, 70, 12), False),
        ((12, 10, 36, 12), False),
        ((12, 10, 70, 37), False),
    ],
)
def test_a_large_pane_needs_all_four(pane: tuple[int, int, int, int], hazard: bool) -> None:
    assert openings.large_pane_hazard(*map(F, pane)) is hazard


def test_low_sills_matter_high_up() -> None:
    assert [openings.window_fall_applies(F(drop)) for drop in (0, 72, 73)] == [False, False, True]


@pytest.mark.parametrize(
    ("millimeters", "several", "grade"),
    [("0", False, 0), ("0.1", False, 0), ("0.11", False, 1), ("1", False, 1), ("3", False, 2), ("3", True, 3),
     ("2.9", True, 2), ("5", False, 2), ("5.1", False, 3), ("20", True, 4), ("25", False, 4), ("26", False, 5)],
)  # fmt: skip
def test_crack_grades(millimeters: str, several: bool, grade: int) -> None:
    assert structure.crack_grade(F(millimeters), several=several) == grade


def test_floors() -> None:
    level = structure.floor_slope(F(0), F(10))
    assert (level.percent, level.one_in, level.over_20_ft_in) == (0, 0, 0)
    assert structure.floor_slope(F(1), F(10)).one_in == 120
    assert structure.part_of(F(2), F(8)) == F(1, 4)


def test_stucco_panels_whichever_way_they_are_typed() -> None:
    assert stucco.panel(F(6), F(20)) == stucco.panel(F(20), F(6))


def test_masonry_counts() -> None:
    assert masonry.fewest_ties(F("2.67"), F("2.67")) == 1
    assert [masonry.fewest_weeps(F(length), F(33)) for length in (32, 33, 65, 66)] == [1, 2, 2, 3]


def test_ledgers() -> None:
    assert decks.fewest_ledger_fasteners(F(4), F(15), F(2)) == 1
    assert decks.fewest_ledger_fasteners(F(19), F(15), F(2)) == 2
    assert decks.fewest_ledger_fasteners(F("19.5"), F(15), F(2)) == 3


def test_insulation_depth_and_r() -> None:
    low, high = insulation.r_from_depth(F(10), "blown cellulose")
    assert (low, high) == (31, 38)
    assert insulation.depth_for_r(F(38), "blown cellulose")[0] == 10
    assert insulation.mean_depth([F(0), F(10), F(14)]) == 8
    assert all(0 < one.low <= one.high and one.known_by in ("read", "memory") for one in insulation.MATERIALS.values())


def test_a_bare_hatch_costs_more_than_its_area() -> None:
    """Area over the sum of area through each part: 99 at R-38 and 1 at R-1 make R-27.7."""
    assert float(insulation.effective_r([(F(99), F(38)), (F(1), F(1))])) == pytest.approx(27.74, abs=0.01)
    assert insulation.effective_r([(F(3), F(19)), (F(5), F(19))]) == 19


@pytest.mark.parametrize(
    ("rise", "feet"), [("0", "1"), ("6", "1"), ("6.5", "1.25"), ("7", "1.25"), ("12", "4"), ("12.5", "5"), ("21", "8")]
)
def test_gas_vents(rise: str, feet: str) -> None:
    """IRC Figure G2427.6.3 as two makers of vents print it."""
    assert chimney.gas_vent_height(F(rise)) == F(feet)


@pytest.mark.parametrize(("rise", "part"), [(12, F(1, 2)), (8, F(1, 3)), (6, F(1, 4)), (4, F(1, 6)), (3, F(1, 8))])
def test_crickets(rise: int, part: F) -> None:
    """IRC Table R1003.20, known by memory: the height as a part of the width."""
    assert chimney.cricket_height(F(36), F(rise)) == 36 * part


def test_chimneys_near_and_far_from_the_ridge() -> None:
    assert chimney.chimney_height(F(0), F(12), F(36), F(24)).needed_in == 36
    assert chimney.chimney_height(F(1), F(12), F(36), F(24)).needed_in == 36
    assert chimney.chimney_height(F(2), F(12), F(36), F(24)).needed_in == 48
    assert chimney.chimney_height(F(11), F(12), F(36), F(24)) == chimney.chimney_height(F(10), F(12), F(36), F(24))


def test_trim_beside_a_fireplace() -> None:
    assert [chimney.mantel_projection(F(inches)) for inches in (5, 6, 12, 13)] == [0, F(3, 4), F(3, 2), None]


def test_working_at_height() -> None:
    assert [fall.roof_class(F(rise)) for rise in ("0", "4", "4.5")] == ["low slope", "low slope", "steep"]
    assert fall.fall_protection_called_for(F(4), F(6)) and not fall.fall_protection_called_for(F(12), F(5))
    assert fall.fall_protection_called_for(F(8), F(5), california=True)
    assert not fall.fall_protection_called_for(F(7), F(5), california=True)
    assert fall.ladder_foot(F(20)) == 5
