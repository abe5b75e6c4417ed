"""What a picture says, in sentences: every figure, name and reason that it shows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING, Any

from narrator.compose.english import capital_first, join_list
from narrator.measure.show import show_value
from narrator.measure.units import convert

if TYPE_CHECKING:
    from narrator.report import Chart, ChartPoint, ChartRow, ChartSpread

REASONS = {
    "OL": "past the top of the scale",
    "no-hold": "no hold",
    "void": "void",
    "blocked": "blocked",
    "too short": "pins too short",
}
"""Why a point has no reading, in words."""


def survey(chart: Chart) -> list[str]:
    """A moisture survey in sentences: its places, what no reading means, the published figures."""
    return [*map(_moisture, chart["rows"]), _unread(chart["rows"]), *(mark["text"] for mark in chart["marks"])]


def flights(chart: Chart, criteria: Sequence[Mapping[str, Any]]) -> list[str]:
    """Flights in sentences, each with its largest difference, and the published figure."""
    said = ["The steps stand in the order noted"]
    for row in chart["rows"]:
        said += [_steps(row), row["spread"]["text"] if row["spread"] else ""]
    usual = sorted({_usual(criterion, chart["unit"]) for criterion in criteria})
    return said + [f"Stair builders keep the steps of a flight within {figure} of one another" for figure in usual]


def _moisture(row: ChartRow) -> str:
    """`Front: 18 % at B1, 21 % at B2, no hold at B3 and B4`."""
    said = []
    for alike in _runs(row["points"]):
        names = [point["name"] for point in alike if point["name"]]
        said.append(f"{alike[0]['text']} at {join_list(names)}" if names else alike[0]["text"])
    label = row["label"] or ("A part" if row["control"] else "Readings")
    return f"{label}{', believed dry, for comparison' if row['control'] else ''}: {', '.join(said)}"


def _runs(points: Sequence[ChartPoint]) -> list[list[ChartPoint]]:
    """Named points next to each other that have no reading for the same reason together, every other alone."""
    runs: list[list[ChartPoint]] = []
    for point in points:
        last = runs[-1][-1] if runs else None
        if last and last["name"] and point["name"] and point["reason"] and last["reason"] == point["reason"]:
            runs[-1].append(point)
        else:
            runs.append([point])
    return runs


def _unread(rows: Sequence[ChartRow]) -> str:
    """What the words for a point without a reading mean, of those that occur."""
    found = {point["reason"] for row in rows for point in row["points"]}
    words = [REASONS[reason] for reason in REASONS if reason in found and reason != "OL"]
    said = [word + (" (the pins met nothing firm)" if word == REASONS["no-hold"] else "") for word in words]
    return f"{capital_first(join_list(said))}: there is no reading there" if said else ""


def _step_names(points: Sequence[ChartPoint]) -> list[str]:
    """The steps as typed, or counted from one."""
    return [point["name"] or str(at) for at, point in enumerate(points, 1)]


def _steps(row: ChartRow) -> str:
    """`Main stairs: step 1, 8 inches; steps 2 to 5, 7 1/4 inches each`."""
    said = []
    numbered = enumerate(row["points"], 1)
    for (text, _), points in groupby(numbered, key=lambda one: (one[1]["text"], one[1]["name"] and one[0])):
        first, *rest = points
        name = first[1]["name"] or str(first[0])
        join = "to" if len(rest) > 1 else "and"
        said.append(f"steps {name} {join} {rest[-1][0]}, {text} each" if rest else f"step {name}, {text}")
    return f"{row['label'] or 'Steps'}: {'; '.join(said)}"


def difference(points: Sequence[ChartPoint], figure: str) -> ChartSpread:
    """`The largest difference is 3/4 inch, between step 4 (8 inches) and step 1 (7 1/4 inches)`."""
    typed = [(point["value"], name, point["text"]) for name, point in zip(_step_names(points), points, strict=True)]
    known = [(value, name, text) for value, name, text in typed if value is not None]
    low, high = min(known, key=lambda one: one[0]), max(known, key=lambda one: one[0])
    if low[0] == high[0]:
        return {"figure": "", "text": "Every step measured has the same height"}
    text = f"The largest difference is {figure}, between step {high[1]} ({high[2]}) and step {low[1]} ({low[2]})"
    return {"figure": figure, "text": text}


def _usual(criterion: Mapping[str, Any], unit: str) -> str:
    """The published figure, metric where metric was typed."""
    value = Fraction(criterion["value"]).limit_denominator(64)
    metric = unit in ("millimeter", "centimeter", "meter")
    return show_value(convert(value, criterion["unit"], unit), unit) if metric else show_value(value, criterion["unit"])
