"""Quantities that a word marks: a year of making (`made 2005`, `2005 mfg`), a thermal resistance (`R-19`)."""

from __future__ import annotations

import re
from fractions import Fraction

from narrator.measure.quantity import Found, Quantity

__all__ = ["marked"]

_MONTH = r"(?:(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?,? |[01]?[0-9]/)"
_YEAR = r"(?:1[6-9][0-9]{2}|20[0-9]{2})(?![0-9])"
_MADE = re.compile(
    r"(?<![\w-])(?:manufactured|made|mfg|mfg'd|mfd|mfr|built|dated|date|installed|dom)(?: date)?"
    r"[.:]?(?: in| of| on)? ?"
    rf"(?P<about>~ ?|(?:abt|about|approx|circa|ca|c)\.? )?{_MONTH}?(?P<year>{_YEAR})(?![\w/+-]|[.:,][0-9])",
    re.IGNORECASE,
)
_YEAR_MADE = re.compile(
    rf"(?<![\w/.:,#$-])(?P<about>~ ?)?(?P<year>{_YEAR}) ?"
    r"(?:manufactured|made|mfg'd|mfg|mfd|mfr|built|model)(?!\w)",
    re.IGNORECASE,
)
_R_VALUE = re.compile(
    r"(?<![\w-])R[- ]?(?P<low>[1-9][0-9]?(?:\.[0-9])?)(?:(?: ?- ?| to )R?-?(?P<high>[1-9][0-9]?))?"
    r"(?![\w/]|[.,-]\w)",
    re.IGNORECASE,
)


def marked(line: str, text: str) -> list[Found]:
    """The marked quantities of `line` (the plain form of `text`): years with the unit `date`, R-values."""
    found: list[Found] = []
    for pattern in (_MADE, _YEAR_MADE):
        for match in pattern.finditer(line):
            year = Fraction(match["year"])
            _add(found, year, year, "date", "~" if match["about"] else "", match, text)
    for match in _R_VALUE.finditer(line):
        low, high = Fraction(match["low"]), Fraction(match["high"] or match["low"])
        if low <= high:
            _add(found, low, high, "r-value", "", match, text)
    return found


def _add(
    found: list[Found], low: Fraction, high: Fraction, unit: str, bound: str, match: re.Match[str], text: str
) -> None:
    start, end = match.span()
    if not any(one.start < end and start < one.end for one in found):
        found.append(Found(Quantity(low, high, unit, bound, None, text[start:end]), start, end))
