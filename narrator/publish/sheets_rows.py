"""The rows of trade sheets as they print, and a trade's page. Every form of a sheet takes its rows from here."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from narrator.compose.english import join_list
from narrator.compose.sheets import row_of
from narrator.publish.blocks import Heading, Para, Part, Table
from narrator.publish.labels import NO_TRADE, Labels
from narrator.publish.text import day, inline, numbers, quoted, run

if TYPE_CHECKING:
    from narrator.report import Finding, Report, SheetRow, TradeSheet

SHEET_HEAD = (
    "Number",
    "Item",
    "Place",
    "Figures",
    "Photos",
    "What we could not see",
    "Price",
    "Date",
    "Firm",
)
SHEET_EMPTY = 3
SHEET_NOTE = "From a visual inspection: notes for a price, not a design."
DRAFT_NOTE = "Draft. It has not been issued."
NOTHING = "No finding asks a contractor for a price."


class Line(NamedTuple):
    """A row of the client's worksheet: the trade, the grade, then the first six cells of the sheet."""

    trade: str
    grade: str
    number: int
    cells: tuple[str, ...]


def sheet_part(sheet: TradeSheet, report: Report, labels: Labels) -> Part:
    """One trade's page. A sheet without rows makes an empty part, which is not printed."""
    found = _findings(report)
    rows = tuple((*cells(row, found.get(row["finding"]), labels), "", "", "") for row in sheet["rows"])
    table = Table(SHEET_HEAD, rows, SHEET_EMPTY)
    blocks = (Heading(2, f"Notes for a price: {inline(sheet['label'])}"), Para(heading_note(report), "quiet"), table)
    return Part("sheet", blocks if rows else (), f"sheet.{sheet['trade']}")


def heading_note(report: Report) -> str:
    """What stands over each sheet: what it is, the house, the visit, and whether it is a draft. Never a client's name."""
    house, by = inline(report["property"] or ""), inline(report["inspector"] or "")
    visited = f"Visited {day(inline(report['visited']))}" if report["visited"] else ""
    inspected = f"Inspector: {by}" if by else ""
    draft = "" if report["state"] == "issued" else DRAFT_NOTE
    return run([SHEET_NOTE, f"The house: {house}" if house else "", visited, inspected, draft])


def cells(row: SheetRow, finding: Finding | None, labels: Labels) -> tuple[str, ...]:
    """Number, item, place, figures, photos and what we could not see. Trades beside the lead stand with the item."""
    count = f"{row['count']} of them" if row["count"] is not None and row["count"] != 1 else ""
    figures = "; ".join(filter(None, (count, inline(row["figures"]), *(quoted(inline(w)) for w in row["words"]))))
    others = (
        [
            inline(labels.trade(each["id"]))
            for each in finding["trades"]
            if each["role"] == "with" and each["id"] != "owner"
        ]
        if finding
        else []
    )
    item = inline(row["title"]) + (f" (with {join_list(others)})" if others else "")
    place, photos = inline(row["place"] or ""), numbers(row["photos"])
    return (str(row["number"]), item, place, figures, photos, inline(row["unseen"]))


def lines(report: Report, labels: Labels, unnamed: bool = True) -> list[Line]:
    """Every row of every sheet; `unnamed`: also findings that name no trade, so that none is forgotten."""
    found = _findings(report)
    pairs = [(inline(sheet["label"]), row) for sheet in report["trade_sheets"] for row in sheet["rows"]]
    if unnamed:
        loose = [finding for finding in found.values() if not finding["trades"]]
        pairs += [(NO_TRADE, row_of(finding, each)) for finding in loose for each in finding["instances"]]
    out = []
    for trade, row in pairs:
        finding = found.get(row["finding"])
        grade = labels.severity(finding["severity"] if finding else None, [])
        out.append(Line(trade, grade, row["number"], cells(row, finding, labels)))
    return out


def _findings(report: Report) -> dict[str, Finding]:
    return {finding["id"]: finding for section in report["sections"] for finding in section["findings"]}
