"""Readings: series as typed, figures typed one after another, and what joins into one series."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrator.measure.units import default_units
from narrator.read.model import Item, Point
from narrator.resolve.fits import label_of, series_fits, words_of
from narrator.resolve.model import Measure
from narrator.source.model import MeasureSpec

_SERIES_LABELS = frozenset({"control", "reading", "readings", "moisture", "pins", "meter", "dry", "wall", "points"})


def runs(items: Sequence[Item], specs: Sequence[MeasureSpec]) -> list[list[Item]]:
    """Items one by one, but figures typed one after another with commas together, where the entry has a series.

    `risers 7 1/4, 7 1/2, 7 3/8 in` is one run: a name stands only before the first, and all share a unit.
    """
    wanted = [spec for spec in specs if spec.series]
    out: list[list[Item]] = []
    for item in items:
        label = label_of(item)
        last = out[-1] if out else []
        if _runs_on(item) and not label and last and _runs_on(last[0]) and wanted:
            first = label_of(last[0])
            units = {one.quantity.unit for one in (*last, item) if one.quantity and one.quantity.unit}
            if len(units) < 2 and any(first <= words_of(spec) for spec in wanted):
                last.append(item)
                continue
        out.append([item])
    return out


def _runs_on(item: Item) -> bool:
    """Whether an item is a single figure that may stand in a run."""
    one = item.quantity
    return item.kind == "value" and one is not None and one.of is None and not one.is_range


def merged(run: Sequence[Item]) -> Item:
    """A run of figures as one series; the unit of one holds for all."""
    figures = [item.quantity for item in run if item.quantity]
    unit = next((one.unit for one in reversed(figures) if one.unit), "")
    points = tuple(Point(None, replace(one, unit=one.unit or unit), None) for one in figures)
    text = ", ".join(item.text for item in run)
    return Item("series", text, run[0].column, label=run[0].label, points=points, unit=unit)


def series(item: Item, specs: Sequence[MeasureSpec], line: int) -> Measure | None:
    """The series measure that readings give; None when none fits, or several do."""
    label = label_of(item)
    wanted = [spec for spec in specs if spec.series] or [
        spec for spec in specs if spec.kind in ("moisture", "percent", "length", "humidity")
    ]
    fits = [spec for spec in wanted if series_fits(item, spec)]
    named = [spec for spec in fits if label and label <= words_of(spec)]
    general = [spec for spec in fits if not label or label <= (_SERIES_LABELS | words_of(spec))]
    chosen = named or general
    if len(chosen) != 1:
        return None
    usual = default_units(chosen[0].kind)
    unit = item.unit or (usual[0] if len(usual) == 1 else "inch")
    points = tuple(
        replace(point, value=replace(point.value, unit=point.value.unit or unit)) if point.value else point
        for point in item.points
    )
    return Measure(chosen[0], None, points, unit, item.control, line)


def beyond(measure: Measure) -> str:
    """Why a reading of a series cannot be meant, or nothing."""
    if measure.spec.kind not in ("moisture", "percent", "humidity"):
        return ""
    for point in measure.points:
        if point.value is not None and not 0 <= point.value.low <= 100:
            return f"'{point.value.text}' cannot be: a share runs from 0 to 100 %. The readings are kept as your words."
    return ""


def joined(measures: Sequence[Measure]) -> tuple[Measure, ...]:
    """Several single values of one series measure, or several parts of a series, as one series."""
    out: list[Measure] = []
    for measure in measures:
        if measure.spec.series and measure.quantity is not None:
            measure = replace(measure, quantity=None, points=(Point(None, measure.quantity, None),))
        same = next((i for i, old in enumerate(out) if _one_series(old, measure)), None)
        if same is None:
            out.append(measure)
        else:
            out[same] = replace(
                out[same], points=out[same].points + measure.points, unit=out[same].unit or measure.unit
            )
    return tuple(out)


def _one_series(one: Measure, other: Measure) -> bool:
    return bool(one.points and other.points) and (one.spec.name, one.control) == (other.spec.name, other.control)
