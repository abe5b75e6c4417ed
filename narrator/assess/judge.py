"""Verdicts: each typed value against today's published figure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

from narrator.assess.model import Derived, Judged, Seen
from narrator.assess.worked import chosen_row, worked_measures
from narrator.compose.english import join_list, number_word
from narrator.measure.quantity import Quantity
from narrator.measure.show import show, show_value
from narrator.measure.units import convert, default_units
from narrator.measure.verdict import Criterion, judge, usual
from narrator.resolve.model import Instance, Measure
from narrator.source import index as store
from narrator.source.index import Index

Instruments = Mapping[str, tuple[Fraction, str]]


class Tools(NamedTuple):
    """What is known of the instruments: the moisture meter's uncertainty as typed, in percent, and those of the firm by kind."""

    typed: Fraction | None = None
    firm: Instruments = MappingProxyType({})


def judge_instance(
    instance: Instance, index: Index, visited_year: int | None, tools: Tools, built: bool = False
) -> Seen:
    """The instance with a verdict for each measure that has a criterion."""
    entry = instance.entry
    worked, said = worked_measures(instance, entry) if entry is not None else ((), ())
    notes = list(said)
    judged: list[Judged] = []
    for measure in (*instance.measures, *worked):
        name = measure.spec.criterion
        if measure.spec.against:
            name, why = chosen_row(measure.spec, instance)
            notes += [why] if why else []
        criterion = store.criterion(index, name) if name else None
        one = _judge(measure, criterion, visited_year, tools)
        judged.append(_with_bands(one, index) if measure.spec.bands else one)
    return Seen(instance, tuple(_with_older(one, index) if built else one for one in judged), tuple(notes))


def _with_older(judged: Judged, index: Index) -> Judged:
    """The measure with the figure for older houses beside it, where its criterion has one and the value fails today's."""
    name = judged.criterion.existing if judged.criterion else ""
    if not name or judged.verdict in (None, "meets"):
        return judged
    return replace(judged, older=store.criterion(index, name))


def _with_bands(judged: Judged, index: Index) -> Judged:
    """A survey with the count above each further band that its entry names."""
    bands = [row for name in judged.measure.spec.bands if (row := store.criterion(index, name)) is not None]
    values = [point.value for point in judged.measure.points if point.value is not None]
    more = [item for row in bands for item in _in_band(judged.measure, row, values)]
    return replace(judged, derived=(*judged.derived, *more))


def _in_band(measure: Measure, band: Criterion, values: Sequence[Quantity]) -> tuple[Derived, ...]:
    """How many readings of a survey reach a further published figure; a band decides nothing."""
    if measure.control or len(measure.points) < 3:
        return ()
    beyond = sum(1 for point in measure.points if point.reason == "OL")
    count = sum(1 for value in values if value.low >= min(band.value)) + beyond
    name = f"{measure.spec.name} at {usual(band)} or more"
    return (Derived(name, Fraction(count), "count", number_word(count) if count else "none", measure.spec.name),)


def _judge(measure: Measure, criterion: Criterion | None, visited_year: int | None, tools: Tools) -> Judged:
    if criterion is not None and criterion.role != "limit":
        criterion = None
    if measure.points:
        return _judge_series(measure, criterion, tools)
    quantity = measure.quantity
    assert quantity is not None
    derived: tuple[Derived, ...] = ()
    compared: Quantity | None = quantity
    if quantity.unit == "date" and measure.spec.kind == "age":
        compared = None
        if visited_year is not None and quantity.low <= visited_year:
            age = Fraction(visited_year) - quantity.low
            derived = (Derived("age", age, "year", show_value(age, "year"), measure.spec.name),)
            compared = Quantity(age, age, "year", "", None, quantity.text)
    verdict = None
    if criterion is not None and compared is not None and not measure.control:
        margin = _margin(measure, criterion, tools)
        verdict = _verdict(compared, criterion, margin)
    return Judged(measure, criterion, verdict, show(quantity), derived)


def _margin(measure: Measure, criterion: Criterion, tools: Tools) -> Fraction:
    """The instrument's uncertainty: the header's for a moisture meter, else the firm's, else the library's."""
    if measure.spec.kind == "moisture" and tools.typed is not None:
        return tools.typed
    if measure.spec.kind in tools.firm:
        figure, unit = tools.firm[measure.spec.kind]
        with suppress(ValueError):
            return convert(figure, _span(unit or criterion.unit), _span(criterion.unit))
    return criterion.instrument or Fraction(0)


def _span(unit: str) -> str:
    """The unit of a difference: degrees of temperature without their zero."""
    return f"delta_{unit}" if unit in ("degF", "degC") else unit


def _verdict(quantity: Quantity, criterion: Criterion, margin: Fraction) -> str | None:
    try:
        return judge(quantity, criterion, margin)
    except ValueError:
        return None


def _judge_series(measure: Measure, criterion: Criterion | None, tools: Tools) -> Judged:
    """A series is judged by its worst reading; past the top of the scale counts as over."""
    values = [point.value for point in measure.points if point.value is not None]
    text = join_list([show(value) for value in values]) if values else ""
    verdict = None
    derived = (*_derived(measure, values), *_above(measure, criterion, values))
    if criterion is not None and not measure.control and measure.spec.hold == "variation":
        spread = next((item for item in derived if item.name.endswith("variation")), None)
        if spread is not None:
            verdict = _verdict(
                Quantity(spread.value, spread.value, spread.unit, "", None, spread.text), criterion, Fraction(0)
            )
    elif criterion is not None and not measure.control:
        margin = _margin(measure, criterion, tools)
        each = [_verdict(value, criterion, margin) for value in values]
        if any(point.reason == "OL" for point in measure.points):
            each.append("over")
        verdict = next((name for name in ("over", "short", "too close", "meets") if name in each), None)
    return Judged(measure, criterion, verdict, text, derived)


def _derived(measure: Measure, values: Sequence[Quantity]) -> tuple[Derived, ...]:
    """Lowest, highest, median and spread of a series, in its unit."""
    if len(values) < 2:
        return ()
    unit = measure.unit or values[0].unit or default_units(measure.spec.kind)[0]
    try:
        numbers = [convert(value.low, value.unit or unit, unit) for value in values]
    except ValueError:
        return ()
    found = {
        "lowest": min(numbers),
        "highest": max(numbers),
        "median": _median(numbers),
        "variation": max(numbers) - min(numbers),
    }
    name = measure.spec.name + (" control" if measure.control else "")
    return tuple(Derived(f"{name} {key}", value, unit, show_value(value, unit), name) for key, value in found.items())


def _above(measure: Measure, criterion: Criterion | None, values: Sequence[Quantity]) -> tuple[Derived, ...]:
    """How many readings of a moisture survey lie above the published figure; past the top of the scale counts."""
    if criterion is None or measure.control or measure.spec.kind != "moisture" or len(measure.points) < 3:
        return ()
    limit = max(criterion.value)
    over = sum(1 for value in values if value.low > limit) + sum(1 for point in measure.points if point.reason == "OL")
    taken = len(values) + sum(1 for point in measure.points if point.reason == "OL")
    text = f"{number_word(over) if over else 'none'} of {number_word(taken)}"
    return (Derived(f"{measure.spec.name} above", Fraction(over), "count", text, measure.spec.name),)


def _median(numbers: Sequence[Fraction]) -> Fraction:
    """The middle value, or the mean of the two in the middle (the statistics module costs more than the whole sum)."""
    ordered = sorted(numbers)
    middle = len(ordered) // 2
    return ordered[middle] if len(ordered) % 2 else (ordered[middle - 1] + ordered[middle]) / 2
