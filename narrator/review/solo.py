"""The review of one report alone: every check over it, in the order of weight."""

from __future__ import annotations

from narrator.publish.labels import Labels
from narrator.review.checks import CHECKS
from narrator.review.grounds import Grounds
from narrator.review.matter import Matter, ordered
from narrator.review.opened import misshapen, open_text
from narrator.review.pieces import Reading
from narrator.source.index import Index


def review(reading: Reading, index: Index, labels: Labels, drafted: Reading | None = None) -> tuple[Matter, ...]:
    """What a reviewer should look at. `drafted` is the draft that the checklist gives now, where a checklist was named.

    Raises NarratorError for a value in JSON that has another shape than ours.
    """
    grounds = Grounds(reading, index, labels)
    try:
        found = {matter for check in CHECKS for matter in check(grounds)}
    except (KeyError, TypeError, AttributeError, ValueError, IndexError):
        if reading.report is None:
            raise
        raise misshapen(reading.path) from None
    if drafted is not None:
        from narrator.review.checks.checklist import against

        found |= set(against(grounds, Grounds(drafted, index, labels)))
    return ordered(found)


def drafted_from(checklist: str, index: Index, labels: Labels) -> Reading:
    """The draft that a checklist gives now, with the hand edits beside it. Raises NarratorError where it cannot be read."""
    from narrator.commands.common import draft_of
    from narrator.publish import publish

    report = draft_of(checklist, None, index)
    return open_text(publish(report, "json", labels), checklist, labels, "json")
