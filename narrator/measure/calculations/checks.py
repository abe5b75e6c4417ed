"""What no measurement can be: nothing, less than nothing, out of its range. Every fault is a plain `ValueError`."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import TypeVar

__all__ = ["above_zero", "at_least", "between", "choice", "several"]

_T = TypeVar("_T")


def above_zero(value: Fraction | float, what: str) -> None:
    """Refuse a `value` of zero, below zero, or no number; `what` names it in the message."""
    if not (_finite(value) and value > 0):
        raise ValueError(f"{what} must be more than zero, not {_said(value)}")


def at_least(value: Fraction | float, least: int, what: str) -> None:
    """Refuse a `value` below `least`, or no number."""
    if not (_finite(value) and value >= least):
        raise ValueError(f"{what} must be {least} or more, not {_said(value)}")


def between(value: Fraction | float, low: int, high: int, what: str) -> None:
    """Refuse a `value` outside `low` to `high`, or no number."""
    if not (_finite(value) and low <= value <= high):
        raise ValueError(f"{what} must be between {low} and {high}, not {_said(value)}")


def several(values: Sequence[Fraction], what: str, least: int = 1) -> None:
    """Refuse fewer than `least` values, and any that is not above zero."""
    if len(values) < least:
        raise ValueError(f"{what}: {least} or more figures are needed, not {len(values)}")
    for value in values:
        above_zero(value, f"each of {what}")


def choice(table: Mapping[str, _T], key: str, what: str) -> _T:
    """The item of `table` for `key`, or a message with the keys that there are."""
    found = table.get(key)
    if found is None:
        raise ValueError(f"'{key}' is not {what} that is known here: {', '.join(table)}")
    return found


def _finite(value: Fraction | float) -> bool:
    return isinstance(value, Fraction) or math.isfinite(value)


def _said(value: Fraction | float) -> str:
    return f"{float(value):g}"
