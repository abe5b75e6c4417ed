"""The report value, put together from what was read, resolved and judged."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.assess.claims import Systems
from narrator.assess.connect import Cluster
from narrator.assess.headers import House
from narrator.assess.limits import Limit
from narrator.assess.model import Judgement
from narrator.assess.window import sentence
from narrator.compose.charts import charts_of
from narrator.compose.facts import Told
from narrator.compose.findings import write_findings
from narrator.compose.gloss import glossary_from
from narrator.compose.limits import place_limits, unseen_items
from narrator.compose.opening import Words, opening
from narrator.compose.sections import write_sections
from narrator.compose.sheets import trade_sheets
from narrator.compose.story import stories
from narrator.read.model import Checklist, Line
from narrator.resolve.model import Loose, Remark, Resolved
from narrator.resolve.vocabulary import Vocabulary

if TYPE_CHECKING:
    from narrator.firm import Firm, Person
    from narrator.report import Finding, Report, ReviewNote, ReviewWindow, Term, Unresolved


FORMAT = "narrator.report/1"


class Library(NamedTuple):
    """What composing needs of the library: shared lists as loaded, and what it is called."""

    systems: Systems
    vocabulary: Vocabulary
    documents: Mapping[str, Any]
    version: str
    fingerprint: str
    narrator: str
    firm: Firm | None = None
    who: Person | None = None


def compose(
    checklist: Checklist,
    house: House,
    resolved: Resolved,
    judged: Judgement,
    clusters: Sequence[Cluster],
    notes: Sequence[Remark],
    limits: Sequence[Limit],
    library: Library,
    told: Told,
) -> Report:
    """The draft report of a checklist."""
    trades = library.documents["trades"]
    labels = {item["id"]: item["label"] for item in trades["trades"]}
    glossary = glossary_from(
        library.documents["glossary"], library.documents.get("firm", {}).get("edits", {}).get("glossary", ())
    )
    together = {finding.number: each.findings[0].number for each in clusters for finding in each.findings}
    own = library.documents["limits"]["limits"]
    written = write_findings(judged.findings, judged.met, own, glossary, told, together)
    firm = library.firm
    window = _window(house, firm)
    loose = sorted([*resolved.loose, *judged.loose], key=lambda item: (item.line.number, item.line.column))
    homes = {finding.id: finding.system for finding in judged.findings}
    sections = write_sections(
        checklist,
        written.findings,
        homes,
        resolved.results,
        judged.met,
        judged.young,
        library.systems,
        library.vocabulary,
        told,
    )
    place_limits(limits, sections)
    unseen = unseen_items(checklist.lines, limits, sections, told)
    calls = {
        finding.id: finding.entry.call for finding in judged.findings if finding.entry is not None and not finding.do
    }
    made: Report = {
        "format": FORMAT,
        "state": "draft",
        "issue": {},
        "property": house.property,
        "visited": house.visited,
        "inspector": house.inspector,
        "clients": list(house.clients),
        "conditions": dict(house.conditions),
        "header_lines": list(house.lines),
        "library": {"version": library.version, "fingerprint": library.fingerprint},
        "firm": {"name": house.firm} if house.firm else None,
        "standard": house.standard,
        "narrator": library.narrator,
        "review_window": window,
        "headings": [
            {"text": line.text, "system": line.key or None, "place": line.where or None, "lines": [line.number]}
            for line in checklist.lines
            if line.kind == "heading"
        ],
        "opening": opening(written.findings, window, unseen, Words(labels, DANGERS, calls, told.places)),
        "sections": sections,
        "connections": stories(clusters, {item["id"]: item["title"] for item in written.findings}, told),
        "trade_sheets": trade_sheets(written.findings, trades["trades"]),
        "unseen": unseen,
        "terms": _terms(library.documents["terms"]),
        "coverage": {"standard": house.standard, "reported": [], "missing": []},
        "glossary": [
            {"term": term, "text": library.documents["glossary"]["terms"][term]["gloss"]} for term in written.terms
        ],
        "notes": [
            {"text": line.value, "lines": [line.number], "system": line.heading_system, "place": line.heading_place}
            for line in checklist.lines
            if line.kind == "note"
        ],
        "photos": [
            {"photos": list(line.photos), "text": line.value, "lines": [line.number]}
            for line in checklist.lines
            if line.kind == "photos"
        ],
        "charts": charts_of(written.findings, [result for section in sections for result in section["results"]]),
        "withheld": _withheld(judged),
        "unresolved": [_unresolved(item) for item in loose],
        "review_notes": _review_notes(checklist, written.findings, loose, notes),
    }
    if firm is not None:
        from narrator.compose.firm import (  # only where a firm is laid over the library
            firm_terms,
            firm_value,
            forbidden,
        )

        made["firm"] = firm_value(firm, library.who)
        made["terms"] = firm_terms(firm, house.standard, made["terms"])
        made["review_notes"] = sorted([*made["review_notes"], *forbidden(made, firm.forbid)], key=_by_line)
    return made


DANGERS = {
    "fire": "fire",
    "shock": "electric shock",
    "gas": "gas",
    "burn": "burns",
    "fall": "falls",
    "water": "drowning",
    "air": "bad air",
}


def _window(house: House, firm: Firm | None) -> ReviewWindow | None:
    if house.window is None:
        return None
    window = house.window
    said = sentence(window, window.told_by, firm.dates) if firm else sentence(window, window.told_by)
    term = f" Your contract calls this {firm.deadline}." if firm and firm.deadline else ""
    return {
        "opens": window.opens.isoformat() if window.opens else None,
        "closes": window.closes.isoformat(),
        "hour": window.hour,
        "days": window.days,
        "counted": window.counted,
        "told_by": window.told_by,
        "text": "".join(text for text, _ in said) + term,
    }


def _terms(terms: Mapping[str, Any]) -> list[Term]:
    return [{"id": name, "text": " ".join(text.split())} for name, text in terms["terms"].items()]


def _withheld(judged: Judgement) -> list[dict[str, Any]]:
    out = []
    for instance in judged.withheld:
        reason = next((item.value for item in instance.overrides if item.key == "hold back"), "")
        out.append(
            {
                "code": instance.match.code,
                "title": instance.title,
                "place": instance.place,
                "text": instance.line.text,
                "reason": reason or None,
                "lines": [instance.line.number],
            }
        )
    return out


def _unresolved(item: Loose) -> Unresolved:
    line: Line = item.line
    return {
        "lines": [line.number],
        "text": item.text,
        "reason": item.reason,
        "nearest": [{"code": near.code, "title": near.title, "score": near.score} for near in item.near],
        "place": line.heading_place,
        "heading": line.heading_text,
    }


def _review_notes(
    checklist: Checklist, findings: Sequence[Finding], loose: Sequence[Loose], notes: Sequence[Remark]
) -> list[ReviewNote]:
    """Everything the named person should look at, by line."""
    out: list[ReviewNote] = []
    for item in loose:
        near = "; nearest: " + ", ".join(f"{one.title} ({one.code})" for one in item.near) if item.near else ""
        out.append({"kind": "unresolved", "lines": [item.line.number], "text": f"'{item.text}': {item.reason}{near}"})
    out += [{"kind": note.kind, "lines": list(note.lines), "text": note.text} for note in notes]
    if checklist.left_out:
        out.append(
            {
                "kind": "left-out",
                "lines": list(checklist.left_out),
                "text": "Remarks to yourself on these lines were left out.",
            }
        )
    out += [note for finding in findings for note in finding_notes(finding)]
    return sorted(out, key=_by_line)


def finding_notes(finding: Finding) -> list[ReviewNote]:
    """What should be looked at in one finding as it is told."""
    out: list[ReviewNote] = []
    if finding["severity"] == "act-now" and not any(one["acts"] for one in finding["instances"]):
        text = f"Number {finding['number']} ({finding['title']}) could hurt someone, and no line says who was warned."
        out.append({"kind": "notice", "lines": finding["lines"], "text": text})
    if finding["basis"] == "inferred" and not any(one["words"] or one["measures"] for one in finding["instances"]):
        text = f"Number {finding['number']} is inferred. From what? Type the sign in quotes."
        out.append({"kind": "inferred", "lines": finding["lines"], "text": text})
    for flag in finding["flags"]:
        out.append({"kind": "fallback", "lines": finding["lines"], "text": f"Number {finding['number']}: {flag}"})
    for override in finding["overrides"]:
        if override["key"] == "severity":
            text = f"Number {finding['number']}: the grade was set by hand from {override['was'] or 'none'} to {override['value']}."
            out.append({"kind": "override", "lines": override["lines"], "text": text})
    return out


def _by_line(note: ReviewNote) -> tuple[list[int], str, str]:
    return note["lines"][:1] or [0], note["kind"], note["text"]
