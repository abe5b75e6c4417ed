"""Trade sheets as one HTML file in the report's look: a printed page for each trade."""

from __future__ import annotations

from typing import TYPE_CHECKING

from narrator.publish.blocks import Para, Part
from narrator.publish.html import page
from narrator.publish.labels import Labels
from narrator.publish.order import is_draft
from narrator.publish.sheets_rows import NOTHING, heading_note, sheet_part

if TYPE_CHECKING:
    from narrator.report import Report


def write(report: Report, labels: Labels) -> str:
    """The sheets of the report, in its order; a plain sentence where there are none."""
    parts = tuple(sheet_part(sheet, report, labels) for sheet in report["trade_sheets"])
    none = Part("sheet", (Para(NOTHING, ""), Para(heading_note(report), "quiet")))
    return page(parts or (none,), "Notes for a price", is_draft(report), end=False)
