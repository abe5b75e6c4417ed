"""One figure with its unit: alone, or as one end of a range."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from narrator.measure.numbers import Number, read_number
from narrator.measure.spelling import read_unit
from narrator.measure.table import UNITS
from narrator.measure.traps import free_right

__all__ = ["Side", "sides"]

_FEET = re.compile(r" ?(?:'(?!')|-?(?:feet|foot|ft)(?![a-z])\.?)", re.IGNORECASE)
_INCHES = re.compile(r" ?(?:\"|''|-?(?:inches|inch|ins|in)(?!\w)\.?)", re.IGNORECASE)
_GAP = re.compile(r"(?: ?- ?| ?, | +|)")
_TWELVE = re.compile(
    r"(?: ?[/:] ?12| (?:in|on) 12)(?![\w/]|[.,:-]\w| ?[ap]\.?m(?!\w))(?: ?pitch(?!\w))?", re.IGNORECASE
)
_OF = re.compile(r" (?:out )?of (?:the )?(?=[0-9])", re.IGNORECASE)
_STEEPEST = 48  # rise in 12: steeper is a wall, and `60/12` something else


class Side(NamedTuple):
    """A figure, its unit id (`''` if none), where it ends, its shape (see `Number`), and m of `n of m`."""

    value: Fraction
    unit: str
    end: int
    shape: str
    of: Fraction | None = None


def sides(line: str, at: int) -> list[Side]:
    """The readings of the figure at `at` of a plain line with what belongs to it, best first."""
    found: list[Side] = []
    for number in read_number(line, at):
        slope = _slope(line, number)
        if slope is not None:
            return [slope]
        if number.shape == "whole":
            found.extend(_feet_inches(line, number))
            found.extend(_of(line, number))
        found.extend(_with_unit(line, number))
    return found


def _with_unit(line: str, number: Number) -> list[Side]:
    unit = read_unit(line, number.end)
    if unit is None:
        return [Side(number.value, "", number.end, number.shape)]
    name, end = unit
    if number.shape != "odd":
        return [Side(number.value, name, end, number.shape)]
    return [Side(number.value, name, end, "mixed")] if UNITS[name].dimension == "length" else []


def _slope(line: str, number: Number) -> Side | None:
    """`8/12`, `8:12`, `8 in 12`: a rise over a run of 12, unless a unit makes the 12 something else."""
    if number.value > _STEEPEST or number.shape in ("fraction", "odd"):
        return None
    match = _TWELVE.match(line, number.end)
    if match is None or read_unit(line, match.end()) is not None or not free_right(line, match.end()):
        return None
    return Side(number.value, "inch/foot", match.end(), "whole")


def _of(line: str, number: Number) -> list[Side]:
    match = _OF.match(line, number.end)
    if match is None:
        return []
    totals = read_number(line, match.end())
    return [
        Side(number.value, "", total.end, "whole", total.value)
        for total in totals
        if total.shape == "whole" and total.value >= number.value
    ]


def _feet_inches(line: str, number: Number) -> list[Side]:
    """`5'10"`, `5 ft 10 1/2 in`, `5'-10"`, `5'10`; the inches below twelve."""
    feet = _FEET.match(line, number.end)
    gap = _GAP.match(line, feet.end()) if feet is not None else None
    if feet is None or gap is None:
        return []
    found: list[Side] = []
    for inches in read_number(line, gap.end()):
        named = _INCHES.match(line, inches.end)
        end = named.end() if named is not None else inches.end
        unnamed = feet[0].strip() == "'" and not gap[0] and inches.shape in ("whole", "mixed")
        if inches.value < 12 and (named is not None or unnamed) and free_right(line, end):
            found.append(Side(number.value + inches.value / 12, "foot", end, "mixed"))
    return found
