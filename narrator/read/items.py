"""The details of a line: each item read as far as its own words tell, without the library."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrator.measure.scan import scan
from narrator.read.cells import OPENERS, Piece, split, trim, unquote
from narrator.read.model import Item, Point
from narrator.read.series import read_series

MOST_PHOTOS = 400
MOST_READINGS = 400  # characters of a cell in which readings are looked for
_PHOTO_WORD = re.compile(r"(?:photos?|pics?|pictures?|imgs?|images?)\b\.?\s*#?\s*", re.IGNORECASE)
_SKETCH_WORD = re.compile(r"sketch(?:es)?\s+(?:photos?|pics?|pictures?)\b\.?\s*#?\s*", re.IGNORECASE)
# Each number ends where its digits end, and a sign or space parts two: no text can be read in two ways.
_ONE = r"#?\d{1,5}(?!\d)(?:\s*(?:[-–]|to|thru)\s*#?\d{1,5}(?!\d))?"
_RANGES = re.compile(rf"{_ONE}(?:(?:\s*(?:&|\+|and|;|,)\s*|\s+|(?=#)){_ONE})*\Z", re.IGNORECASE)
_RANGE = re.compile(r"(\d{1,5})(?:\s*(?:[-–]|to|thru)\s*#?(\d{1,5}))?", re.IGNORECASE)
_AT_END = re.compile(
    r"\s\(?(?:see\s+)?((?:photos?|pics?|pictures?|imgs?)\b\.?\s*#?\d[\d\s&+#,–-]{0,80})\)?[.\s]*\Z", re.IGNORECASE
)
_SERIES_START = re.compile(r"[\s:=]+(?=[~<>]?[\d¼½¾]|[A-Za-z]{1,2}\d{1,3}\b)")
_LEADING = re.compile(rf"({_ONE}(?:\s*(?:&|\+|and|,)\s*{_ONE})*)(?:\s*[-–:,]\s+|\s+|\Z)", re.IGNORECASE)
_COUNT = re.compile(r"(?:[x×]\s*(\d{1,4})|(\d{1,4})\s*[x×])\Z", re.IGNORECASE)
_BASIS = re.compile(r"(seen|measured|tested|smelled|smelt|heard|felt|inferred|read)\Z", re.IGNORECASE)
_PAPERS = (
    r"(?:data\s*plate|name\s*plate|plate|label|tag|sticker|stamp|paper|permit|receipt|report|invoice|manual"
    r"|sign|listing"
    r"|disclosure)s?"
)
_READ = re.compile(
    rf"read\s+(?:(?:on|off|from|in)\s+(?:the\s+|a\s+)?(.+)|(?:the\s+|a\s+)?({_PAPERS}))\Z", re.IGNORECASE
)
_TOLD = re.compile(
    r"(?:told|reported|stated)\s+by\s+(.+)\Z|per\s+(seller|owner|tenant|agent|buyer|occupant|neighbou?r)\Z",
    re.IGNORECASE,
)
_TIME = r"(?:[01]?\d|2[0-3]):[0-5]\d(?:\s*[ap]\.?m\.?)?|(?:1[0-2]|0?[1-9])\s*[ap]\.?m\.?|noon"
_ACT = re.compile(
    rf"(warned|told|notified|informed|alerted|called|phoned|advised|texted)\s+(?!by\b)(.+?)(?:\s+(?:at\s+)?({_TIME}))?\Z",
    re.IGNORECASE,
)
# One may call a plumber and call for a pump, advise an owner and advise a repair: only the first is an act.
_LOOSE_VERBS = frozenset({"called", "advised"})
_PEOPLE = re.compile(
    r"\b(?:occupants?|tenants?|residents?|(?:home)?owners?|landlord|sellers?|buyers?|clients?|agents?|realtor|broker"
    r"|neighbou?rs?|utility|gas co|company|fire|911|police|super|manager|management|office|everyone|family"
    r"|them|him|her|lawyer|attorney)\b",
    re.IGNORECASE,
)
_SEVERITY = re.compile(r"(act|find)[- ](now|out)\Z|(plan|upkeep)\Z", re.IGNORECASE)
_TRADE = re.compile(r"trades?(?:\s*:\s*|\s+)(.+)\Z", re.IGNORECASE)
_SAYS = re.compile(r"(because|do):?\s*(.+)\Z", re.IGNORECASE | re.DOTALL)
_HOLD = re.compile(r"hold\s+back\s*(?:[-–:]\s*(.+))?\Z", re.IGNORECASE | re.DOTALL)
_UNIT = re.compile(
    r"(?:(?:main |service |electrical )?(?:sub[- ]?)?panel|disconnect|breaker|circuit|furnace|boiler|air handler"
    r"|heat pump|condenser|compressor|ac(?: unit)?|a/c(?: unit)?|thermostat|zone|system|(?:water )?heater|tank|pump"
    r"|meter|(?:garage )?door|opener|window|skylight|chimney|fireplace|flue|toilet|sink|tub|shower|post|column"
    r"|pier|beam|joist|truss|rafter|alarm|detector|fan|outlet"
    r"|switch|light|gutter|downspout|unit|apt\.?|apartment|building|bldg\.?)\s+(?:no\.?\s*|#\s*)?(?:\d{1,3}|[a-z])\Z",
    re.IGNORECASE,
)
_WIDE_SPACES = str.maketrans({"\u00a0": " ", "\u2007": " ", "\u202f": " ", "\u2009": " "})
_EMPTY = frozenset("-–.·_/\\ ")


def read_items(pieces: Sequence[Piece]) -> tuple[Item, ...]:
    """The items of detail cells, in order; nothing is dropped but a dash that fills an empty cell."""
    out: list[Item] = []
    for cell in pieces:
        for part in split(cell, ","):
            if _EMPTY.issuperset(part.text):
                continue
            item = read_item(part)
            joined = _joined(out[-1], item) if out else None
            if joined is not None:
                out[-1] = joined
            else:
                out.append(item)
    return tuple(out)


def _joined(before: Item, item: Item) -> Item | None:
    """The item before with this one in it: photo numbers after photos, readings after readings."""
    text = f"{before.text}, {item.text}"
    if before.kind in ("photos", "sketch") and _RANGES.match(item.text):
        numbers = photo_numbers(item.text)
        return replace(before, text=text, numbers=before.numbers + numbers) if numbers else None
    if before.kind != "series" or item.label or item.control:
        return None
    if item.kind == "series":
        return replace(before, text=text, points=before.points + item.points, unit=item.unit or before.unit)
    one = item.quantity
    if one is None or one.is_range or one.of is not None or one.unit not in ("", before.unit):
        return None
    return replace(before, text=text, points=(*before.points, Point(None, one, None)))


def read_item(part: Piece) -> Item:
    """One item by its own words: photos, count, source, act, override, unit, quotation, series, value, else words."""
    inside = unquote(part.text)
    if inside:
        return Item("quote", part.text, part.start + 1, value=inside)
    text = part.text.translate(_WIDE_SPACES)
    item = Item("words", text, part.start + 1)
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
        return replace(item, kind="basis", key="read", value=trim(match.group(1) or match.group(2)))
    match = _TOLD.match(text)
    if match:
        return replace(item, kind="basis", key="told", value=trim(match.group(1) or match.group(2)))
    match = _ACT.match(text)
    if match and (match.group(1).lower() not in _LOOSE_VERBS or _PEOPLE.search(match.group(2))):
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


def leading_numbers(text: str) -> tuple[tuple[int, ...], str]:
    """The photo numbers that open a text, and the rest of it."""
    match = _LEADING.match(text)
    return (photo_numbers(match.group(1)), trim(text[match.end() :])) if match else ((), text)


def off_photos(text: str) -> tuple[str, Item | None]:
    """A cell without the photo numbers typed at its end (`no gfci, see photo 3`), and these as an item."""
    match = _AT_END.search(text)
    rest = trim(text[: match.start()]).rstrip(" (,.;:-–") if match else ""
    if match is None or not rest or any(mark in text for mark in OPENERS):
        return text, None
    item = read_item(Piece(match.group(1), match.start(1)))
    return (rest, item) if item.kind == "photos" else (text, None)


def with_photos(item: Item, items: Sequence[Item]) -> tuple[Item, ...]:
    """The items with photo numbers before them; bare numbers that follow belong to these."""
    rest = list(items)
    while rest and (joined := _joined(item, rest[0])) is not None:
        item = joined
        rest.pop(0)
    return (item, *rest)


def off_series(text: str) -> tuple[str, Item | None]:
    """A cell without the readings typed at its end (`moisture 14 16 22`), and these as an item."""
    if len(text) > MOST_READINGS:
        return text, None
    for match in _SERIES_START.finditer(text):
        tail = text[match.end() :]
        series = read_series(tail.replace(",", " "))
        if series is not None and not series.label and len(series.points) > 1:
            rest = trim(text[: match.start()]).rstrip(" (,.;:-–=")
            item = Item("series", tail, match.end() + 1, **series._asdict())
            return (rest, item) if rest and any(one.value for one in series.points) else (text, None)
    return text, None
