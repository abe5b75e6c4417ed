"""Insulation: depth to R-value and back, and which row a house's climate zone is held against."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, between, choice, several

__all__ = [
    "MATERIALS",
    "PerInch",
    "ceiling_criterion",
    "depth_for_r",
    "effective_r",
    "floor_criterion",
    "mean_depth",
    "r_from_depth",
    "wall_criterion",
]


@dataclass(frozen=True, slots=True)
class PerInch:
    """The R-value of one inch of a material: published `low` and `high`, and how the figures are known."""

    low: Fraction
    high: Fraction
    known_by: str


def _per_inch(low: str, high: str, known_by: str) -> PerInch:
    return PerInch(Fraction(low), Fraction(high), known_by)


# Figures as home energy guides print them (after the US Department of Energy). Settled, dry and uncompressed.
MATERIALS: dict[str, PerInch] = {
    "blown fiberglass": _per_inch("2.2", "2.9", "read"),
    "fiberglass batt": _per_inch("2.9", "3.8", "read"),
    "blown cellulose": _per_inch("3.1", "3.8", "read"),
    "blown mineral wool": _per_inch("2.2", "3.3", "read"),
    "expanded polystyrene": _per_inch("3.6", "4.2", "read"),
    "extruded polystyrene": _per_inch("5", "5", "read"),
    "mineral wool batt": _per_inch("3.1", "4", "memory"),
    "vermiculite": _per_inch("2", "2.7", "memory"),
    "open-cell foam": _per_inch("3.5", "3.7", "memory"),
    "closed-cell foam": _per_inch("6", "6.5", "memory"),
    "polyisocyanurate": _per_inch("5.6", "6.5", "memory"),
}

# Edition: the rows for climate zones 1, 2, ... 8 (`''` where there is none).
_CEILING = {
    "2021": ("zone-1", "zones-2-3", "zones-2-3", *["zones-4-8"] * 5),
    "2018": ("zone-1", "zones-2-3", "zones-2-3", *["zones-4-8"] * 5),
    "2009": (*["zones-1-3"] * 3, *[""] * 5),
}
_WALL = {
    "2021": ("zones-1-2", "zones-1-2", "zone-3", *["zones-4-8"] * 5),
    "2018": ("zones-1-2", "zones-1-2", *["zones-3-5"] * 3, *[""] * 3),
}
_FLOOR = ("zones-1-2", "zones-1-2", "zones-3-4", "zones-3-4", "zones-5-6", "zones-5-6", "zones-7-8", "zones-7-8")


def r_from_depth(depth_in: Fraction, material: str) -> tuple[Fraction, Fraction]:
    """The R-value of a depth of insulation in inches: least and most, as the published figures differ.

    Formula: depth * R per inch. Source: home energy guides, see `MATERIALS` for what is from memory. The maker's bag or
    label gives the true figure; gaps and damp lower it.

    Raises:
        ValueError: no depth, or a material that is not known.
    """
    above_zero(depth_in, "the depth")
    per_inch = choice(MATERIALS, material, "an insulation")
    return depth_in * per_inch.low, depth_in * per_inch.high


def depth_for_r(r_value: Fraction, material: str) -> tuple[Fraction, Fraction]:
    """The depth in inches that gives an R-value: least and most. Formula: R / (R per inch). Source: as `r_from_depth`.

    Raises:
        ValueError: no R-value, or a material that is not known.
    """
    above_zero(r_value, "the R-value")
    per_inch = choice(MATERIALS, material, "an insulation")
    return r_value / per_inch.high, r_value / per_inch.low


def mean_depth(depths: Sequence[Fraction]) -> Fraction:
    """The mean of several depths, in their unit; a bare spot has the depth 0. Formula: sum/count. Source: arithmetic.

    Raises:
        ValueError: no depth, or one below zero.
    """
    if not depths or min(depths) < 0:
        raise ValueError("one or more depths are needed, none below zero")
    return sum(depths, Fraction(0)) / len(depths)


def effective_r(parts: Sequence[tuple[Fraction, Fraction]]) -> Fraction:
    """The R-value of a ceiling whose parts differ, as a bare hatch does: pairs of an area (one unit) and an R-value.

    Formula: sum(area) / sum(area / R), heat taking both paths side by side. Source: parallel-path method, ASHRAE
    Handbook of Fundamentals (from memory).

    Raises:
        ValueError: no part, or an area or an R-value that is not above zero.
    """
    several([area for area, _ in parts], "the areas")
    several([r_value for _, r_value in parts], "the R-values")
    whole = sum((area for area, _ in parts), Fraction(0))
    return whole / sum((area / r_value for area, r_value in parts), Fraction(0))


def ceiling_criterion(zone: int, edition: str = "2021") -> str:
    """The id of the row for a ceiling's R-value in a climate zone 1 to 8, by edition (2021, 2018 or 2009).

    Source: IECC and IRC insulation tables, as the rows say.

    Raises:
        ValueError: a zone or an edition that has no row.
    """
    return _row("ceiling", choice(_CEILING, edition, "an edition for ceilings"), zone, edition)


def wall_criterion(zone: int, edition: str = "2021") -> str:
    """The id of the row for a framed wall's R-value in a climate zone 1 to 8, by edition (2021 or 2018).

    Source: IECC and IRC insulation tables, as the rows say; insulation outside the frame may stand in for some.

    Raises:
        ValueError: a zone or an edition that has no row.
    """
    return _row("wall", choice(_WALL, edition, "an edition for walls"), zone, edition)


def floor_criterion(zone: int, *, marine: bool = False) -> str:
    """The id of the row for a floor's R-value in a climate zone 1 to 8; zone 4 `marine` counts as 5.

    Source: IECC and IRC insulation tables, as the rows say.

    Raises:
        ValueError: a zone outside 1 to 8.
    """
    between(zone, 1, 8, "the climate zone")
    return f"floor-r-{_FLOOR[4 if marine and zone == 4 else zone - 1]}"


def _row(part: str, rows: Sequence[str], zone: int, edition: str) -> str:
    between(zone, 1, 8, "the climate zone")
    if not rows[zone - 1]:
        raise ValueError(f"there is no {edition} figure for a {part} in climate zone {zone}")
    return f"{part}-r-{edition}-{rows[zone - 1]}"
