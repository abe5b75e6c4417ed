"""Stucco: a panel between joints, the thickness of its coats."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.calculations.checks import several

__all__ = ["Panel", "panel", "panel_area_criterion", "total_thickness"]


@dataclass(frozen=True, slots=True)
class Panel:
    """A panel between joints: its area in square feet, its longer side in feet, longer over shorter side."""

    area_ft2: Fraction
    longest_ft: Fraction
    ratio: Fraction


def panel(width_ft: Fraction, height_ft: Fraction) -> Panel:
    """A rectangular panel between control joints or edges, from its sides in feet.

    Formula: area = width * height; ratio = longer/shorter. Source: ASTM C1063 (144 square feet on a wall, 18 feet, 2.5
    to 1; its clause numbers moved between editions).

    Raises:
        ValueError: a side that is not above zero.
    """
    several((width_ft, height_ft), "the sides of the panel")
    shorter, longer = sorted((width_ft, height_ft))
    return Panel(width_ft * height_ft, longer, longer / shorter)


def panel_area_criterion(flat_wall: bool = True) -> str:
    """The id of the row for a panel's area: a flat wall, or else a ceiling, soffit, curved or angled surface.

    Source: ASTM C1063.
    """
    return "stucco-panel-area-wall" if flat_wall else "stucco-panel-area-ceiling"


def total_thickness(coats: Sequence[Fraction]) -> Fraction:
    """The thickness of all coats together, in their unit. Formula: sum. Source: ASTM C926 (3/8, 3/8 and 1/8 inch).

    Raises:
        ValueError: no coat, or one that is not above zero.
    """
    several(coats, "the coats")
    return sum(coats, Fraction(0))
