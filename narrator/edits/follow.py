"""What follows from edited findings: page one, trade sheets, stories, and the review notes that speak of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from narrator.compose.english import lower_first
from narrator.compose.opening import opening
from narrator.compose.report import finding_notes
from narrator.compose.sheets import trade_sheets
from narrator.edits.slots import findings_of

if TYPE_CHECKING:
    from narrator.edits.apply import Means
    from narrator.report import Connection, Report, ReviewNote


def titles_of(report: Report) -> dict[str, str]:
    """The title of each finding by its id."""
    return {found["id"]: found["title"] for found in findings_of(report)}


def notes_before(report: Report) -> dict[str, list[ReviewNote]]:
    """The review notes that each finding makes."""
    return {found["id"]: finding_notes(found) for found in findings_of(report)}


def lines_of(report: Report, finding: str) -> list[int] | None:
    """The lines of a finding, None where there is no such finding."""
    return next((found["lines"] for found in findings_of(report) if found["id"] == finding), None)


def through(report: Report, titles: Mapping[str, str], notes: Mapping[str, list[ReviewNote]], means: Means) -> None:
    """Bring everything that repeats a finding in line with its edited form."""
    findings = list(findings_of(report))
    report["opening"] = opening(findings, report["review_window"], report["unseen"], means.words)
    report["trade_sheets"] = trade_sheets(findings, means.trades)
    changed = {found["id"]: found["title"] for found in findings if found["title"] != titles[found["id"]]}
    for story in report["connections"]:
        _retitled(story, titles, changed)
    for found in findings:
        fresh = finding_notes(found)
        if fresh != notes[found["id"]]:
            report["review_notes"] = [note for note in report["review_notes"] if note not in notes[found["id"]]] + fresh
    for chart in report["charts"]:
        if chart["finding"] in changed and chart["title"] == titles[chart["finding"]]:
            chart["title"] = changed[chart["finding"]]


def _retitled(story: Connection, titles: Mapping[str, str], changed: Mapping[str, str]) -> None:
    """The new titles where a story names its findings by the old ones."""
    text, spans, at = "", [], 0
    swaps = {
        f"{each.split('~')[0]}:title": (titles[each], new) for each, new in changed.items() if each in story["findings"]
    }
    if not swaps:
        return
    for span in story["trace"]:
        piece = story["text"][span["start"] : span["end"]]
        old, new = swaps.get(span["ref"], ("", ""))
        if old and piece.lower() == old.lower():
            piece = new if piece[:1].isupper() else lower_first(new)
        made: Any = {**span, "start": at, "end": at + len(piece)}
        text, at = text + piece, at + len(piece)
        spans.append(made)
    story["text"], story["trace"] = text, spans
