"""Figures against words: an `ok`, or a test that went fine, whose figure is past the published one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from narrator.compose.place import Places
from narrator.measure.show import show
from narrator.measure.verdict import Criterion, judge
from narrator.read.model import Item, Line
from narrator.resolve.answer import Answer, answer
from narrator.resolve.bind import Bound, bind
from narrator.resolve.model import Measure
from narrator.resolve.vocabulary import plain_words
from narrator.resolve.wordings import wordings
from narrator.resolve.words import understand
from narrator.source import index as store
from narrator.source.index import Index
from narrator.source.model import Entry


class Past(NamedTuple):
    """The measured thing that a line names, without its fine words, and its figure as shown."""

    answer: Answer
    entry: Entry
    phrase: str
    figure: str


def bound_to(line: Line, entry: Entry, values: Sequence[Item], index: Index) -> Bound:
    """The figures of a line bound to the measures of an entry."""
    named = {spec.criterion for spec in entry.measures if spec.criterion}
    criteria = {name: found for name in sorted(named) if (found := store.criterion(index, name))}
    return bind(values, entry, criteria, line.number, _words_of(entry, index) if values else frozenset())


def _words_of(entry: Entry, index: Index) -> frozenset[str]:
    """Every word of an entry's title and names: a label in these words says nothing new."""
    key = f"words:{entry.code}"
    if key not in index.cache:
        known = store.known_of(index, [entry.code])[entry.code]
        index.cache[key] = frozenset(word for name in (known.title, *entry.names) for word in plain_words(name))
    found: frozenset[str] = index.cache[key]
    return found


def past_figure(line: Line, values: Sequence[Item], index: Index, places: Places) -> Past | None:
    """The figure of a line of fine words that is short of, or over, its published one; None when there is none."""
    if not values:
        return None
    vocabulary = store.vocabulary(index)
    for wording in wordings(
        line.what, vocabulary, places, (word for item in values for word in plain_words(item.label))
    ):
        tokens = understand(wording, vocabulary).tokens
        phrase = " ".join(word for token in tokens if token.kind != "fine" for word in token.words)
        past = _past_of(line, phrase, values, index, places) if plain_words(phrase) else None
        if past is not None:
            return past
    return None


def _past_of(line: Line, phrase: str, values: Sequence[Item], index: Index, places: Places) -> Past | None:
    got = answer(phrase, index, places, line.heading_system, values, line.where, line.heading_place or "")
    if not isinstance(got, Answer) or got.conditions:
        return None
    entry = store.entry(index, got.code)
    assert entry is not None
    for measure in bound_to(line, entry, values, index).measures:
        criterion = store.criterion(index, measure.spec.criterion) if measure.spec.criterion else None
        if criterion is not None and criterion.judges and not measure.control:
            figure = _past(measure, criterion)
            if figure:
                return Past(got, entry, phrase, figure)
    return None


def _past(measure: Measure, criterion: Criterion) -> str:
    """The first value, as shown, that is past the published figure."""
    if any(point.reason == "OL" for point in measure.points):
        return "OL"
    values = [measure.quantity] if measure.quantity else [point.value for point in measure.points if point.value]
    for value in values:
        quantity = value if value.unit else replace(value, unit=measure.unit)
        try:
            if judge(quantity, criterion) in ("short", "over"):
                return show(quantity)
        except ValueError:
            continue
    return ""
