"""The word lists of the trade, ready for longest match, and what a phrase comes to."""

from __future__ import annotations

import re
from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, NamedTuple

_SPLIT = re.compile(r"[^0-9a-zà-öø-ÿ&/'.]+")
_FOLD = str.maketrans({"’": "'", "‘": "'", "′": "'", "–": "-", "—": "-"})
ARTICLES = frozenset({"a", "an", "the"})


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The word lists, ready for longest match: first word -> [(words, kind, canon)], longest first."""

    phrases: Mapping[str, Sequence[tuple[tuple[str, ...], str, str]]]
    abbreviations: Mapping[str, tuple[str, ...]]
    fillers: frozenset[str]
    ordinary: frozenset[str]
    turned: Mapping[str, str]
    hedges: frozenset[str]
    weights: Mapping[str, float]
    thresholds: Mapping[str, float]
    inner: Container[str]
    neutral: frozenset[str]
    telling: frozenset[str]
    exceptions: frozenset[str]
    slips: Callable[[str], Sequence[str]]
    # What phrases came to, for the next look at the same words: a line is read in several ways.
    memo: dict[tuple[str, bool], Phrase] = field(default_factory=dict)


class Token(NamedTuple):
    """One understood piece: `kind` is part, condition, fine, other or filler; `canon` its group; `words` what was typed."""

    kind: str
    canon: str
    words: tuple[str, ...]
    spelled: bool = True


class Phrase(NamedTuple):
    """What a phrase says: `parts`, `conditions` and `others` are canonical; `unclear` marks an ambiguous negation."""

    tokens: tuple[Token, ...]
    parts: frozenset[str]
    conditions: frozenset[str]
    fine: frozenset[str]
    others: frozenset[str]
    hedged: bool
    unclear: bool
    misspelled: bool


@lru_cache(maxsize=512)
def plain_words(text: str) -> tuple[str, ...]:
    """Lower-case words of a text; hyphens split, `&`, inner `/` and apostrophes stay."""
    lowered = text.lower().translate(_FOLD)
    words = (word.strip(".'/&") if word not in ("w/", "&") else word for word in _SPLIT.split(lowered))
    return tuple(word for word in words if word)


def name_key(text: str) -> str:
    """The form in which a name answers exactly: lower case, single spaces, no punctuation."""
    return " ".join(plain_words(text))


def build_phrases(words: Mapping[str, Any]) -> dict[str, list[tuple[tuple[str, ...], str, str]]]:
    """The table for longest match out of `words.yaml`."""
    table: dict[str, list[tuple[tuple[str, ...], str, str]]] = {}

    def add(text: str, kind: str, canon: str) -> None:
        parts = tuple(word for word in plain_words(text) if word not in ARTICLES)
        if parts:
            table.setdefault(parts[0], []).append((parts, kind, canon))

    for kind, section in (("part", "parts"), ("condition", "conditions"), ("function", "functions")):
        for canon, forms in words[section].items():
            for form in forms:
                add(str(form), kind, canon)
    for canon, forms in words["negated"].items():
        for form in forms:
            add(str(form), "condition", f"not:{canon}")
    for form in words["fine"]:
        add(str(form), "fine", str(form))
    for form in words["negations"]:
        add(str(form), "negation", str(form))
    for found in table.values():
        found.sort(key=lambda item: (-len(item[0]), item[1], item[2]))
    return table


def written_out(text: str, vocabulary: Vocabulary) -> str:
    """A typed text with the abbreviations of the trade written out, all else as typed."""
    words = [" ".join(vocabulary.abbreviations.get(word.lower(), (word,))) for word in text.split()]
    return " ".join(words)
