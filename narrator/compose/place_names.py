"""What counts as a place: the shared list of places, and how typed words are read against it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from types import MappingProxyType
from typing import Any, NamedTuple

STANDING = frozenset({"room", "space", "outbuilding", "side", "outdoor"})
INSIDE = frozenset({"in", "on", "at", "inside", "throughout", "within"})
_NUMBER_WORDS = frozenset(("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"))
DETERMINERS = _NUMBER_WORDS.union(
    (
        "the",
        "a",
        "an",
        "this",
        "that",
        "these",
        "those",
        "each",
        "every",
        "all",
        "both",
        "any",
        "some",
        "no",
        "either",
        "neither",
        "its",
        "their",
        "his",
        "her",
        "our",
        "your",
        "my",
        "several",
        "many",
        "few",
        "various",
        "multiple",
        "numerous",
        "most",
        "other",
        "another",
        "random",
    )
)
COMPASS = frozenset(("n", "s", "e", "w", "ne", "nw", "se", "sw", "nne", "nnw", "sse", "ssw"))
_WORD = re.compile(r"[^\s,;]+|[,;]")
_CORE = re.compile(r"[\w#½¼¾](?:.*[\w'’½¼¾])?", re.DOTALL)
_NUMBER = re.compile(r"#?\d{1,3}")
_LISTS = (
    "relations",
    "prepositions",
    "plain",
    "loose",
    "after",
    "numbered",
    "toward",
    "never",
    "bare",
    "adverbs",
    "proper",
    "faces",
    "abbreviations",
    "units",
    "idioms",
    "sole",
    "between",
    "within",
    "faced",
)


class Head(NamedTuple):
    """A word or words that name a place, with the class, preposition and article that it takes."""

    name: str
    cls: str
    prep: str
    article: bool


class Places(NamedTuple):
    """The list of places, ready for look-up. Names are in lower case, their words joined by one space."""

    heads: Mapping[str, Head]
    relations: frozenset[str]
    prepositions: frozenset[str]
    plain: frozenset[str]
    loose: frozenset[str]
    after: frozenset[str]
    numbered: frozenset[str]
    toward: frozenset[str]
    never: frozenset[str]
    bare: frozenset[str]
    adverbs: frozenset[str]
    proper: frozenset[str]
    faces: frozenset[str]
    abbreviations: frozenset[str]
    units: frozenset[str]
    idioms: frozenset[str]
    sole: frozenset[str]
    between: frozenset[str]
    within: frozenset[str]
    faced: frozenset[str]
    short: Mapping[str, str]
    compass: Mapping[str, str]
    kinds: Mapping[str, str]
    brief: frozenset[str]
    longest: int
    words: frozenset[str]


class Word(NamedTuple):
    """One typed word: as typed, as looked up, and where its letters stand in the text."""

    text: str
    key: str
    start: int
    end: int


class Reading(NamedTuple):
    """A known place: its head, the head's first and last word, and whether a number stands with it."""

    head: Head
    first: int
    last: int
    number: bool


def places_from(data: Mapping[str, Any]) -> Places:
    """The list of places from the mapping that `places.yaml` holds."""
    heads: dict[str, Head] = {}
    for group in data["heads"]:
        article = str(group.get("article", True)).lower() not in ("false", "no")
        for name in group["names"]:
            name = _key(str(name))
            heads[name] = Head(name, str(group["class"]), str(group.get("prep") or ""), article)
    lists = {field: frozenset(_key(str(name)) for name in data.get(field) or ()) for field in _LISTS}
    short, compass = (
        {_key(str(name)): _key(str(full)) for name, full in (data.get(field) or {}).items()}
        for field in ("short", "compass")
    )
    for full in short.values():
        # "main bedroom" is a bedroom.
        last = full.rpartition(" ")[2]
        if full not in heads and last in heads:
            heads[full] = heads[last]._replace(name=full)
    kinds = {_key(str(name)): str(kind) for kind, group in (data.get("kinds") or {}).items() for name in group}
    names = (*heads, *lists["relations"], *lists["plain"], *lists["never"])
    longest = max(len(name.split()) for name in names)
    named = (*heads, *lists["relations"], *lists["prepositions"], *lists["plain"])
    words = frozenset(word for name in named for word in name.split())
    return Places(
        heads=MappingProxyType(heads),
        longest=longest,
        words=words,
        short=short,
        compass=compass,
        kinds=kinds,
        brief=frozenset((*short, *compass)),
        **lists,
    )


def _key(text: str) -> str:
    return " ".join(text.lower().replace("’", "'").split())


@lru_cache(maxsize=256)
def split_words(text: str) -> tuple[Word, ...]:
    """The words of a text; a comma or semicolon is a word of its own."""
    words = []
    for match in _WORD.finditer(text):
        core = _CORE.search(match.group())
        start, end = core.span() if core else (0, len(match.group()))
        key = _key(match.group()[start:end])
        words.append(Word(match.group(), key, match.start() + start, match.start() + end))
    return tuple(words)


def joined(words: Iterable[Word]) -> str:
    """The words' look-up forms with one space between them."""
    return " ".join(word.key for word in words)


