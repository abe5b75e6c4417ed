"""What an archive teaches, as JSON. `schemas/learnt.schema.json` says the same to machines."""

from __future__ import annotations

from typing import Any

from narrator import __version__
from narrator.archive.impact_json import library_value, plain_json
from narrator.archive.learn import Learnt
from narrator.archive.proposals import Proposal
from narrator.source.index import Index

FORMAT = "narrator.learnt/1"


def write(found: Learnt, index: Index) -> str:
    """The findings of `learn` as JSON text."""
    value = {
        "format": FORMAT,
        "narrator": __version__,
        "library": library_value(index),
        "inspections": found.inspections,
        "with_changes": found.with_changes,
        "least": found.least,
        "edited": [{**each._asdict(), "proposal": _proposal(each.proposal)} for each in found.edited],
        "unresolved": [
            {**each._asdict(), "nearest": list(each.nearest), "proposal": _proposal(each.proposal)}
            for each in found.open
        ],
        "names": [{**each._asdict(), "proposal": _proposal(each.proposal)} for each in found.called],
        "skipped": [{"file": each.shown, "why": each.why} for each in found.skipped],
    }
    return plain_json(value)


def _proposal(proposal: Proposal) -> dict[str, Any]:
    """The file and its text, or null with the reason why there is none."""
    return {"file": proposal.file or None, "text": proposal.text or None, "why": proposal.why or None}
