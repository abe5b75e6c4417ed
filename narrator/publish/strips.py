"""A moisture survey as strips: one for each place, its points in order, all on one scale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

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
)  # fmt: skip
from narrator.publish.text import inline

if TYPE_CHECKING:
    from narrator.report import Chart, ChartPoint, ChartRow

LEFT, RIGHT = 36.0, 6.0
MOST_COLUMNS = 11.0
WIDEST = 52.0
GAP = 0.7  # columns between two strips
FEWEST_COLUMNS = 2.6  # what the name of a place needs
TALL, LANE, FOOT = 156.0, 41.0, 16.0

_SIGNS = {"no-hold": "cross", "void": "diamond", "blocked": "square", "too short": "down"}
_SAID = {
    "OL": ("past", "scale"),
    "no-hold": ("no", "hold"),
    "void": ("void",),
    "blocked": ("blocked",),
    "too short": ("too", "short"),
}


class _Strip(NamedTuple):
    """A place, or a part of one that is too long for one line. `start` in columns."""

    row: ChartRow
    points: list[ChartPoint]
    start: float
    columns: float
    more: bool


def strips(chart: Chart) -> Sheet:
    """The picture of a moisture survey."""
    lines = _lines(chart["rows"])
    pitch = round(min(WIDEST, (WIDTH - LEFT - RIGHT) / max(line[-1].start + line[-1].columns for line in lines)), 1)
    values = [point["value"] for row in chart["rows"] for point in row["points"] if point["value"] is not None]
    top, ticks = scale(max([30.0, *values, *(mark["value"] + 5 for mark in chart["marks"])]))
    shapes: list[Shape] = [Words(0, TITLE, inline(chart["title"]), TITLE, "left", italic=True)]
    y = TITLE + 8
    for mark in chart["marks"]:
        y += 17
        shapes += [Box(LEFT, y - 10, 20, 12, BAND), Stroke(LEFT, y + 2, LEFT + 20, y + 2, INK, 1.1)]
        shapes.append(Words(LEFT + 27, y, inline(mark["text"]), align="left"))
    for line in lines:
        y += 36
        shapes += _line(chart, line, y, pitch, top, ticks)
        y += TALL + (LANE if _lacks(line) else 0) + FOOT + 15 * max(len(_label(strip, pitch)) for strip in line) + 8
    return Sheet(y, tuple(shapes))


def _lines(rows: Sequence[ChartRow]) -> list[list[_Strip]]:
    """Strips side by side as far as they fit; one for comparison goes to the first line that has room."""
    lines: list[list[_Strip]] = []
    most = int(MOST_COLUMNS)
    for row in rows:
        for at in range(0, len(row["points"]), most):
            points = row["points"][at : at + most]
            columns = max(FEWEST_COLUMNS, float(len(points)))
            able = [line for line in lines if _room(line) + columns <= MOST_COLUMNS]
            line = able[0] if able and (row["control"] or able[-1] is lines[-1]) else []
            line = able[-1] if line and not row["control"] else line
            if not line:
                lines.append(line)
            line.append(_Strip(row, points, _room(line), columns, at > 0))
    return lines


def _room(line: Sequence[_Strip]) -> float:
    """Where the next strip of a line starts."""
    return line[-1].start + line[-1].columns + GAP if line else 0.0


def _lacks(line: Sequence[_Strip]) -> bool:
    return any(point["value"] is None and point["reason"] != "OL" for strip in line for point in strip.points)


def _label(strip: _Strip, pitch: float) -> list[str]:
    name = inline(strip.row["label"]) or ("" if strip.row["control"] else "readings")
    said = folded(f"{name}, continued" if strip.more else name, strip.columns * pitch + 6) if name else []
    return [*said, "believed dry"] if strip.row["control"] else said


def _line(
    chart: Chart, line: Sequence[_Strip], y: float, pitch: float, top: float, ticks: Sequence[float]
) -> Iterator[Shape]:
    """One line of strips with its scale, whose top is at `y`."""
    end = LEFT + (line[-1].start + line[-1].columns) * pitch
    foot = y + TALL
    edges = [foot - mark["value"] / top * TALL for mark in chart["marks"]]
    for edge in edges:
        yield Box(LEFT, y, end - LEFT, edge - y, BAND)
    marked = {mark["value"] for mark in chart["marks"]}
    for tick in [*(each for each in ticks if each not in marked), *sorted(marked)]:
        at = foot - tick / top * TALL
        known = tick in marked
        yield Stroke(LEFT, at, end, at, INK if known or not tick else HAIR, 1.1 if known else 0.75)
        if known or all(abs(tick - each) / top * TALL > 11 for each in marked):
            yield Words(LEFT - 6, at + 4, f"{tick:g} %", PLAIN, "right", INK if known else QUIET, bold=known)
    if _lacks(line):
        yield Words(LEFT - 6, foot + 17, "none", SMALL, "right", QUIET, italic=True)
    below = foot + (LANE if _lacks(line) else 0)
    for strip in line:
        left = LEFT + strip.start * pitch
        shift = (strip.columns - len(strip.points)) / 2
        for at, point in enumerate(strip.points):
            x = left + (shift + at + 0.5) * pitch
            yield from _point(point, strip.row["control"], x, y, foot, top, edges)
            if point["name"]:
                yield Words(x, below + 13, folded(inline(point["name"]), pitch, most=1)[0], colour=QUIET)
        yield Stroke(left + 3, below + FOOT + 3, left + strip.columns * pitch - 3, below + FOOT + 3, QUIET)
        for at, text in enumerate(_label(strip, pitch)):
            middle = left + strip.columns * pitch / 2
            yield Words(middle, below + FOOT + 17 + 15 * at, text, italic=text == "believed dry")


def _point(
    point: ChartPoint, control: bool, x: float, y: float, foot: float, top: float, edges: Sequence[float]
) -> Iterator[Shape]:
    """A value at its percent, past the top edge, or below the scale with the reason why there is none."""
    value, reason = point["value"], point["reason"]
    if value is not None:
        at = foot - value / top * TALL
        yield Stroke(x, foot, x, at, QUIET, 0.75)
        yield Sign(x, at, "ring" if control else "dot")
        # No edge of a band runs through the figure: close below one, it stands beside its dot.
        beside = any(4 < at - edge <= 15.5 for edge in edges)
        base = next((edge + 10 for edge in edges if 15.5 < at - edge < 18), at - 8)
        spot = (x + 7, at + 4.5) if beside else (x, base)
        yield Words(*spot, _figure(value, point["text"]), align="left" if beside else "center", bold=not control)
        return
    said = _SAID.get(reason or "", ("none",))
    if reason == "OL":
        yield Stroke(x, foot, x, y, QUIET, 0.75, dashed=True)
        yield Sign(x, y, "up")
    else:
        yield Sign(x, foot + 13, _SIGNS.get(reason or "", "cross"))
    for line, text in enumerate(said):
        yield Words(x, (y - 18 if reason == "OL" else foot + 28) + 10 * line, text, SMALL)


def _figure(value: float, text: str) -> str:
    """The bare figure, with the sign of a bound."""
    sign = {"about": "~", "less": "<", "more": ">"}.get(text.split(" ")[0], "")
    return f"{sign}{value:g}"
