"""Finding quantities in free text: `gap 1/4 in`, `5'10"`, `8/12`, `~4`, `7 to 9-1/4 in`, `11 of 14`.

What only looks like a quantity is left alone: dates, hours, telephone numbers, money, `2x6`, `A1`, `3-way`,
`2nd`, `15/20A`. A figure that cannot be (`1/0`) is none.
"""

from __future__ import annotations

import re
from fractions import Fraction

from narrator.measure.marked import marked
from narrator.measure.numbers import FIGURE, plain
from narrator.measure.quantity import Found, Quantity
from narrator.measure.side import Side, sides
from narrator.measure.table import UNITS
from narrator.measure.traps import free_left, free_right, trap_spans

__all__ = ["parse_value", "scan"]

_TO = re.compile(r" ?- ?| (?:to|thru|through) ", re.IGNORECASE)
_BOUND = re.compile(
    r"(?:(?P<about>~|(?<!\w)(?:abt|about|approximately|approx|appx|around|roughly|circa|ca)(?!\w)\.?|(?<!\w)c\.)"
    r"|(?P<less><(?!<)|(?<!\w)(?:less|fewer|lower) than(?!\w))"
    r"|(?P<more>(?<![-=>])>|(?<!\w)(?:more|greater|higher) than(?!\w))) *$",
    re.IGNORECASE,
)
_LONGEST_BOUND = 20


def scan(text: str) -> tuple[Found, ...]:
    """All quantities in `text`, left to right, their spans disjoint. A bare figure has the unit `''`.

    Never raises. `text[start:end]` of each is what was typed, with its bound and its unit.
    """
    if FIGURE.search(text) is None:
        return ()
    line = plain(text)
    found = marked(line, text)
    closed = sorted([(one.start, one.end) for one in found] + trap_spans(line))
    at = next_closed = 0
    while (match := FIGURE.search(line, at)) is not None:
        start = match.start()
        while next_closed < len(closed) and closed[next_closed][1] <= start:
            next_closed += 1
        low, high = closed[next_closed] if next_closed < len(closed) else (len(line), len(line))
        if low <= start:
            at = high
            continue
        one = _quantity(line, text, start, at)
        if one is not None and one.end <= low:
            found.append(one)
            at = one.end
        else:
            at = _past(line, start)
    return tuple(sorted(found, key=lambda one: one.start))


def parse_value(text: str) -> Quantity | None:
    """The quantity that the whole text, without space around it, is; else `None`."""
    trimmed = text.strip()
    found = scan(trimmed)
    if len(found) == 1 and (found[0].start, found[0].end) == (0, len(trimmed)):
        return found[0].quantity
    return None


def _past(line: str, start: int) -> int:
    """The position after the digits that start at `start`."""
    end = start + 1
    while end < len(line) and line[end].isdigit():
        end += 1
    return end


def _quantity(line: str, text: str, start: int, floor: int) -> Found | None:
    """The quantity whose first digit is at `start`, with its sign or bound, if that is not before `floor`."""
    negative = start > floor and line[start - 1] == "-" and (start < 2 or line[start - 2] in " (=,~<>")
    begin = start - 1 if negative else start
    bound = ""
    before = _BOUND.search(line, max(floor, begin - _LONGEST_BOUND), begin)
    if before is not None:
        bound = "~" if before["about"] else "<" if before["less"] else ">"
        begin = before.start()
    if not free_left(line, begin, start):
        return None
    sign = -1 if negative else 1
    for first in sides(line, start):
        wide = _range(line, first, sign) if first.of is None else None
        if wide is not None:
            low, high, unit, end = wide
        elif first.shape == "odd" or not free_right(line, first.end):
            continue
        else:
            low, high, unit, end = sign * first.value, sign * first.value, first.unit, first.end
        return Found(Quantity(low, high, unit, bound, first.of, text[begin:end]), begin, end)
    return None


def _range(line: str, first: Side, sign: int) -> tuple[Fraction, Fraction, str, int] | None:
    """The range that `first` starts: low, high, unit, end. A unit after one of its figures holds for both."""
    between = _TO.match(line, first.end)
    if between is None:
        return None
    spaced = between[0] != "-" and "-" in between[0]
    for second in sides(line, between.end()):
        unit = second.unit or first.unit
        if second.of is not None or not free_right(line, second.end) or (spaced and not second.unit):
            continue
        if "odd" in (first.shape, second.shape) and (not unit or UNITS[unit].dimension != "length"):
            continue
        ends = _same_unit(sign * first.value, first.unit or unit, second.value, unit)
        if ends is None or (ends[0] > ends[1] and not unit):
            continue
        return min(ends[:2]), max(ends[:2]), ends[2], second.end
    return None


def _same_unit(low: Fraction, low_unit: str, high: Fraction, unit: str) -> tuple[Fraction, Fraction, str] | None:
    """Both ends in one unit, the smaller of the two (`6 in to 2 ft`); `None` if they do not convert."""
    if low_unit == unit:
        return low, high, unit
    first, second = UNITS[low_unit], UNITS[unit]
    if first.base != second.base or first.offset or second.offset:
        return None
    smaller = min(first, second, key=lambda one: one.factor)
    return low * first.factor / smaller.factor, high * second.factor / smaller.factor, smaller.id
