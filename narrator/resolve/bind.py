"""Binding of typed quantities to the measures of an entry. What does not fit is kept as own words and said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from narrator.measure.units import UNITS, compatible, convert, default_units
from narrator.measure.verdict import Criterion
from narrator.read.model import Item
from narrator.resolve.fits import label_of, quantity_fits, tape, unit_sure, words_of
from narrator.resolve.model import Measure
from narrator.resolve.readings import beyond, joined, merged, runs, series
from narrator.resolve.vocabulary import plain_words
from narrator.source.model import Entry, MeasureSpec

# More than this many times the published figure is taken for a slip of the thumb and asked about.
ABSURD_TIMES = 40


@dataclass(frozen=True, slots=True)
class Bound:
    """What came of the items: measures, the items left as words, and what to say (kind, column, text)."""

    measures: tuple[Measure, ...]
    words: tuple[Item, ...]
    said: tuple[tuple[str, int, str], ...]


def bind(
    items: Sequence[Item], entry: Entry | None, criteria: dict[str, Criterion], line: int, explained: frozenset[str]
) -> Bound:
    """Bind value and series items to the entry's measures. `explained`: words of the entry that need not be kept."""
    measures: list[Measure] = []
    words: list[Item] = []
    said: list[tuple[str, int, str]] = []
    specs = entry.measures if entry else ()
    bare = [item for item in items if item.kind == "value" and label_of(item) <= explained]
    alone = bare[0] if len(bare) == 1 else None
    if alone is not None and len(items) > 1:
        # What another figure of the line is named for, the one without a name is not.
        others = (_value(item, specs, line, explained, False)[0] for item in items if item is not alone)
        taken = {made.spec.name for made in others if made is not None}
    else:
        taken = set()
    for run in runs(items, specs):
        found = series(merged(run), specs, line) if len(run) > 1 else None
        if found and not beyond(found):
            measures.append(found)
            continue
        for item in run:
            open_to = [spec for spec in specs if spec.name not in taken] if item is alone else specs
            made, kind, why = _bound(item, open_to, criteria, line, explained, item is alone)
            if why:
                said.append((kind, item.column, why))
            if made is None:
                words.append(item)
            else:
                measures.append(made)
    return Bound(joined(measures), tuple(words), tuple(said))


def _bound(
    item: Item,
    specs: Sequence[MeasureSpec],
    criteria: dict[str, Criterion],
    line: int,
    explained: frozenset[str],
    alone: bool,
) -> tuple[Measure | None, str, str]:
    """The measure of one item, and what to say about it: its kind and text. `alone`: no other figure lacks a name."""
    if item.kind == "series":
        found = series(item, specs, line)
        if found is None:
            return None, "words", f"The readings '{item.text}' fit no measure here; they are kept as your words."
        why = beyond(found)
        return (None, "measure", why) if why else (found, "", "")
    made, why = _value(item, specs, line, explained, alone)
    if made is None:
        return None, "words", why
    absurd = _absurd(made, criteria.get(made.spec.criterion or ""))
    return (None, "measure", absurd) if absurd else (made, "unit", why)


def _value(
    item: Item, specs: Sequence[MeasureSpec], line: int, explained: frozenset[str], alone: bool
) -> tuple[Measure | None, str]:
    """The measure an item gives, and what to say about it; (None, why) when it stays words."""
    quantity = item.quantity
    if quantity is None:
        return None, ""
    label = label_of(item)
    # Soil 4 inches high leaves no clearance of 4 inches.
    specs = [spec for spec in specs if spec.name != "clearance" or "high" not in plain_words(item.label)]
    named = [spec for spec in specs if label and label <= (words_of(spec) | explained) and label & words_of(spec)]
    free = [spec for spec in specs if not label or label <= explained]
    candidates = named or free
    fits = [spec for spec in candidates if quantity_fits(quantity, spec) and unit_sure(quantity, label, spec)]
    if quantity.of is not None:
        fits = [spec for spec in fits if spec.kind in ("count", "ratio")]
        if not fits and (not label or label <= explained):
            return Measure(COUNT, quantity, (), "count", False, line), ""
    air = _air(item, label) if not named else None
    if air is not None:
        unit = quantity.unit or "percent"
        return Measure(air, replace(quantity, unit=unit), (), unit, False, line), ""
    if len(fits) > 1:
        # A single figure is no series, where the entry also has a measure for one.
        fits = [spec for spec in fits if not spec.series] or fits
        # Nor is a typed figure one that the entry works out from others.
        fits = [spec for spec in fits if not spec.worked] or fits
    if len(fits) > 1:
        # `length` names the measure of that name before every other length.
        fits = [spec for spec in fits if label & {spec.name, *plain_words(spec.label)}] or fits
    if len(fits) > 1 and alone:
        # The one figure without a name is what the entry is about, not what only stands beside it.
        judged = [spec for spec in fits if not spec.context]
        fits = judged if len(judged) == 1 else fits
    if len(fits) == 1:
        spec = fits[0]
        unit = quantity.unit or default_units(spec.kind)[0]
        return Measure(spec, replace(quantity, unit=unit), (), unit, False, line), ""
    if len(fits) > 1:
        names = " or ".join(spec.label for spec in fits)
        return None, f"'{item.text}' may be the {names}; say which, with its name before the figure."
    if candidates and not quantity.unit:
        lengths = [spec for spec in candidates if spec.kind == "length"]
        if len(lengths) == 1 and tape(quantity):
            spec = lengths[0]
            return Measure(spec, replace(quantity, unit="inch"), (), "inch", False, line), (
                f"'{item.text}' was read as inches, since only an inch tape has such fractions; type the unit if it is another."
            )
        if 1700 <= quantity.low < 2200 and any(spec.kind == "age" for spec in candidates):
            return None, f"'{item.text}' looks like a year; type `made {quantity.text}`. It is kept as your words."
        kinds = sorted({unit for spec in candidates for unit in default_units(spec.kind)})
        shown = ", ".join(UNITS[unit].many or unit for unit in kinds[:3] if unit in UNITS)
        return None, f"'{item.text}' has no unit (it may be {shown}); it is kept as your words. Type the unit."
    if candidates:
        kinds = sorted({spec.kind for spec in candidates})
        return (
            None,
            f"'{item.text}' has a unit of another kind; a {' or '.join(kinds)} was expected. It is kept as your words.",
        )
    return None, f"'{item.text}' fits no measure here; it is kept as your words."


