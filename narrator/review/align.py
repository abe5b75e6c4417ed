"""Which finding of one report is which of the other: by id or number where the words agree, else by words."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from typing import NamedTuple

from narrator.review.pieces import Found
from narrator.review.plainly import level, sentences
from narrator.review.wordwise import alike, bag, tokens

AGREE = 0.34
"""Share of words in a title, or in the prose, from which an id or a number is believed."""

ENOUGH = 0.42
"""Likeness from which two findings are taken for one where neither id nor number says so."""

HELD = 0.6
"""Share of a finding's words that must have come into another one for the two to count as merged."""


class Aligned(NamedTuple):
    """Places in the two lists of findings. `merged` and `split` pair a finding without a partner with the one that holds it."""

    pairs: tuple[tuple[int, int], ...]
    dropped: tuple[int, ...]
    added: tuple[int, ...]
    merged: tuple[tuple[int, int], ...]
    split: tuple[tuple[int, int], ...]


def prose(found: Found) -> str:
    """All paragraphs of a finding in one."""
    return " ".join(each.text for each in found.passages)


def align(before: Sequence[Found], after: Sequence[Found], one_draft: bool = True) -> Aligned:
    """Every finding of both lists, each in one place of the answer. `one_draft`: a number may say which is which."""
    free, left = dict(enumerate(before)), dict(enumerate(after))
    pairs: dict[int, int] = {}

    def pair(one: int, other: int) -> None:
        pairs[one] = other
        del free[one], left[other]

    for key in (_whole, _id, _title, _number) if one_draft else (_title, _id, _code, _same_title):
        known: dict[object, list[int]] = defaultdict(list)
        for at, each in left.items():
            if name := key(each):
                known[name].append(at)
        for one, found in list(free.items()):
            for other in known.get(key(found), ()):
                if other in left and (key in (_whole, _title, _same_title) or agree(found, left[other])):
                    pair(one, other)
                    break
    for _, one, other in sorted(_likely(free, left), key=lambda each: (-each[0], abs(each[1] - each[2]), each[1:])):
        if one in free and other in left:
            pair(one, other)
    backward = {other: one for one, other in pairs.items()}
    merged = _held(free, after, lambda at: before[backward[at]] if at in backward else None)
    split = _held(left, before, lambda at: after[pairs[at]] if at in pairs else None)
    return Aligned(
        tuple(sorted(pairs.items())),
        tuple(at for at in free if at not in merged),
        tuple(at for at in left if at not in split),
        tuple(merged.items()),
        tuple(split.items()),
    )


def agree(one: Found, other: Found) -> bool:
    """Whether the words of two findings speak of one thing."""
    return alike(one.title, other.title) >= AGREE or alike(prose(one), prose(other)) >= AGREE


def _whole(found: Found) -> object:
    return (found.number, level(found.title).lower(), found.places) if found.number is not None else None


def _id(found: Found) -> object:
    return re.sub(r"[^\w.~-]", "-", found.id) or None


def _title(found: Found) -> object:
    return (level(found.title).lower(), tuple(level(each).lower() for each in found.places))


def _same_title(found: Found) -> object:
    return level(found.title).lower()


def _code(found: Found) -> object:
    return found.id.split("~")[0] or None


def _number(found: Found) -> object:
    return found.number


def _likely(free: dict[int, Found], left: dict[int, Found]) -> list[tuple[float, int, int]]:
    """Pairs that are alike enough, among those that share a word of title or place."""
    by_word: dict[str, set[int]] = defaultdict(set)
    for at, each in left.items():
        for word in bag(" ".join([each.title, *each.places])):
            by_word[word].add(at)
    common = {word for word, where in by_word.items() if len(where) > 12 + len(left) // 4}
    out = []
    for one, found in free.items():
        near: set[int] = set()
        for word in bag(" ".join([found.title, *found.places])) - common:
            near |= by_word.get(word, set())
        for other in near or set(list(left)[:40]):
            score = likeness(found, left[other])
            if score >= ENOUGH:
                out.append((score, one, other))
    return out


def likeness(one: Found, other: Found) -> float:
    """How alike two findings are, 0 to 1: half by title, the rest by prose and place."""
    places = alike(" ".join(one.places), " ".join(other.places)) if one.places or other.places else 0.5
    return 0.45 * alike(one.title, other.title) + 0.35 * alike(prose(one), prose(other)) + 0.2 * places


def _held(alone: dict[int, Found], others: Sequence[Found], partner: Callable[[int], Found | None]) -> dict[int, int]:
    """Findings without a partner whose words, or whose places, came into another one."""
    out: dict[int, int] = {}
    if not alone:
        return out
    fresh = []
    for at, other in enumerate(others):
        known = partner(at)
        if known is not None:
            said = Counter(level(each) for each in sentences(level(prose(other))))
            said -= Counter(level(each) for each in sentences(level(prose(known))))
            if said or set(other.places) - set(known.places):
                fresh.append((at, other, known, Counter(_words(" ".join(said.elements())))))
    for one, found in alone.items():
        own = Counter(_words(prose(found)))
        best = 0.0
        for at, other, known, words in fresh:
            share = sum((own & words).values()) / max(1, sum(own.values()))
            new_places = {level(each).lower() for each in other.places} - {level(each).lower() for each in known.places}
            placed = bool(found.places) and {level(each).lower() for each in found.places} <= new_places
            score = max(share, 0.9 if placed and alike(found.title, other.title) >= 0.5 else 0.0)
            if score >= HELD and score > best:
                best, out[one] = score, at
    return out


def _words(text: str) -> list[str]:
    return [each.lower() for each in tokens(text) if each[0].isalnum()]
