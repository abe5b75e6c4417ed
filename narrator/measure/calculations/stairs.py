"""Stairs: how a series of risers or treads varies, how many risers a height takes, the size of a handrail."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, several

__all__ = [
    "Handrail",
    "Variation",
    "fewest_risers",
    "rectangular_handrail",
    "riser_height",
    "round_handrail",
    "variation",
]


@dataclass(frozen=True, slots=True)
class Variation:
    """How a series varies, in its unit.

    `spread` is the largest minus the smallest; `adjacent` the largest difference between neighbours, which are
    number `adjacent_at` and the next, counted from 1 in the order typed.
    """

    smallest: Fraction
    largest: Fraction
    spread: Fraction
    adjacent: Fraction
    adjacent_at: int


@dataclass(frozen=True, slots=True)
class Handrail:
    """A handrail's section: the length round it (`perimeter`), and its greatest width (`across`), in one unit."""

    perimeter: float
    across: float


def variation(values: Sequence[Fraction]) -> Variation:
    """The variation of the risers or the treads of one flight, in order, all in one unit.

    Formula: spread = max - min; adjacent = max of |r[i+1] - r[i]|. Source: IRC R311.7.5.1 and R311.7.5.2 compare the
    largest with the smallest in a flight (3/8 inch); older text compares neighbours (3/16 inch).

    Raises:
        ValueError: fewer than two values, or one that is not above zero.
    """
    several(values, "the risers or treads", 2)
    steps = [abs(after - before) for before, after in itertools.pairwise(values)]
    adjacent = max(steps)
    smallest, largest = min(values), max(values)
    return Variation(smallest, largest, largest - smallest, adjacent, steps.index(adjacent) + 1)


def riser_height(total_rise: Fraction, count: int) -> Fraction:
    """The height of each of `count` equal risers, in the unit of the rise. Formula: rise/count. Source: arithmetic.

    Raises:
        ValueError: no rise, or fewer than one riser.
    """
    above_zero(total_rise, "the total rise")
    above_zero(count, "the number of risers")
    return total_rise / count


def fewest_risers(total_rise: Fraction, limit: Fraction) -> int:
    """The fewest equal risers, none above `limit`, that climb `total_rise`; both in one unit.

    Formula: ceil(rise/limit). Source: arithmetic on the riser limit (IRC R311.7.5.1: 7 3/4 inches).

    Raises:
        ValueError: no rise or no limit.
    """
    above_zero(total_rise, "the total rise")
    above_zero(limit, "the limit")
    return math.ceil(total_rise / limit)


def rectangular_handrail(width: Fraction, height: Fraction) -> Handrail:
    """A handrail of rectangular section with square corners, in the unit of its sides.

    Formula: perimeter = 2 * (width + height); across = its diagonal. Source: arithmetic on IRC R311.7.8.5, type I.
    Rounded corners shorten both, so a section that is a little over may meet.

    Raises:
        ValueError: a side that is not above zero.
    """
    several((width, height), "the sides of the handrail")
    return Handrail(float(2 * (width + height)), math.hypot(width, height))


def round_handrail(diameter: Fraction) -> Handrail:
    """A round handrail, in the unit of its diameter. Formula: perimeter = pi * d. Source: arithmetic, IRC R311.7.8.5.

    Raises:
        ValueError: a diameter that is not above zero.
    """
    above_zero(diameter, "the diameter")
    return Handrail(math.pi * diameter, float(diameter))
