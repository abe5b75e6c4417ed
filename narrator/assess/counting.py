"""Counting the days of a review window: calendar and business days, holidays, and ends that move.

Holidays are computed from the rules of 5 U.S.C. 6103 and Executive Order 11582: one that falls on a Saturday
is also kept on the Friday before, one on a Sunday also on the Monday after.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import Any, NamedTuple

ONE_DAY = timedelta(days=1)
# Fixed holidays by month and day; the others by month, weekday (Monday is 0) and which of them, -1 the last.
_FIXED = {
    "new-year": (1, 1),
    "juneteenth": (6, 19),
    "independence": (7, 4),
    "veterans": (11, 11),
    "christmas": (12, 25),
}
_FLOATING = {
    "king": (1, 0, 3),
    "presidents": (2, 0, 3),
    "memorial": (5, 0, -1),
    "labor": (9, 0, 1),
    "columbus": (10, 0, 2),
    "thanksgiving": (11, 3, 4),
}
FEDERAL = (*_FIXED, *_FLOATING)
_COUNTS = ("calendar", "business", "short-business")
_ROLLS = ("none", "next-open-day")
_FIRSTS = ("next-day", "same-day-before-8")


@dataclass(frozen=True, slots=True)
class Rule:
    """How one form counts: see `library/windows.yaml` for what each part means."""

    id: str = ""
    label: str = ""
    count: str = "calendar"
    short: int = 0
    ends: str | None = None
    rolls: str = "none"
    roll_ends: str | None = None
    first: str = "next-day"
    last: str = "same-day"
    holidays: tuple[str, ...] = FEDERAL
    source: str = ""
    known_by: str = ""

    def counts_business(self, days: int) -> bool:
        """Whether a window of so many days counts business days only."""
        return self.count == "business" or (self.count == "short-business" and days <= self.short)


class Counted(NamedTuple):
    """A window counted out: first day, last day before any move, the day it closes on, whether that moved."""

    first: date
    last: date
    closes: date
    moved: bool


def rules_from(data: Mapping[str, Any]) -> dict[str, Rule]:
    """The rules of `windows.yaml` by id; an unknown value is a ValueError that names it."""
    return {str(name): _rule(str(name), row) for name, row in data["rules"].items()}


def _rule(name: str, row: Mapping[str, Any]) -> Rule:
    typed = row.get("holidays") or "federal"
    listed = [typed] if isinstance(typed, str) else [str(item) for item in typed]
    days = tuple(dict.fromkeys(day for item in listed for day in (FEDERAL if item == "federal" else (item,))))
    rule = Rule(
        id=name,
        label=str(row["label"]),
        count=str(row.get("count") or "calendar"),
        short=int(row.get("short") or 0),
        ends=_text(row.get("ends")),
        rolls=str(row.get("rolls") or "none"),
        roll_ends=_text(row.get("roll_ends")),
        first=str(row.get("first") or "next-day"),
        last=str(row.get("last") or "same-day"),
        holidays=days,
        source=str(row.get("source", "")),
        known_by=str(row.get("known_by", "")),
    )
    known = (*FEDERAL, "friday-after-thanksgiving")
    for key, value, values in (
        ("count", rule.count, _COUNTS),
        ("rolls", rule.rolls, _ROLLS),
        ("first", rule.first, _FIRSTS),
        ("last", rule.last, ("same-day", "next-open-day")),
        *(("holidays", day, known) for day in days),
    ):
        if value not in values:
            raise ValueError(f"{name}: {key} cannot be '{value}'. It is one of {', '.join(values)}.")
    return rule


def _text(value: object) -> str | None:
    return None if value in (None, "", "null", "~") else str(value)


@lru_cache(maxsize=64)
def holidays_of(year: int, names: tuple[str, ...] = FEDERAL) -> frozenset[date]:
    """The holidays of a year by name, with the weekdays on which those of a weekend are kept."""
    days: set[date] = set()
    for name in names:
        if name in _FIXED and not (name == "juneteenth" and year < 2021):
            days.update(_kept(date(year, *_FIXED[name])))
        elif name in _FLOATING:
            days.add(_nth(year, *_FLOATING[name]))
        elif name == "friday-after-thanksgiving":
            days.add(_nth(year, *_FLOATING["thanksgiving"]) + ONE_DAY)
    return frozenset(days)


def _kept(day: date) -> tuple[date, ...]:
    moved = {5: day - ONE_DAY, 6: day + ONE_DAY}.get(day.weekday())
    return (day, moved) if moved else (day,)


def _nth(year: int, month: int, weekday: int, which: int) -> date:
    if which < 0:
        last = date(year, month + 1, 1) - ONE_DAY
        return last - timedelta(days=(last.weekday() - weekday) % 7)
    first = date(year, month, 1)
    return first + timedelta(days=(weekday - first.weekday()) % 7 + 7 * (which - 1))


def is_open(day: date, names: tuple[str, ...] = FEDERAL) -> bool:
    """Whether the day is a business day: not a Saturday, a Sunday or one of the holidays."""
    return day.weekday() < 5 and not any(day in holidays_of(year, names) for year in (day.year, day.year + 1))


def next_open(day: date, names: tuple[str, ...] = FEDERAL) -> date:
    """The first business day after this one."""
    day += ONE_DAY
    while not is_open(day, names):
        day += ONE_DAY
    return day


def count_days(start: date, days: int, rule: Rule, *, business: bool, rolls: bool, hour: str | None = None) -> Counted:
    """Count the days from a start. Day one is the next day, or the same one where the rule allows it."""
    may_start = rule.first == "same-day-before-8" and is_open(start, rule.holidays)
    early = may_start and hour is not None and hour < "08:00"
    if business:
        first = last = start if early else next_open(start, rule.holidays)
        for _ in range(days - 1):
            last = next_open(last, rule.holidays)
    else:
        first = start if early else start + ONE_DAY
        last = first + timedelta(days=days - 1)
    closes = next_open(last, rule.holidays) if rule.last == "next-open-day" else last
    moved = rolls and not is_open(closes, rule.holidays)
    return Counted(first, last, next_open(closes, rule.holidays) if moved else closes, moved)
