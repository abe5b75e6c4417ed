"""Drains: fall and slope of a pipe, the arm between a trap and its vent."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least, choice

__all__ = ["TrapArm", "drain_fall", "drain_slope", "drain_slope_criterion", "trap_arm", "trap_arm_criterion"]

# Diameter in inches: the part of a row's id that says it.
_SIZES = {
    Fraction(5, 4): "1-1-4-inch",
    Fraction(3, 2): "1-1-2-inch",
    Fraction(2): "2-inch",
    Fraction(3): "3-inch",
    Fraction(4): "4-inch",
}
_WIDEST_IN = {"irc": 4, "upc": 3}  # in each table of trap arms
# From this diameter the lesser slope holds, up to the last: IRC P3005.3, IPC Table 704.1.
_MEDIUM_IN = 3
_LARGEST_IN = 6


@dataclass(frozen=True, slots=True)
class TrapArm:
    """A trap arm's total fall: `fall_in` inches, and as a number of pipe `diameters`."""

    fall_in: Fraction
    diameters: Fraction


def drain_fall(slope_in_per_ft: Fraction, run_ft: Fraction) -> Fraction:
    """The fall in inches of a drain of `slope_in_per_ft` inches a foot over `run_ft` feet.

    Formula: slope * run. Source: arithmetic (IPC Table 704.1 for usual slopes).

    Raises:
        ValueError: a slope below zero, or no run.
    """
    at_least(slope_in_per_ft, 0, "the slope")
    above_zero(run_ft, "the run")
    return slope_in_per_ft * run_ft


def drain_slope(fall_in: Fraction, run_ft: Fraction) -> Fraction:
    """The slope of a drain in inches a foot: a fall in inches over a run in feet; below zero if it runs back.

    Formula: fall/run. Source: arithmetic.

    Raises:
        ValueError: no run.
    """
    above_zero(run_ft, "the run")
    return fall_in / run_ft


def drain_slope_criterion(diameter_in: Fraction) -> str:
    """The id of the row for the least slope of a drain of that diameter in inches.

    Source: IRC P3005.3, IPC Table 704.1: 1/4 inch a foot below 3 inches, 1/8 from 3 to 6; UPC keeps 1/4.

    Raises:
        ValueError: a diameter that is not above zero, or above 6 inches, for which there is no row.
    """
    above_zero(diameter_in, "the diameter")
    if diameter_in > _LARGEST_IN:
        raise ValueError(f"there is no figure for a drain wider than {_LARGEST_IN} inches")
    return "drain-slope-medium" if diameter_in >= _MEDIUM_IN else "drain-slope-small"


def trap_arm(slope_in_per_ft: Fraction, length_ft: Fraction, diameter_in: Fraction) -> TrapArm:
    """The fall of a trap arm from weir to vent: slope in inches a foot, length in feet, diameter in inches.

    Formula: fall = slope * length; diameters = fall / diameter. Source: IRC P3105.2 (no more than one diameter, so
    that the vent stays above the trap's weir).

    Raises:
        ValueError: a slope below zero, no length, or no diameter.
    """
    above_zero(diameter_in, "the diameter")
    fall = drain_fall(slope_in_per_ft, length_ft)
    return TrapArm(fall, fall / diameter_in)


def trap_arm_criterion(diameter_in: Fraction, table: str = "irc") -> str:
    """The id of the row for the longest trap arm of that diameter in inches, by the `irc` or the `upc` table.

    Source: IRC Table P3105.1, UPC Table 1002.2: they differ by a factor of two, so say which one is meant.

    Raises:
        ValueError: a table or a diameter that has no row.
    """
    widest = choice(_WIDEST_IN, table, "a trap arm table")
    size = _SIZES.get(diameter_in)
    if size is None or diameter_in > widest:
        raise ValueError(f"the {table} table has no trap arm of {float(diameter_in):g} inches")
    return f"trap-arm-length-{table}-{size}"
