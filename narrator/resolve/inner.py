"""A place that stands in the `what`: `no gfci kitchen`, `grout cracked at tub`."""

from __future__ import annotations

import re

from narrator.compose.place import Places, class_of, combine, find_known, is_known, written_out
from narrator.read.model import Line
from narrator.resolve.answer import Answer
from narrator.resolve.vocabulary import plain_words
from narrator.source.model import Entry

# Words that only say that a place follows; other relations ("left of", "below") belong to it.
_PLAIN = frozenset({"in", "on", "at", "@"})
_NEVER = frozenset(
    {"of", "inside of", "outside of", "from", "into", "onto", "off", "through", "upon", "within", "throughout"}
)


def inner_place(line: Line, got: Answer, entry: Entry, places: Places) -> str | None:
    """The known place in the `what`, also where a name of the entry has it; else what stands after a relation word.

    `driveway cracked` has none, nor `rust on water heater`: the place is the thing itself.
    """
    found = _inner(line, got, entry, places)
    return written_out(found, places) if found else found


def _inner(line: Line, got: Answer, entry: Entry, places: Places) -> str | None:
    known = find_known(line.what, places) if got.how != "code" else None
    if got.place is not None or got.how == "code":
        outer = line.what[known[0] : known[1]] if known else ""
        apart = set(plain_words(written_out(outer, places))).isdisjoint(plain_words(got.place or ""))
        return combine(outer, got.place, places) if got.place and outer and apart else got.place
    if known is not None:
        place = _with_tail(line.what, *known, places)
        itself = _is_subject(place, entry) and (line.where or class_of(place, places) == "outdoor")
        return None if itself else place
    return _after_relation(line.what, entry, places)


def _with_tail(what: str, start: int, end: int, places: Places) -> str:
    """A known place with the part or relation that ends the `what` after it: `kitchen counter`, `kitchen, left of sink`."""
    place, tail = what[start:end], what[end:].strip(" ,")
    if tail and is_known(what[start:], places):
        return what[start:]
    return f"{place}, {tail}" if tail and class_of(tail, places) in ("part", "relation") else place


def _after_relation(what: str, entry: Entry, places: Places) -> str | None:
    """The end of a `what` from its first relation word on, if it is a known part of a house and not the thing itself."""
    words = sorted((places.relations | _PLAIN) - places.toward - _NEVER, key=len, reverse=True)
    pattern = "|".join(re.escape(word) for word in words)
    match = re.search(rf"(?<=\S)\s+({pattern})\s+(?:the\s+)?(\S.*)\Z", what, re.IGNORECASE)
    if match is None or not class_of(match.group(2), places) or _is_subject(match.group(2), entry):
        return None
    return match.group(2) if match.group(1).lower() in _PLAIN else what[match.start(1) :]


def _is_subject(place: str, entry: Entry) -> bool:
    """Whether the entry itself speaks of the thing, in its title or its code."""
    words = {*plain_words(entry.title[-1].text), *plain_words(re.sub(r"[.-]", " ", entry.code))}
    return {_one(word) for word in words}.issuperset(_one(word) for word in plain_words(place))


def _one(word: str) -> str:
    return word.removesuffix("s")
