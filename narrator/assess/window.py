"""The review window: the client's fact and our arithmetic, told once and in plain words."""

from __future__ import annotations

from datetime import date

from narrator.assess.counting import Rule, rules_from
from narrator.assess.dates import DateNote, parse_clock, parse_date, parse_date_note
from narrator.assess.window_read import Window, WindowFault, read_window
from narrator.compose.english import DATES, capital_first, clock, long_date, short_date, weekday_date

__all__ = [
    "DateNote",
    "Piece",
    "Rule",
    "Window",
    "WindowFault",
    "parse_clock",
    "parse_date",
    "parse_date_note",
    "read_window",
    "rules_from",
    "sentence",
    "spoken",
]

Piece = tuple[str, str]  # a stretch of text and its kind: text, date, count, clock or source

_CLIENT = frozenset({"you", "client", "clients", "buyer", "buyers"})
_HIRED = frozenset({"agent", "lawyer", "attorney", "realtor", "broker", "buyer's agent", "buyers agent"})


def sentence(window: Window, told_by: str | None = None, dates: str = DATES[0]) -> tuple[Piece, ...]:
    """The paragraph of the first page, in pieces, so that each date, count, hour and source can be traced.

    `dates`: one of the forms of a date.
    """
    said = [*_told(told_by or window.told_by), (" told us that your contract gives you ", "text")]
    if window.days is None or window.opens is None:
        said += [("until ", "text"), *_end(window, window.last or window.closes, window.hour_typed, dates)]
    else:
        said += _span(window, dates)
        if window.first is None:
            said += [
                (", and that they end on ", "text"),
                *_end(window, window.last or window.closes, window.hour_typed, dates),
            ]
    said.append(_stop(said))
    said += _arithmetic(window, dates) if window.first else _after_typed_end(window, dates)
    if window.hour is None:
        said.append(("We do not know the hour at which that day ends. ", "text"))
    many = ", and forms do not all count alike" if window.first else ""
    said.append(
        (
            f"We have not read your contract{many}. Ask your agent or lawyer today to confirm the day "
            "and hour, and go by their answer.",
            "text",
        )
    )
    return tuple(_merged(said))


def spoken(pieces: tuple[Piece, ...]) -> str:
    """The pieces as one text."""
    return "".join(text for text, _ in pieces)


def _told(who: str | None) -> list[Piece]:
    name = (who or "").strip()
    plain = name.lower().replace("’", "'")
    for lead in ("the ", "your ", "my ", "our "):
        plain = plain.removeprefix(lead)
    if plain in _CLIENT or not name:
        return [("You", "source" if name else "text")]
    if plain in _HIRED:
        return [("Your " + plain.split()[-1], "source")]
    led = name.lower().startswith(("the ", "your ", "our ", "a ", "an "))
    return [(capital_first(name) if led or not name.islower() else f"The {name}", "source")]


def _span(window: Window, dates: str) -> list[Piece]:
    business = " business" if window.business and window.counted is None else ""
    days = "day" if window.days == 1 else "days"
    said: list[Piece] = [(str(window.days), "count"), (f"{business} {days} from ", "text")]
    if window.opens is not None:
        said.append((long_date(window.opens, dates), "date"))
    if window.opens_hour:
        said += [(", ", "text"), (clock(window.opens_hour), "clock")]
    return said


def _arithmetic(window: Window, dates: str) -> list[Piece]:
    said: list[Piece] = [(f"We counted {'business' if window.business else 'calendar'} days", "text")]
    if window.counted:
        said += [(", as is usual for ", "text"), (window.rule.label, "source")]
    if window.business:
        federal = window.rule.holidays == Rule().holidays
        holidays = "federal holidays" if federal else "the holidays of that form"
        said.append((f", without Saturdays, Sundays and {holidays}", "text"))
    if window.first is not None and window.opens is not None:
        show = short_date if window.first.year == window.opens.year else long_date
        comma = "," if window.counted or window.business else ""
        said += [(f"{comma} and began with ", "text"), (show(window.first, dates), "date"), (". ", "text")]
    if window.moved and window.last is not None:
        said += [("The last day would be ", "text"), (weekday_date(window.last, dates), "date"), (". ", "text")]
        said += _moved(window, dates)
    else:
        runs_on = window.last != window.closes
        lead = "The last of them runs into the next business day, " if runs_on else "The last day is then "
        said += [(lead, "text"), *_end(window, window.closes, True, dates)]
        said.append(_stop(said))
    return said


def _after_typed_end(window: Window, dates: str) -> list[Piece]:
    said = _moved(window, dates) if window.moved else []
    if window.hour is not None and not window.hour_typed and not window.moved:
        said += [
            ("For ", "text"),
            (window.rule.label, "source"),
            (" that day usually ends at ", "text"),
            (clock(window.hour), "clock"),
        ]
        said.append(_stop(said))
    return said


def _moved(window: Window, dates: str) -> list[Piece]:
    said = [
        ("That is not a business day, so the end moves to the next one, ", "text"),
        *_end(window, window.closes, True, dates),
    ]
    return [*said, _stop(said)]


def _end(window: Window, day: date, with_hour: bool, dates: str) -> list[Piece]:
    said: list[Piece] = [(weekday_date(day, dates), "date")]
    if window.hour is not None and with_hour:
        said += [(", at ", "text"), (clock(window.hour), "clock")]
    return said


def _stop(said: list[Piece]) -> Piece:
    """The full stop and space after what was said; `5 p.m.` brings its own stop."""
    return (" " if said[-1][0].endswith(".") else ". ", "text")


def _merged(said: list[Piece]) -> list[Piece]:
    merged: list[Piece] = []
    for text, kind in said:
        if merged and kind == "text" == merged[-1][1]:
            merged[-1] = (merged[-1][0] + text, kind)
        elif text:
            merged.append((text, kind))
    return merged
