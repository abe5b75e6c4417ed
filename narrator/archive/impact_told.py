"""An impact grouped by entry and by meaning: counts, and three samples of each."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from narrator.archive.impact import Altered, Impact
from narrator.archive.sentences import IMPACT_KINDS, Change

SAMPLES = 3


class Sample(NamedTuple):
    """A changed paragraph, and the inspection that it stands in."""

    shown: str
    change: Change


class Group(NamedTuple):
    """All changes of one meaning that come from one entry."""

    entry: str
    kind: str
    paragraphs: int
    inspections: int
    samples: tuple[Sample, ...]


def groups(found: Impact) -> tuple[Group, ...]:
    """By entry, those with the weightiest change and then the most inspections first; the meanings of each by weight."""
    rows: dict[tuple[str, str], list[Sample]] = {}
    for altered in found.altered:
        for change in altered.changes:
            rows.setdefault((change.entry, change.kind), []).append(Sample(altered.shown, change))
    made = [_group(entry, kind, samples) for (entry, kind), samples in rows.items()]
    order = list(IMPACT_KINDS)
    heaviest = {each.entry: min(order.index(one.kind) for one in made if one.entry == each.entry) for each in made}
    widest = {each.entry: max(one.inspections for one in made if one.entry == each.entry) for each in made}
    made.sort(key=lambda each: (heaviest[each.entry], -widest[each.entry], each.entry, order.index(each.kind)))
    return tuple(made)


def _group(entry: str, kind: str, samples: Sequence[Sample]) -> Group:
    return Group(entry, kind, len(samples), len({each.shown for each in samples}), _unlike(samples))


def _unlike(samples: Sequence[Sample]) -> tuple[Sample, ...]:
    """Three samples, of different texts where there are any."""
    first: dict[tuple[str, str], Sample] = {}
    for each in samples:
        first.setdefault((each.change.before, each.change.after), each)
    chosen = list(first.values())[:SAMPLES]
    chosen += [each for each in samples if each not in chosen][: SAMPLES - len(chosen)]
    return tuple(chosen)


def inspections_of(altered: Sequence[Altered], entry: str) -> int:
    """In how many inspections an entry's paragraphs change."""
    return sum(any(change.entry == entry for change in each.changes) for each in altered)
