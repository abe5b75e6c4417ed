"""A comparison as JSON, for other programs. `schemas/comparison.schema.json` says the same to machines."""

from __future__ import annotations

import json
from typing import Any

from narrator import __version__
from narrator.review.kinds import KINDS, Change, Comparison, Report

FORMAT = "narrator.comparison/1"


def write(found: Comparison, allowed: frozenset[str] = frozenset()) -> str:
    """The comparison as JSON text; `allowed` kinds count as not mattering."""
    matters = found.mattering(allowed)
    value = {
        "format": FORMAT,
        "narrator": __version__,
        "same_house": found.same_house,
        "before": _report(found.before),
        "after": _report(found.after),
        "allowed": sorted(allowed),
        "matters": len(matters),
        "notes": list(found.notes),
        "counts": {kind: count for kind in KINDS if (count := sum(each.kind == kind for each in found.changes))},
        "changes": [_change(each, each in matters) for each in found.changes],
    }
    text = json.dumps(value, ensure_ascii=False, indent=1)
    return "".join(f"\\u{ord(sign):04x}" if "\ud800" <= sign <= "\udfff" else sign for sign in text) + "\n"


def _report(report: Report) -> dict[str, Any]:
    return report._asdict()


def _change(change: Change, matters: bool) -> dict[str, Any]:
    return {
        "kind": change.kind,
        "also": list(change.also),
        "matters": matters,
        "where": change.where,
        "said": change.said,
        "before": {"text": change.before, "line": change.before_line} if change.before else None,
        "after": {"text": change.after, "line": change.after_line} if change.after else None,
        "words": [word._asdict() for word in change.words],
        "follows": [_change(each, False) for each in change.follows],
    }
