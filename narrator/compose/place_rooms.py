"""Which rooms a place names, alone or before a part of one: `kitchen sink` is in the kitchen."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from narrator.compose.place_names import DETERMINERS, Places, Reading, Word, by_relations, head_of, segments

_ANY = ("room", "rooms")


def rooms_of(text: str, places: Places) -> frozenset[str]:
    """The kinds of room that a place names. Rooms of one kind have one name: a powder room is a bath."""
    return frozenset(room for words in segments(text, places) for _, room, _ in _named(words, places) if room)


def kinds_in(words: Iterable[str], places: Places) -> frozenset[str]:
    """The kinds of room that stand among plain words; only kinds that go under several names count."""
    return frozenset(places.kinds[word] for word in words if word in places.kinds)


def elsewhere(heading: str, where: str, places: Places) -> bool:
    """Whether a place under a room's heading is a part of another room ("Hall bath", "kitchen sink").

    What two rooms share ("garage wall") stays, and so does what may lie inside the first ("closet shelf", a bedroom's bath).
    """
    above = rooms_of(heading, places)
    if not above:
        return False
    for piece in segments(where, places):
        for relation, room, found in _named(piece, places):
            part = found.head.cls == "part" and found.head.name not in places.between
            beyond = bool(relation) and found.head.prep == "on"  # "above kitchen ceiling" lies in the room above it
            inside = room in places.within or (room == "bath" and "bedroom" in above)
            if part and room and not beyond and not inside and room not in above:
                return True
    return False


def _named(words: Sequence[Word], places: Places) -> list[tuple[str, str, Reading]]:
    """For each noun of a place: the relation before it, the kind of room that it is or belongs to ('' if none), its head."""
    out: list[tuple[str, str, Reading]] = []
    for relation, chunk in by_relations(words, places):
        rest = chunk[1:] if chunk and chunk[0].key in DETERMINERS else chunk
        found = head_of(rest, places) if rest else None
        if found is None:
            continue
        owner = found
        if found.head.cls == "part" and found.first:
            owner = head_of(rest[: found.first], places) or found
        room = owner.head.name if owner.head.cls == "room" and owner.head.name not in _ANY else ""
        out.append((relation, places.kinds.get(room, room), found))
    return out
