"""Structure: floors out of level, bending, cracks, and cuts in framing."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least
from narrator.measure.calculations.slopes import slope_percent

__all__ = ["FloorSlope", "allowance", "bending_limit", "crack_grade", "floor_slope", "part_of"]

# Upper ends of the crack grades 0 to 4 in millimetres: BRE Digest 251; the criteria files hold the same bands.
_GRADES_MM = (Fraction(1, 10), Fraction(1), Fraction(5), Fraction(15), Fraction(25))
_SEVERAL_MM = 3  # several cracks this wide are a grade 3
_TWENTY_FEET = 20


@dataclass(frozen=True, slots=True)
class FloorSlope:
    """A floor out of level: in `percent`, as `one_in` so many (0 if level), and the inches over 20 feet."""

    percent: Fraction
    one_in: Fraction
    over_20_ft_in: Fraction


def floor_slope(difference_in: Fraction, run_ft: Fraction) -> FloorSlope:
    """A level difference in inches between two points `run_ft` feet apart.

    Formula: percent = 100 * difference / (12 * run); over 20 ft = difference * 20/run. Source: arithmetic; the
    builders' figure is 1/2 inch over 20 feet (0.208 percent), for new work. Scaling supposes an even slope.

    Raises:
        ValueError: a difference below zero, or no run.
    """
    at_least(difference_in, 0, "the difference")
    percent = slope_percent(difference_in, run_ft * 12)
    one_in = run_ft * 12 / difference_in if difference_in else Fraction(0)
    return FloorSlope(percent, one_in, difference_in * _TWENTY_FEET / run_ft)


def allowance(limit: Fraction, over: Fraction, run: Fraction) -> Fraction:
    """What a tolerance of `limit` over a length `over` gives for `run`, in the unit of the limit.

    `over` and `run` are in one unit. Formula: limit * run/over. Source: proportion, as engineers apply the builders'
    figures (1/2 inch over 20 feet, 1/4 inch over 32 inches).

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(limit, "the tolerance")
    above_zero(over, "its length")
    above_zero(run, "the run")
    return limit * run / over


def bending_limit(length: Fraction, ratio: Fraction) -> Fraction:
    """The bending that a ratio such as 1/360 allows over `length`, in its unit. Formula: length * ratio.

    Source: Texas Section ASCE guidelines for slabs, IRC Table R301.7 for floors under load (a design figure).

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(length, "the length")
    above_zero(ratio, "the ratio")
    return length * ratio


def part_of(part: Fraction, whole: Fraction) -> Fraction:
    """One measure over another in one unit: notch over joist depth, cantilever over back span, bend over length.

    Formula: part/whole. Source: arithmetic; IRC R502.8.1, R507.5.1 and R602.6 set such ratios.

    Raises:
        ValueError: a part below zero, or no whole.
    """
    at_least(part, 0, "the part")
    above_zero(whole, "the whole")
    return part / whole


def crack_grade(width_mm: Fraction, *, several: bool = False) -> int:
    """The grade, 0 to 5, of a crack in a masonry or plaster wall, from its width in millimetres.

    `several`: there are several such cracks; from 3 mm they make a grade 3. Formula: 0 to 0.1 mm, 1 to 1, 2 to 5, 3 to
    15, 4 to 25, 5 above. Source: BRE Digest 251. Width is one sign only and no pass mark; a step across the crack and
    its course tell more.

    Raises:
        ValueError: a width below zero.
    """
    at_least(width_mm, 0, "the width")
    grade = sum(width_mm > edge for edge in _GRADES_MM)
    return max(grade, 3) if several and width_mm >= _SEVERAL_MM else grade
