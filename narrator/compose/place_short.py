"""Places typed short: `LR`, `br 2`, `n side`, `2nd flr hall ba` are written out as the places they name.

A short form counts only where the words that hold it make a known place once it is written out. All else stays as typed.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrator.compose.place_names import (
    DETERMINERS,
    Places,
    Word,
    is_number,
    reading,
    relation_length,
    split_words,
    tail_head,
)

# A short form with its number typed close to it: `br2`, `BA#1`.
_CLOSE = re.compile(r"([a-z]{2,6})(#?\d{1,2})")
_LETTERS = re.compile(r"[a-z]+")
_SIDES = ("lt", "rt")
_LINKS = frozenset((",", ";", "and", "or", "&", "+"))


def written_out(text: str, places: Places) -> str:
    """The place with its short forms written out; the same text where there are none."""
    if places.brief.isdisjoint(_LETTERS.findall(text.lower())):
        return text
    words = split_words(text)
    typed = words
    words = _beside(words, places)
    new = list(words)
    follows = False  # whether a written-out side comes next: `n and s walls`
    for first, last in reversed(_chunks(words, places)):
        if follows and last - first == 1 and words[first].key in places.compass:
            new[first] = _as(words[first], places.compass[words[first].key])
            continue
        after = first > 0 and words[first - 1].key not in _LINKS
        before = last < len(words) and words[last].key == "of"
        new[first:last] = _chunk(words[first:last], places, after or before)
        begins = words[first].key in places.compass and new[first].key != words[first].key
        follows = begins and first > 0 and words[first - 1].key not in (",", ";")
    out = list[str]()
    at = 0
    for word, full in zip(typed, new, strict=True):
        if full.key != word.key:
            out += [text[at : word.start], full.text]
            at = word.end + (text[word.end : word.end + 1] == ".")
    return "".join([*out, text[at:]])


def _beside(words: Sequence[Word], places: Places) -> tuple[Word, ...]:
    """The words with `lt of` as `left of`, which is a relation."""
    after = (*(word.key for word in words[1:]), "")
    pairs = zip(words, after, strict=True)
    return tuple(
        _as(word, places.compass[word.key]) if key == "of" and word.key in _SIDES else word for word, key in pairs
    )


def keyed(words: Sequence[Word], places: Places) -> tuple[Word, ...]:
    """The words of a longer line as they are looked up: short forms that can mean nothing else count as written out."""
    if places.brief.isdisjoint(word.key for word in words):
        return tuple(words)
    found = [places.short.get(word.key, "") if word.key not in places.sole else "" for word in words]
    for index, word in enumerate(words):
        if word.key not in places.compass:
            continue
        after = words[index + 1].key if index + 1 < len(words) else ""
        beside = word.key in _SIDES and (after == "of" or (index > 0 and words[index - 1].key in places.after))
        if after in places.faced or beside:
            found[index] = places.compass[word.key]
    return tuple(word._replace(key=full) if full else word for word, full in zip(words, found, strict=True))


def _as(word: Word, full: str) -> Word:
    return word._replace(text=full, key=full)


def _full(word: Word, places: Places) -> str:
    """What a word is short for, with its number if that is typed close to it; '' if it is no short form."""
    full = places.short.get(word.key) or places.compass.get(word.key)
    if full:
        return full
    match = _CLOSE.fullmatch(word.key)
    name = places.short.get(match.group(1), "") if match else ""
    return f"{name} {match.group(2)}" if match and name.rpartition(" ")[2] in places.numbered else ""


def _chunks(words: Sequence[Word], places: Places) -> list[tuple[int, int]]:
    """The runs of words between commas, "and", and relation words."""
    out: list[tuple[int, int]] = []
    first = at = 0
    while at < len(words):
        length = 1 if words[at].key in _LINKS or words[at].text in _LINKS else relation_length(words, at, places)
        if length:
            out.append((first, at))
            at += length
            first = at
        else:
            at += 1
    return [(first, last) for first, last in (*out, (first, len(words))) if first < last]


def _chunk(words: Sequence[Word], places: Places, bound: bool) -> list[Word]:
    """The words of a run, written out where that makes a known place of it, or of its end.

    `bound`: a relation word stands before it, or "of" behind ("left of dr", "bed of gravel").
    """
    begin = 1 if words[0].key in DETERMINERS and len(words) > 1 and not is_number(words[0]) else 0
    rest = list(words[begin:])
    full = [_written(rest, index, places, bound) for index in range(len(rest))]
    if full == rest:
        return list(words)
    known = split_words(" ".join(word.text for word in full))
    if reading(known, places) is not None or tail_head(known, places) is not None:
        return [*words[:begin], *full]
    return list(words)


def _written(words: Sequence[Word], index: int, places: Places, bound: bool) -> Word:
    """A word written out; one that often means something else only alone, with a number or a side word beside it."""
    word = words[index]
    full = _full(word, places)
    if word.key in places.compass:
        before = all(one.key in places.words or one.key in places.short for one in words[:index])
        ends = index > 0 and word.key in _SIDES and words[index - 1].key in places.after  # "front lt"
        opens = (index + 1 < len(words) and not is_number(words[index + 1]) and before) or ends
        return _as(word, full) if opens and not _things(words[:index], places) else word
    others = [one for at, one in enumerate(words) if at != index]
    if word.key in places.sole and bound and not word.text.isupper():
        return word
    if word.key in places.sole and not all(is_number(one) or one.key in places.after for one in others):
        return word
    return _as(word, full) if full else word


def _things(words: Sequence[Word], places: Places) -> bool:
    """Whether one of the words is a part of a house, so that a letter after it is no side ("door w window")."""
    heads = (places.heads.get(word.key) for word in words)
    return any(head is not None and head.cls == "part" and head.name not in places.plain for head in heads)
