"""The report value: plain data, the only thing that publishers and review tools read.

Every key is part of the product's contract (format `narrator.report/1`). `lines` are the checklist's line numbers, counted
from 1, everywhere. Texts are plain strings: no Markdown, no HTML. `schemas/report.schema.json` says the same to machines.
"""

from __future__ import annotations

from typing import Any, NotRequired, TypedDict

FORMAT = "narrator.report/1"


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


# `from` is a reserved word in Python, so this one type is written in the functional form.
DerivedValue = TypedDict("DerivedValue", {"from": list[str]})


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


class Finding(TypedDict):
    """One condition, told once for all its places."""

    id: str
    number: int
    code: str
    title: str
    severity: str | None
    why: str
    danger: list[str]
    course: str
    trades: list[TradeRef]
    ask: list[str]
    outcome: str
    basis: str
    observation: str
    implication: str
    recommendation: str
    limits: list[LimitRef]
    instances: list[Instance]
    places: list[str]
    lines: list[int]
    photos: list[int]
    trace: list[TraceSpan]
    overrides: list[Override]
    flags: list[str]


class Description(TypedDict):
    """What is there: `roof covering = asphalt shingle`."""

    name: str
    value: str
    place: str | None
    text: str
    lines: list[int]
    photos: list[int]
    words: list[str]


class Result(TypedDict):
    """A thing that was looked at, tested or measured and went as it should. Never a severity."""

    kind: str  # 'ok' | 'tested' | 'measured' | 'fine'
    text: str
    thing: str  # what and where, for a list of things with nothing to report
    lines: list[int]
    code: str | None
    place: str | None
    measures: list[Any]
    photos: list[int]
    words: list[str]


class Status(TypedDict):
    """`partly`, `not inspected` or `not present`, with the reason as typed."""

    kind: str
    what: str
    place: str | None
    reason: str | None
    text: str
    lines: list[int]
    photos: list[int]


class Section(TypedDict):
    """One system of the house."""

    system: str
    title: str
    lines: list[int]
    descriptions: list[Description]
    results: list[Result]
    statuses: list[Status]
    findings: list[Finding]


class Heading(TypedDict):
    """A heading line of the checklist."""

    text: str
    system: str | None
    place: str | None
    lines: list[int]


class OpeningPart(TypedDict):
    """A paragraph or list of page one. `findings` holds ids; `items` one line each, in order."""

    kind: str
    text: str
    findings: list[str]
    items: NotRequired[list[dict[str, Any]]]


class Connection(TypedDict):
    """A story told of several findings."""

    findings: list[str]
    place: str | None
    text: str
    trace: list[TraceSpan]


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


class Unseen(TypedDict):
    """What nobody has seen, and why."""

    text: str
    lines: list[int]
    kind: str


class Term(TypedDict):
    """The firm's contract text, verbatim."""

    id: str
    text: str


class Note(TypedDict):
    """The inspector's own words, verbatim."""

    text: str
    lines: list[int]
    system: str | None
    place: str | None


class Photo(TypedDict):
    """A caption for photo numbers."""

    photos: list[int]
    text: str
    lines: list[int]


class Nearest(TypedDict):
    """A near answer to an unresolved line."""

    code: str
    title: str
    score: float


class Unresolved(TypedDict):
    """A line that needs a person: kept word for word."""

    lines: list[int]
    text: str
    reason: str
    nearest: list[Nearest]
    place: str | None
    heading: str | None


class ReviewNote(TypedDict):
    """Something the named person should look at before the report is issued."""

    kind: str
    lines: list[int]
    text: str


class ReviewWindow(TypedDict):
    """The client's deadline, as typed and counted. `text` is the paragraph of page one."""

    opens: str | None
    closes: str
    hour: str | None
    days: int | None
    counted: str | None
    told_by: str | None
    text: str


class GlossaryTerm(TypedDict):
    """A trade word and its plain meaning."""

    term: str
    text: str


class Coverage(TypedDict):
    """What a standard of practice asks for and the checklist has said (filled by `coverage`)."""

    standard: str | None
    reported: list[Any]
    missing: list[Any]


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


class Report(TypedDict):
    """The whole report."""

    format: str
    state: str
    issue: dict[str, Any]
    property: str | None
    visited: str | None
    inspector: str | None
    clients: list[str]
    conditions: dict[str, str]
    header_lines: list[int]
    library: dict[str, str]
    firm: dict[str, Any] | None
    standard: str | None
    narrator: str
    review_window: ReviewWindow | None
    headings: list[Heading]
    opening: list[OpeningPart]
    sections: list[Section]
    connections: list[Connection]
    trade_sheets: list[TradeSheet]
    unseen: list[Unseen]
    terms: list[Term]
    coverage: Coverage
    glossary: list[GlossaryTerm]
    notes: list[Note]
    photos: list[Photo]
    charts: list[Chart]
    withheld: list[Any]
    unresolved: list[Unresolved]
    review_notes: list[ReviewNote]
