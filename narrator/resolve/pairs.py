"""Two figures as one statement: `1 in over 10 ft` is a fall and the distance that it was measured over."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrator.measure.quantity import Found
from narrator.measure.scan import scan
from narrator.read.cells import trim
from narrator.read.model import Item

OVER = "over"
_JOINER = re.compile(r"\s*\b(?:over|in|per|within|across|along)\s+(?:a\s+|the\s+)?\Z", re.IGNORECASE)
_MOST_WORDS = 4  # before the first figure, as a name for it


def joined(text: str, found: Sequence[Found]) -> frozenset[int]:
    """The places in `found` of figures that `over`, `in`, `per` and their like tie to the figure before."""
    return frozenset(
        number
        for number in range(1, len(found))
        if _lengths(found[number - 1], found[number])
        and _JOINER.fullmatch(text, found[number - 1].end, found[number].start)
    )


def _lengths(first: Found, second: Found) -> bool:
    return first.quantity.dimension == second.quantity.dimension == "length"


def without_joiners(text: str, found: Sequence[Found]) -> list[tuple[int, int, str]]:
    """What to cut from a text so that a joiner does not stand there alone."""
    return [(found[number - 1].end, found[number].start, "") for number in joined(text, found)]


def parted(item: Item) -> tuple[Item, ...]:
    """`drop 1 in over 12 ft` as two figures; any other item as it is."""
    if item.kind not in ("words", "value"):
        return (item,)
    found = scan(item.text)
    if len(found) != 2 or not joined(item.text, found) or trim(item.text[found[1].end :]):
        return (item,)
    before = trim(item.text[: found[0].start])
    if len(before.split()) > _MOST_WORDS:
        return (item,)
    first, second = found
    value = replace(item, kind="value", quantity=first.quantity, label=before, text=trim(item.text[: first.end]))
    column = item.column + first.end
    over = replace(
        item, kind="value", quantity=second.quantity, label=OVER, text=trim(item.text[first.end :]), column=column
    )
    return (value, over)
