"""Where in a report an edit belongs: the text that it replaces, and how to put another one there."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.edits.grades import trades_text
from narrator.edits.model import TEXTS, Edit, fingerprint
from narrator.review.wordwise import alike

if TYPE_CHECKING:
    from narrator.report import Finding, Report, TraceSpan

_STATUSES = frozenset({"not inspected", "partly", "not present"})

LIKE = 0.6
"""Share of common words from which a text that moved on is still the one that was edited."""


class Slot(NamedTuple):
    """A text in a report. `put` replaces it and says why it cannot; `trace` is the list that holds its spans, if any."""

    name: str
    field: str
    text: str
    lines: Sequence[int]
    put: Callable[[str], str]
    trace: list[TraceSpan] | None = None
    traced: str = ""
    holder: Any = None

    @property
    def spans(self) -> list[TraceSpan]:
        """The spans of this text, in order."""
        return [span for span in self.trace or () if span["field"] == self.traced]


def findings_of(report: Report) -> Iterator[Finding]:
    """Every finding, in printed order."""
    for section in report["sections"]:
        yield from section["findings"]


def slot_of(report: Report, edit: Edit) -> Slot | None:
    """The text that an edit changes, or None where the report no longer has it."""
    if edit.finding:
        found = next((each for each in findings_of(report) if each["id"] == edit.finding), None)
        return finding_slot(report, found, edit.field) if found is not None else None
    slots = [slot for part, of, slot in part_slots(report) if part == edit.part and (not edit.of or of == edit.of)]
    exact = next((slot for slot in slots if fingerprint(slot.text) == edit.fingerprint), None)
    if exact is not None or edit.of:
        return exact or next(iter(slots), None)
    return max(
        (slot for slot in slots if alike(slot.text, edit.base) >= LIKE),
        key=lambda s: alike(s.text, edit.base),
        default=None,
    )


def finding_slot(report: Report, found: Finding, field: str) -> Slot | None:
    """A field of a finding; `limits.ID` is one of its limits."""
    value: Any = found
    name = f"Number {found['number']} ({found['title']}), {_WORDS.get(field, 'limit')}"

    def put(text: str) -> str:
        if not text.strip() and field in ("title", "observation"):
            return f"The {_WORDS[field]} cannot be empty; hold the finding back on its line instead."
        value[field] = text
        return ""

    if field in TEXTS:
        return Slot(name, field, value[field], found["lines"], put, found["trace"], field, found)
    if field == "severity":
        return Slot(name, field, found["severity"] or "", found["lines"], put, None, "", found)
    if field == "trades":
        return Slot(name, field, trades_text(found["trades"]), found["lines"], put, None, "", found)
    limit = next((each for each in found["limits"] if each["id"] == field.partition(".")[2]), None)
    if limit is None:
        return None
    at = limit

    def put_limit(text: str) -> str:
        if text.strip():
            at["text"] = text
        else:
            found["limits"].remove(at)
            _passed_on(report, found["number"], at["id"])
        return ""

    return Slot(name, field, at["text"], found["lines"], put_limit, None, "", found)


def _passed_on(report: Report, number: int, limit: str) -> None:
    """A limit taken out where others pointed to: the first of those says it in full now."""
    first: int | None = None
    for found in findings_of(report):
        for each in found["limits"]:
            if each["id"] == limit and each["at"] == number:
                each["at"] = first
                first = first or found["number"]


def part_slots(report: Report) -> Iterator[tuple[str, str, Slot]]:
    """Every text that belongs to no single finding: its part, its name there, and where it stands."""
    numbers = {found["id"]: found["number"] for found in findings_of(report)}
    for story in report["connections"]:
        of = ", ".join(story["findings"])
        told = ", ".join(str(numbers[each]) for each in story["findings"] if each in numbers)
        lines = sorted(
            {line for each in findings_of(report) if each["id"] in story["findings"] for line in each["lines"]}
        )
        name = f"Numbers {told}, told together"
        yield "story", of, Slot(name, "story", story["text"], lines, _putter(story), story["trace"], "text", story)
    for section in report["sections"]:
        for part, items in (
            ("description", section["descriptions"]),
            ("result", section["results"]),
            ("status", section["statuses"]),
        ):
            for item in items:
                value: Any = item
                yield part, "", Slot(section["title"], part, value["text"], value["lines"], _putter(value, report))
    limits: dict[str, Any] = {each["id"]: each for each in report["unseen"] if each["kind"] not in _STATUSES}
    for section in report["sections"]:
        limits |= {each["id"]: each for each in section["limits"] if each["at"] is None}
    for of, limit in limits.items():
        yield (
            "limit",
            of,
            Slot(f"Not seen, {of}", "limit", limit["text"], limit["lines"], _limit(report, of), limit["trace"], "text"),
        )
    for note in report["notes"]:
        yield "note", "", Slot("Your note", "note", note["text"], note["lines"], _putter(note))
    for term in report["terms"]:
        yield "term", term["id"], Slot(f"Terms, {term['id']}", "term", term["text"], [], _term(report, term))


def _putter(item: Any, report: Report | None = None) -> Callable[[str], str]:
    """Puts another text into an item; page one repeats what was not inspected, and follows."""

    def put(text: str) -> str:
        if not text.strip():
            return "This text cannot be taken out by hand; change its line in the checklist."
        for each in report["unseen"] if report else ():
            if each["text"] == item["text"] and each["lines"] == item["lines"]:
                each["text"] = text
                each["trace"] = [{**span, "start": 0, "end": len(text)} for span in each["trace"][:1]]
        item["text"] = text
        return ""

    return put


def _limit(report: Report, name: str) -> Callable[[str], str]:
    """Puts another text into a limit wherever it is told; an empty one takes it out everywhere."""

    def put(text: str) -> str:
        places: list[list[Any]] = [report["unseen"], *(section["limits"] for section in report["sections"])]
        for items in places:
            for each in [each for each in items if each["id"] == name]:
                each["text"] = text
            items[:] = [each for each in items if each["id"] != name or text.strip()]
        return ""

    return put


def _term(report: Report, term: Any) -> Callable[[str], str]:
    def put(text: str) -> str:
        if text.strip():
            term["text"] = text
        else:
            report["terms"].remove(term)
        return ""

    return put


_WORDS = {
    "title": "title", "observation": "what was seen", "implication": "why it matters", "recommendation": "what to do",
    "why": "reason for the grade", "severity": "grade", "trades": "trades",
}  # fmt: skip
