"""Decks: the fasteners of a ledger, and which row their spacing is held against."""

from __future__ import annotations

import math
from fractions import Fraction

from narrator.measure.calculations.checks import above_zero, at_least

__all__ = ["fewest_ledger_fasteners", "ledger_spacing_criterion"]

_SPANS = (6, 8, 10, 12, 14, 16, 18)  # feet
_FASTENERS = ("lag", "bolt")


def fewest_ledger_fasteners(ledger_in: Fraction, spacing_in: Fraction, end_in: Fraction) -> int:
    """The fewest fasteners along a ledger, the first and the last `end_in` from its ends; all in inches.

    Formula: ceil((ledger - 2 * end) / spacing) + 1. Source: arithmetic on IRC Table R507.9.1.3(1); the end distance of
    2 to 5 inches is from memory.

    Raises:
        ValueError: a ledger or a spacing that is not above zero, or a ledger shorter than its two end distances.
    """
    above_zero(ledger_in, "the ledger")
    above_zero(spacing_in, "the spacing")
    at_least(end_in, 0, "the end distance")
    between = ledger_in - 2 * end_in
    if between < 0:
        raise ValueError("the ledger is shorter than its two end distances")
    return math.ceil(between / spacing_in) + 1


def ledger_spacing_criterion(joist_span_ft: Fraction, fastener: str) -> str:
    """The id of the row for the spacing of a ledger's `lag` screws or `bolt`s, for a joist span in feet.

    A span between two rows takes the longer one. Source: IRC Table R507.9.1.3(1), 40 pounds a square foot; snow and
    local loads need closer spacing.

    Raises:
        ValueError: a span that is not above zero or above 18 feet, or another fastener.
    """
    above_zero(joist_span_ft, "the joist span")
    if fastener not in _FASTENERS:
        raise ValueError(f"'{fastener}' is not a ledger fastener that is known here: {', '.join(_FASTENERS)}")
    span = next((one for one in _SPANS if joist_span_ft <= one), None)
    if span is None:
        raise ValueError(f"there is no figure for joists longer than {_SPANS[-1]} feet")
    return f"deck-ledger-{fastener}-spacing-{span}ft"
