"""What a redraft does with the edits beside its checklist: before the lines are bound, and after the report is composed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from narrator.compose.report import DANGERS
from narrator.edits.apply import Means, applied
from narrator.edits.settled import codes, marked
from narrator.source import index as store

if TYPE_CHECKING:
    from narrator.compose.place import Places
    from narrator.edits.model import Edits
    from narrator.read.model import Checklist
    from narrator.report import Report
    from narrator.source.index import Index


def edited(report: Report, edits: Edits, checklist: Checklist, index: Index, places: Places) -> Report:
    """The composed report with its edits put in and its answered notes marked."""
    trades = store.document(index, "trades")["trades"]
    known = {each.code: store.entry(index, each.code) is not None for each in edits.settled if each.code}
    return marked(applied(report, edits, Means(trades, DANGERS, places)), edits, checklist, known)


__all__ = ["codes", "edited"]
