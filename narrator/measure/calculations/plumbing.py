"""Water: the gap below a relief pipe, how fast hot water burns, a timed flow."""

from __future__ import annotations

from fractions import Fraction

from narrator.measure.calculations.checks import above_zero

__all__ = ["burn_seconds", "flow_rate", "relief_pipe_gap"]

# Degrees Fahrenheit: seconds until a serious burn. CPSC tap water scald alert, read in a reproduction.
_BURNS = ((150, 2), (140, 6), (130, 30), (120, 300))


def relief_pipe_gap(diameter_in: Fraction, least_diameters: Fraction) -> Fraction:
    """The least air gap below the end of a relief pipe, in inches: so many pipe diameters.

    Formula: diameters * diameter. Source: IRC P2804.6.1 item 10 (two diameters, and no more than 6 inches).

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(diameter_in, "the diameter")
    above_zero(least_diameters, "the number of diameters")
    return diameter_in * least_diameters


def burn_seconds(fahrenheit: Fraction) -> int | None:
    """The published time, in seconds, in which water this hot can burn an adult's skin badly; `None` below 120.

    Formula: that of the hottest published temperature not above it, so the true time may be shorter. Source: CPSC tap
    water scald alert (about 5 minutes at 120, 30 seconds at 130, 6 at 140, 2 at 150). Children burn faster.
    """
    return next((seconds for degrees, seconds in _BURNS if fahrenheit >= degrees), None)


def flow_rate(gallons: Fraction, seconds: Fraction) -> Fraction:
    """A timed flow in gallons a minute. Formula: 60 * gallons / seconds. Source: arithmetic.

    Raises:
        ValueError: a figure that is not above zero.
    """
    above_zero(gallons, "the volume")
    above_zero(seconds, "the time")
    return 60 * gallons / seconds
