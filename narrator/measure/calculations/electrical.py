"""Electrical: a breaker against its wire, ampacity, receptacles along a wall, the height of a service drop."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least, between, choice

__all__ = [
    "ampacity",
    "conductor_criterion",
    "fewest_receptacles",
    "largest_breaker",
    "load_amps",
    "service_drop_criterion",
    "voltage_drop_percent",
]

# Metal, gauge, and the temperature column where the row has one.
_CONDUCTORS = {
    "copper 14": "breaker-copper-14-awg",
    "copper 12": "breaker-copper-12-awg",
    "copper 10": "breaker-copper-10-awg",
    "aluminum 12": "breaker-aluminum-12-awg",
    "aluminum 10": "breaker-aluminum-10-awg",
    "copper 8 60": "breaker-copper-8-awg-60c",
    "copper 8 75": "breaker-copper-8-awg-75c",
    "copper 6 60": "breaker-copper-6-awg-60c",
    "copper 6 75": "breaker-copper-6-awg-75c",
}
_SMALL = 10  # gauge numbers from here up have one rating whatever the temperature column
# Standard ratings in amperes up to a house's size: NEC 240.6(A), read in reproductions.
_RATINGS = (15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400)
_STEEP = 4  # inches a foot
_LOW_VOLTS = 300  # between conductors


def conductor_criterion(gauge: int, metal: str = "copper", column_c: int = 60) -> str:
    """The id of the row that a breaker is held against, for a conductor of that AWG gauge.

    `metal` is `copper` or `aluminum`; `column_c` the temperature column, 60 (also for NM cable) or 75, which matters
    from gauge 8 down. Source: NEC 240.4(D) for gauges 14 to 10 (a limit on the breaker), Table 310.16 for 8 and 6 (the
    ampacity, see `largest_breaker`). Motors, air conditioners and welders have rules of their own.

    Raises:
        ValueError: a conductor that has no row.
    """
    size = f"{metal} {gauge}" if gauge >= _SMALL else f"{metal} {gauge} {column_c}"
    return choice(_CONDUCTORS, size, "a conductor")


def ampacity(base_a: Fraction, factors: Sequence[Fraction] = ()) -> Fraction:
    """A conductor's ampacity in amperes: the table's figure times the factors for a hot place and for many wires.

    Formula: base * each factor. Source: NEC 310.15. Which column the base is taken from changes the answer.

    Raises:
        ValueError: no base, or a factor outside 0 to 2.
    """
    above_zero(base_a, "the table's ampacity")
    for factor in factors:
        above_zero(factor, "a factor")
        between(factor, 0, 2, "a factor")
        base_a *= factor
    return base_a


def largest_breaker(ampacity_a: Fraction, *, next_size_up: bool = True) -> int:
    """The largest standard breaker, in amperes, for a conductor of gauge 8 or larger with that ampacity.

    Formula: the ampacity if it is a standard rating; else the next rating up, or down without `next_size_up` (a
    circuit with several receptacles for cords). Source: NEC 240.4(B), 240.6(A). Gauges 14 to 10 have fixed limits.

    Raises:
        ValueError: an ampacity below 15, or above 400, amperes.
    """
    if not _RATINGS[0] <= ampacity_a <= _RATINGS[-1]:
        raise ValueError(f"the ampacity must be between {_RATINGS[0]} and {_RATINGS[-1]} amperes")
    below = max(rating for rating in _RATINGS if rating <= ampacity_a)
    if below == ampacity_a or not next_size_up:
        return below
    return min(rating for rating in _RATINGS if rating > ampacity_a)


def load_amps(watts: Fraction, volts: Fraction) -> Fraction:
    """The current of a resistive load in amperes. Formula: watts/volts. Source: arithmetic.

    Raises:
        ValueError: watts below zero, or no volts.
    """
    at_least(watts, 0, "the power")
    above_zero(volts, "the voltage")
    return watts / volts


def voltage_drop_percent(no_load_v: Fraction, loaded_v: Fraction) -> Fraction:
    """How far the voltage falls under load, in percent of that without load.

    Formula: 100 * (no load - loaded) / no load. Source: arithmetic; 3 percent is advice in a note (NEC 210.19).

    Raises:
        ValueError: no voltage without load, or a loaded one below zero.
    """
    above_zero(no_load_v, "the voltage without load")
    at_least(loaded_v, 0, "the voltage under load")
    return 100 * (no_load_v - loaded_v) / no_load_v


def fewest_receptacles(wall: Fraction, reach: Fraction) -> int:
    """The fewest receptacles that leave no point of an unbroken wall farther than `reach` from one; one unit.

    Formula: ceil(wall / (2 * reach)). Source: NEC 210.52(A) (6 feet), 210.52(C) for counters (24 inches).

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(wall, "the wall")
    above_zero(reach, "the reach")
    return math.ceil(wall / (2 * reach))


def service_drop_criterion(roof_in_per_ft: Fraction, volts_between: Fraction, *, overhang: bool = False) -> str:
    """The id of the row for a service drop above a roof.

    `roof_in_per_ft` is the roof's slope in inches a foot, `volts_between` the volts between conductors. `overhang`: the
    wires cross only the overhang to a mast through the roof, no more than 6 feet of them over it and within 4 feet of
    the edge. Formula: above 300 volts 8 feet; an overhang 18 inches; from 4 inches a foot 3 feet; else 8 feet. Source:
    NEC 230.24(A) and its exceptions 2 and 3.

    Raises:
        ValueError: a slope below zero, or no volts.
    """
    at_least(roof_in_per_ft, 0, "the slope of the roof")
    above_zero(volts_between, "the voltage")
    if volts_between > _LOW_VOLTS:
        return "service-drop-above-roof"
    if overhang:
        return "service-drop-above-overhang"
    return "service-drop-above-steep-roof" if roof_in_per_ft >= _STEEP else "service-drop-above-roof"
