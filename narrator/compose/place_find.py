"""Whether a text names a place, of which class, and where in a longer line a place stands."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from narrator.compose.place_names import (
    DETERMINERS,
    INSIDE,
    STANDING,
    Head,
    Places,
    Reading,
    Word,
    by_relations,
    head_of,
    heads_in,
    is_number,
    joined,
    reading,
    segments,
    split_words,
    tail_head,
)
from narrator.compose.place_rooms import elsewhere
from narrator.compose.place_short import keyed

_THINGS = frozenset({"wall", "walls"})  # what a line may be about, and not only where
_NounClass = Callable[[Sequence[Word], Places], str]


def is_known(text: str, places: Places) -> bool:
    """Whether the text is a known place: a head with up to two plain words or a number around it, no more."""
    return reading(split_words(text), places) is not None


def class_of(text: str, places: Places) -> str:
    """The class of a typed place: room, space, outbuilding, side, outdoor, part, relation, or '' if unknown.

    Of several places the first that stands alone decides. `relation` is a text that opens with one ("left of
    sink"); of "rear of garage" the garage counts, and "in kitchen" is a room. Words that are not known as a
    place ("loose panel", "by hand") have no class, whatever stands in them.
    """
    return _deciding([_segment_class(words, places, _known_class) for words in segments(text, places)])


def _deciding(classes: Sequence[str]) -> str:
    return next((cls for cls in classes if cls in STANDING), next((cls for cls in classes if cls), ""))


def _segment_class(words: Sequence[Word], places: Places, noun_class: _NounClass) -> str:
    parts = by_relations(words, places)
    relation, chunk = parts[0]
    if len(parts) > 1 and all(word.key in places.adverbs for word in chunk):
        relation, chunk = parts[1]
        parts = parts[1:]
    if not chunk:
        return noun_class(words, places)
    if relation and relation not in INSIDE:
        beside = relation in places.relations - places.idioms or _has_head(chunk, places)
        return "relation" if beside and relation not in places.prepositions else ""
    cls = noun_class(chunk, places)
    for link, noun in parts[1:]:
        other = noun_class(noun, places)
        if link == "of":
            cls = other if other in STANDING and cls else "part" if cls else ""
        elif link in INSIDE and other in STANDING - {"side"} and (cls or noun_class is _last_class):
            return other
    return cls


def _known_class(words: Sequence[Word], places: Places) -> str:
    """The class of a known place, with or without an article, or of a short list ("bedrooms 2 and 3")."""
    rest = words[1:] if words and words[0].key in DETERMINERS else ()
    found = reading(words, places) or reading(rest, places)
    if found is None and words:
        tail = tail_head(words, places)
        listed = places.plain | {"and", "&"}
        if tail and len(words) <= 6 and all(word.key in listed for word in words[: tail.first]):
            found = tail
    return found.head.cls if found else ""


def _last_class(words: Sequence[Word], places: Places) -> str:
    """The class of a known place, else of the head that closes the words ("blue bedroom")."""
    found = head_of(words, places) if words else None
    return found.head.cls if found else ""


def _has_head(words: Sequence[Word], places: Places) -> bool:
    return head_of(words, places) is not None


def combine(heading: str, where: str, places: Places) -> str:
    """The place of a line under a place heading.

    A room, level, outbuilding, outdoor place or bare side that the line names stands alone, and so does a part of
    another room than the heading's ("Hall bath", "kitchen sink"). Before anything else (a part, a relation, words that
    name no known place) the heading's place goes first.
    """
    heading, where = heading.strip(), where.strip()
    if not heading or not where:
        return heading or where
    cls = _deciding([_segment_class(words, places, _last_class) for words in segments(where, places)])
    return where if cls in STANDING or elsewhere(heading, where, places) else f"{heading}, {where}"


def find_known(text: str, places: Places) -> tuple[int, int] | None:
    """Where the last known place inside free text stands ("no gfci kitchen"): its start and end, or None.

    Only a room, space, outbuilding, side or outdoor place counts, with the plain words beside it that cannot
    be a condition. A relation before it belongs to it ("stain below hall bath"), `in`, `on` and `at` do not.
    A place that the line only points to ("slopes toward house") or a thing ("deck boards") is none.
    """
    typed = split_words(text)
    words = keyed(typed, places)
    masked = _masked(words, places)
    best: tuple[int, int, int, int] | None = None  # end of the head, length, first and last word
    for found in heads_in(words, places):
        if found.head.cls not in STANDING:
            continue
        first, last = _widened(words, found, places)
        if masked.intersection(range(found.first, found.last)):
            continue
        if _points(words, first, last, found.head, places):
            continue
        rank = (found.last, last - first, first, last)
        if best is None or rank[:2] > best[:2]:
            best = rank
    if best is None:
        return None
    _, _, first, last = best
    letter = typed[last - 1].key in places.compass
    if last < len(words) and words[last].key in (places.faced if letter else places.faced - _THINGS):
        last += 1  # "south slope", "n wall"
    if not any(found.first == last and found.head.cls == "part" for found in heads_in(words, places)):
        first = _with_relation(words, first, places)
    return words[first].start, words[last - 1].end


def _masked(words: Sequence[Word], places: Places) -> frozenset[int]:
    """The words of a thing ("garage door") or a phrase ("left open"), which name no place of their own."""
    hidden: set[int] = set()
    for first in range(len(words)):
        for last in range(first + 2, min(len(words), first + places.longest) + 1):
            name = joined(words[first:last])
            head = places.heads.get(name)
            if name in places.never or (head is not None and head.cls == "part"):
                hidden.update(range(first, last))
    return frozenset(hidden)


def _widened(words: Sequence[Word], found: Reading, places: Places) -> tuple[int, int]:
    """The head's span with the plain words beside it, two at most, or one and a number."""
    first, last, left = found.first, found.last, 2
    close = places.plain - places.loose
    if found.head.name in places.numbered and last < len(words) and is_number(words[last]):
        counts = last + 1 < len(words) and words[last + 1].key in places.units
        last, left = (last, left) if counts else (last + 1, left - 1)
    while left:
        lengths = range(min(places.longest, first), 0, -1)
        length = next((size for size in lengths if joined(words[first - size : first]) in close), 0)
        if not length:
            break
        first, left = first - length, left - 1
    while left and last < len(words) and words[last].key in places.after:
        if last + 1 < len(words) and words[last + 1].key == "of":
            break
        last, left = last + 1, left - 1
    return first, last


def _points(words: Sequence[Word], first: int, last: int, head: Head, places: Places) -> bool:
    """Whether the line only points to the place, or goes on to say that it means a part of something."""
    before = first - 1
    while before >= 0 and words[before].key in DETERMINERS:
        before -= 1
    if before >= 0 and words[before].key in places.toward:
        return True
    following = words[last].key if last < len(words) else ","
    return following == "of" or (not head.article and head.name == "outside" and following != ",")


def _with_relation(words: Sequence[Word], first: int, places: Places) -> int:
    """The first word of the relation before the place, if there is one, else the place's own first word."""
    before = first - 1 if first and words[first - 1].key in ("the", "a", "an") else first
    for length in range(min(places.longest, before), 0, -1):
        name = joined(words[before - length : before])
        if name == "of":
            return _side_before_of(words, before - 1, places, first)
        if name in places.relations and name not in places.toward:
            return before - length
    return first


def _side_before_of(words: Sequence[Word], of: int, places: Places, fallback: int) -> int:
    for first in range(max(0, of - 4), of):
        if reading(words[first:of], places):
            return first
    return fallback
