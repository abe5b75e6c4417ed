"""Two texts word by word: what left, what came, and which words are only misspelled."""

from __future__ import annotations

import re
from difflib import SequenceMatcher
from functools import lru_cache
from typing import NamedTuple

from narrator.review.kinds import Word
from narrator.review.plainly import level

_TOKEN = re.compile(r"\d+(?:[.,:/]\d+)*|[^\W\d_]+(?:['-][^\W\d_]+)*|[^\s\w]|_|\S")


class Piece(NamedTuple):
    """A stretch in which the two differ; either side may be empty."""

    lost: tuple[str, ...]
    gained: tuple[str, ...]


@lru_cache(maxsize=65536)
def tokens(text: str) -> tuple[str, ...]:
    """Words, figures (`1/4`, `17:00`, `1,200` are one each) and signs, as typed."""
    return tuple(_TOKEN.findall(level(text)))


@lru_cache(maxsize=65536)
def bag(text: str) -> frozenset[str]:
    """The words and figures of a text, in small letters."""
    return frozenset(each.lower() for each in tokens(text) if each[0].isalnum())


def alike(first: str, second: str) -> float:
    """Share of words that two texts have in common, 0 to 1 (Dice)."""
    one, other = bag(first), bag(second)
    return 2 * len(one & other) / (len(one) + len(other)) if one and other else float(one == other)


def differences(before: str, after: str) -> list[Piece]:
    """Where two texts differ, in order, in small letters; signs count."""
    one, other = [each.lower() for each in tokens(before)], [each.lower() for each in tokens(after)]
    found = SequenceMatcher(None, one, other, autojunk=False).get_opcodes()
    return [Piece(tuple(one[a:b]), tuple(other[c:d])) for tag, a, b, c, d in found if tag != "equal"]


def marked(before: str, after: str) -> tuple[Word, ...]:
    """Both texts as one, with what left and what came marked, for people to read."""
    one, other = re.findall(r"\s*\S+", level(before)), re.findall(r"\s*\S+", level(after))
    keys = [each.strip().lower() for each in one], [each.strip().lower() for each in other]
    out: list[Word] = []
    for tag, a, b, c, d in SequenceMatcher(None, *keys, autojunk=False).get_opcodes():
        if tag == "equal":
            out.append(Word("same", "".join(other[c:d])))
            continue
        if b > a:
            out.append(Word("removed", "".join(one[a:b])))
        if d > c:
            out.append(Word("added", "".join(other[c:d])))
    return tuple(out)


def misspelled(one: str, other: str) -> bool:
    """Whether two words are one letter apart: one more, one less, one other, or two in turn. Figures never are."""
    if one == other:
        return True
    if not (one.isalpha() and other.isalpha()) or abs(len(one) - len(other)) > 1 or max(len(one), len(other)) < 3:
        return False
    start = 0
    while start < min(len(one), len(other)) and one[start] == other[start]:
        start += 1
    rest, other_rest = one[start:], other[start:]
    if rest[1:] == other_rest[1:] or rest[1:] == other_rest or rest == other_rest[1:]:
        return True
    return rest[2:] == other_rest[2:] and rest[:2] == other_rest[:2][::-1]
