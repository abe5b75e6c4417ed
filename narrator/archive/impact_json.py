"""An impact as JSON, for a pull request. `schemas/impact.schema.json` says the same to machines."""

from __future__ import annotations

import json
from typing import Any

from narrator import __version__
from narrator.archive.impact import Impact
from narrator.archive.impact_told import Sample, groups
from narrator.archive.sentences import IMPACT_KINDS
from narrator.source.index import Index

FORMAT = "narrator.impact/1"


def write(found: Impact, before: Index, after: Index, allowed: frozenset[str] = frozenset()) -> str:
    """The impact as JSON text; `allowed` kinds count as not mattering."""
    value = {
        "format": FORMAT,
        "narrator": __version__,
        "old": {"version": before.version, "fingerprint": before.fingerprint},
        "new": {"version": after.version, "fingerprint": after.fingerprint},
        "allowed": sorted(allowed),
        "inspections": found.inspections,
        "altered": len(found.altered),
        "issued": found.issued,
        "paragraphs": sum(len(each.changes) for each in found.altered),
        "matters": found.mattering(allowed),
        "groups": [
            {
                "entry": group.entry,
                "kind": group.kind,
                "label": IMPACT_KINDS[group.kind].label,
                "matters": IMPACT_KINDS[group.kind].matters and group.kind not in allowed,
                "paragraphs": group.paragraphs,
                "inspections": group.inspections,
                "samples": [_sample(each) for each in group.samples],
            }
            for group in groups(found)
        ],
        "skipped": [{"file": each.shown, "why": each.why} for each in found.skipped],
    }
    return plain_json(value)


def _sample(sample: Sample) -> dict[str, Any]:
    change = sample.change
    return {
        "file": sample.shown,
        "lines": list(change.lines),
        "field": change.field,
        "before": change.before,
        "after": change.after,
    }


def plain_json(value: Any) -> str:
    """JSON text with a line break at its end; half of a surrogate pair, which a file name may hold, is written as an escape."""
    text = json.dumps(value, ensure_ascii=False, indent=1)
    return "".join(f"\\u{ord(sign):04x}" if "\ud800" <= sign <= "\udfff" else sign for sign in text) + "\n"
