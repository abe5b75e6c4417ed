"""Chimneys and vents above the roof, crickets behind them, and what stands near a fireplace."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least

__all__ = [
    "ChimneyHeight",
    "chimney_height",
    "cricket_height",
    "gas_vent_height",
    "hearth_criteria",
    "mantel_projection",
]

# Roof rise in 12 up to which a height in feet holds: IRC Figure G2427.6.3 as two makers of vents print it (read); one
# of them keeps 1 foot up to 7 in 12.
_GAS_VENT = (
    (6, "1"), (7, "1.25"), (8, "1.5"), (9, "2"), (10, "2.5"), (11, "3.25"), (12, "4"), (14, "5"), (16, "6"),
    (18, "7"), (20, "7.5"), (21, "8"),
)  # fmt: skip
_LARGE_OPENING_FT2 = 6  # IRC R1001.10, read in a reproduction
# Wood trim beside a fireplace opening, inches: IRC R1001.11 exception 4, read in a reproduction.
_NO_TRIM_IN = 6
_FREE_TRIM_IN = 12


@dataclass(frozen=True, slots=True)
class ChimneyHeight:
    """How far the roof rises beside a chimney within reach, and the height needed, both in inches.

    Both are counted from the highest point where the chimney passes through the roof.
    """

    roof_rise_in: Fraction
    needed_in: Fraction


def chimney_height(
    to_ridge_ft: Fraction,
    rise_in_12: Fraction,
    least_in: Fraction,
    above_in: Fraction,
    reach_ft: Fraction = Fraction(10),
) -> ChimneyHeight:
    """The height of a chimney on a slope that rises to a ridge `to_ridge_ft` feet away, measured level.

    `rise_in_12` is the roof's rise in 12. `least_in` is the least height above the roof there (36 inches), `above_in`
    that above any part of the house within `reach_ft` (24 inches, 10 feet). Formula: rise = min(distance, reach) *
    pitch; needed = max(least, rise + above). Source: IRC R1003.9. Dormers and other roofs within reach count too.

    Raises:
        ValueError: a distance, a rise or a height below zero, or no reach.
    """
    at_least(to_ridge_ft, 0, "the distance to the ridge")
    at_least(rise_in_12, 0, "the rise of the roof")
    at_least(least_in, 0, "the least height")
    at_least(above_in, 0, "the height above the roof")
    above_zero(reach_ft, "the reach")
    rise = min(to_ridge_ft, reach_ft) * rise_in_12
    return ChimneyHeight(rise, max(least_in, rise + above_in))


def gas_vent_height(rise_in_12: Fraction) -> Fraction:
    """The least height in feet of a listed gas vent above a roof of that rise in 12.

    Formula: table; at least 8 feet from a wall, up to 12 inches across. Source: IRC Figure G2427.6.3 as vent makers
    print it; one maker keeps 1 foot up to 7 in 12.

    Raises:
        ValueError: a rise below zero, or steeper than the table's 21 in 12.
    """
    at_least(rise_in_12, 0, "the rise of the roof")
    height = next((height for up_to, height in _GAS_VENT if rise_in_12 <= up_to), None)
    if height is None:
        raise ValueError(f"the table ends at {_GAS_VENT[-1][0]} in 12")
    return Fraction(height)


def cricket_height(width: Fraction, rise_in_12: Fraction) -> Fraction:
    """The height of a cricket behind a chimney of `width` across the slope, in its unit.

    Formula: width/2 * rise/12: the cricket is as steep as the roof. Source: IRC Table R1003.20 (from memory: half the
    width at 12 in 12, a third at 8, a quarter at 6, a sixth at 4, an eighth at 3). Whether one is called for is a
    verdict on the width (30 inches).

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(width, "the width")
    above_zero(rise_in_12, "the rise of the roof")
    return width / 2 * rise_in_12 / 12


def hearth_criteria(opening_ft2: Fraction) -> tuple[str, str]:
    """The ids of the rows for a hearth in front of, and beside, a fireplace opening of that area in square feet.

    Source: IRC R1001.10 (larger from 6 square feet).

    Raises:
        ValueError: no area.
    """
    above_zero(opening_ft2, "the area of the opening")
    size = "large" if opening_ft2 >= _LARGE_OPENING_FT2 else "small"
    return f"hearth-extension-front-{size}", f"hearth-extension-side-{size}"


def mantel_projection(distance_in: Fraction) -> Fraction | None:
    """How far wood trim may stand out, in inches, `distance_in` inches from a fireplace opening.

    Formula: 0 (none at all) below 6 inches; 1/8 inch for each inch of distance up to 12; `None`, no figure, beyond.
    Source: IRC R1001.11 exception 4. Factory-built fireplaces follow their maker.

    Raises:
        ValueError: a distance below zero.
    """
    at_least(distance_in, 0, "the distance")
    if distance_in < _NO_TRIM_IN:
        return Fraction(0)
    return distance_in / 8 if distance_in <= _FREE_TRIM_IN else None
