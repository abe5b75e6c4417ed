"""The summary page that a standard of practice asks for: which findings stand on it, and in what words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from narrator.compose.english import join_list
from narrator.compose.place import Places, join_places, phrase

if TYPE_CHECKING:
    from narrator.report import Finding, Report, Summary

LEAD = "This page lists each item that did not work as it should, or that someone should look at further."
NONE = "No item of this report belongs on this page."
WHOLE = "It is not the whole report: each item is told in full at its number."


GRADES = ("act-now", "find-out", "plan", "upkeep", None)


def summary(
    report: Report,
    practice: Mapping[str, Any],
    sentence: str | None,
    places: Places,
    labels: Mapping[str, str],
    dangers: Mapping[str, str],
) -> Summary | None:
    """The summary, or None where the standard asks for none. `sentence`: the notice in the statute's words, verbatim.

    What could hurt someone stands first, then by grade; within a grade the order of the report. `labels`, `dangers`:
    printed words of trades and dangers.
    """
    rule = practice.get("summary")
    if rule is None:
        return None
    found = [one for section in report["sections"] for one in section["findings"] if _belongs(one, rule)]
    found.sort(key=lambda one: (GRADES.index(one["severity"]), not one["danger"], one["number"]))
    return {
        "standard": practice["id"],
        "notice": sentence,
        "text": f"{LEAD} {WHOLE}" if found else NONE,
        "findings": [one["id"] for one in found],
        "items": [_item(one, places, labels, dangers) for one in found],
    }


def _belongs(finding: Finding, rule: Mapping[str, Any]) -> bool:
    grade = finding["severity"] or "ungraded"
    return (
        grade in rule["severity"] or (rule["danger"] and bool(finding["danger"])) or finding["course"] in rule["course"]
    )


def _item(finding: Finding, places: Places, labels: Mapping[str, str], dangers: Mapping[str, str]) -> dict[str, Any]:
    """What, where, the danger and who answers: the sentences of the finding stand at its number and nowhere else."""
    where = join_places([phrase(place, places) for place in finding["places"]])
    danger = join_list([dangers.get(word, word) for word in finding["danger"]])
    lead = next(
        (trade["id"] for trade in finding["trades"] if trade["role"] == "lead" and trade["id"] != "owner"), None
    )
    texts = [
        f"{finding['title']}, {where}" if where else finding["title"],
        f"Danger: {danger}" if danger else "",
        f"Ask: {labels.get(lead, lead)}" if lead else "",
    ]
    text = " ".join(f"{text}." for text in texts if text)
    return {"number": finding["number"], "finding": finding["id"], "severity": finding["severity"], "text": text}
