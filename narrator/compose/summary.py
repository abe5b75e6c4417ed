"""The summary page that a standard of practice asks for: which findings stand on it, and in what words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from narrator.compose.place import Places, join_places, phrase

if TYPE_CHECKING:
    from narrator.report import Finding, Report, Summary

LEAD = "This page lists each item that did not work as it should, or that someone should look at further."
NONE = "No item of this report belongs on this page."
WHOLE = "It is not the whole report. Please read it all."


def summary(report: Report, practice: Mapping[str, Any], sentence: str | None, places: Places) -> Summary | None:
    """The summary, or None where the standard asks for none. `sentence`: the notice in the statute's words, verbatim.

    What could hurt someone stands first; the rest keeps the order of the report.
    """
    rule = practice.get("summary")
    if rule is None:
        return None
    found = [one for section in report["sections"] for one in section["findings"] if _belongs(one, rule)]
    found.sort(key=lambda one: (one["severity"] != "act-now", not one["danger"], one["number"]))
    return {
        "standard": practice["id"],
        "notice": sentence,
        "text": f"{LEAD if found else NONE} {WHOLE}",
        "findings": [one["id"] for one in found],
        "items": [{"number": one["number"], "finding": one["id"], "text": _item(one, places)} for one in found],
    }


def _belongs(finding: Finding, rule: Mapping[str, Any]) -> bool:
    grade = finding["severity"] or "ungraded"
    return (
        grade in rule["severity"] or (rule["danger"] and bool(finding["danger"])) or finding["course"] in rule["course"]
    )


def _item(finding: Finding, places: Places) -> str:
    """What and where, why it matters, and what to do."""
    where = join_places([phrase(place, places) for place in finding["places"]])
    head = f"{finding['title']}, {where}." if where else f"{finding['title']}."
    return " ".join(text.strip() for text in (head, finding["why"], finding["recommendation"]) if text.strip())
