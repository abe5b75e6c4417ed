"""Reading one figure: whole, decimal, fraction or mixed, as people type it.

Every function works on a *plain* text (see `plain`), as long as the typed one, so that positions agree.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

__all__ = ["FIGURE", "Number", "plain", "read_number"]

_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5",
    "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅒": "1/10",
}  # fmt: skip

_PLAIN = str.maketrans({
    "\u00a0": " ", "\u2007": " ", "\u2009": " ", "\u200a": " ", "\u202f": " ", "\t": " ",
    "\u2010": "-", "\u2011": "-", "\u2012": "-", "\u2013": "-", "\u2212": "-", "\u2044": "/", "\u2215": "/",
    "\u2018": "'", "\u2019": "'", "\u2032": "'", "\u02b9": "'", "\u00b4": "'", "\u201c": '"', "\u201d": '"',
    "\u2033": '"', "\u02ba": '"', "\u00d7": "x", "\u2248": "~", "\u223c": "~",
})  # fmt: skip

# What a figure starts with.
FIGURE = re.compile(rf"[0-9{''.join(_VULGAR)}]|\.(?=[0-9])")

_NUMBER = re.compile(
    r"(?P<mixed>[0-9]{1,4})(?: {1,2}| ?- ?)(?P<num>[0-9]{1,3}) ?/ ?(?P<den>[0-9]{1,3})(?![0-9])"
    rf"|(?P<whole>[0-9]{{1,4}})?(?:(?<=[0-9])(?: |-))?(?P<vulgar>[{''.join(_VULGAR)}])"
    r"|(?P<above>[0-9]{1,4}) ?/ ?(?P<below>[0-9]{1,4})(?![0-9])"
    r"|(?P<plain>[0-9]{1,3}(?:,[0-9]{3}){1,2}(?![0-9])(?:\.[0-9]{1,6})?"
    r"|[0-9]{1,7}(?:\.[0-9]{1,6})?|\.[0-9]{1,6})"
    r"(?![0-9])"
)

_DIGITS = re.compile(r"[0-9]{1,7}(?![0-9])")

# Parts of an inch that a tape shows.
TAPE = frozenset({1, 2, 4, 8, 16, 32, 64})


class Number(NamedTuple):
    """A figure: its `value`, where it ends, its `shape` (`whole`, `decimal`, `mixed`, `fraction`, `odd`).

    An `odd` figure is a fraction that stands for a quantity only with a length unit (`9/4 in`, `7/10 in`).
    """

    value: Fraction
    end: int
    shape: str


def plain(text: str) -> str:
    """The text with typographic spaces, dashes, quotation marks and primes made plain; as long as before."""
    return text.translate(_PLAIN)


def read_number(text: str, at: int) -> tuple[Number, ...]:
    """The readings of the figure at `at`, best first: `7 1/2` is 7 1/2, or else 7. May be none."""
    readings: list[Number] = []
    match = _NUMBER.match(text, at)
    if match is None:
        return ()
    if match["mixed"] is not None:
        above, below = int(match["num"]), int(match["den"])
        if 0 < above < below and not match["mixed"].startswith("0"):
            shape = "mixed" if below in TAPE or below == 3 else "odd"
            readings.append(Number(int(match["mixed"]) + Fraction(above, below), match.end(), shape))
    elif match["vulgar"] is not None:
        whole = match["whole"]
        part = Fraction(_VULGAR[match["vulgar"]])
        readings.append(Number(int(whole or 0) + part, match.end(), "mixed" if whole else "fraction"))
    elif match["above"] is not None:
        readings.extend(_fraction(match["above"], match["below"], match.end()))
    else:
        return _simple(match["plain"], match.end())
    again = _DIGITS.match(text, at)
    if again is not None:
        readings.extend(_simple(again[0], again.end()))
    return tuple(readings)


def _fraction(above: str, below: str, end: int) -> tuple[Number, ...]:
    num, den = int(above), int(below)
    if not num or not den or above.startswith("0") or below.startswith("0"):
        return ()
    tape = num < den and (den in TAPE or den == 3)
    share = num == 1 and den >= 100 and den % 10 == 0
    shape = "fraction" if tape or share else "odd"
    return (Number(Fraction(num, den), end, shape),)


def _simple(typed: str, end: int) -> tuple[Number, ...]:
    digits = typed.replace(",", "")
    if len(digits) > 1 and digits[0] == "0" and digits[1] != ".":
        return ()
    value = Fraction("0" + digits if digits[0] == "." else digits)
    return (Number(value, end, "decimal" if "." in typed else "whole"),)
