"""What the headers say: the house, the visit, the deadline, the meter."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from typing import Any, NamedTuple

from narrator.assess.window import Window, WindowFault, parse_date_note, read_window, rules_from
from narrator.compose.english import long_date
from narrator.read.model import Checklist
from narrator.resolve.model import Remark

_PLUS_MINUS = re.compile(r"(?:\+\s*/?\s*-|±)\s*(\d+(?:\.\d+)?)")
CONDITIONS = (
    "built",
    "weather",
    "rain before",
    "faces",
    "present",
    "occupied",
    "utilities",
    "agreement",
    "method",
    "moisture meter",
)
_ONCE = ("property", "visited", "inspector", "standard", "firm", "review window")


class House(NamedTuple):
    """The headers, read. `lines` are their line numbers."""

    property: str | None
    visited: str | None
    visited_day: date | None
    inspector: str | None
    clients: tuple[str, ...]
    conditions: Mapping[str, str]
    standard: str | None
    firm: str | None
    window: Window | None
    uncertainty: Fraction | None
    lines: tuple[int, ...]
    notes: tuple[Remark, ...]


def read_headers(checklist: Checklist, windows: Mapping[str, Any]) -> House:
    """The headers of a checklist; what cannot be read stays a header line and is said in a note."""
    notes: list[Remark] = []
    found: dict[str, str] = {}
    for key, values in checklist.headers.items():
        filled = [(value, number) for value, number in values if value]
        for value, number in values:
            if not value:
                notes.append(Remark("header", (number,), f"Nothing stands after '{key}:'."))
        if not filled:
            continue
        if key in _ONCE and len(filled) > 1:
            others = ", ".join(f"'{value}'" for value, _ in filled[1:])
            text = f"'{key}' stands {len(filled)} times; '{filled[0][0]}' is used, and {others} is left out."
            notes.append(Remark("header", tuple(number for _, number in filled), text))
        found[key] = filled[0][0] if key in _ONCE else "; ".join(value for value, _ in filled)
    visited = found.get("visited")
    day = None
    if visited:
        number = next(number for value, number in checklist.headers["visited"] if value)
        read = parse_date_note(visited)
        day = read.day
        if day is None:
            text = f"'{visited}' is not a date that can be counted with; type it like 4 March 2026."
            notes.append(Remark("header", (number,), text))
        elif read.ambiguous:
            text = f"'{visited}' was read with the month first, as {long_date(day)}."
            notes.append(Remark("header", (number,), text))
    window = None
    if "review window" in found:
        number = next(number for value, number in checklist.headers["review window"] if value)
        got = read_window(found["review window"], rules_from(windows))
        if isinstance(got, WindowFault):
            notes.append(Remark("header", (number,), f"The review window was not counted: {got.message}"))
        else:
            window = got
            notes += [Remark("header", (number,), f"The review window: {text}") for text in got.notes]
    meter = _PLUS_MINUS.search(found.get("moisture meter", ""))
    return House(
        property=found.get("property"),
        visited=visited,
        visited_day=day,
        inspector=found.get("inspector"),
        clients=tuple(value for value, _ in checklist.headers.get("client", ()) if value),
        conditions={key: found[key] for key in CONDITIONS if key in found},
        standard=found.get("standard"),
        firm=found.get("firm"),
        window=window,
        uncertainty=Fraction(meter.group(1)) if meter else None,
        lines=tuple(sorted({number for values in checklist.headers.values() for _, number in values})),
        notes=tuple(notes),
    )
