"""Dryer ducts: straight length and elbows held against a published length."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least, choice

__all__ = ["allowable_straight", "elbow_criterion", "equivalent_length", "length_with_elbows_included"]

_ELBOWS = {
    f"{kind} {degrees}": f"dryer-elbow-deduction-{kind}-{degrees}"
    for kind in ("mitered", "smooth6", "smooth8")
    for degrees in (45, 90)
}


def elbow_criterion(kind: str, degrees: int) -> str:
    """The id of the row that says how many feet an elbow counts for.

    `kind` is `mitered` (radius 4 inches), `smooth6` or `smooth8` (smooth, by radius); `degrees` is 45 or 90. Source:
    IRC Table M1502.4.6.1; the figures for `smooth8` are from memory.

    Raises:
        ValueError: another elbow.
    """
    return choice(_ELBOWS, f"{kind} {degrees}", "an elbow")


def equivalent_length(straight: Fraction, elbows: Sequence[tuple[int, Fraction]]) -> Fraction:
    """The length that a duct counts for, in one unit (feet): what a verdict holds against 35 or 25 feet.

    `elbows` are pairs of a count and what each counts for. Formula: straight + sum of count * each. Source: IRC
    M1502.4.6.1. The transition duct behind the dryer does not count; the dryer's maker may say otherwise.

    Raises:
        ValueError: a length or a count below zero.
    """
    at_least(straight, 0, "the straight length")
    return straight + _elbows(elbows)


def allowable_straight(limit: Fraction, elbows: Sequence[tuple[int, Fraction]]) -> Fraction:
    """The straight length that remains below `limit` with these elbows, in one unit (feet); below zero if none.

    Formula: limit - sum of count * each. Source: IRC M1502.4.6.1.

    Raises:
        ValueError: no limit, or a count below zero.
    """
    above_zero(limit, "the limit")
    return limit - _elbows(elbows)


def length_with_elbows_included(
    limit: Fraction, elbows: int, included: int = 2, each: Fraction = Fraction(2)
) -> Fraction:
    """The whole length where the limit already includes some elbows, in one unit (feet).

    Formula: limit - each * (elbows - included), nothing back for fewer. Source: Uniform Mechanical Code 504.3.1.2
    (14 feet with two elbows, 2 feet less for each further one).

    Raises:
        ValueError: no limit, or a count below zero.
    """
    above_zero(limit, "the limit")
    at_least(elbows, 0, "the number of elbows")
    return limit - each * max(0, elbows - included)


def _elbows(elbows: Sequence[tuple[int, Fraction]]) -> Fraction:
    total = Fraction(0)
    for count, each in elbows:
        at_least(count, 0, "the number of elbows")
        at_least(each, 0, "the length of an elbow")
        total += count * each
    return total