# Readings of the air beside any finding: what they are called, and what they are measured in. They judge nothing.
AIR = MeasureSpec("air", "temperature", None, "air", ("room", "indoor", "inside"), True, False)
HUMIDITY = MeasureSpec("humidity", "humidity", None, "humidity", ("rh", "relative"), True, False)
SURFACE = MeasureSpec("surface", "temperature", None, "surface", ("glass", "infrared", "ir"), True, False)
_AIR_LABELS = {
    AIR: frozenset({"air", "room", "indoor", "inside", "temp", "temperature"}),
    HUMIDITY: frozenset({"rh", "humidity", "relative", "air"}),
    SURFACE: frozenset({"surface", "glass", "ir", "infrared", "temp", "temperature"}),
}


def _air(item: Item, label: set[str]) -> MeasureSpec | None:
    """The reading of the air that an item names (`air 70F`, `RH 55%`, `surface 51F`)."""
    quantity = item.quantity
    if quantity is None or not label or quantity.is_range or quantity.of is not None:
        return None
    if label & {"rh", "humidity"} and label <= _AIR_LABELS[HUMIDITY] and compatible(quantity.unit, "humidity"):
        return HUMIDITY
    for spec, key in ((SURFACE, {"surface", "glass", "ir", "infrared"}), (AIR, {"air", "room", "indoor", "inside"})):
        if label & key and label <= _AIR_LABELS[spec] and quantity.unit in ("degF", "degC"):
            return spec
    return None


COUNT = MeasureSpec("count", "count", None, "count", (), True, False)


def _absurd(measure: Measure, criterion: Criterion | None) -> str:
    """Why a value cannot be meant, or nothing."""
    quantity = measure.quantity
    if quantity is None or quantity.unit == "date":
        return ""
    kind = measure.spec.kind
    shown = f"'{quantity.text}'"
    if kind in ("moisture", "percent", "humidity") and (quantity.high > 100 or quantity.low < 0):
        return f"{shown} cannot be: a share runs from 0 to 100 %. It is kept as your words."
    if kind == "humidity" and quantity.low == 0:
        return f"{shown} cannot be: air is never at 0 %. It is kept as your words."
    if quantity.low < 0 and kind not in ("slope", "temperature"):
        return f"{shown} is below nothing. It is kept as your words."
    if kind == "age" and quantity.high > 400:
        return f"{shown} is no age for a part of a house. It is kept as your words."
    if (
        criterion is not None
        and criterion.value
        and kind in ("length", "area", "pressure", "temperature", "current", "slope")
    ):
        try:
            limit = max(criterion.value)
            # A difference of temperatures is typed like a temperature.
            delta = criterion.unit.startswith("delta_") and quantity.unit in ("degF", "degC")
            value = convert(quantity.high, f"delta_{quantity.unit}" if delta else quantity.unit, criterion.unit)
        except ValueError:
            return f"{shown} cannot be compared with the published figure. It is kept as your words."
        if kind == "temperature" and value > 300:
            return f"{shown} cannot be meant here. It is kept as your words."
        if kind != "temperature" and limit > 0 and value > limit * ABSURD_TIMES and value > Fraction(1):
            return (
                f"{shown} is more than {ABSURD_TIMES} times the usual figure. Check the unit; it is kept as your words."
            )
    return ""
