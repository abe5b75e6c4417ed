"""The steps of a stair as bars: one for each, in order, with the tallest and the shortest set apart."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from narrator.publish.shapes import (
    BAND,
    HAIR,
    INK,
    PLAIN,
    QUIET,
    SMALL,
    TITLE,
    WIDTH,
    Box,
    Shape,
    Sheet,
    Sign,
    Stroke,
    Words,
    folded,
    scale,
    wide,
)  # fmt: skip
from narrator.publish.text import inline

if TYPE_CHECKING:
    from narrator.report import Chart, ChartRow

LEFT, RIGHT = 36.0, 78.0
MOST_COLUMNS, WIDEST, THICK = 16, 52.0, 0.66
TALL = 124.0


def steps(chart: Chart) -> Sheet:
    """The picture of one or more flights."""
    values = [point["value"] for row in chart["rows"] for point in row["points"] if point["value"] is not None]
    top, ticks = scale(max([1.0, *values]))
    longest = max(len(row["points"]) for row in chart["rows"])
    pitch = round(min(WIDEST, (WIDTH - LEFT - RIGHT) / min(MOST_COLUMNS, longest)), 1)
    shapes: list[Shape] = [Words(0, TITLE, inline(chart["title"]), TITLE, "left", italic=True)]
    y = TITLE + 6
    for row in chart["rows"]:
        for text in folded(inline(row["label"]), WIDTH) if inline(row["label"]) else []:
            y += 17
            shapes.append(Words(0, y, text, align="left", bold=True))
        for start in range(0, len(row["points"]), MOST_COLUMNS):
            y += 18
            shapes += _flight(row, start, y, pitch, top, ticks)
            y += TALL + 54
        y += 8
    return Sheet(y - 8, tuple(shapes))


def _flight(row: ChartRow, start: int, y: float, pitch: float, top: float, ticks: list[float]) -> Iterator[Shape]:
    """Bars of one line, whose scale ends at `y`: the figures and the steps' names stand below them."""
    points = row["points"][start : start + MOST_COLUMNS]
    known = [point["value"] for point in row["points"] if point["value"] is not None]
    ends = sorted({min(known), max(known)}) if row["spread"] and row["spread"]["figure"] else []
    odd = [end for end in ends if 2 * known.count(end) <= len(known)]  # what most steps have is no odd step
    foot, right = y + TALL, LEFT + len(points) * pitch
    for tick in ticks:
        at = foot - tick / top * TALL
        yield Stroke(LEFT, at, right, at, HAIR)
        yield Words(LEFT - 6, at + 4, f"{tick:g}", PLAIN, "right", QUIET)
    bare = [_bare(point["text"]) for point in points]
    tight = any(wide(text) > pitch - 3 for text in bare)
    for at, (point, text) in enumerate(zip(points, bare, strict=True)):
        x, value = LEFT + (at + 0.5) * pitch, point["value"]
        if value is None:
            yield Sign(x, foot - 9, "cross")
        else:
            high = value / top * TALL
            fill = QUIET if value in odd else BAND
            yield Box(x - THICK * pitch / 2, foot - high, THICK * pitch, high, fill, QUIET)
        for line, part in enumerate(folded(text, pitch, SMALL, 2) if tight else [text]):
            yield Words(x, foot + 15 + 10 * line, part, SMALL if tight else PLAIN, bold=value in odd)
        name = inline(point["name"] or "") or str(start + at + 1)
        yield Words(x, foot + (39 if tight else 30), folded(name, pitch, most=1)[0], colour=QUIET)
    yield Stroke(LEFT, foot, right, foot, INK)
    yield Words(LEFT, foot + (52 if tight else 43), "steps, in the order noted", SMALL, "left", QUIET, italic=True)
    if ends and row["spread"]:
        low, high = (foot - end / top * TALL for end in ends)
        for at in (low, high):
            yield Stroke(LEFT, at, right + 9, at, INK, 0.9, dashed=True)
        yield Stroke(right + 9, low, right + 9, high, INK, 1.6)
        for line, text in enumerate(("largest", "difference", inline(row["spread"]["figure"]))):
            yield Words(right + 15, (low + high) / 2 - 9 + 13 * line, text, align="left", bold=line == 2)


def _bare(text: str) -> str:
    """The figure without its unit, which the title names."""
    said = inline(text)
    return next((said.removesuffix(unit) for unit in (" inches", " inch", " mm", " cm") if said.endswith(unit)), said)
