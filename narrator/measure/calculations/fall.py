"""Working at height: how a roof's slope is classed, and where a ladder stands.

These are rules for people at work. They explain how a roof was looked at; they say nothing about the house.
"""

from __future__ import annotations

from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least

__all__ = ["fall_protection_called_for", "ladder_foot", "roof_class"]

_LOW_SLOPE = 4  # rise in 12: 29 CFR 1926.500(b), read in reproductions
_CALIFORNIA_STEEP = 7  # rise in 12: California 8 CCR 1731 as amended in 2025, read in a summary
_HEIGHT_FT = 6  # 29 CFR 1926.501(b)


def roof_class(rise_in_12: Fraction) -> str:
    """`low slope` or `steep`, as federal rules for work on roofs class a rise in 12.

    Formula: low slope up to and with 4 in 12. Source: 29 CFR 1926.500(b).

    Raises:
        ValueError: a rise below zero.
    """
    at_least(rise_in_12, 0, "the rise of the roof")
    return "low slope" if rise_in_12 <= _LOW_SLOPE else "steep"


def fall_protection_called_for(rise_in_12: Fraction, eave_ft: Fraction, *, california: bool = False) -> bool:
    """Whether rules for building work call for fall protection on a roof: its rise in 12, its edge `eave_ft` feet up.

    Formula: from 6 feet; in `california` also at any height above 7 in 12. Source: 29 CFR 1926.501(b); 8 CCR 1731. An
    inspection before work begins is partly exempt (29 CFR 1926.500(a)(1), from memory).

    Raises:
        ValueError: a rise or a height below zero.
    """
    at_least(rise_in_12, 0, "the rise of the roof")
    at_least(eave_ft, 0, "the height of the edge")
    return eave_ft >= _HEIGHT_FT or (california and rise_in_12 > _CALIFORNIA_STEEP)


def ladder_foot(working_length: Fraction) -> Fraction:
    """How far from the wall a leaning ladder stands, in the unit of its working length.

    Formula: length/4, the length from the foot to the point of support. Source: 29 CFR 1926.1053(b)(5) (section from
    memory; the rule of a quarter was read).

    Raises:
        ValueError: no length.
    """
    above_zero(working_length, "the working length")
    return working_length / 4
