"""Dimension words beside a figure: `guard 34" high` tells a height, and not that the guard is too high."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from narrator.measure.quantity import Found
from narrator.measure.units import UNITS
from narrator.resolve.pairs import without_joiners

NOUNS = {
    "high": "height",
    "hi": "height",
    "tall": "height",
    "wide": "width",
    "deep": "depth",
    "long": "length",
    "thick": "thickness",
    "apart": "spacing",
}
NAMED = frozenset(NOUNS.values())
_WORDS = "|".join(NOUNS)
_AFTER = re.compile(rf"[\s-]*\b({_WORDS})\b(?!\s+(?:enough|up)\b)", re.IGNORECASE)
# "too high: 46 in" stays a verdict; so does a word that something else was said of ("not high").
_BEFORE = re.compile(
    rf"(?<!\btoo )(?<!\bvery )(?<!\bnot )(?<!\bso )(?<!\boverly )\b({_WORDS})\b[\s:=@-]*\Z", re.IGNORECASE
)


class Dimension(NamedTuple):
    """A dimension word as typed, its noun, where it stands, and whether it stands before its figure."""

    word: str
    noun: str
    start: int
    end: int
    before: bool


def dimension_of(text: str, found: Found) -> Dimension | None:
    """The dimension word right after a figure, or else right before it."""
    unit = found.quantity.unit
    if not unit and not _length_by_itself(text, found):
        return None
    if found.quantity.of is not None or (unit and (unit not in UNITS or UNITS[unit].dimension != "length")):
        return None
    after = _AFTER.match(text, found.end)
    if after is not None:
        return Dimension(after.group(1), NOUNS[after.group(1).lower()], after.start(1), after.end(1), False)
    begin = max(0, found.start - 40)
    before = _BEFORE.search(text[begin : found.start])
    if before is not None:
        return Dimension(
            before.group(1), NOUNS[before.group(1).lower()], begin + before.start(1), begin + before.end(1), True
        )
    return None


def _length_by_itself(text: str, found: Found) -> bool:
    """Whether a figure without a unit is a length: a fraction, or no `high` stands by it (`moisture 22 high`)."""
    if found.quantity.bound:
        return False
    if "/" in found.quantity.text or not found.quantity.text.isascii():
        return True
    beside = {word.lower() for word in re.findall(r"[a-z]+", text, re.IGNORECASE)} & NOUNS.keys()
    return bool(beside - {"high", "hi"})


def as_noun(words: Iterable[str]) -> set[str]:
    """Words that stand beside a figure, a dimension word among them as its noun."""
    return {NOUNS.get(word, word) for word in words}


def without(text: str, figures: Sequence[Found], dimensions: str = "") -> str:
    """A text without its figures. `dimensions`: the words beside them are left out too, or `nouns`, or as `typed`."""
    cuts = {(found.start, found.end, "") for found in figures} | set(without_joiners(text, figures))
    if dimensions != "typed":
        found_beside = (dimension_of(text, found) for found in figures)
        cuts |= {(one.start, one.end, one.noun if dimensions == "nouns" else "") for one in found_beside if one}
    for start, end, new in sorted(cuts, reverse=True):
        text = f"{text[:start]} {new} {text[end:]}"
    return text
