"""Openings: the clear opening of an escape window, panes that need safety glass, windows that need a stop."""

from __future__ import annotations

from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least, several

__all__ = ["clear_area", "egress_area_criterion", "height_for_area", "large_pane_hazard", "window_fall_applies"]

_SQUARE_FOOT = 144  # square inches
# Large panes near the floor, all four together: IRC R308.4.3 (read in a reproduction).
_PANE_AREA_FT2 = 9
_PANE_BOTTOM_IN = 18
_PANE_TOP_IN = 36
_PANE_WALK_IN = 36
# A sill this near the ground makes a grade floor opening: IRC R310.2.1 exception (read in a reproduction).
_GRADE_FLOOR_IN = 44
# Windows this far above the ground outside: IRC R312.2.1 (read in a reproduction).
_FALL_IN = 72


def clear_area(width_in: Fraction, height_in: Fraction) -> Fraction:
    """The clear area of an opening in square feet, from its clear width and height in inches.

    Formula: width * height / 144. Source: arithmetic. Only the part that stands open counts, not the frame's size:
    the least width and the least height together do not give the least area (IRC R310.2).

    Raises:
        ValueError: a side that is not above zero.
    """
    several((width_in, height_in), "the sides of the opening")
    return width_in * height_in / _SQUARE_FOOT


def height_for_area(width_in: Fraction, area_ft2: Fraction) -> Fraction:
    """The clear height in inches that an opening of `width_in` needs for `area_ft2` square feet.

    Formula: 144 * area / width. Source: arithmetic. Also a width from a height.

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(width_in, "the width")
    above_zero(area_ft2, "the area")
    return area_ft2 * _SQUARE_FOOT / width_in


def egress_area_criterion(sill_above_ground_in: Fraction | None) -> str:
    """The id of the row for the area of an escape window: a smaller one where the sill is near the ground outside.

    `sill_above_ground_in` is in inches, `None` if not measured: then the general row. Source: IRC R310.2.1 and its
    exception (sill within 44 inches of the ground).
    """
    near = sill_above_ground_in is not None and sill_above_ground_in <= _GRADE_FLOOR_IN
    return "egress-opening-area-grade-floor" if near else "egress-opening-area"


def large_pane_hazard(area_ft2: Fraction, bottom_in: Fraction, top_in: Fraction, walk_in: Fraction) -> bool:
    """Whether a pane is a large one near the floor, where safety glass is called for.

    `area_ft2` is the exposed area in square feet; `bottom_in` and `top_in` are the heights of its edges above the
    floor, `walk_in` the level distance to a walking surface, in inches. Formula: area above 9, bottom below 18, top
    above 36 and walk within 36, all four. Source: IRC R308.4.3.

    Raises:
        ValueError: no area, a distance below zero, or a top edge that is not above the bottom edge.
    """
    above_zero(area_ft2, "the area of the pane")
    at_least(bottom_in, 0, "the height of the bottom edge")
    at_least(walk_in, 0, "the distance to the walking surface")
    if top_in <= bottom_in:
        raise ValueError("the top edge of the pane must be above its bottom edge")
    return (
        area_ft2 > _PANE_AREA_FT2 and bottom_in < _PANE_BOTTOM_IN and top_in > _PANE_TOP_IN and walk_in <= _PANE_WALK_IN
    )


def window_fall_applies(drop_in: Fraction) -> bool:
    """Whether the row for low sills (`window-fall-sill-height`) applies: the opening is high above the ground outside.

    `drop_in` is from the opening down to the surface outside, in inches. Formula: drop above 72. Source: IRC R312.2.1.

    Raises:
        ValueError: a drop below zero.
    """
    at_least(drop_in, 0, "the drop")
    return drop_in > _FALL_IN
