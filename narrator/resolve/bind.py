"""Binding of typed quantities to the measures of an entry. What does not fit is kept as own words and said, never converted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from narrator.measure.quantity import Quantity
from narrator.measure.units import UNITS, compatible, convert, default_units
from narrator.measure.verdict import Criterion
from narrator.read.model import Item, Point
from narrator.resolve.model import Measure
from narrator.resolve.words import plain_words
from narrator.source.model import Entry, MeasureSpec

# More than this many times the published figure is taken for a slip of the thumb and asked about.
ABSURD_TIMES = 40
_SERIES_LABELS = frozenset({"control", "reading", "readings", "moisture", "pins", "meter", "dry", "wall", "points"})
_FILL = frozenset({"of", "at", "is", "the", "a", "an", "about", "only", "just", "mc", "wme", "to", "in", "reads", "read", "reading", "readings", "measured", "was", "total"})


@dataclass(frozen=True, slots=True)
class Bound:
    """What came of the items: measures, the items left as words, and what to say (kind, column, text)."""

    measures: tuple[Measure, ...]
    words: tuple[Item, ...]
    said: tuple[tuple[str, int, str], ...]


def bind(items: Sequence[Item], entry: Entry | None, criteria: dict[str, Criterion], line: int, explained: frozenset[str]) -> Bound:
    """Bind value and series items to the entry's measures. `explained`: words of the entry that need not be kept."""
    measures: list[Measure] = []
    words: list[Item] = []
    said: list[tuple[str, int, str]] = []
    specs = entry.measures if entry else ()
    for item in _runs(items, specs):
        if item.kind == "series":
            found = _series(item, specs, line)
            beyond = _beyond(found) if found else ""
            if beyond:
                words.append(item)
                said.append(("measure", item.column, beyond))
                continue
            if found:
                measures.append(found)
            else:
                words.append(item)
                said.append(("words", item.column, f"The readings '{item.text}' fit no measure here; they are kept as your words."))
            continue
        made, why = _value(item, specs, line, explained)
        if made is not None and why:
            said.append(("unit", item.column, why))
        if made is None:
            words.append(item)
            said.append(("words", item.column, why))
            continue
        absurd = _absurd(made, criteria.get(made.spec.criterion or ""))
        if absurd:
            words.append(item)
            said.append(("measure", item.column, absurd))
        else:
            measures.append(made)
    return Bound(_joined(measures), tuple(words), tuple(said))


def _beyond(measure: Measure) -> str:
    """Why a reading of a series cannot be meant, or nothing."""
    if measure.spec.kind not in ("moisture", "percent", "humidity"):
        return ""
    for point in measure.points:
        if point.value is not None and not 0 <= point.value.low <= 100:
            return f"'{point.value.text}' cannot be: a share runs from 0 to 100 %. The readings are kept as your words."
    return ""


def _runs(items: Sequence[Item], specs: Sequence[MeasureSpec]) -> list[Item]:
    """Figures typed one after another with commas (`risers 7 1/4, 7 1/2, 7 3/8 in`) as one series, where the entry has one."""
    wanted = [spec for spec in specs if spec.series]
    out: list[Item] = []
    run: list[Item] = []

    def close() -> None:
        if len(run) < 2:
            out.extend(run)
        else:
            unit = next((item.quantity.unit for item in reversed(run) if item.quantity and item.quantity.unit), "")
            points = tuple(
                Point(None, replace(item.quantity, unit=item.quantity.unit or unit), None) for item in run if item.quantity
            )
            text = ", ".join(item.text for item in run)
            out.append(Item("series", text, run[0].column, label=run[0].label, points=points, unit=unit))
        run.clear()

    for item in items:
        figure = item.kind == "value" and item.quantity is not None and not item.quantity.of and not item.quantity.is_range
        label = set(plain_words(item.label)) - _FILL
        opens = figure and any(not label or label <= _words_of(spec) for spec in wanted)
        if run and figure and not label:
            run.append(item)
        else:
            close()
            if opens:
                run.append(item)
            else:
                out.append(item)
    close()
    return out


def _series(item: Item, specs: Sequence[MeasureSpec], line: int) -> Measure | None:
    label = set(plain_words(item.label)) - _FILL
    wanted = [spec for spec in specs if spec.series] or [
        spec for spec in specs if spec.kind in ("moisture", "percent", "length", "humidity")
    ]
    fits = [spec for spec in wanted if series_fits(item, spec)]
    named = [spec for spec in fits if label and label <= _words_of(spec)]
    general = [spec for spec in fits if not label or label <= (_SERIES_LABELS | _words_of(spec))]
    chosen = named or general
    if len(chosen) != 1:
        return None
    unit = item.unit or (default_units(chosen[0].kind)[0] if len(default_units(chosen[0].kind)) == 1 else "")
    points = tuple(
        replace(point, value=replace(point.value, unit=point.value.unit or unit)) if point.value else point for point in item.points
    )
    return Measure(chosen[0], None, points, unit, item.control, line)


