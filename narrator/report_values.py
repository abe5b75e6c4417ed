"""Values inside the report value: measures, instances, limits, spans, rows of sheets, charts. See `report.py`."""

from __future__ import annotations

from typing import Any, NotRequired, TypedDict


class TradeRef(TypedDict):
    """Who answers: a word from `trades.yaml`, `lead` or `with`."""

    id: str
    role: str


class CriterionRef(TypedDict):
    """The published figure a value was held against. `value` is a number or a pair, in `unit`."""

    id: str
    value: float | list[float]
    unit: str
    comparison: str
    source: str


class PointValue(TypedDict):
    """One reading of a series: `value` is null where none was taken and `reason` says why (OL, no-hold, void...)."""

    name: str | None
    value: float | None
    reason: str | None


class MeasureValue(TypedDict):
    """A measured value: `value` is a number in `unit` (null for a series), `text` is what prints."""

    name: str
    value: float | None
    unit: str
    text: str
    points: list[PointValue]
    criterion: CriterionRef | None
    verdict: str | None
    high: NotRequired[float]
    of: NotRequired[float]
    bound: NotRequired[str]


class ActValue(TypedDict):
    """What was done on site, from a typed line: `warned occupant 14:10`."""

    what: str
    who: str | None
    time: str | None
    text: str


class Instance(TypedDict):
    """One place where the condition was found."""

    place: str | None
    lines: list[int]
    basis: str
    source: str | None
    measures: list[Any]
    count: int | None
    photos: list[int]
    sketches: list[int]
    words: list[str]
    acts: list[ActValue]
    unit: str | None
    matched: dict[str, Any]


class LimitRef(TypedDict):
    """A sentence about what could not be seen; `at` is the number of the finding that says it in full, if another does."""

    id: str
    text: str
    at: int | None


class SectionLimit(TypedDict):
    """A limit worked out from a header. `at`: `opening` or the system that says it in full; None where it is said here."""

    id: str
    text: str
    lines: list[int]
    kind: str
    at: str | None
    trace: list[TraceSpan]


class TraceSpan(TypedDict):
    """Where a piece of a text came from; `start` and `end` count characters in the text of `field`."""

    field: str
    start: int
    end: int
    kind: str
    ref: str
    file: str | None
    line: int | None


class Override(TypedDict):
    """What the inspector set by hand on the line."""

    key: str
    value: str
    was: str | None
    lines: list[int]
    reason: str | None


class SheetRow(TypedDict):
    """A row of a trade sheet: one place of one finding."""

    number: int
    finding: str
    title: str
    place: str | None
    figures: str
    count: int | None
    photos: list[int]
    unseen: str
    words: list[str]
    lines: list[int]


class TradeSheet(TypedDict):
    """What one trade is asked about."""

    trade: str
    label: str
    rows: list[SheetRow]


class Nearest(TypedDict):
    """A near answer to an unresolved line."""

    code: str
    title: str
    score: float


class ChartPoint(TypedDict):
    """One point of a picture, in order. `text` says its figure, or why there is none, in words."""

    name: str | None
    value: float | None
    reason: str | None
    text: str


class ChartSpread(TypedDict):
    """The largest difference between two steps: `figure` alone, and `text`, a sentence without its full stop."""

    figure: str
    text: str


class ChartRow(TypedDict):
    """One place. `control`: believed dry, for comparison. `spread`: the largest difference between steps."""

    label: str
    control: bool
    points: list[ChartPoint]
    spread: ChartSpread | None


class ChartMark(TypedDict):
    """A published figure: the band from `value` up, in words."""

    value: float
    text: str


class Chart(TypedDict):
    """A picture as plain data. `text` says all that it shows; `finding` is None where it shows results alone."""

    id: str
    text: str
    lines: list[int]
    kind: str  # 'moisture' | 'risers'
    finding: str | None
    title: str
    unit: str
    rows: list[ChartRow]
    marks: list[ChartMark]


class SettledBy(TypedDict):
    """Who answered a review note, and how: an answer in words, or the code that its line was bound to."""

    by: str | None
    answer: str


class HandEdit(TypedDict):
    """A text that a person changed in a draft. `applied` is false where what stood under it changed meanwhile."""

    finding: str | None
    field: str
    of: str | None
    before: str
    after: str
    by: str | None
    reason: str | None
    file: str
    line: int
    applied: bool
