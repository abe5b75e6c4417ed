"""Facts of a finding as typed values: places, figures, readings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from narrator.assess.model import Judged, Seen
from narrator.compose.english import join_list, number_word
from narrator.compose.place import Places, join_places, phrase, unsaid
from narrator.compose.spans import Span
from narrator.compose.template import Value
from narrator.measure.show import show
from narrator.measure.verdict import Criterion, usual
from narrator.read.model import Point


class Told(NamedTuple):
    """Settings that the sentences need."""

    places: Places


def line_ref(seen: Seen) -> str:
    """The reference of a span to its checklist line."""
    return f"line {seen.instance.line.number}"


def place_value(seen: Sequence[Seen], told: Told, after: str = "") -> Value:
    """All places of these instances as one phrase with prepositions; empty when none was typed.

    `after`: a title that stands right before the phrase; what it names is not said again.
    """
    found: dict[str, Seen] = {}
    for one in seen:
        place = unsaid(one.instance.place, after, told.places) if one.instance.place and after else one.instance.place
        if place:
            found.setdefault(place, one)
    if not found:
        return Value(())
    text = join_places([phrase(place, told.places) for place in found])
    lines = sorted({one.instance.line.number for one in seen})
    return Value((Span(text, "place", "line " + ", ".join(str(n) for n in lines), None, lines[0]),))


def measure_value(judged: Judged, seen: Seen) -> Value:
    """A measure for a template: its figure, with `usual` (the published figure in words) and `count` of readings."""
    spec = judged.measure.spec
    number = seen.instance.line.number
    text = series_text(judged.measure.points) if judged.measure.points else judged.text
    ref = f"measure:{spec.name}"
    age = next((item for item in judged.derived if item.name == "age"), None)
    if age is not None:
        text, ref = age.text, "derived:age"  # made 2005: the wording speaks of an age; the year gets its own sentence
    parts: dict[str, Value] = {}
    if judged.criterion is not None:
        parts["usual"] = Value((Span(usual_text(judged), "criterion", judged.criterion.id, None, None),))
    if judged.measure.points:
        words = number_word(len(judged.measure.points))
        parts["count"] = Value((Span(words, "count", f"measure:{spec.name}", None, number),))
        for item in judged.derived:
            key = item.name.rsplit(" ", 1)[-1]
            parts[key] = Value((Span(item.text, "quantity", f"derived:{item.name}", None, number),))
    return Value((Span(text, "quantity", ref, None, number),), parts)


_METRIC = frozenset({"millimeter", "centimeter", "meter", "meter**2", "degC", "delta_degC", "kilopascal"})


def bare_share(judged: Judged) -> bool:
    """Whether a value is a worked-out share without a unit, which says nothing by itself (`0.0025`)."""
    return bool(judged.measure.source) and judged.measure.unit == "dimensionless"


def usual_text(judged: Judged) -> str:
    """The published figure in words, in the reader's own kind of unit: metric where metric was typed."""
    assert judged.criterion is not None
    unit = judged.measure.unit
    if judged.unit:
        return usual_in(judged.criterion, unit)
    if unit in _METRIC and judged.criterion.unit not in _METRIC:
        try:
            return usual(judged.criterion, unit)
        except ValueError:
            return usual(judged.criterion)
    return usual(judged.criterion)


def usual_in(criterion: Criterion, unit: str) -> str:
    """The published figure in the reader's unit, if there is one that it can be said in."""
    try:
        return usual(criterion, unit)
    except ValueError:
        return usual(criterion)


def series_text(points: Sequence[Point]) -> str:
    """The values of a series, named where they have names: `11 % at A1 and 12 % at A2`."""
    shown = []
    for point in points:
        if point.value is not None:
            shown.append(f"{show(point.value)} at {point.name}" if point.name else show(point.value))
    return join_list(shown)
