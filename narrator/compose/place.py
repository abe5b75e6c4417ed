"""Where: a typed place as a phrase that a sentence can open with.

Known places get their preposition and article; a bare noun after `left of`, `above`, `by` and their like gets
`the`; all else stays as typed, behind a preposition. No typed word is lost or changed, apart from the case of
known words.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from narrator.compose.english import join_list
from narrator.compose.place_find import class_of, combine, find_known, is_known
from narrator.compose.place_names import (
    COMPASS,
    DETERMINERS,
    Head,
    Places,
    Reading,
    Word,
    by_relations,
    head_of,
    is_number,
    places_from,
    reading,
    segments,
    tail_head,
)
from narrator.compose.place_rooms import kinds_in, rooms_of
from narrator.compose.place_short import written_out

__all__ = [
    "Head",
    "Places",
    "class_of",
    "combine",
    "find_known",
    "is_known",
    "join_places",
    "kinds_in",
    "phrase",
    "places_from",
    "rooms_of",
    "unsaid",
    "written_out",
]

_TITLE = re.compile(r"[A-Z][a-z]+(?:['’]s?)?")
_ORDINAL = re.compile(r"\d+(?:st|nd|rd|th)")
_BESIDE = ("left of", "right of")
_BEFORE_BESIDE = ("at", "on", "to", "from")
_SHARED = ("in ", "on ", "at ")
_LINKS = frozenset(
    (
        "by",
        "of",
        "in",
        "on",
        "at",
        "above",
        "below",
        "under",
        "underneath",
        "beneath",
        "near",
        "behind",
        "beside",
        "over",
        "between",
        "around",
        "along",
        "inside",
        "outside",
        "next",
        "adjacent",
        "across",
        "beyond",
        "against",
        "opposite",
        "past",
        "facing",
        "toward",
        "towards",
        "from",
        "to",
    )
)


@dataclass(frozen=True, slots=True)
class _Noun:
    """A noun phrase: its text, its head, whether it lacks an article, whether all of it is known."""

    text: str
    head: Head | None
    bare: bool
    known: bool


def phrase(place: str, places: Places) -> str:
    """The place with its preposition and articles: `in the garage, on the left wall`; '' stays ''."""
    groups: list[list[tuple[Word, ...]]] = []
    for words in segments(place, places):
        if groups and _together(groups[-1][-1], words, places):
            groups[-1].append(words)
        else:
            groups.append([words])
    return ", ".join(join_places([_segment(words, places) for words in group]) for group in groups)


def unsaid(place: str, title: str, places: Places) -> str:
    """The place without the room or space that a title before it names: `Basement, front wall` after `Stains in the basement`."""
    first, _, rest = place.partition(",")
    named = set(re.findall(r"[a-z0-9]+", title.lower()))
    words = [word for word in re.findall(r"[a-z0-9]+", first.lower()) if word not in DETERMINERS]
    told = class_of(first, places) in ("room", "space", "outbuilding", "outdoor") and named.issuperset(words)
    return rest.strip() if told else place


def join_places(phrases: Sequence[str]) -> str:
    """The phrases as one, a shared preposition said once: `in the kitchen and the hall bath`."""
    runs: list[tuple[str, list[str]]] = []
    for text in dict.fromkeys(phrases):
        prep = next((prep for prep in _SHARED if text.startswith(prep)), "")
        if prep and (("," in text) or _LINKS.intersection(text[len(prep) :].split())):
            prep = ""
        if prep and runs and runs[-1][0] == prep:
            runs[-1][1].append(text[len(prep) :])
        else:
            runs.append((prep, [text[len(prep) :]]))
    texts = [prep + join_list(items) for prep, items in runs]
    if len(texts) > 2 and any("," in text for text in texts):
        return "; ".join(texts[:-1]) + "; and " + texts[-1]
    parted = len(texts) > 1 and any("," in text or " and " in text for text in texts)
    if parted and len(texts) == 2:
        return f"{texts[0]}, and {texts[1]}"
    return join_list(texts, "," if parted else "")


def _together(left: Sequence[Word], right: Sequence[Word], places: Places) -> bool:
    """Whether two places are a list ("kitchen, baths"), not one inside the other ("garage, left wall")."""
    kinds = (_kind(left, places), _kind(right, places))
    return kinds[0] == kinds[1] != ""


def _kind(words: Sequence[Word], places: Places) -> str:
    found = reading(words, places) or (reading(words[1:], places) if words[0].key in DETERMINERS else None)
    if found is None:
        return ""
    head = found.head
    if head.cls == "part":
        return f"part {head.name.removesuffix('s')}"
    if head.cls == "space":
        return "standing" if head.prep == "in" else "level"
    return "side" if head.cls == "side" else "standing"


def _segment(words: Sequence[Word], places: Places) -> str:
    parts = by_relations(words, places)
    said: list[str] = []
    for relation, chunk in parts:
        if not relation:
            said.append(_placed(chunk, places, followed=len(parts) > 1))
            continue
        lacks_the = relation in _BESIDE and said and said[-1] in _BEFORE_BESIDE
        said.append(f"the {relation}" if lacks_the else relation)
        after = _after_preposition if relation in places.prepositions else _after_relation
        said.extend([after(chunk, places)] if chunk else [])
    return " ".join(said)


def _placed(words: Sequence[Word], places: Places, followed: bool) -> str:
    """A noun phrase that opens a place, with the preposition of its head, else `at`."""
    if followed and all(word.key in places.adverbs for word in words):
        return " ".join(word.key for word in words)
    noun = _noun(words, places)
    if words[0].key in ("where", "here", "there") or (noun.head is None and words[0].key[:1].isdigit()):
        return noun.text
    prep = noun.head.prep if noun.head else "at"
    return " ".join(part for part in (prep, "the" if noun.bare else "", noun.text) if part)


def _after_preposition(words: Sequence[Word], places: Places) -> str:
    noun = _noun(words, places)
    return f"the {noun.text}" if noun.bare and noun.known and not _is_compass(words[0]) else noun.text


def _after_relation(words: Sequence[Word], places: Places) -> str:
    for index, word in enumerate(words):
        left, right = words[:index], words[index + 1 :]
        if word.key in ("and", "or") and left and right and head_of(left, places) and head_of(right, places):
            return f"{_after_relation(left, places)} {word.text} {_after_relation(right, places)}"
    noun = _noun(words, places)
    return f"the {noun.text}" if noun.bare else noun.text


def _noun(words: Sequence[Word], places: Places) -> _Noun:
    determined = len(words) > 1 and words[0].key in DETERMINERS and reading(words, places) is None
    rest = words[1:] if determined else words
    first = f"{_lowered(words[0])} " if determined else ""
    known = reading(rest, places)
    if known is not None:
        text = " ".join(_lowered(word) for word in rest)
        bare = known.head.article and not known.number and not determined
        return _Noun(first + text, known.head, bare, True)
    tail = tail_head(rest, places)
    if tail is not None and tail.head.name in places.proper and _named(rest[: tail.last]):
        return _Noun(first + " ".join(word.text for word in rest), tail.head, False, False)
    text = " ".join(
        _lowered(word) if tail and tail.first <= index < tail.last else word.text for index, word in enumerate(rest)
    )
    bare = not determined and _takes_the(rest, tail, places)
    return _Noun(first + text, tail.head if tail else None, bare, False)


def _takes_the(words: Sequence[Word], tail: Reading | None, places: Places) -> bool:
    """Whether a noun phrase that is not wholly known lacks an article, as far as its look tells."""
    first = words[0]
    if first.key in DETERMINERS or first.key in places.bare or is_number(first):
        return False
    if first.key[:1].isdigit() and not _ORDINAL.match(first.key):
        return False
    if tail is not None and (tail.number or not tail.head.article):
        return False
    title = bool(_TITLE.fullmatch(first.text))
    if title and first.key.endswith(("'s", "s'")):
        return False
    if tail is not None:
        return True
    if len(words) == 1:
        return first.key in places.abbreviations or not (title or first.text.isupper())
    last = words[-1]
    if is_number(last) or (len(last.text) == 1 and last.text.isupper()):
        return False
    return not (title and _TITLE.fullmatch(words[1].text))


def _named(words: Sequence[Word]) -> bool:
    """Whether every word is written as a name is ("Oak Street")."""
    return len(words) > 1 and all(_TITLE.fullmatch(word.text) for word in words)


def _lowered(word: Word) -> str:
    return word.text if _is_compass(word) else word.text.lower()


def _is_compass(word: Word) -> bool:
    return word.key in COMPASS and word.text.strip(".").isupper()
