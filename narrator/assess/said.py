"""Judged figures said in the reader's units. Verdicts were found with the figures as typed and stay as they are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrator.assess.model import Derived, Judged, Judgement, Seen
from narrator.compose.english import join_list
from narrator.measure.quantity import Quantity
from narrator.measure.readers import in_unit, readers_unit
from narrator.measure.show import show, show_value
from narrator.measure.units import convert
from narrator.measure.verdict import usual


def said_in(judgement: Judgement, system: str) -> Judgement:
    """The judgement with every figure in `metric` or `us` units; `as typed` leaves it alone."""
    if system == "as typed":
        return judgement
    return judgement._replace(
        findings=tuple(replace(one, seen=_seen(one.seen, system)) for one in judgement.findings),
        met=_seen(judgement.met, system),
        young=_seen(judgement.young, system),
    )


def _seen(seen: Sequence[Seen], system: str) -> tuple[Seen, ...]:
    return tuple(one._replace(judged=tuple(_judged(item, system) for item in one.judged)) for one in seen)


def _judged(judged: Judged, system: str) -> Judged:
    values = [point.value for point in judged.measure.points if point.value is not None]
    values += [judged.measure.quantity] if judged.measure.quantity is not None else []
    typed = judged.measure.unit or next((value.unit for value in values if value.unit), "")
    if not typed or not values or not all(_fits(one, typed) for one in values):
        return judged
    ends = [convert(end, one.unit or typed, typed) for one in values for end in (one.low, one.high)]
    unit = readers_unit(max(map(abs, ends)), typed, system)
    if unit == typed or any(not _fits(one, unit) for one in values):
        return judged
    made = _converted(judged, typed, unit)
    limit = judged.criterion
    if judged.verdict in ("short", "over") and limit is not None and not judged.measure.points:
        # Rounding must not make a figure that fails look like the one it fails: then it stays as typed.
        try:
            if made.text == usual(limit, unit):
                return judged
        except ValueError:
            return judged
    return made


def _fits(value: Quantity, unit: str) -> bool:
    if value.of is not None or value.unit == "date":
        return False
    try:
        convert(value.low, value.unit or unit, unit)
    except ValueError:
        return False
    return True


def _converted(judged: Judged, typed: str, unit: str) -> Judged:
    measure = judged.measure
    points = tuple(
        point if point.value is None else replace(point, value=_said(point.value, typed, unit))
        for point in measure.points
    )
    quantity = _said(measure.quantity, typed, unit) if measure.quantity is not None else None
    values = [point.value for point in points if point.value is not None]
    text = show(quantity) if quantity is not None else join_list([show(value) for value in values]) if values else ""
    return replace(
        judged,
        measure=replace(measure, quantity=quantity, points=points, unit=unit),
        text=text,
        derived=tuple(_derived(item, typed, unit) for item in judged.derived),
        unit=unit,
    )


def _said(value: Quantity, typed: str, unit: str) -> Quantity:
    return in_unit(value if value.unit else replace(value, unit=typed), unit)


def _derived(item: Derived, typed: str, unit: str) -> Derived:
    """A value worked out from the figures; a difference of temperatures has no zero to move."""
    if item.unit != typed:
        return item
    apart = item.name.endswith("variation") and unit in ("degF", "degC")
    value = convert(item.value, f"delta_{typed}" if apart else typed, f"delta_{unit}" if apart else unit)
    return item._replace(value=value, unit=unit, text=show_value(value, unit))
