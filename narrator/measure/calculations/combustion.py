"""Air for fuel-burning appliances: the room around them, the openings that bring it."""

from __future__ import annotations

from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least, several

__all__ = ["air_volume", "opening_area", "room_volume"]


def room_volume(length: Fraction, width: Fraction, height: Fraction) -> Fraction:
    """The volume of a room, in the cube of the unit of its sides. Formula: length * width * height.

    Raises:
        ValueError: a side that is not above zero.
    """
    several((length, width, height), "the sides of the room")
    return length * width * height


def air_volume(input_btuh: Fraction, volume_per_btuh: Fraction) -> Fraction:
    """The room volume that appliances of that input need, in cubic feet; inputs in one room are added first.

    Formula: input * volume per input. Source: IRC G2407.5.1 (50 cubic feet per 1,000 Btu/h in a house of ordinary
    tightness, which is 0.05 per Btu/h).

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(input_btuh, "the input")
    above_zero(volume_per_btuh, "the volume per input")
    return input_btuh * volume_per_btuh


def opening_area(input_btuh: Fraction, area_per_btuh: Fraction, least: Fraction = Fraction(0)) -> Fraction:
    """The free area of each combustion air opening in square inches, no less than `least`.

    Formula: max(input * area per input, least). Source: IRC G2407.5.3.1 and G2407.6.1 (1 square inch per 1,000 Btu/h
    from indoors, at least 100; per 4,000 from outdoors; per 2,000 by a level duct).

    Raises:
        ValueError: an input or an area per input that is not above zero, or a least area below zero.
    """
    above_zero(input_btuh, "the input")
    above_zero(area_per_btuh, "the area per input")
    at_least(least, 0, "the least area")
    return max(input_btuh * area_per_btuh, least)
