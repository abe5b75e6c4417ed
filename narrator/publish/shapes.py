"""What a picture is drawn from: a few plain shapes on a sheet, `y` counted from the top."""

from __future__ import annotations

from typing import NamedTuple

WIDTH = 420.0
"""Of every picture. On a phone one unit is about nine tenths of a pixel, beside a margin a little more than one."""

INK, QUIET, HAIR, BAND, PAPER = "#22262a", "#5b6167", "#c9ccd0", "#e8eaec", "#ffffff"
"""The greys of the letter: words and values, what stands beside them, rules, bands, the ground."""

TITLE, PLAIN, SMALL = 13.0, 12.0, 10.5
_SIGN = 0.5  # the width of a letter, on average, in its own size


class Box(NamedTuple):
    """A rectangle from its upper left corner; without an edge where that is empty."""

    x: float
    y: float
    width: float
    height: float
    fill: str
    edge: str = ""


class Stroke(NamedTuple):
    """A straight line."""

    x: float
    y: float
    to_x: float
    to_y: float
    colour: str = HAIR
    width: float = 0.75
    dashed: bool = False


class Sign(NamedTuple):
    """A mark around its middle: dot, ring, cross, diamond, square, down, or up. Only dot and up are filled."""

    x: float
    y: float
    form: str


class Words(NamedTuple):
    """One line of text on its baseline. `align`: left, center, right."""

    x: float
    y: float
    text: str
    size: float = PLAIN
    align: str = "center"
    colour: str = INK
    italic: bool = False
    bold: bool = False


Shape = Box | Stroke | Sign | Words


class Sheet(NamedTuple):
    """A picture."""

    height: float
    shapes: tuple[Shape, ...]


def wide(text: str, size: float = PLAIN) -> float:
    """About how wide a text is; no font is asked, so the same on every machine."""
    return len(text) * size * _SIGN


def folded(text: str, width: float, size: float = PLAIN, most: int = 3) -> list[str]:
    """The text in lines that about fit; what is more than `most` lines is cut, since the caption has it whole."""
    room = max(4, int(width / (size * _SIGN)))
    lines = [""]
    for word in text.split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > room:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    short = [line if len(line) <= room + 2 else f"{line[: room - 1]}…" for line in lines[:most]]
    if len(lines) > most:
        short[-1] = f"{short[-1].rstrip('…,')}…"
    return short


def scale(most: float) -> tuple[float, list[float]]:
    """The top of an axis from nothing to at least `most`, and its ticks: 3 to 6 round steps."""
    step = 1.0
    while most / step > 5:
        step *= 2 if str(step)[0] in "15" else 2.5
    count = max(1, -int(-most // step))
    return count * step, [at * step for at in range(count + 1)]
