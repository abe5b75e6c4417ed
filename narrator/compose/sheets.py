"""Trade sheets: for each trade a row for each place, with figures, photos and what nobody could see."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from narrator.report import Finding, SheetRow, TradeSheet


def trade_sheets(findings: Sequence[Finding], labels: Mapping[str, str], order: Sequence[str]) -> list[TradeSheet]:
    """One sheet a trade that leads or stands beside a finding, in the library's order of trades."""
    rows: dict[str, list[SheetRow]] = {}
    for finding in findings:
        unseen = finding["limits"][0]["text"] if finding["limits"] else ""
        for trade in finding["trades"]:
            if trade["role"] != "lead" or trade["id"] == "owner":
                continue
            for instance in finding["instances"]:
                figures = "; ".join(
                    f"{m['name']} {m['text']}" for m in instance["measures"] if m.get("text") and not m.get("from")
                )
                rows.setdefault(trade["id"], []).append(
                    {
                        "number": finding["number"],
                        "finding": finding["id"],
                        "title": finding["title"],
                        "place": instance["place"],
                        "figures": figures,
                        "count": instance["count"],
                        "photos": instance["photos"],
                        "unseen": unseen,
                        "words": instance["words"],
                        "lines": instance["lines"],
                    }
                )
    known = [trade for trade in order if trade in rows] + sorted(set(rows) - set(order))
    return [{"trade": trade, "label": labels.get(trade, trade), "rows": rows[trade]} for trade in known]
