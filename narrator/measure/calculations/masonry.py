"""Brick veneer: how many ties a wall and how many weep holes a course should have."""

from __future__ import annotations

import math
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero

__all__ = ["fewest_ties", "fewest_weeps"]


def fewest_ties(wall_area: Fraction, area_per_tie: Fraction) -> int:
    """The fewest ties for a wall, none holding more than `area_per_tie`; both in one unit.

    Formula: ceil(area / area per tie). Source: IRC R703.8.4.1 (2.67 square feet; less for high wind or earthquakes).

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(wall_area, "the wall area")
    above_zero(area_per_tie, "the area per tie")
    return math.ceil(wall_area / area_per_tie)


def fewest_weeps(length: Fraction, spacing: Fraction) -> int:
    """The weep holes along `length` of flashing at `spacing`, one at each end counted; both in one unit.

    Formula: floor(length/spacing) + 1. Source: arithmetic on IRC R703.8.6 (33 inches; the brick industry advises 24).

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(length, "the length")
    above_zero(spacing, "the spacing")
    return math.floor(length / spacing) + 1
