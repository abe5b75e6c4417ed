"""The report value: plain data, the only thing that publishers and review tools read.

Every key is part of the product's contract (format `narrator.report/1`). `lines` are the checklist's line numbers, counted
from 1, everywhere. Texts are plain strings: no Markdown, no HTML. `schemas/report.schema.json` says the same to machines.
"""

from __future__ import annotations

from typing import Any, NotRequired, TypedDict

from narrator.report_values import ActValue as ActValue
from narrator.report_values import Chart as Chart
from narrator.report_values import ChartMark as ChartMark
from narrator.report_values import ChartPoint as ChartPoint
from narrator.report_values import ChartRow as ChartRow
from narrator.report_values import ChartSpread as ChartSpread
from narrator.report_values import CriterionRef as CriterionRef
from narrator.report_values import HandEdit as HandEdit
from narrator.report_values import Instance as Instance
from narrator.report_values import LimitRef as LimitRef
from narrator.report_values import MeasureValue as MeasureValue
from narrator.report_values import Nearest as Nearest
from narrator.report_values import Override as Override
from narrator.report_values import PointValue as PointValue
from narrator.report_values import SectionLimit as SectionLimit
from narrator.report_values import SettledBy as SettledBy
from narrator.report_values import SheetRow as SheetRow
from narrator.report_values import TraceSpan as TraceSpan
from narrator.report_values import TradeRef as TradeRef
from narrator.report_values import TradeSheet as TradeSheet


class Finding(TypedDict):
    """One condition, told once for all its places."""

    id: str
    number: int
    code: str
    title: str
    severity: str | None
    why: str
    why_at: NotRequired[int | None]
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
    limits: list[SectionLimit]
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


class Unseen(TypedDict):
    """What nobody has seen, and why. `kind`: the status or the header that it comes from. `trace` is of `text`."""

    id: str
    text: str
    lines: list[int]
    kind: str
    trace: list[TraceSpan]


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
    settled: NotRequired[SettledBy]


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


class Summary(TypedDict):
    """The page that a standard asks for. `notice` is the statute's sentence as the firm gives it, else null."""

    standard: str
    notice: str | None
    text: str
    findings: list[str]
    items: list[dict[str, Any]]


class Coverage(TypedDict):
    """What a standard of practice asks for: items that the checklist has spoken of, and the others.

    Each is `{id, system, clause, must, when, what}`, those reported with their `lines`. `standard` is its id.
    """

    standard: str | None
    reported: list[Any]
    missing: list[Any]


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
    summary: NotRequired[Summary]
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
    edits: NotRequired[list[HandEdit]]
