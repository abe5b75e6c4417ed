"""What people changed: hand edits beside a checklist, and the report that came back against a draft of the same checklist."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.archive.files import EDITS, Inspection, Report, Skipped, first_fault
from narrator.errors import NarratorError
from narrator.publish.labels import Labels
from narrator.review.lines import Line, lines_of, pair
from narrator.review.plainly import level, sentences
from narrator.source.index import Index

if TYPE_CHECKING:
    from narrator.report import Finding
    from narrator.report import Report as ReportValue
    from narrator.review.pieces import Found

TEXTS = ("title", "why", "observation", "implication", "recommendation")


class Touch(NamedTuple):
    """One thing that a person changed at a finding: a sentence of a field, the grade, the trades, or the whole finding."""

    code: str
    field: str
    before: str
    after: str


class Settled(NamedTuple):
    """Words that a person bound to an entry."""

    what: str
    code: str


class Sent(NamedTuple):
    """One inspection with what was changed in it."""

    shown: str
    report: ReportValue
    touched: tuple[Touch, ...]
    settled: tuple[Settled, ...]


def edits_of(inspection: Inspection) -> Path | None:
    """The file of hand edits beside a checklist."""
    path = inspection.path.with_name(inspection.path.stem + EDITS)
    return path if path.is_file() and not path.is_symlink() else None


def from_edits(path: Path, report: ReportValue) -> tuple[tuple[Touch, ...], tuple[Settled, ...]]:
    """What a file of hand edits changes, sentence by sentence. Raises NarratorError for one that cannot be read."""
    from narrator.source.positions import load
    from narrator.source.text import read_text

    value = load(read_text(path, str(path)), str(path)).value
    if not isinstance(value, dict) or value.get("format") != "narrator.edits/1":
        raise _stop(path, "This is not a file of hand edits (its first line says 'format: narrator.edits/1').")
    codes = {found["id"]: found["code"] for section in report["sections"] for found in section["findings"]}
    touched = [each for item in _items(value, "edits") for each in _edit(item, codes)]
    settled = [
        Settled(str(item.get("what") or item.get("text") or ""), str(item["code"]))
        for item in _items(value, "settled")
        if item.get("code")
    ]
    return tuple(touched), tuple(settled)


def _stop(path: Path, message: str) -> NarratorError:
    from narrator.errors import stop

    return stop(str(path), message)


def _items(value: Mapping[str, Any], key: str) -> list[Mapping[str, Any]]:
    found = value.get(key)
    return [item for item in found if isinstance(item, dict)] if isinstance(found, list) else []


def _edit(item: Mapping[str, Any], codes: Mapping[str, str]) -> Iterator[Touch]:
    name, field = str(item.get("finding") or ""), str(item.get("field") or "")
    if not name or not field:
        return
    code = codes.get(name, name.partition("~")[0])
    before, after = str(item.get("base") or ""), str(item.get("text") or "")
    if field not in TEXTS:
        yield Touch(code, field, level(before), level(after))
        return
    for one, other in _sentences(before, after):
        yield Touch(code, field, one, other)


def _sentences(before: str, after: str) -> Iterator[tuple[str, str]]:
    lines = [[Line(text, 0) for text in sentences(level(each))] for each in (before, after)]
    for each in pair(*lines):
        one, other = (line.text if line else "" for line in (each.before, each.after))
        if one != other:
            yield one, other


def from_returned(returned: Report, report: ReportValue, labels: Labels) -> tuple[Touch, ...]:
    """What the report that came back says otherwise than the draft of its checklist. Raises NarratorError."""
    from narrator.publish import publish
    from narrator.review.align import align
    from narrator.review.reading import load, read_text

    one = read_text(publish(report, "json", labels), returned.shown, labels, "json")
    other = load(str(returned.path), labels)
    _same_wording(report, other.order, returned)
    by_id = {found["id"]: found for section in report["sections"] for found in section["findings"]}
    aligned = align(one.findings, other.findings)
    out: list[Touch] = []
    for a, b in aligned.pairs:
        found = by_id.get(one.findings[a].id)
        if found is not None:
            out += _between(found, one.findings[a], other.findings[b])
    for a in aligned.dropped:
        found = by_id.get(one.findings[a].id)
        if found is not None:
            out.append(Touch(found["code"], "finding", found["title"], ""))
    return tuple(out)


def _same_wording(report: ReportValue, order: tuple[Any, ...], returned: Report) -> None:
    """Stops where the report that came back was drafted with another library: its wording is no person's change."""
    last = [passage.text for each in order if getattr(each, "role", "") == "colophon" for passage in each.passages]
    mark = report["library"].get("fingerprint", "")[:12]
    if last and "(" in last[-1] and mark not in last[-1]:
        raise _stop(returned.path, "It was drafted with another library. Name that one with --library.")


def _between(found: Finding, one: Found, other: Found) -> Iterator[Touch]:
    code = found["code"]
    if one.grade != other.grade and other.grade:
        yield Touch(code, "severity", one.grade or "", other.grade)
    if one.trades != other.trades:
        yield Touch(code, "trades", ", ".join(one.trades), ", ".join(other.trades))
    if level(one.title) != level(other.title):
        yield Touch(code, "title", level(one.title), level(other.title))
    for each in pair(lines_of(one.passages, {}), lines_of(other.passages, {})):
        a, b = (line.text if line else "" for line in (each.before, each.after))
        if a != b:
            yield Touch(code, _field(found, a), a, b)


def _field(found: Finding, sentence: str) -> str:
    """The field that a sentence stands in; `text` where it stands in none of them."""
    if sentence:
        for name in TEXTS[1:]:
            if sentence in level(str(found[name])):  # type: ignore[literal-required]
                return name
        if any(sentence in level(limit["text"]) for limit in found["limits"]):
            return "limits"
    return "text"


def returned_for(inspection: Inspection, reports: Mapping[Path, list[Report]]) -> Report | None:
    """The report that belongs to a checklist: the one of its own name in its folder, else the only one there; issued first."""
    there = reports.get(inspection.path.parent, [])
    own = [each for each in there if each.path.stem.split(".")[0] == inspection.path.stem]
    for group in (own, there):
        issued = [each for each in group if each.issued]
        if len(issued) == 1:
            return issued[0]
        if len(group) == 1:
            return group[0]
    return None


def sent_of(
    inspection: Inspection, index: Index, labels: Labels, reports: Mapping[Path, list[Report]]
) -> tuple[Sent | None, list[Skipped]]:
    """An inspection drafted again, with its hand edits and the report that came back; and what could not be read of it."""
    from narrator.archive.trace import drafted

    skipped: list[Skipped] = []
    try:
        report = drafted(inspection, index)
    except NarratorError as error:
        return None, [Skipped(inspection.shown, first_fault(error))]
    touched: tuple[Touch, ...] = ()
    settled: tuple[Settled, ...] = ()
    edits = edits_of(inspection)
    if edits is not None:
        try:
            touched, settled = from_edits(edits, report)
        except NarratorError as error:
            skipped.append(Skipped(str(edits), first_fault(error)))
    returned = returned_for(inspection, reports)
    if returned is not None:
        try:
            # What the file of edits says already is in the returned report too: it counts once.
            touched = tuple(dict.fromkeys((*touched, *from_returned(returned, report, labels))))
        except NarratorError as error:
            skipped.append(Skipped(returned.shown, first_fault(error)))
    return Sent(inspection.shown, report, touched, settled), skipped
