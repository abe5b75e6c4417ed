"""What a redraft does with the edits beside its checklist: before lines are bound, after the report is composed, and last."""

from __future__ import annotations

from typing import TYPE_CHECKING

from narrator.compose.opening import Words
from narrator.compose.report import DANGERS
from narrator.edits.apply import Means, applied
from narrator.edits.settled import codes, marked
from narrator.edits.slots import findings_of
from narrator.source import index as store

if TYPE_CHECKING:
    from narrator.compose.place import Places
    from narrator.edits.model import Edits
    from narrator.read.model import Checklist
    from narrator.report import Report
    from narrator.source.index import Index


def edited(report: Report, edits: Edits, index: Index, places: Places) -> Report:
    """The composed report with its edits put in."""
    trades = store.document(index, "trades")["trades"]
    calls: dict[str, str] = {}
    for found in findings_of(report):
        entry = store.entry(index, found["code"])
        if entry is not None and not any(each["key"] == "do" for each in found["overrides"]):
            calls[found["id"]] = entry.call
    words = Words({item["id"]: item["label"] for item in trades}, DANGERS, calls, places)
    return applied(report, edits, Means(trades, words))


def answered(report: Report, edits: Edits, checklist: Checklist, index: Index) -> Report:
    """The finished report with its answered review notes marked."""
    known = {each.code: store.entry(index, each.code) is not None for each in edits.settled if each.code}
    return marked(report, edits, checklist, known)


__all__ = ["answered", "codes", "edited"]
