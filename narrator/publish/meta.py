"""The line `severity · trade · places · photos` under a title: written, and read again.

Severity and trade always stand. A no-break space ends each separator, and the texts between have none, so
that any place can be read back. In a line that lost them to a hand edit, plain spaces are taken instead.
"""

from __future__ import annotations

import re
from typing import TypedDict

from narrator.publish.blocks import Meta
from narrator.publish.labels import NO_TRADE
from narrator.publish.text import DOT, NBSP, counted, numbers_read

UNNAMED = NO_TRADE.replace(" ", NBSP, 1)
WITH, AND, THEN = f" with{NBSP}", f" and{NBSP}", f";{NBSP}"


class MetaRead(TypedDict):
    """What the line says."""

    severity: str
    trades: list[str]
    places: list[str]
    photos: list[int]
    sketches: list[int]


def trades(meta: Meta) -> str:
    """`electrician and plumber with mason`: who leads, then who is beside."""
    if not meta.leads and not meta.others:
        return UNNAMED
    if not meta.leads:
        return AND.join(meta.others)
    return WITH.join(filter(None, (AND.join(meta.leads), AND.join(meta.others))))


def photos(meta: Meta) -> str:
    """`photos 3, 7 to 9, sketch 60`; nothing where there are none."""
    return ", ".join(filter(None, (counted("photo", meta.photos), _sketches(meta))))


def _sketches(meta: Meta) -> str:
    text = counted("sketch", meta.sketches)
    return text.replace("sketchs", "sketches")


def line(meta: Meta) -> str:
    """The whole line."""
    return DOT.join(filter(None, (meta.severity, trades(meta), THEN.join(meta.places), photos(meta))))


def read_line(text: str) -> MetaRead:
    """What a printed line says."""
    ours = DOT in text
    fields = [field.strip(" ") for field in re.split(DOT if ours else r"\s·\s", text)]
    gap = NBSP if ours else r"\s"
    numbered = re.compile(rf"(?:photos?|sketch(?:es)?){gap}\d")
    last = fields.pop() if len(fields) > 1 and numbered.match(fields[-1]) else ""
    return {
        "severity": fields[0],
        "trades": _trades_read(fields[1], ours) if len(fields) > 1 else [],
        "places": [each for field in fields[2:] for each in re.split(f";{gap}", field) if each],
        "photos": read_photos(last)[0],
        "sketches": read_photos(last)[1],
    }


def _trades_read(text: str, ours: bool) -> list[str]:
    if text.replace(NBSP, " ") == NO_TRADE:
        return []
    return [
        each for each in re.split(f" (?:with|and){NBSP}" if ours else f" (?:with[ {NBSP}]|and{NBSP})", text) if each
    ]


def read_photos(text: str) -> tuple[list[int], list[int]]:
    """The photo and sketch numbers of a printed field."""
    before, _, after = text.partition("sketch")
    return numbers_read(before), numbers_read(after)
