"""Two forms of one finding: number, title, the line under it. The prose is compared with the rest of the text."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from narrator.publish.labels import SEVERITIES
from narrator.publish.text import numbers
from narrator.review.kinds import Change
from narrator.review.meaning import Known, Meaning, between
from narrator.review.pieces import Found
from narrator.review.plainly import level
from narrator.review.telling import altered, became
from narrator.review.wordwise import alike, marked, misspelled

_RANK = {key: at for at, key in enumerate(SEVERITIES)}


def fields(before: Found, after: Found, known: Known, owner: int) -> Iterator[Change]:
    """What the title and the line under it say otherwise."""

    def change(kind: str, said: str, one: str, other: str, also: Sequence[str] = ()) -> Change:
        lines = before.line, after.line
        return Change(kind, before.name, said, one, other, *lines, marked(one, other), owner, tuple(also))

    if level(before.title) != level(after.title):
        yield from _worded("Title", before.title, after.title, known, change)
    if level(before.severity).lower() != level(after.severity).lower():
        kind, note = _graded(before, after)
        yield change(kind, became("Grade", before.severity, after.severity, note), before.severity, after.severity)
    one, other = (tuple(level(each).lower() for each in found.trades) for found in (before, after))
    if one != other:
        slips = len(one) == len(other) and all(_slips(a, b) for a, b in zip(one, other, strict=True))
        shown = " with ".join(before.trades), " with ".join(after.trades)
        yield change("spelling" if slips else "trade", became("Trade", *shown), *shown)
    yield from _places(before, after, known, change)
    for what, a, b in (("Photos", before.photos, after.photos), ("Sketches", before.sketches, after.sketches)):
        if sorted(a) != sorted(b):
            shown = numbers(a), numbers(b)
            yield change("photo", became(what, *shown), *shown)


def _slips(one: str, other: str) -> bool:
    words = one.split(), other.split()
    return len(words[0]) == len(words[1]) and all(misspelled(a, b) for a, b in zip(*words, strict=True))


def _graded(before: Found, after: Found) -> tuple[str, str]:
    """The kind, and whether the grade is a lower one."""
    one, other = before.grade, after.grade
    if one == other and one is not None:
        named = level(before.severity).lower(), level(after.severity).lower()
        return ("spelling" if _slips(*named) or named[0].strip(" .!") == named[1].strip(" .!") else "grade"), ""
    if one is not None and other is not None:
        return "grade", ", a lower grade" if _RANK[other] > _RANK[one] else ", a higher grade"
    return "grade", ""


def _worded(what: str, one: str, other: str, known: Known, change: object) -> Iterator[Change]:
    meanings = between(level(one), level(other), known)
    if meanings:
        assert callable(change)
        first, *rest = meanings
        yield change(first.kind, f"{what}: {altered(first)}", one, other, [each.kind for each in rest])


def _places(before: Found, after: Found, known: Known, change: object) -> Iterator[Change]:
    one, other = Counter(map(level, before.places)), Counter(map(level, after.places))
    gone, new = list((one - other).elements()), list((other - one).elements())
    assert callable(change)
    while gone and new:
        a, b = max(((a, b) for a in gone for b in new), key=lambda pair: alike(*pair))
        gone.remove(a)
        new.remove(b)
        first, *rest = between(a, b, known) or [Meaning("spelling")]
        kind = first.kind if first.kind in ("side", "number", "negation", "measure", "spelling") else "place"
        kind = "number" if kind == "measure" else kind
        beside = [each.kind for each in rest if each.kind in ("side", "number")] + (
            ["place"] if kind != "place" else []
        )
        yield change(kind, became("Place", a, b), a, b, beside if kind != "spelling" else ())
    for a in gone:
        yield change("place", f"Place: “{a}” was left out.", a, "")
    for b in new:
        yield change("place", f"Place: “{b}” was added.", "", b)
