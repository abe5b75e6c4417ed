"""Guards: what passes through their openings, and which rows a guard is held against."""

from __future__ import annotations

import math
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least, choice, several

__all__ = ["ball_passes", "clear_between", "guard_criteria", "largest_ball", "stair_triangle"]

# Where the guard stands: the rows for its height and for its openings.
_PLACES = {
    "floor": ("guard-height", "guard-opening"),
    "stair": ("guard-height-stair", "guard-opening-stair"),
    "stair triangle": ("guard-height-stair", "guard-stair-triangle"),
}


def clear_between(centers: Fraction, width: Fraction) -> Fraction:
    """The clear gap between bars of `width` that stand `centers` apart, center to center; all in one unit.

    Formula: centers - width. Source: arithmetic.

    Raises:
        ValueError: a figure that is not above zero, or bars wider than their distance.
    """
    several((centers, width), "the distances")
    if width > centers:
        raise ValueError("the bars are wider than their distance from center to center")
    return centers - width


def largest_ball(width: Fraction, height: Fraction) -> Fraction:
    """The diameter of the largest ball that passes a rectangular opening, in its unit: the smaller side.

    Source: geometry.

    Raises:
        ValueError: a side that is not above zero.
    """
    several((width, height), "the sides of the opening")
    return min(width, height)


def ball_passes(opening: Fraction | float, ball: Fraction) -> bool:
    """Whether a ball passes an opening, given as the diameter of the largest ball that fits; both in one unit.

    A ball of exactly that size passes. Source: IRC R312.1.3, whose test is that the ball must not pass.

    Raises:
        ValueError: an opening below zero, or no ball.
    """
    at_least(opening, 0, "the opening")
    above_zero(ball, "the ball")
    return opening >= ball


def stair_triangle(riser: Fraction, tread: Fraction, gap: Fraction = Fraction(0)) -> float:
    """The diameter of the largest ball in the triangle of riser, tread and a guard's bottom rail; one unit.

    The rail runs parallel to the nosings, `gap` above them, square to the slope. Formula: with h = hypot(riser,
    tread), the circle in the triangle on the nosing line has the diameter riser + tread - h; a rail `gap` above
    that line enlarges the triangle by 1 + gap*h/(riser*tread). Source: geometry of the inscribed circle; the ball
    of 6 inches is that of IRC R312.1.3 exception 1. Nosings that project make the opening smaller.

    Raises:
        ValueError: a riser or a tread that is not above zero, a gap below zero, or a gap so wide that the ball no
            longer rests against riser and tread: such an opening is no triangle.
    """
    several((riser, tread), "the riser and the tread")
    at_least(gap, 0, "the gap")
    slope = math.hypot(riser, tread)
    diameter = (float(riser + tread) - slope) * (1 + float(gap) * slope / float(riser * tread))
    if diameter / 2 > min(riser, tread):
        raise ValueError("with so wide a gap under the rail the opening is no triangle")
    return diameter


def guard_criteria(place: str) -> tuple[str, str]:
    """The ids of the rows for a guard's height and for its openings: at a `floor`, a `stair` or a `stair triangle`.

    Source: IRC R312.1, as the rows say.

    Raises:
        ValueError: another place.
    """
    return choice(_PLACES, place, "a place of a guard")
