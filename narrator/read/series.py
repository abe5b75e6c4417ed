"""Series of readings: `19 22 38 OL no-hold`, `190 178 165 mm`, `A1 11, A7-A8 no-hold`, `control 11 12 10`."""

from __future__ import annotations

import re
from typing import NamedTuple

from narrator.measure.quantity import Quantity
from narrator.measure.scan import parse_value
from narrator.read.model import Point

MOST_NAMES = 60
_POINT = re.compile(r"([A-Za-z]{1,2})(\d{1,3})(?:[-–]([A-Za-z]{0,2})(\d{1,3}))?\Z")
_POINT_RANGE = re.compile(r"\b([A-Za-z]{1,2}\d{1,3})\s+[-–]\s+([A-Za-z]{1,2}\d{1,3})\b")
_JOINED = (
    (re.compile(r"\bno[ -]hold\b", re.IGNORECASE), "no-hold"),
    (re.compile(r"\btoo[ -]short\b", re.IGNORECASE), "too-short"),
    (re.compile(r"\bover[ -]range\b", re.IGNORECASE), "overrange"),
)
# Why there is no reading, as typed -> as kept.
_REASONS = {
    "ol": "OL",
    "o.l.": "OL",
    "o/l": "OL",
    "overrange": "OL",
    "no-hold": "no-hold",
    "nohold": "no-hold",
    "void": "void",
    "blocked": "blocked",
    "too-short": "too short",
}
# Of these, the words that a finding may also use of a thing ("vent blocked").
_PLAIN_REASONS = frozenset({"void", "blocked", "too short"})
_LABELS = frozenset(
    {"control", "moisture", "reading", "readings", "pin", "pins", "meter", "mc", "wme", "point", "points"}
)
_MIXED_WHOLE = re.compile(r"[~<>]?\d{1,4}\Z")
_FRACTION = re.compile(r"\d{1,2}/\d{1,3}(?:\"|in|mm|%)?\Z|[¼½¾⅛⅜⅝⅞⅓⅔]\Z")
_FIGURE_STARTS = "~<>¼½¾⅛⅜⅝⅞⅓⅔-."


class Series(NamedTuple):
    """Readings with their label; `control`: taken on a part believed dry, for comparison."""

    label: str
    points: tuple[Point, ...]
    unit: str
    control: bool


def read_series(text: str) -> Series | None:
    """The series that a text is; None when it is not one."""
    words = _words_of(text)
    control = any(word.lower() == "control" for word in words)
    label: list[str] = []
    while words and not _starts_series(words[0]):
        label.append(words.pop(0))
    if words and words[-1].lower() == "control":
        label.append(words.pop())
    found = _points_of(words)
    if found is None:
        return None
    points, unit = found
    first = points[0]
    enough = len(points) > 1 or first.reason is not None or first.name is not None or control
    spoken = {word.lower() for word in label} - _LABELS
    if not enough or (spoken and all(one.name is None and one.reason in _PLAIN_REASONS for one in points)):
        return None
    return Series(" ".join(label), points, unit, control)


def _words_of(text: str) -> list[str]:
    for pattern, word in _JOINED:
        text = pattern.sub(word, text)
    return _POINT_RANGE.sub(r"\1-\2", text).replace(":", " ").replace("=", " ").split()


def _starts_series(word: str) -> bool:
    return word.lower() in _REASONS or _POINT.match(word) is not None or word[0].isdigit() or word[0] in _FIGURE_STARTS


def _points_of(words: list[str]) -> tuple[tuple[Point, ...], str] | None:
    """The points that all these words make, and the unit that holds for them."""
    points: list[Point] = []
    names: list[str] = []
    unit = ""
    at = 0
    while at < len(words):
        word = words[at]
        named = _POINT.match(word)
        if named:
            if names:
                return None
            names = _names_of(word, named)
            at += 1
            each = _figures_of(words[at : at + len(names) + 1]) if len(names) > 1 else ()
            if len(each) > 1:
                # `B1-B3 22 24 19`: as many figures as points, one each; any other number may be anything.
                if len(each) != len(names):
                    return None
                points.extend(Point(name, value, None) for name, value in zip(names, each, strict=True))
                unit = next((value.unit for value in each if value.unit), unit)
                names = []
                at += len(each)
            continue
        if word.lower() in _REASONS:
            points.extend(Point(name, None, _REASONS[word.lower()]) for name in names or (None,))
            names = []
            at += 1
            continue
        took = 2 if at + 1 < len(words) and _MIXED_WHOLE.match(word) and _FRACTION.match(words[at + 1]) else 1
        value = parse_value(" ".join(words[at : at + took]))
        if value is None or value.of is not None or value.low != value.high:
            typed = _unit_of(word) if points and not names and points[-1].value else ""
            if not typed or (unit and typed != unit):
                return None
            unit = typed
            at += 1
            continue
        if unit and value.unit not in ("", unit):
            return None
        unit = value.unit or unit
        points.extend(Point(name, value, None) for name in names or (None,))
        names = []
        at += took
    return (tuple(points), unit) if points and not names else None


def _figures_of(words: list[str]) -> list[Quantity]:
    """The plain figures that these words begin with."""
    out: list[Quantity] = []
    for word in words:
        value = parse_value(word)
        if value is None or value.of is not None or value.low != value.high or _FRACTION.match(word):
            break
        out.append(value)
    return out


def _names_of(word: str, named: re.Match[str]) -> list[str]:
    """The names of a point or of a range of points: `A7-A8`, `A7-8`."""
    letters, start, letters_to, end = named.groups()
    if end is None:
        return [word]
    same = not letters_to or letters_to.lower() == letters.lower()
    if not same or int(end) < int(start) or int(end) - int(start) > MOST_NAMES:
        return re.split("[-–]", word)
    return [f"{letters}{number}" for number in range(int(start), int(end) + 1)]


def _unit_of(word: str) -> str:
    value: Quantity | None = parse_value(f"1 {word}")
    return value.unit if value is not None else ""
