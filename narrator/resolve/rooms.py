"""Places against entries: an entry of one room answers at no other, and a place may name what its line is about."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from narrator.compose.place import Places, kinds_in, rooms_of
from narrator.compose.place_names import by_relations, joined, segments
from narrator.resolve.vocabulary import plain_words
from narrator.source import index as store
from narrator.source.index import Index

# What stands beside another thing is not in, on or under it.
_ASIDE = frozenset(
    {"left of", "right of", "to the left of", "to the right of", "by", "near", "beside", "next to", "above", "over"}
    | {"between", "around", "behind", "in front of", "adjacent to", "across from", "along", "outside", "outside of"}
    | {"opposite", "past", "facing", "toward", "towards", "against", "beyond"}
)


def about(wheres: Sequence[str], places: Places) -> list[str]:
    """The pieces of places that a thing is in, on or under: they may be what its line is about."""
    pieces = (piece for where in wheres for words in segments(where, places) for piece in by_relations(words, places))
    return [joined(words) for relation, words in pieces if relation not in _ASIDE]


def other_rooms(text: str, at: Sequence[str], index: Index, places: Places) -> Callable[[str], bool]:
    """Whether an entry is of another kind of room (by its `room`, or its title) than the line is about.

    A room that the phrase itself names counts before a place cell, and that before the heading.
    """
    found: list[frozenset[str]] = []  # the line's rooms, looked up once, and only when an entry names one

    def barred(code: str) -> bool:
        told = _told(code, index, places)
        if not told:
            return False
        if not found:
            named = next((rooms for place in at if (rooms := rooms_of(place, places))), frozenset[str]())
            found.append(kinds_in(plain_words(text), places) or (named - places.within or named))
        return bool(found[0] - told)

    return barred


def _told(code: str, index: Index, places: Places) -> frozenset[str]:
    """The kinds of room that an entry is told in: its own, and those in its title."""
    key = f"rooms:{code}"
    if key not in index.cache:
        known = store.known_of(index, [code])[code]
        own = frozenset([known.room]) if known.room else frozenset()
        index.cache[key] = own | kinds_in(plain_words(known.title), places)
    rooms: frozenset[str] = index.cache[key]
    return rooms
