"""Reading the line that says how long the client has to decide, and counting it out."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from narrator.assess.counting import Rule, count_days, is_open, next_open
from narrator.assess.dates import DateNote, match_clock, match_date
from narrator.compose.english import clock, long_date
from narrator.errors import did_you_mean

_COUNT = re.compile(r"(?P<days>\d{1,3})\s+(?:(?P<kind>business|calendar)\s+)?days?\s+(?:from|after)\s+", re.IGNORECASE)
_END = re.compile(r"(?:ends?|closes|until)\s+(?:on\s+)?", re.IGNORECASE)
_AT = re.compile(r"\s+(?:at\s+)?", re.IGNORECASE)
_GAP = re.compile(r"[\s,;]*")
_ITEM = re.compile(
    r"(?P<ends>ends?\s+(?:(?:at|on)\s+)?)|(?P<rolls>rolls(?:\s+over)?(?!\w))"
    r"|counted\s+(?:as\s+)?(?P<counted>[\w-]+)|told\s+by\s+(?P<told>[^,;]*[^,;\s])",
    re.IGNORECASE,
)
_PLAIN = Rule()


@dataclass(frozen=True, slots=True)
class WindowFault:
    """What is wrong with the line and what would be right; `column` counts from 0 into the text."""

    message: str
    column: int


@dataclass(frozen=True, slots=True)
class Window:
    """A review window. `closes` is a local date; `hour` is None unless typed, or given by a typed rule.

    `first` and `last` are the first and last counted day, the last one before it moved. Where an end date was
    typed nothing is counted: `first` is None, and `last` too unless the end moved.
    """

    closes: date
    opens: date | None = None
    opens_hour: str | None = None
    hour: str | None = None
    hour_typed: bool = False
    days: int | None = None
    business: bool = False
    rolls: bool = False
    moved: bool = False
    first: date | None = None
    last: date | None = None
    counted: str | None = None
    rule: Rule = _PLAIN
    told_by: str | None = None
    notes: tuple[str, ...] = ()


@dataclass(slots=True)
class _Typed:
    """What the line says, as far as it is read."""

    days: int | None = None
    kind: str = ""
    start: date | None = None
    start_hour: str | None = None
    end: date | None = None
    hour: str | None = None
    rolls: bool = False
    counted: str | None = None
    told: str | None = None
    notes: tuple[str, ...] = ()


class _UnreadError(Exception):
    """Carries a fault out of the reading."""

    def __init__(self, message: str, column: int) -> None:
        super().__init__(message)
        self.fault = WindowFault(message, column)


def read_window(text: str, rules: Mapping[str, Rule]) -> Window | WindowFault:
    """Read a review window as section 3 of the notation writes it, and count it out."""
    try:
        return _counted(_typed(text, rules), rules, text)
    except _UnreadError as unread:
        return unread.fault


def _typed(text: str, rules: Mapping[str, Rule]) -> _Typed:
    typed = _Typed()
    start = len(text) - len(text.lstrip())
    count, end = _COUNT.match(text, start), _END.match(text, start)
    if count:
        typed.days, typed.kind = int(count["days"]), (count["kind"] or "").lower()
        typed.start, position = _date(text, count.end(), typed)
        typed.start_hour, position = _clock(text, position, typed)
    elif end:
        typed.end, position = _date(text, end.end(), typed)
        typed.hour, position = _clock(text, position, typed)
    else:
        raise _UnreadError("Type it as `10 days from 4 March 2026` or `ends 14 March 2026 17:00`.", start)
    while (position := _GAP.match(text, position).end()) < len(text):  # type: ignore[union-attr]
        position = _item(text, position, typed, rules)
    return typed


def _date(text: str, start: int, typed: _Typed) -> tuple[date, int]:
    found = match_date(text, start)
    note = found[0] if found else DateNote(None, problem=f"'{text[start:].strip()}' is not a date.")
    if found is None or note.day is None:
        raise _UnreadError(f"{note.problem} Type it as 4 March 2026.", start)
    if note.ambiguous:
        shown = text[start : found[1]].strip()
        typed.notes += (f"'{shown}' was read with the month first, as {long_date(note.day)}.",)
    return note.day, found[1]


def _clock(text: str, start: int, typed: _Typed) -> tuple[str | None, int]:
    gap = _AT.match(text, start)
    found = match_clock(text, gap.end()) if gap else None
    if gap is None or found is None:
        return None, start
    _doubt_hour(text[gap.end() : found[1]], found[0], typed)
    return found


def _doubt_hour(shown: str, hour: str, typed: _Typed) -> None:
    if re.fullmatch(r"0?[1-7]:\d\d", shown):
        typed.notes += (f"'{shown}' was read as {clock(hour)}",)


def _item(text: str, start: int, typed: _Typed, rules: Mapping[str, Rule]) -> int:
    match = _ITEM.match(text, start)
    if match is None:
        raise _UnreadError(
            f"'{text[start:].strip()}' is not part of a review window. After the date it may say "
            "`ends 17:00`, `rolls`, `counted ID` or `told by WHO`.",
            start,
        )
    if match["ends"]:
        return _ends(text, match.end(), typed)
    if match["rolls"]:
        typed.rolls = True
    elif match["counted"]:
        name = match["counted"].lower()
        if name not in rules:
            known = did_you_mean(name, rules) or f" There are {', '.join(sorted(rules))}."
            message = f"'{name}' is no way of counting in windows.yaml.{known}"
            raise _UnreadError(message, match.start("counted"))
        if typed.counted not in (None, name):
            raise _UnreadError("The line names two ways of counting. Keep one.", start)
        typed.counted = name
    else:
        typed.told = " ".join(match["told"].split())
    return match.end()


def _ends(text: str, start: int, typed: _Typed) -> int:
    day: date | None = None
    hour: str | None = None
    clocked = match_clock(text, start)
    if clocked:
        hour, position = clocked
        _doubt_hour(text[start:position], hour, typed)
    else:
        day, position = _date(text, start, typed)
        hour, position = _clock(text, position, typed)
    if (day and typed.end) or (hour and typed.hour):
        raise _UnreadError("The line says twice when the window ends. Keep one.", start)
    typed.end, typed.hour = day or typed.end, hour or typed.hour
    return position


def _counted(typed: _Typed, rules: Mapping[str, Rule], text: str) -> Window:
    rule = rules[typed.counted] if typed.counted else _PLAIN
    days = typed.days
    if days is not None and not 1 <= days <= 366:
        raise _UnreadError("A review window has 1 to 366 days.", 0)
    by_rule = days is not None and rule.counts_business(days)
    business = typed.kind == "business" if typed.kind else by_rule
    if typed.counted and business != by_rule:
        other = "business" if by_rule else "calendar"
        message = f"The line says {typed.kind} days, and '{rule.id}' counts {other} days. Keep one."
        raise _UnreadError(message, text.lower().index(typed.kind))
    shared = Window(
        closes=date.min,
        opens=typed.start,
        opens_hour=typed.start_hour,
        hour=typed.hour or rule.ends,
        hour_typed=typed.hour is not None,
        days=days,
        business=business,
        rolls=typed.rolls,
        counted=typed.counted,
        rule=rule,
        told_by=typed.told,
        notes=typed.notes,
    )
    if typed.start is None or days is None:
        return _ended(shared, typed, text)
    if typed.end is not None:
        by_count = count_days(typed.start, days, rule, business=business, rolls=False, hour=typed.start_hour)
        ended = _ended(shared, typed, text)
        if by_count.closes == typed.end:
            return ended
        note = f"The count would end on {long_date(by_count.closes)}. The typed end was kept."
        return replace(ended, notes=(*ended.notes, note))
    rolls = typed.rolls or rule.rolls == "next-open-day"
    done = count_days(typed.start, days, rule, business=business, rolls=rolls, hour=typed.start_hour)
    rolled_hour = rule.roll_ends if done.moved and not shared.hour_typed else None
    return replace(
        shared,
        closes=done.closes,
        hour=rolled_hour or shared.hour,
        rolls=rolls,
        moved=done.moved,
        first=done.first,
        last=done.last,
    )


def _ended(shared: Window, typed: _Typed, text: str) -> Window:
    """The window whose end date was typed: it wins over any count, and moves only where `rolls` is typed."""
    end = typed.end or date.min
    if typed.start is not None and end < typed.start:
        raise _UnreadError("The window ends before it starts.", text.lower().index("end"))
    if not typed.rolls or is_open(end, shared.rule.holidays):
        return replace(shared, closes=end)
    return replace(shared, closes=next_open(end, shared.rule.holidays), last=end, moved=True)
