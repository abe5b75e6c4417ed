"""Trade sheets: for each trade a row for each place, with figures, photos and what nobody could see."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from narrator.report import Finding, Instance, SheetRow, TradeSheet


def trade_sheets(findings: Sequence[Finding], trades: Sequence[Mapping[str, Any]]) -> list[TradeSheet]:
    """One sheet a trade that leads a finding, in the library's order. Who does not price work (`who: false`) gets none."""
    rows: dict[str, list[SheetRow]] = {}
    unpriced = {item["id"] for item in trades if item.get("who") in (False, "false")}
    for finding in findings:
        for trade in finding["trades"]:
            if trade["role"] == "lead" and trade["id"] not in unpriced:
                made = [row_of(finding, instance) for instance in finding["instances"]]
                rows.setdefault(trade["id"], []).extend(made)
    labels = {item["id"]: item["label"] for item in trades}
    known = [trade for trade in labels if trade in rows] + sorted(set(rows) - set(labels))
    return [{"trade": trade, "label": labels.get(trade, trade), "rows": rows[trade]} for trade in known]


def row_of(finding: Finding, instance: Instance) -> SheetRow:
    """The row for one place of a finding."""
    return {
        "number": finding["number"],
        "finding": finding["id"],
        "title": finding["title"],
        "place": instance["place"],
        "figures": "; ".join(
            f"{m['name']} {m['text']}" for m in instance["measures"] if m.get("text") and not m.get("from")
        ),
        "count": instance["count"],
        "photos": instance["photos"],
        "unseen": finding["limits"][0]["text"] if finding["limits"] else "",
        "words": instance["words"],
        "lines": instance["lines"],
    }
