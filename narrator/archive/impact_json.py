"""An impact as JSON, for a pull request. `schemas/impact.schema.json` says the same to machines."""

from __future__ import annotations

import json
from typing import Any

from narrator import __version__
from narrator.archive.impact import Impact
from narrator.archive.impact_told import Sample, groups
from narrator.archive.sentences import IMPACT_KINDS
from narrator.source import index as store
from narrator.source.index import Index

FORMAT = "narrator.impact/1"


def write(found: Impact, before: Index, after: Index, allowed: frozenset[str] = frozenset()) -> str:
    """The impact as JSON text; `allowed` kinds count as not mattering."""
    value = {
        "format": FORMAT,
        "narrator": __version__,
        "old": library_value(before),
        "new": library_value(after),
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


def library_value(index: Index) -> dict[str, Any]:
    """A library, and the firm that lies over it or null."""
    firm = store.document(index, "firm")
    over = {"name": firm["name"], "fingerprint": firm["fingerprint"]} if firm else None
    return {"version": index.version, "fingerprint": index.fingerprint, "firm": over}


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
