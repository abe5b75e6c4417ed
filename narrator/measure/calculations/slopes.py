"""Slopes: roofs, the ground beside a house, hard surfaces, and which rows a roof covering is held against."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least, choice

__all__ = [
    "Grade",
    "RoofPitch",
    "covering_criteria",
    "fall_for_percent",
    "grade",
    "roof_pitch",
    "slope_degrees",
    "slope_percent",
    "sloped_area",
]

# Covering: the row for its least slope, and the row below which its underlayment is doubled (`''` if none).
_COVERINGS = {
    "asphalt shingle": ("slope-asphalt-shingle", "slope-asphalt-shingle-double-underlayment"),
    "clay tile": ("slope-clay-concrete-tile", "slope-tile-double-underlayment"),
    "concrete tile": ("slope-clay-concrete-tile", "slope-tile-double-underlayment"),
    "metal shingle": ("slope-metal-shingle", ""),
    "slate": ("slope-slate", ""),
    "wood shingle": ("slope-wood-shingle", ""),
    "wood shake": ("slope-wood-shake", ""),
    "lapped metal panel": ("slope-metal-panel-lapped-unsealed", ""),
    "sealed metal panel": ("slope-metal-panel-lapped-sealed", ""),
    "standing seam": ("slope-standing-seam", ""),
    "built-up": ("slope-built-up", ""),
    "coal tar": ("slope-coal-tar", ""),
    "membrane": ("slope-membrane", ""),
    "roll roofing": ("slope-mineral-roll-roofing", ""),
}
_TEN_FEET = 120  # inches


@dataclass(frozen=True, slots=True)
class RoofPitch:
    """One pitch said three ways: `degrees`, `percent`, and `area_factor` (roof area over the area it covers)."""

    degrees: float
    percent: Fraction
    area_factor: float


@dataclass(frozen=True, slots=True)
class Grade:
    """Ground beside a wall: `percent` and `degrees` away from it (below zero: towards it), and `fall_in_10_ft`.

    `fall_in_10_ft` is the fall, in inches, that the same slope makes over 10 feet.
    """

    percent: Fraction
    degrees: float
    fall_in_10_ft: Fraction
    toward_house: bool


def roof_pitch(rise: Fraction, run: Fraction = Fraction(12)) -> RoofPitch:
    """A roof that rises `rise` over a level `run`, both in one unit (inches and 12 inches as the trade says it).

    Formula: degrees = atan(rise/run); percent = 100 * rise/run; area factor = sqrt(1 + (rise/run)**2).
    Source: arithmetic; published roof-pitch tables print the same.

    Raises:
        ValueError: a rise below zero, or no run.
    """
    at_least(rise, 0, "the rise")
    above_zero(run, "the run")
    slope = rise / run
    return RoofPitch(math.degrees(math.atan(slope)), 100 * slope, math.sqrt(1 + slope**2))


def sloped_area(footprint: Fraction, rise: Fraction, run: Fraction = Fraction(12)) -> float:
    """The area of a roof over a level `footprint`, in the unit of the footprint.

    Formula: footprint * area factor of the pitch. Source: arithmetic. Overhangs count in the footprint.

    Raises:
        ValueError: no footprint, a rise below zero, or no run.
    """
    above_zero(footprint, "the footprint")
    return float(footprint) * roof_pitch(rise, run).area_factor


def slope_percent(fall: Fraction, run: Fraction) -> Fraction:
    """A fall over a level run, in percent; both in one unit. Below zero where the ground rises.

    Formula: 100 * fall/run. Source: arithmetic. Also the lean of a wall or post: offset over height.

    Raises:
        ValueError: no run.
    """
    above_zero(run, "the run")
    return 100 * fall / run


def slope_degrees(fall: Fraction, run: Fraction) -> float:
    """A fall over a level run, in degrees; both in one unit. Formula: atan(fall/run). Source: arithmetic.

    Raises:
        ValueError: no run.
    """
    above_zero(run, "the run")
    return math.degrees(math.atan(fall / run))


def grade(fall_in: Fraction, run_ft: Fraction) -> Grade:
    """The slope of the ground away from a wall: a fall in inches over a run in feet.

    Formula: percent = 100 * fall / (12 * run); fall in 10 ft = fall * 10/run. A fall below zero runs to the house.
    Source: arithmetic; 6 inches in 10 feet is 5 percent (IRC R401.3). A run shorter than 10 feet is scaled, which
    supposes that the ground goes on in the same way.

    Raises:
        ValueError: no run.
    """
    run_in = run_ft * 12
    percent = slope_percent(fall_in, run_in)
    return Grade(percent, slope_degrees(fall_in, run_in), fall_in * _TEN_FEET / run_in, fall_in < 0)


def fall_for_percent(percent: Fraction, run: Fraction) -> Fraction:
    """The fall that a slope of `percent` makes over `run`, in the unit of the run: a patio, a tilted slab.

    Formula: run * percent/100. Source: arithmetic (2 percent: IRC R401.3 exception).

    Raises:
        ValueError: no run.
    """
    above_zero(run, "the run")
    return run * percent / 100


def covering_criteria(covering: str) -> tuple[str, str]:
    """The ids of the rows for a roof covering: its least slope; below which slope its underlayment is doubled.

    The second is `''` where no such row is published. A plural is understood. Source: IRC chapter 9, as the rows say.

    Raises:
        ValueError: a covering that has no row.
    """
    return choice(_COVERINGS, covering.strip().lower().removesuffix("s"), "a roof covering")
