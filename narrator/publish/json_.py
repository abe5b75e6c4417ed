"""JSON: the report value itself, keys in the order of its contract."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

from narrator import report as contract
from narrator.publish.labels import Labels
from narrator.report import Report

_SHAPES: Mapping[str, Any] = {
    "review_window": contract.ReviewWindow,
    "headings": contract.Heading,
    "opening": contract.OpeningPart,
    "summary": contract.Summary,
    "sections": contract.Section,
    "descriptions": contract.Description,
    "results": contract.Result,
    "statuses": contract.Status,
    "findings": contract.Finding,
    "trades": contract.TradeRef,
    "limits": contract.LimitRef,
    "Section.limits": contract.SectionLimit,
    "instances": contract.Instance,
    "measures": contract.MeasureValue,
    "points": contract.PointValue,
    "charts": contract.Chart,
    "Chart.rows": contract.ChartRow,
    "Chart.marks": contract.ChartMark,
    "ChartRow.points": contract.ChartPoint,
    "ChartRow.spread": contract.ChartSpread,
    "criterion": contract.CriterionRef,
    "acts": contract.ActValue,
    "trace": contract.TraceSpan,
    "overrides": contract.Override,
    "connections": contract.Connection,
    "trade_sheets": contract.TradeSheet,
    "rows": contract.SheetRow,
    "unseen": contract.Unseen,
    "terms": contract.Term,
    "coverage": contract.Coverage,
    "glossary": contract.GlossaryTerm,
    "notes": contract.Note,
    "photos": contract.Photo,
    "unresolved": contract.Unresolved,
    "nearest": contract.Nearest,
    "review_notes": contract.ReviewNote,
    "settled": contract.SettledBy,
    "edits": contract.HandEdit,
}
"""The shape of what a key holds: a value of it, or a list of them. A list of anything else stays as it is.
Where a key means another thing inside one shape, that shape's name stands before it."""

_LONE = re.compile("[\ud800-\udfff]")


def write(report: Report, labels: Labels) -> str:
    """The report as JSON; reading it gives the same value back."""
    text = json.dumps(_ordered(report, Report), ensure_ascii=False, indent=1, allow_nan=False)
    return _LONE.sub(lambda match: f"\\u{ord(match[0]):04x}", text) + "\n"


def _ordered(value: object, shape: Any) -> object:
    if isinstance(value, list):
        return [_ordered(each, shape) for each in value]
    if not isinstance(value, dict):
        return value
    known = list(shape.__annotations__) if shape else []
    keys = [key for key in known if key in value] + [key for key in value if key not in known]
    return {key: _ordered(value[key], _shape_of(shape, key)) for key in keys}


def _shape_of(shape: Any, key: str) -> Any:
    return (_SHAPES.get(f"{shape.__name__}.{key}") or _SHAPES.get(key)) if shape else None
