"""What a draft used of its library: as long as none of it changes, the draft does not either.

The index takes down every question of a draft; here they become names of parts (`archive/parts.py`). What the words of a line
were taken for is kept apart, line by line: a new name may touch many lines and change the answer of few.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from narrator.archive.files import Inspection
from narrator.archive.parts import FINE
from narrator.assess.grade import trade_words
from narrator.compose.gloss import WORD
from narrator.read.model import Checklist
from narrator.source import index as store
from narrator.source.index import Index

if TYPE_CHECKING:
    from narrator.report import Finding, Report

ALWAYS = ("list:systems", "list:places", "list:descriptions", "list:words", "headers:order")
"""Read at every draft, whether or not the open library remembers them."""

BY_LINE = ("name:", "word:", "named:", "known:")
"""Parts that only what a line is taken for can bring into a draft."""


class Traced(NamedTuple):
    """A draft, the parts it used, and the words of its findings' paragraphs in small letters."""

    report: Report
    used: frozenset[str]
    said: frozenset[str]


def read_checklist_of(inspection: Inspection, index: Index) -> Checklist:
    """The checklist read with this library's words. Raises NarratorError."""
    from narrator.pipeline import grammar_of
    from narrator.read.notation import read_checklist

    if inspection.kind == "text":
        return read_checklist(inspection.text, inspection.shown, grammar_of(index))
    from narrator.read.structured import read_structured

    columns = store.document(index, "firm").get("columns", {})
    return read_structured(inspection.text, inspection.shown, inspection.kind, grammar_of(index), columns)


def drafted(inspection: Inspection, index: Index) -> Report:
    """The draft of an inspection. Raises NarratorError."""
    from narrator.pipeline import draft_checklist

    return draft_checklist(read_checklist_of(inspection, index), index)


def traced(inspection: Inspection, index: Index) -> tuple[Checklist, Traced]:
    """The draft with what it used. The index must be one that takes down what is asked (`Index.asked`)."""
    from narrator.pipeline import draft_checklist

    assert index.asked is not None
    index.asked.clear()
    checklist = read_checklist_of(inspection, index)
    report = draft_checklist(checklist, index)
    used = frozenset({*ALWAYS, *_used(tuple(index.asked), report, checklist, index)})
    return checklist, Traced(report, used, words_said(report))


def _used(asked: Iterable[str], report: Report, checklist: Checklist, index: Index) -> Iterator[str]:
    headers = checklist.headers
    told = _codes(report)
    for key in asked:
        kind, _, name = key.partition(":")
        if kind == "entry":
            yield from (f"full:{name}", f"shape:{name}") if name in told else (f"shape:{name}",)
        elif kind == "list" and (name in FINE or (name == "windows" and "review window" not in headers)):
            continue
        elif not key.startswith(BY_LINE):
            yield key
    yield from (f"header:{name}" for name in headers)
    yield "trades:order"
    for finding in _findings(report):
        yield from (f"trade:{trade['id']}" for trade in finding["trades"])
    for code in told:
        entry = store.entry(index, code)
        yield from (f"limit:{name}" for name in (entry.limits if entry else ()))
    for line in checklist.lines:
        for item in line.items:
            if item.kind == "override" and item.key == "trade":
                yield from (f"trade name:{name}" for name in trade_words(item.value))


def _findings(report: Report) -> Iterator[Finding]:
    for section in report["sections"]:
        yield from section["findings"]


def _codes(report: Report) -> frozenset[str]:
    """Codes of every entry that a part of the report is made of."""
    results = [result["code"] for section in report["sections"] for result in section["results"] if result["code"]]
    return frozenset(
        (*(finding["code"] for finding in _findings(report)), *results, *(each["code"] for each in report["withheld"]))
    )


def words_said(report: Report) -> frozenset[str]:
    """The words of the findings' paragraphs as the glossary looks for them."""
    return frozenset(
        word
        for finding in _findings(report)
        for text in (finding["observation"], finding["implication"], finding["recommendation"])
        for word in WORD.findall(text.lower())
    )
