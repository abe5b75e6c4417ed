"""The details of a line: each item read as far as its own words tell, without the library."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrator.measure.scan import scan
from narrator.read.cells import Piece, split, trim, unquote
from narrator.read.model import Item
from narrator.read.series import read_series

MOST_PHOTOS = 400
_PHOTO_WORD = re.compile(r"(?:photos?|pics?|pictures?|imgs?|images?)\b\.?\s*#?\s*", re.IGNORECASE)
_SKETCH_WORD = re.compile(r"sketch(?:es)?\s+(?:photos?|pics?|pictures?)\b\.?\s*#?\s*", re.IGNORECASE)
# Each number ends where its digits end, and a sign or space parts two: no text can be read in two ways.
_RANGES = re.compile(
    r"#?\d{1,5}(?!\d)(?:\s*[-–]\s*#?\d{1,5}(?!\d))?"
    r"(?:(?:\s*(?:&|\+|and|;)\s*|\s+|(?=#))#?\d{1,5}(?!\d)(?:\s*[-–]\s*#?\d{1,5}(?!\d))?)*\Z",
    re.IGNORECASE,
)
_RANGE = re.compile(r"(\d{1,5})(?:\s*[-–]\s*#?(\d{1,5}))?")
_COUNT = re.compile(r"(?:[x×]\s*(\d{1,4})|(\d{1,4})\s*[x×])\Z", re.IGNORECASE)
_BASIS = re.compile(r"(seen|measured|tested|smelled|smelt|heard|felt|inferred|read)\Z", re.IGNORECASE)
_READ = re.compile(r"read\s+(?:on|off|from|in)\s+(?:the\s+|a\s+)?(.+)\Z", re.IGNORECASE)
_TOLD = re.compile(r"(?:told|reported|stated)\s+by\s+(.+)\Z|per\s+(seller|owner|tenant|agent|buyer|occupant|neighbou?r)\Z", re.IGNORECASE)
_ACT = re.compile(
    r"(warned|told|notified|informed|alerted|called|phoned|advised|texted)\s+(?!by\b)(.+?)"
    r"(?:\s+(?:at\s+)?(\d{1,2}(?::\d{2})?\s*(?:[ap]\.?m\.?)?|noon))?\Z",
    re.IGNORECASE,
)
_SEVERITY = re.compile(r"(act|find)[- ](now|out)\Z|(plan|upkeep)\Z", re.IGNORECASE)
_TRADE = re.compile(r"trades?\s+(.+)\Z", re.IGNORECASE)
_SAYS = re.compile(r"(because|do)\s+(.+)\Z", re.IGNORECASE | re.DOTALL)
_HOLD = re.compile(r"hold back\s*(?:[-–]\s*(.+))?\Z", re.IGNORECASE | re.DOTALL)
_UNIT = re.compile(
    r"((?:main |sub)?panel|furnace|boiler|unit|(?:water )?heater|air handler|heat pump|condenser|ac|a/c|garage door|window|door|"
    r"skylight|chimney|fireplace|toilet|sink|post|column|breaker|circuit|zone|gutter|downspout)\s+(?:no\.?\s*|#)?(\d{1,2}|[A-Z])\Z"
)

def read_items(pieces: Sequence[Piece]) -> tuple[Item, ...]:
    """The items of detail cells, in order; nothing is dropped."""
    out: list[Item] = []
    for cell in pieces:
        for part in split(cell, ","):
            item = read_item(part)
            before = out[-1] if out else None
            if before and before.kind in ("photos", "sketch") and _RANGES.match(part.text):
                numbers = photo_numbers(part.text)
                if numbers:
                    out[-1] = replace(before, text=f"{before.text}, {part.text}", numbers=before.numbers + numbers)
                    continue
            if before and before.kind == "series" and item.kind == "series" and not item.label and not item.control:
                out[-1] = replace(
                    before, text=f"{before.text}, {item.text}", points=before.points + item.points, unit=item.unit or before.unit
                )
                continue
            out.append(item)
    return tuple(out)


def read_item(part: Piece) -> Item:
    """One item by its own words: photos, count, source, act, override, unit, quotation, series, value, else plain words."""
    text, column = part.text, part.start + 1
    item = Item("words", text, column)
    inside = unquote(text)
    if inside is not None:
        return replace(item, kind="quote", value=inside)
    for kind, pattern in (("sketch", _SKETCH_WORD), ("photos", _PHOTO_WORD)):
        match = pattern.match(text)
        if match:
            numbers = photo_numbers(text[match.end() :])
            return replace(item, kind=kind, numbers=numbers) if numbers else item
    match = _COUNT.match(text)
    if match:
        return replace(item, kind="count", numbers=(int(match.group(1) or match.group(2)),))
    return _source_or_act(item) or _override(item) or _measured(item) or item


def _source_or_act(item: Item) -> Item | None:
    text = item.text
    match = _BASIS.match(text)
    if match:
        word = match.group(1).lower()
        return replace(item, kind="basis", key="smelled" if word == "smelt" else word)
    match = _READ.match(text)
    if match:
        return replace(item, kind="basis", key="read", value=trim(match.group(1)))
    match = _TOLD.match(text)
    if match:
        return replace(item, kind="basis", key="told", value=trim(match.group(1) or match.group(2)))
    match = _ACT.match(text)
    if match:
        return replace(item, kind="act", key=match.group(1).lower(), value=trim(match.group(2)), time=match.group(3))
    return None


def _override(item: Item) -> Item | None:
    text = item.text
    match = _SEVERITY.match(text)
    if match:
        word = f"{match.group(1)}-{match.group(2)}" if match.group(1) else match.group(3)
        if word.lower() in ("act-now", "find-out", "plan", "upkeep"):
            return replace(item, kind="override", key="severity", value=word.lower())
    match = _SAYS.match(text)
    if match:
        inside = unquote(trim(match.group(2)))
        if inside is not None:
            return replace(item, kind="override", key=match.group(1).lower(), value=inside)
    match = _TRADE.match(text)
    if match:
        return replace(item, kind="override", key="trade", value=trim(match.group(1)))
    match = _HOLD.match(text)
    if match:
        reason = trim(match.group(1) or "")
        return replace(item, kind="override", key="hold back", value=unquote(reason) or reason)
    return None


def _measured(item: Item) -> Item | None:
    match = _UNIT.match(item.text)
    if match:
        return replace(item, kind="unit", value=item.text)
    series = read_series(item.text)
    if series is not None:
        return replace(item, kind="series", **series._asdict())
    found = scan(item.text)
    if len(found) == 1:
        one = found[0]
        label = trim(f"{trim(item.text[: one.start])} {trim(item.text[one.end :])}")
        return replace(item, kind="value", label=label.strip(" :=-@"), quantity=one.quantity)
    return None


def photo_numbers(text: str) -> tuple[int, ...]:
    """Numbers and ranges as single numbers; empty when it is not that, runs backwards or is too long."""
    text = trim(text)
    if not _RANGES.match(text):
        return ()
    out: list[int] = []
    for match in _RANGE.finditer(text):
        first = int(match.group(1))
        last = int(match.group(2)) if match.group(2) else first
        if last < first or last - first > MOST_PHOTOS:
            return ()
        out.extend(range(first, last + 1))
    return tuple(dict.fromkeys(out))
