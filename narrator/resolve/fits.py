"""Whether a figure can be a measure: by its unit, and by the words beside it."""

from __future__ import annotations

from narrator.measure.quantity import Quantity
from narrator.measure.units import compatible, default_units
from narrator.read.model import Item
from narrator.resolve.dimensions import NAMED, as_noun
from narrator.resolve.vocabulary import plain_words
from narrator.source.model import MeasureSpec

_FILL = frozenset(
    {"of", "at", "is", "the", "a", "an", "about", "only", "just", "mc", "wme", "to", "in", "reads", "read", "reading"}
    | {"readings", "measured", "was", "total"}
)
_OPEN = frozenset({"gap", "opening", "spacing"})
_VULGAR = frozenset("¼½¾⅛⅜⅝⅞")
_TAPE = frozenset({2, 4, 8, 16, 32})


def label_of(item: Item) -> set[str]:
    """The words beside a figure that say what it measures."""
    return as_noun(plain_words(item.label)) - _FILL


def words_of(spec: MeasureSpec) -> frozenset[str]:
    """The words that name a measure: its name, label, kind and other names, in the singular and the plural."""
    words = set(plain_words(spec.name.replace("_", " "))) | set(plain_words(spec.label)) | {spec.kind}
    for other in spec.also:
        words |= set(plain_words(other))
    words |= as_noun(words)
    if words & _OPEN and not words & NAMED:
        words |= {"width", "height"}  # a gap is as wide or as high as its measure says
    words |= {word + "s" for word in words} | {word[:-1] for word in words if word.endswith("s")}
    return frozenset(words)


def series_fits(item: Item, spec: MeasureSpec) -> bool:
    """Whether readings can be a measure of this kind."""
    if item.unit:
        return compatible(item.unit, spec.kind)
    return len(default_units(spec.kind)) == 1 or (spec.kind == "length" and on_tape(item))


def on_tape(item: Item) -> bool:
    """Whether readings without a unit are inches, since only an inch tape has such fractions."""
    return not item.unit and any(tape(point.value) for point in item.points if point.value)


def unit_sure(quantity: Quantity, label: set[str], spec: MeasureSpec) -> bool:
    """Whether a figure without a unit may be this measure: it is named so, or a bare share (`18` on a moisture meter).

    `3` beside shingles is not an age of three years, nor `12 outlets` twelve volts.
    """
    if quantity.unit or quantity.of is not None or spec.kind == "length" or label & words_of(spec):
        return True
    return not label and spec.kind in ("moisture", "humidity", "percent")


def quantity_fits(quantity: Quantity, spec: MeasureSpec) -> bool:
    """Whether a figure can be a measure of this kind: a year of make is an age, a fraction of an inch tape is a length."""
    if quantity.unit == "date":
        return spec.kind in ("age", "date")
    return compatible(quantity.unit, spec.kind) or (not quantity.unit and spec.kind == "length" and tape(quantity))


def tape(quantity: Quantity) -> bool:
    """Whether a figure is a fraction as an inch tape has it (halves to thirty-seconds)."""
    typed = "/" in quantity.text or not _VULGAR.isdisjoint(quantity.text)
    return typed and any(value.denominator in _TAPE for value in (quantity.low, quantity.high))
