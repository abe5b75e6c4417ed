"""Likeness of a phrase to the library's names: fixed weights, judged by wrong answers, never by hits.

An answer is automatic only if it is exact (a code or a name), or alike enough *and* ahead of the second *and* its condition
words agree *and* no known part word stays unexplained. A name never asserts a part or a condition that was not typed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from narrator.resolve.negation import JOINS
from narrator.resolve.vocabulary import Phrase


class Name(NamedTuple):
    """One name of an entry as stored in the index. `measured`: it answers only a line that carries a value."""

    code: str
    key: str
    parts: frozenset[str]
    conditions: frozenset[str]
    fine: frozenset[str]
    others: frozenset[str]
    measured: bool


class Known(NamedTuple):
    """What an entry as a whole explains: the parts and conditions over its names, its title, the one room it is told in."""

    code: str
    title: str
    parts: frozenset[str]
    conditions: frozenset[str]
    room: str = ""


class Scored(NamedTuple):
    """A candidate: `passes` says that both vetoes let it through."""

    code: str
    title: str
    score: float
    passes: bool
    name: str


def weigh(
    parts: frozenset[str], conditions: frozenset[str], others: frozenset[str], weights: Mapping[str, float]
) -> float:
    """The weight of a set of words."""
    return weights["part"] * len(parts) + weights["condition"] * len(conditions) + weights["other"] * len(others)


def likeness(phrase: Phrase, name: Name, weights: Mapping[str, float]) -> float:
    """Weighted overlap (Dice) of a phrase and a name: 1 when they say the same, 0 when they share nothing."""
    others = phrase.others | phrase.fine
    name_others = name.others | name.fine
    whole = weigh(phrase.parts, phrase.conditions, others, weights) + weigh(
        name.parts, name.conditions, name_others, weights
    )
    if not whole:
        return 0.0
    shared = weigh(phrase.parts & name.parts, phrase.conditions & name.conditions, others & name_others, weights)
    return 2 * shared / whole


def passes(phrase: Phrase, name: Name, known: Known, fits: Callable[[str], bool]) -> bool:
    """The vetoes: conditions agree, no part stays unexplained, nothing is added that was not typed.

    `fits` says whether a value on the line fits a measure of that entry.
    """
    if phrase.unclear or phrase.fine - name.fine:
        return False
    if name.measured:
        if phrase.conditions or not fits(name.code):
            return False
    elif not phrase.conditions:
        return False
    if not name.conditions <= phrase.conditions or not name.parts <= phrase.parts:
        return False
    # A name without a part, or of something missing, asserts its plain words too ("no window limiter" is no "window missing").
    if (not name.parts or "missing" in name.conditions) and name.others - phrase.others - JOINS:
        return False
    return phrase.conditions <= known.conditions and phrase.parts <= known.parts


def rank(
    phrase: Phrase,
    names: Sequence[Name],
    known: Mapping[str, Known],
    weights: Mapping[str, float],
    fits: Callable[[str], bool],
) -> tuple[Scored, ...]:
    """The best name of each entry, best entry first; those that pass stand before equal ones that do not."""
    best: dict[str, Scored] = {}
    for name in names:
        entry = known[name.code]
        score = likeness(phrase, name, weights)
        agreed = passes(phrase, name, entry, fits)
        if phrase.conditions and name.conditions and not phrase.conditions & name.conditions:
            score *= 0.6  # shares a part only: shown, but far down
        now = Scored(name.code, entry.title, round(score, 4), agreed, name.key)
        old = best.get(name.code)
        if old is None or (now.passes, now.score) > (old.passes, old.score):
            best[name.code] = now
    return tuple(sorted(best.values(), key=lambda item: (-item.score, not item.passes, item.code)))


def choose(ranked: Sequence[Scored], thresholds: Mapping[str, float], prefer: str | None) -> Scored | None:
    """The automatic answer, or None. `prefer` is the heading's system: it decides only between answers that pass."""
    passing = [item for item in ranked if item.passes and item.score >= thresholds["automatic"]]
    if not passing:
        return None
    top = passing[0]
    rivals = [item for item in ranked if item.code != top.code and item.score > top.score - thresholds["ahead"]]
    rivals = [item for item in rivals if item.passes or item.score > top.score]
    if top.score >= 1 and all(item.score < 1 for item in rivals):
        return top  # it says the same words, and no other does
    if not rivals:
        return top
    if prefer:
        group = [item for item in passing if item.score > top.score - thresholds["ahead"]]
        own = [item for item in group if item.code.split(".", 1)[0] == prefer]
        outside = [item for item in rivals if not item.passes]
        if own and not outside:
            lead = own[0]
            second = own[1].score if len(own) > 1 else 0.0
            if lead.score - second >= thresholds["ahead"]:
                return lead
    return None