def series_fits(item: Item, spec: MeasureSpec) -> bool:
    """Whether readings can be a measure of this kind."""
    return compatible(item.unit, spec.kind) if item.unit else len(default_units(spec.kind)) == 1


def _words_of(spec: MeasureSpec) -> frozenset[str]:
    words = set(plain_words(spec.name.replace("_", " "))) | set(plain_words(spec.label)) | {spec.kind}
    for other in spec.also:
        words |= set(plain_words(other))
    words |= {word + "s" for word in words} | {word[:-1] for word in words if word.endswith("s")}
    return frozenset(words)


def _value(item: Item, specs: Sequence[MeasureSpec], line: int, explained: frozenset[str]) -> tuple[Measure | None, str]:
    """The measure an item gives, and what to say about it; (None, why) when it stays words."""
    quantity = item.quantity
    if quantity is None:
        return None, ""
    label = set(plain_words(item.label)) - _FILL
    named = [spec for spec in specs if label and label <= (_words_of(spec) | explained) and label & _words_of(spec)]
    free = [spec for spec in specs if not label or label <= explained]
    candidates = named or free
    fits = [spec for spec in candidates if quantity_fits(quantity, spec) and _unit_sure(quantity, label, spec)]
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
    if len(fits) == 1:
        spec = fits[0]
        unit = quantity.unit or default_units(spec.kind)[0]
        return Measure(spec, replace(quantity, unit=unit), (), unit, False, line), ""
    if len(fits) > 1:
        names = " or ".join(spec.label for spec in fits)
        return None, f"'{item.text}' may be the {names}; say which, with its name before the figure."
    if candidates and not quantity.unit:
        tape = [spec for spec in candidates if spec.kind == "length"]
        if len(tape) == 1 and _tape(quantity):
            spec = tape[0]
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
        return None, f"'{item.text}' has a unit of another kind; a {' or '.join(kinds)} was expected. It is kept as your words."
    return None, f"'{item.text}' fits no measure here; it is kept as your words."


def _unit_sure(quantity: Quantity, label: set[str], spec: MeasureSpec) -> bool:
    """Whether a figure without a unit may be this measure: it is named so, or a bare share (`18` on a moisture meter).

    `3` beside shingles is not an age of three years, nor `12 outlets` twelve volts.
    """
    if quantity.unit or quantity.of is not None or spec.kind == "length" or label & _words_of(spec):
        return True
    return not label and spec.kind in ("moisture", "humidity", "percent")


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


def quantity_fits(quantity: Quantity, spec: MeasureSpec) -> bool:
    """Whether a figure can be a measure of this kind: a year of make is an age, a fraction of an inch tape is a length."""
    if quantity.unit == "date":
        return spec.kind in ("age", "date")
    return compatible(quantity.unit, spec.kind) or (not quantity.unit and spec.kind == "length" and _tape(quantity))


def _tape(quantity: Quantity) -> bool:
    """Whether a figure is a fraction as an inch tape has it (halves to thirty-seconds)."""
    return any(value.denominator in (2, 4, 8, 16, 32) and "/" in quantity.text or value.denominator in (2, 4, 8, 16, 32) and any(c in quantity.text for c in "¼½¾⅛⅜⅝⅞") for value in (quantity.low, quantity.high))


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
    if criterion is not None and criterion.value and kind in ("length", "area", "pressure", "temperature", "current", "slope"):
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
            return f"{shown} is more than {ABSURD_TIMES} times the usual figure. Check the unit; it is kept as your words."
    return ""


def _joined(measures: Sequence[Measure]) -> tuple[Measure, ...]:
    """Several single values of one series measure, or several parts of a series, as one series."""
    out: list[Measure] = []
    for measure in measures:
        if measure.spec.series and measure.quantity is not None:
            measure = replace(measure, quantity=None, points=(Point(None, measure.quantity, None),))
        same = next(
            (i for i, old in enumerate(out) if old.spec.name == measure.spec.name and old.control == measure.control and old.points and measure.points),
            None,
        )
        if same is None:
            out.append(measure)
        else:
            out[same] = replace(out[same], points=out[same].points + measure.points, unit=out[same].unit or measure.unit)
    return tuple(out)
