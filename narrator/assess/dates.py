"""Dates and hours as people type them. Nothing is guessed: a date needs its year."""

from __future__ import annotations

import re
from datetime import date
from functools import cache
from typing import NamedTuple

from narrator.compose.english import MONTHS, WEEKDAYS, long_date

_WEEKDAY = r"(?:(?P<weekday>mon|tue|wed|thu|fri|sat|sun)[a-z]{0,6}\.?,?\s+)?"
_DAY = r"(?P<day>\d{1,2})(?:st|nd|rd|th)?"
_MONTH = r"(?P<month>[a-z]{3,9})\.?"
_YEAR = r",?\s+(?P<year>\d{4})"
# Compiled one by one when they are tried: a date nearly always has the first shape.
_SHAPES = (
    _WEEKDAY + _DAY + r"\s+(?:of\s+)?" + _MONTH + _YEAR + r"(?![\w/-])",
    _WEEKDAY + r"(?P<year>\d{4})-(?P<month>\d{1,2})-(?P<day>\d{1,2})(?![\w/-])",
    _WEEKDAY + r"(?P<month>\d{1,2})/(?P<day>\d{1,2})/(?P<year>\d{4}|\d{2})(?![\w/-])",
    _WEEKDAY + _MONTH + r"\s+" + _DAY + _YEAR + r"(?![\w/-])",
)
_NO_YEAR = (
    _WEEKDAY + r"(?P<month>\d{1,2})/(?P<day>\d{1,2})(?![\w/])",
    _WEEKDAY + _DAY + r"\s+(?:of\s+)?" + _MONTH + r"(?![\w/])",
    _WEEKDAY + _MONTH + r"\s+" + _DAY + r"(?![\w/])",
)
_HALF = r"\s*(?P<half>[ap])\.?\s?m\b\.?"
_CLOCKS = (
    r"(?:12\s+)?(?P<noon>noon)\b",
    r"(?P<hour>\d{1,2}):(?P<minute>\d{2})" + _HALF,
    r"(?P<hour>\d{1,2})" + _HALF,
    r"(?P<hour>\d{1,2}):(?P<minute>\d{2})(?![\w:/])",
)


@cache
def _compiled(shape: str) -> re.Pattern[str]:
    return re.compile(shape, re.IGNORECASE)


class DateNote(NamedTuple):
    """A typed date: the day, or what is wrong with it; `ambiguous` if day and month could change places."""

    day: date | None
    ambiguous: bool = False
    problem: str = ""


def match_date(text: str, start: int = 0) -> tuple[DateNote, int] | None:
    """The date that stands at `start`, and where it ends; None if nothing there looks like one."""
    for shape in _SHAPES:
        match = _compiled(shape).match(text, start)
        if match:
            note = _dated(match)
            if note is not None:
                return note, match.end()
    for shape in _NO_YEAR:
        match = _compiled(shape).match(text, start)
        if match and _month_number(match["month"]):
            return DateNote(None, problem=f"'{match.group()}' has no year."), match.end()
    return None


def _month_number(typed: str) -> int:
    if typed.isdigit():
        return int(typed)
    lower = typed.lower()
    names = (name.lower() for name in MONTHS)
    return next(
        (
            number
            for number, name in enumerate(names, 1)
            if lower in (name, name[:3]) or (lower == "sept" and name == "september")
        ),
        0,
    )


def _dated(match: re.Match[str]) -> DateNote | None:
    month, year = _month_number(match["month"]), int(match["year"])
    if not month:
        return None
    number = int(match["day"])
    try:
        day = date(year + 2000 if len(match["year"]) == 2 else year, month, number)
        if not 1900 <= day.year < 2200:
            raise ValueError(day)
    except ValueError:
        slashed = " The month goes first." if "/" in match.group() else ""
        return DateNote(None, problem=f"'{match.group()}' is no day of the calendar.{slashed}")
    weekday = WEEKDAYS[day.weekday()]
    typed = match["weekday"]
    if typed and not weekday.lower().startswith(typed.lower()):
        return DateNote(None, problem=f"{long_date(day)} is a {weekday}, and the line has another weekday.")
    return DateNote(day, ambiguous="/" in match.group() and number <= 12 and number != month)


def parse_date_note(text: str) -> DateNote:
    """The whole text read as one date, with what is doubtful about it."""
    stripped = text.strip()
    found = match_date(stripped)
    if found is None or found[1] != len(stripped):
        return DateNote(None, problem=f"'{stripped}' is not a date. Type it as 4 March 2026.")
    return found[0]


def parse_date(text: str) -> date | None:
    """The day that the text names (`4 March 2026`, `March 4, 2026`, `2026-03-04`, `3/4/2026`), else None."""
    return parse_date_note(text).day


def match_clock(text: str, start: int = 0) -> tuple[str, int] | None:
    """The hour that stands at `start` as `HH:MM`, and where it ends; None if none stands there."""
    for shape in _CLOCKS:
        match = _compiled(shape).match(text, start)
        if match:
            clock = _clocked(match.groupdict())
            return (clock, match.end()) if clock else None
    return None


def _clocked(typed: dict[str, str | None]) -> str | None:
    if typed.get("noon"):
        return "12:00"
    hour, minute = int(typed["hour"] or 0), int(typed.get("minute") or 0)
    half = (typed.get("half") or "").lower()
    if half:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half == "p" else 0)
    return f"{hour:02d}:{minute:02d}" if hour < 24 and minute < 60 else None


def parse_clock(text: str) -> str | None:
    """The hour that the text names (`17:00`, `5 pm`, `5:30 p.m.`, `noon`) as `HH:MM`, else None.

    `midnight` is refused: it may be the start or the end of the day.
    """
    stripped = text.strip()
    found = match_clock(stripped)
    return found[0] if found and found[1] == len(stripped) else None
