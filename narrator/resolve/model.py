"""Findings before they are judged: lines bound to entries, quantities bound to measures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from narrator.measure.quantity import Quantity
from narrator.read.model import Item, Line, Point
from narrator.source.model import Entry, MeasureSpec


class Match(NamedTuple):
    """How a line found its entry: `how` is code, name, likeness, settled or own; `score` is 1 unless by likeness."""

    code: str
    how: str
    score: float


@dataclass(frozen=True, slots=True)
class Measure:
    """A value bound to a measure of the entry: typed, or worked out from the measures that `source` names.

    A series has `points`; `of` counts n of m.
    """

    spec: MeasureSpec
    quantity: Quantity | None
    points: tuple[Point, ...]
    unit: str
    control: bool = False
    line: int = 0
    source: str = ""


@dataclass(frozen=True, slots=True)
class Instance:
    """One place of one finding, from one line (or one part of it)."""

    line: Line
    match: Match
    entry: Entry | None
    title: str
    place: str | None
    basis: str
    source: str | None
    measures: tuple[Measure, ...]
    count: int | None
    photos: tuple[int, ...]
    sketches: tuple[int, ...]
    words: tuple[str, ...]
    acts: tuple[Item, ...]
    unit: str | None
    overrides: tuple[Item, ...]
    default_basis: bool
    says_wrong: bool


class Near(NamedTuple):
    """A near answer to a line that stays unresolved."""

    code: str
    title: str
    score: float


class Loose(NamedTuple):
    """A line (or part) that found no answer: kept word for word."""

    line: Line
    text: str
    reason: str
    near: tuple[Near, ...]


class Remark(NamedTuple):
    """A review note: something the named person should look at."""

    kind: str
    lines: tuple[int, ...]
    text: str


@dataclass(frozen=True, slots=True)
class Resolved:
    """Everything a checklist says, bound to the library."""

    instances: tuple[Instance, ...]
    results: tuple[tuple[Line, str], ...]
    loose: tuple[Loose, ...]
    notes: tuple[Remark, ...]