def is_number(word: Word) -> bool:
    """Whether the word is a short number, as in `Bedroom 2` or `bath #2`."""
    return bool(_NUMBER.fullmatch(word.key)) or word.key in _NUMBER_WORDS


def _units(words: Sequence[Word], names: frozenset[str], places: Places) -> list[bool] | None:
    """The words as units, each a name (False) or a number (True); None if one is neither."""
    units: list[bool] = []
    index = 0
    while index < len(words):
        for length in range(min(places.longest, len(words) - index), 0, -1):
            if joined(words[index : index + length]) in names:
                units.append(False)
                index += length
                break
        else:
            if not is_number(words[index]):
                return None
            units.append(True)
            index += 1
    return units


def heads_in(words: Sequence[Word], places: Places) -> Iterable[Reading]:
    """Every head among the words, with the words that it spans."""
    for first in range(len(words)):
        for last in range(first + 1, min(len(words), first + places.longest) + 1):
            head = places.heads.get(joined(words[first:last]))
            if head is not None:
                yield Reading(head, first, last, False)


def reading(words: Sequence[Word], places: Places) -> Reading | None:
    """The words as one known place: a head with up to two plain words or a number around it, no more."""
    best: Reading | None = None
    if len(words) > 3 * places.longest:
        return None  # a head and two plain words are no longer
    for found in heads_in(words, places):
        before = _units(words[: found.first], places.plain, places)
        after = _units(words[found.last :], places.plain - places.loose, places)
        if before is None or after is None or len(before) + len(after) > 2 or sum(before) + sum(after) > 1:
            continue
        found = Reading(found.head, found.first, found.last, any(before) or any(after))
        if best is None or _rank(found) > _rank(best):
            best = found
    return best


def _rank(found: Reading) -> tuple[bool, int, int]:
    return found.head.article, found.last, found.last - found.first


def tail_head(words: Sequence[Word], places: Places) -> Reading | None:
    """The head that closes the words ("stucco wall"), before any number or letter of its own ("panel B")."""
    end = len(words)
    while end > 1 and _sets_apart(words[end - 1]):
        end -= 1
    for first in range(max(0, end - places.longest), end):
        head = places.heads.get(joined(words[first:end]))
        if head is not None:
            return Reading(head, first, end, end < len(words))
    slashed = [places.heads[name] for name in words[end - 1].key.split("/") if name in places.heads]
    return Reading(slashed[0], end - 1, end, end < len(words)) if slashed else None


def _sets_apart(word: Word) -> bool:
    return is_number(word) or (len(word.text) == 1 and word.text.isupper()) or word.key in ("and", "&", "-")


def relation_length(words: Sequence[Word], index: int, places: Places) -> int:
    """How many words from `index` on make a relation word or a preposition; 0 if none do."""
    for length in range(min(places.longest, len(words) - index), 0, -1):
        name = joined(words[index : index + length])
        if name in places.relations or name in places.prepositions:
            following = words[index + 1].key if index + 1 < len(words) else ""
            face = name in ("inside", "outside") and following in places.faces
            side = name in ("left of", "right of") and _units(words[:index], places.plain, places)
            return 0 if face or side else length
    return 0


def by_relations(words: Sequence[Word], places: Places) -> list[tuple[str, tuple[Word, ...]]]:
    """The words cut at their relation words: each relation with what follows it, the first may be ''."""
    parts: list[tuple[str, tuple[Word, ...]]] = []
    relation, chunk = "", list[Word]()
    index = 0
    while index < len(words):
        length = relation_length(words, index, places)
        if length:
            if relation or chunk:
                parts.append((relation, tuple(chunk)))
            relation, chunk = joined(words[index : index + length]), []
            index += length
        else:
            chunk.append(words[index])
            index += 1
    if relation or chunk:
        parts.append((relation, tuple(chunk)))
    return parts


def head_of(words: Sequence[Word], places: Places) -> Reading | None:
    """The head that a noun phrase turns on: of a known place, else the one that closes it."""
    return reading(words, places) or tail_head(words, places)


def segments(text: str, places: Places) -> list[tuple[Word, ...]]:
    """A typed place cut at its commas, and at an "and" between two known places."""
    found: list[tuple[Word, ...]] = []
    piece: list[Word] = []
    for word in (*split_words(text), Word(",", ",", 0, 0)):
        if word.key not in (",", ";"):
            piece.append(word)
        elif piece:
            started = 1 if found and len(piece) > 1 and _is_and(piece[0]) else 0
            found.extend(_at_and(tuple(piece[started:]), places))
            piece = []
    return found


def _is_and(word: Word) -> bool:
    return word.key == "and" or word.text in ("&", "+")


def _at_and(words: tuple[Word, ...], places: Places) -> list[tuple[Word, ...]]:
    for index, word in enumerate(words):
        if _is_and(word):
            left, right = reading(words[:index], places), reading(words[index + 1 :], places)
            rest = _at_and(words[index + 1 :], places)
            if left is None or any(reading(piece, places) is None for piece in rest):
                continue
            modified = (
                right is not None
                and right.first > 0
                and (
                    (left.head.cls == "side" and right.head.cls != "side")
                    or (right.head.cls == "part" and left.head.cls != "part")
                )
            )
            return [words] if modified else [words[:index], *rest]
    return [words]
