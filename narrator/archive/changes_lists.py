"""What two drafts of one checklist say otherwise around the findings: what comes from shared lists, and what repeats a finding."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from narrator.archive.sentences import Change, sentences_changed

if TYPE_CHECKING:
    from narrator.report import Finding, Report

_IN_BOTH = frozenset({"section", "description", "status", "limit", "coverage"})


def lists_changed(before: Report, after: Report) -> Iterator[Change]:
    """What comes from the shared lists: section titles, rows of sections, limits, terms, trade words, stories, summary."""
    tables = [_listed(report) for report in (before, after)]
    for key in dict.fromkeys((*tables[0], *tables[1])):
        (entry, field, kind, _), (lines, one), (_, other) = (
            key,
            tables[0].get(key, ((), "")),
            tables[1].get(key, ((), "")),
        )
        if field in _IN_BOTH and not all(key in table for table in tables):
            continue  # it comes and goes with the findings and lines that are told of above
        lines = lines or tables[1].get(key, ((), ""))[0]
        if field == "glossary" and not (one and other):
            yield Change("added-text" if other else "word", entry, field, lines, one, other)
            continue
        if kind and one != other:
            yield Change(kind, entry, field, lines, one, other)
            continue
        for found, a, b in sentences_changed(one, other, "text"):
            yield Change(found, entry, field, lines, a, b)


def _listed(report: Report) -> dict[tuple[str, str, str, str], tuple[tuple[int, ...], str]]:
    """(where it comes from, field, its kind if that is fixed, its own name) -> (lines, text)."""
    out: dict[tuple[str, str, str, str], tuple[tuple[int, ...], str]] = {}
    for section in report["sections"]:
        out[f"systems: {section['system']}", "section", "", ""] = ((), section["title"])
        for each in section["descriptions"]:
            key = f"{each['name']} {each['lines']}"
            out[f"systems: {section['system']}", "description", "", key] = (tuple(each["lines"]), each["text"])
        for status in section["statuses"]:
            out[f"systems: {section['system']}", "status", "", f"{status['text']} {status['lines']}"] = (
                tuple(status["lines"]),
                status["text"],
            )
        for limit in section["limits"]:
            out[f"limits: {limit['id']}", "limit", "limit", section["system"]] = (tuple(limit["lines"]), limit["text"])
    for unseen in report["unseen"]:
        out[f"limits: {unseen['id']}", "not seen", "limit", ""] = (tuple(unseen["lines"]), unseen["text"])
    for term in report["terms"]:
        out[f"terms: {term['id']}", "terms", "term", ""] = ((), term["text"])
    for word in report["glossary"]:
        out[f"glossary: {word['term']}", "glossary", "", ""] = ((), word["text"])
    for story in report["connections"]:
        code = story["findings"][0].partition("~")[0]
        out[code, "story", "", " ".join(story["findings"])] = ((), story["text"])
    summary = report.get("summary")
    if summary:
        out["practice: summary", "summary", "", ""] = ((), f"{summary['text']} {summary['notice'] or ''}")
    for row in report["coverage"]["missing"]:
        out[f"practice: {report['coverage']['standard']}", "coverage", "", row["id"]] = ((), row["what"])
    window = report["review_window"]
    out["windows", "deadline", "deadline", ""] = ((), window["text"] if window else "")
    return out


def repeats_changed(before: Report, after: Report, ones: Mapping[str, Finding]) -> Iterator[Change]:
    """Page one and trade sheets, where the finding that they repeat is the same: trade labels, what to ask for on the phone."""
    tables = [_repeats(report) for report in (before, after)]
    for key in dict.fromkeys((*tables[0], *tables[1])):
        field, name, _ = key
        one, other = tables[0].get(key, ""), tables[1].get(key, "")
        found = ones.get(name)
        if one == other or (found is None and field != "trade sheet's title"):
            continue
        code, lines = (found["code"], tuple(found["lines"])) if found else (f"trades: {name}", ())
        if field in ("trade", "trade sheet's title"):
            yield Change("trade", code, field, lines, one, other)
        else:
            yield from (
                Change(kind, code, field, lines, a, b) for kind, a, b in sentences_changed(one, other, "finding")
            )


def _repeats(report: Report) -> dict[tuple[str, str, str], str]:
    out: dict[tuple[str, str, str], str] = {}
    for part in report["opening"]:
        for item in part.get("items", ()):
            if item["finding"]:
                out["page one", item["finding"], part["kind"]] = item["text"]
                out["trade", item["finding"], part["kind"]] = item.get("trade", "")
    for sheet in report["trade_sheets"]:
        out["trade sheet's title", sheet["trade"], ""] = sheet["label"]
        for row in sheet["rows"]:
            key = ("trade sheet", row["finding"], f"{sheet['trade']} {row['place']} {row['lines']}")
            out[key] = f"{row['title']}. {row['figures']}. {row['unseen']}"
    return out
