"""Printing quantities as a tape or a gauge shows them: `7 1/2 inches`, `5 feet 10 inches`, `less than 2 %`.

A typed figure keeps its own form: a decimal stays a decimal, a fraction a fraction, in the unit typed. A
computed or converted figure (`show_value`) is rounded as the trade rounds: inches to 1/16, millimetres,
degrees and psi to the whole, others to two places; halves go away from zero.
"""

from __future__ import annotations

import re
from fractions import Fraction

from narrator.measure.numbers import TAPE, plain
from narrator.measure.quantity import Quantity
from narrator.measure.table import UNITS

__all__ = ["number_word", "show", "show_range", "show_value"]

_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_BOUNDS = {"~": "about ", "<": "less than ", ">": "more than "}
_DECIMAL = re.compile(r"\.[0-9]")
_FEET_AND_INCHES = re.compile(r"(?:'|ft\.?|feet|foot)[ ,-]*[0-9]", re.IGNORECASE)
_PER_FOOT = re.compile(r"/ ?(?:ft|f|lf|')|per |\ba ?ft|\ba ?foot", re.IGNORECASE)
_WHOLE = frozenset({"millimeter", "degF", "degC", "delta_degF", "delta_degC", "mil", "pascal", "psi", "awg"})
_TAPE = frozenset({"inch", "inch/foot"})  # units read off a tape


def number_word(n: int) -> str:
    """`n` as a word from one to twelve, else in digits with thousands separated."""
    return _WORDS[n - 1] if 1 <= n <= len(_WORDS) else f"{n:,}"


def show(q: Quantity) -> str:
    """The quantity in the unit typed, with its bound; `''`-unit figures print bare."""
    return _BOUNDS.get(q.bound, "") + _figures(q)


def _figures(q: Quantity) -> str:
    if q.of is not None:
        return f"{_plain_figure(q.low)} of {_plain_figure(q.of)}"
    if q.unit == "date":
        return str(int(q.low)) if q.low == q.high else f"{int(q.low)} to {int(q.high)}"
    if not q.text:
        return show_range(q.low, q.high, q.unit)
    text = plain(q.text)
    decimal = _DECIMAL.search(text) is not None
    if not q.unit and "," not in text:  # perhaps a year or a label: no thousands mark that nobody typed
        low, high = (_typed(one, decimal).replace(",", "") for one in (q.low, q.high))
        return _joined(low, high, q.is_range)
    if q.unit == "foot" and not decimal and (q.is_range or _FEET_AND_INCHES.search(text) is not None):
        return _joined(_feet(q.low, True), _feet(q.high, True), q.is_range)
    if q.unit == "inch/foot" and _PER_FOOT.search(text) is None:
        return _joined(_typed(q.low, decimal), _typed(q.high, decimal), q.is_range) + " in 12"
    return _with_unit(_typed(q.low, decimal), _typed(q.high, decimal), q.high, q.unit, q.is_range)


def show_value(value: Fraction, unit: str) -> str:
    """A plain figure in `unit`, rounded as the trade rounds. A length that rounds to nothing says so."""
    return show_range(value, value, unit)


def show_range(low: Fraction, high: Fraction, unit: str, exact: bool = False) -> str:
    """Two plain figures in one unit, `34 to 38 inches`; one of them if they are equal.

    With `exact`, for published figures, nothing is rounded: `3/32 inch`, `0.019 inch`.
    """
    wide = low != high
    if unit == "foot":
        if low.denominator == high.denominator == 1:
            return _with_unit(_plain_figure(low), _plain_figure(high), high, unit, wide)
        return _joined(_feet(low, exact), _feet(high, exact), wide)
    if unit == "date":
        return _joined(str(int(low)), str(int(high)), wide)
    if unit == "inch" and not wide and not exact and 0 < abs(low) < Fraction(1, 32):
        return "less than 1/16 inch"
    if unit == "inch/foot" and abs(low) >= 1:
        return _joined(_rounded(low, unit, exact), _rounded(high, unit, exact), wide) + " in 12"
    return _with_unit(_rounded(low, unit, exact), _rounded(high, unit, exact), high, unit, wide)


def _joined(low: str, high: str, wide: bool) -> str:
    if not wide or low == high:
        return high
    for tail in (" feet", " inches", " inch"):
        head = low.removesuffix(tail)
        if head != low and high.endswith(tail) and " feet " not in low + high and " foot " not in low + high:
            return f"{head} to {high}"
    return f"{low} to {high}"


def _with_unit(low: str, high: str, value: Fraction, unit: str, wide: bool) -> str:
    known = UNITS.get(unit)
    if known is not None and known.dimension == "insulation":
        return _joined(f"R-{low}", f"R-{high}", wide)
    figures = _joined(low, high, wide)
    if known is None or not known.many:
        return figures
    return f"{figures} {known.one if 0 < abs(value) <= 1 else known.many}"


def _typed(value: Fraction, decimal: bool) -> str:
    """A figure that was typed: nothing is rounded unless no short decimal says it."""
    return _decimals(value, 6) if decimal else _mixed(value)


def _plain_figure(value: Fraction) -> str:
    return _mixed(value) if value.denominator > 1 else f"{value.numerator:,}"


def _rounded(value: Fraction, unit: str, exact: bool) -> str:
    if unit in _TAPE and (not exact or value.denominator in TAPE):
        return _mixed(value if exact else _nearest(value, 16))
    if unit == "dimensionless" and value.numerator == 1 and value.denominator > 1:
        return f"1/{value.denominator}"
    if exact:
        return _decimals(value, 6)
    if unit in _WHOLE and abs(value) >= 1:
        return _decimals(value, 0)
    places = 2
    while 0 < abs(value) * 10 ** (places - 1) < 1:
        places += 1
    return _decimals(value, places)


def _nearest(value: Fraction, parts: int) -> Fraction:
    """`value` to the nearest of `parts` parts of one, halves away from zero."""
    scaled = abs(value) * parts
    whole = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    return Fraction(whole if value >= 0 else -whole, parts)


def _mixed(value: Fraction) -> str:
    """A mixed fraction: `7 1/2`, `1/4`, `12`."""
    sign = "-" if value < 0 else ""
    whole, rest = divmod(abs(value), 1)
    parts = [f"{whole:,}"] if whole or not rest else []
    if rest:
        parts.append(f"{rest.numerator}/{rest.denominator}")
    return sign + " ".join(parts)


def _decimals(value: Fraction, places: int) -> str:
    rounded = _nearest(value, 10**places)
    sign = "-" if rounded < 0 else ""
    whole, rest = divmod(abs(rounded), 1)
    digits = f"{int(rest * 10**places):0{places}d}".rstrip("0") if rest else ""
    return f"{sign}{whole:,}.{digits}" if digits else f"{sign}{whole:,}"


def _feet(value: Fraction, exact: bool) -> str:
    """Feet and inches: `5 feet 10 inches`, `6 feet`, `10 1/2 inches`."""
    sign = "-" if value < 0 else ""
    inches = abs(value) * 12 if exact else _nearest(abs(value) * 12, 16)
    feet, rest = divmod(inches, 12)
    parts = [f"{feet:,} {'foot' if feet == 1 else 'feet'}"] if feet or not rest else []
    if rest:
        parts.append(f"{_mixed(rest)} {'inch' if rest <= 1 else 'inches'}")
    return sign + " ".join(parts)
