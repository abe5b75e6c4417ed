"""Ventilation: the net free area of attic and crawl space vents, and the airflow of a whole house."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least, between

__all__ = [
    "VentSplit",
    "attic_vent_criterion",
    "crawl_vent_criterion",
    "net_free_area",
    "split_vents",
    "vent_count",
    "vent_length",
    "vent_ratio",
    "whole_house_airflow",
    "whole_house_airflow_table",
]

# Share of the vent area, in percent, that must be high in the attic for 1/300: IRC R806.2 exception.
_HIGH_SHARE = (40, 50)
# Airflow by floor area and bedrooms, cfm: IRC Table M1505.4.3(1), read in a reproduction. Each step adds 15.
_AREA_STEP_FT2 = 1500
_LAST_STEP = 5
_FIRST_CFM = 30
_STEP_CFM = 15


@dataclass(frozen=True, slots=True)
class VentSplit:
    """Vent area shared out: `high` near the ridge, `low` in all, and `each_low` for each row of low vents."""

    high: Fraction
    low: Fraction
    each_low: Fraction


def attic_vent_criterion(
    high_share_percent: Fraction | None = None, *, cold_zone: bool = False, vapor_retarder: bool = False
) -> str:
    """The id of the row for an attic's vent area: 1/300 of the ceiling only where its conditions are known to hold.

    `high_share_percent` is the share of the vent area near the ridge, `None` if not known. Formula: 1/300 if the
    share is 40 to 50 percent and, in climate zones 6 to 8 (`cold_zone`), a vapor retarder is on the warm side; else
    1/150. Source: IRC R806.2 and its exception; 2012-era text took either condition alone, and about 2000 the share
    was 50 to 80 percent.

    Raises:
        ValueError: a share outside 0 to 100.
    """
    if high_share_percent is None:
        return "attic-vent-area-ratio"
    between(high_share_percent, 0, 100, "the share of high vents")
    balanced = _HIGH_SHARE[0] <= high_share_percent <= _HIGH_SHARE[1]
    reduced = balanced and (vapor_retarder or not cold_zone)
    return "attic-vent-area-ratio-reduced" if reduced else "attic-vent-area-ratio"


def crawl_vent_criterion(ground_cover: bool) -> str:
    """The id of the row for a vented crawl space: 1/1500 of its floor with a sealed ground cover, else 1/150.

    Source: IRC R408.1.
    """
    return "crawlspace-vent-area-ratio-with-ground-cover" if ground_cover else "crawlspace-vent-area-ratio"


def net_free_area(floor_area: Fraction, ratio: Fraction) -> Fraction:
    """The net free vent area for a floor or ceiling, in the unit of the floor area.

    Formula: floor area * ratio (1/150, 1/300, 1/1500). Source: IRC R806.2, R408.1. Net free is what screens and
    louvers leave open, as the vent's maker says, not the size of the hole.

    Raises:
        ValueError: no area, or a ratio that is not between 0 and 1.
    """
    above_zero(floor_area, "the area")
    above_zero(ratio, "the ratio")
    between(ratio, 0, 1, "the ratio")
    return floor_area * ratio


def vent_ratio(vent_area: Fraction, floor_area: Fraction) -> Fraction:
    """Net free vent area over floor area, both in one unit: what a verdict holds against 1/150 or 1/300.

    Formula: vents/floor. Source: IRC R806.2.

    Raises:
        ValueError: no floor area, or a vent area below zero.
    """
    at_least(vent_area, 0, "the vent area")
    above_zero(floor_area, "the floor area")
    return vent_area / floor_area


def split_vents(area: Fraction, high_share: Fraction = Fraction(1, 2), low_rows: int = 1) -> VentSplit:
    """Vent area shared between ridge and eaves, in the unit of `area`; the low part over `low_rows` equal rows.

    Formula: high = area * share; low = the rest. Source: vent makers' worksheets (half each, two eaves); IRC R806.2
    exception gives 40 to 50 percent high.

    Raises:
        ValueError: no area, a share outside 0 to 1, or no row.
    """
    above_zero(area, "the vent area")
    between(high_share, 0, 1, "the high share")
    above_zero(low_rows, "the number of rows")
    high = area * high_share
    return VentSplit(high, area - high, (area - high) / low_rows)


def vent_length(area_in2: Fraction, in2_per_ft: Fraction) -> Fraction:
    """The feet of a strip vent that give `area_in2`, at `in2_per_ft` square inches of net free area a foot.

    Formula: area / (area per foot). Source: vent makers' worksheets. Not rounded: a maker may round down.

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(area_in2, "the vent area")
    above_zero(in2_per_ft, "the area per foot")
    return area_in2 / in2_per_ft


def vent_count(area: Fraction, each: Fraction) -> int:
    """The fewest single vents of net free area `each` that give `area`, in one unit. Formula: ceil(area/each).

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(area, "the vent area")
    above_zero(each, "the area of a vent")
    return math.ceil(area / each)


def whole_house_airflow(floor_ft2: Fraction, bedrooms: int) -> Fraction:
    """The continuous outdoor airflow of a house in cfm, by the equation.

    Formula: 0.01 * floor area + 7.5 * (bedrooms + 1). Source: IRC Equation 15-1. The table gives other figures: say
    which one is meant.

    Raises:
        ValueError: no area, or bedrooms below zero.
    """
    above_zero(floor_ft2, "the floor area")
    at_least(bedrooms, 0, "the number of bedrooms")
    return floor_ft2 / 100 + Fraction(15, 2) * (bedrooms + 1)


def whole_house_airflow_table(floor_ft2: Fraction, bedrooms: int) -> int:
    """The continuous outdoor airflow of a house in cfm, by the table.

    Formula: 30 cfm up to 1,500 square feet and one bedroom; 15 more for each further 1,500 square feet (up to 7,500,
    and above it) and for each two more bedrooms (up to 7, and above it). Source: IRC Table M1505.4.3(1), read in a
    reproduction.

    Raises:
        ValueError: no area, or bedrooms below zero.
    """
    above_zero(floor_ft2, "the floor area")
    at_least(bedrooms, 0, "the number of bedrooms")
    area_step = min(math.ceil(floor_ft2 / _AREA_STEP_FT2) - 1, _LAST_STEP)
    bedroom_step = min(bedrooms // 2, 4)
    return _FIRST_CFM + _STEP_CFM * (area_step + bedroom_step)
