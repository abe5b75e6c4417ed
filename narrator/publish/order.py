"""The one walk over a report: what is printed, in which order, in Markdown, HTML and plain text alike."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import TYPE_CHECKING, Any

from narrator.compose.english import join_list
from narrator.publish.after import after
from narrator.publish.blocks import Block, Heading, Items, Para, Part, Ref, Row
from narrator.publish.body import figure, section
from narrator.publish.labels import NO_TRADE, Labels
from narrator.publish.text import day, inline, paragraphs, run

if TYPE_CHECKING:
    from narrator.report import OpeningPart, Report

DRAFT = "Draft. It has not been issued."
DRAFT_END = "End of the draft. It has not been issued."

OPENING = {
    "danger": "First",
    "deadline": "Your deadline",
    "find-out": "To find out before you decide",
    "unseen": "What nobody has seen",
    "in-time": "If time is short",
    "counts": "The rest",
}
"""Headings of page one by the kind of the part. A part of any other kind prints without one."""

NOT_WHOLE = "not-whole"


def is_draft(report: Report) -> bool:
    """Whether every page has to say that it is a draft."""
    return report["state"] != "issued"


def title(report: Report) -> str:
    """The report's title."""
    house = inline(report["property"] or "")
    at = f" at {house}" if house else ""
    return f"Draft: what we found{at}" if is_draft(report) else f"What we found{at}"


def walk(report: Report, labels: Labels) -> tuple[Part, ...]:
    """Everything that is printed, part by part."""
    return tuple(part for part in _parts(report, labels) if part.blocks)


def _parts(report: Report, labels: Labels) -> Iterator[Part]:
    refs = {found["id"]: Ref(found["number"], found["id"]) for each in report["sections"] for found in each["findings"]}
    by_number = {ref.number: ref for ref in refs.values()}
    yield Part("head", (Heading(1, title(report)), *_byline(report)))
    deadline = inline(str((report["firm"] or {}).get("deadline") or ""))
    yield Part(
        "opening", tuple(block for part in report["opening"] for block in _opening(part, refs, by_number, deadline))
    )
    yield Part("summary", tuple(_summary(report, by_number, labels)))
    yield Part("day", tuple(_day(report)))
    told: set[int] = set()
    charts = list(report["charts"])
    titles = {each["system"]: each["title"] for each in report["sections"]}
    for each in report["sections"]:
        yield section(each, report["connections"], refs, told, labels, charts, titles)
    yield Part("charts", (Heading(2, "Charts"), *map(figure, charts)) if charts else ())
    yield from after(report, labels)


def _byline(report: Report) -> Iterator[Para]:
    visited, inspector = inline(report["visited"] or ""), inline(report["inspector"] or "")
    firm = inline(str((report["firm"] or {}).get("name") or ""))
    who = (report["firm"] or {}).get("inspector") or {}
    inspector += f" (licence {inline(who['licence'])})" if inspector and who.get("licence") else ""
    clients = [name for name in map(inline, report["clients"]) if name]
    words = [
        f"visited {day(visited)}" if visited else "",
        f"by {inspector}" if inspector else "",
        f"{'of' if inspector else 'by'} {firm}{',' if clients else ''}" if firm else "",
        f"for {join_list(clients)}" if clients else "",
    ]
    text = " ".join(filter(None, words))
    if text:
        yield Para(run([_capital(text)]), "byline")
    contact = [inline(str(part)) for part in ((report["firm"] or {}).get("contact") or {}).values()]
    if contact:
        yield Para(run([f"{firm}: {'; '.join(contact)}"]), "byline")
    by, on = report["issue"].get("by"), report["issue"].get("on")
    if not is_draft(report) and isinstance(by, str) and isinstance(on, str):
        yield Para(run([f"Issued {day(inline(on))} by {inline(by)}"]), "byline")
        if who.get("signature"):
            yield Para(run([f"Signed: {inline(who['signature'])}"]), "byline")


def _opening(part: OpeningPart, refs: dict[str, Ref], by_number: dict[int, Ref], deadline: str) -> Iterator[Block]:
    heading = OPENING.get(part["kind"])
    if heading and deadline and part["kind"] == "deadline":
        heading = f"{heading}: {deadline}"  # the contract's own term, where the firm gives it
    if heading:
        yield Heading(2, heading)
    items = part.get("items", [])
    *before, last = paragraphs(part["text"]) or ("",)
    role = "whole" if part["kind"] == NOT_WHOLE else "prose"
    unsaid = () if items else tuple(refs[each] for each in part["findings"] if each in refs)
    for text in before:
        yield Para(text, role)
    if last:
        yield Para(last, role, unsaid)
    yield from _grouped(items, by_number)


def _summary(report: Report, by_number: dict[int, Ref], labels: Labels) -> Iterator[Block]:
    """The page that a standard asks for: the notice word for word, what stands here, the items."""
    page = report.get("summary")
    if page is None:
        return
    yield Heading(2, "Summary")
    for text in paragraphs(page["notice"] or ""):
        yield Para(text, "term")
    yield Para(inline(page["text"]))
    for grade, group in groupby(page["items"], lambda item: item["severity"]):
        rows = tuple(Row(inline(item["text"]), _ref(item["number"], by_number)) for item in group)
        yield Items(_capital(inline(labels.severity(grade, []))), rows)


def _grouped(items: list[dict[str, Any]], by_number: dict[int, Ref]) -> Iterator[Items]:
    """A list for each run of items of one trade."""
    unnamed = NO_TRADE if any(item.get("trade") for item in items) else ""
    for label, group in groupby(items, lambda item: inline(str(item.get("trade") or "")) or unnamed):
        rows = [(inline(str(item.get("text") or "")), item.get("number")) for item in group]
        yield Items(_capital(label), tuple(Row(text, _ref(number, by_number)) for text, number in rows))


def _ref(number: object, by_number: dict[int, Ref]) -> Ref | None:
    return by_number.get(number, Ref(number, "")) if isinstance(number, int) else None


def _day(report: Report) -> Iterator[Block]:
    said = [(name, value) for name, value in report["conditions"].items() if inline(value)]
    said += [("standard of practice", report["standard"])] if report["standard"] else []
    if said:
        yield Heading(2, "The day of the visit")
        yield Para(run(f"{_capital(inline(name))}: {inline(value)}" for name, value in said))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
