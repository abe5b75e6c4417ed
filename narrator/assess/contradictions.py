"""A status against a finding on the same part at the same place: both stay, a review note names both."""

from __future__ import annotations

from collections.abc import Sequence

from narrator.assess.model import Finding
from narrator.compose.place import Places, class_of
from narrator.read.model import Line
from narrator.resolve.model import Remark
from narrator.resolve.words import Vocabulary, plain_words, understand

_DROPPED = frozenset({"the", "a", "an", "in", "on", "at", "of"})


def contradictions(
    statuses: Sequence[Line], findings: Sequence[Finding], systems: dict[str, str], places: Places, vocabulary: Vocabulary
) -> tuple[Remark, ...]:
    """Every status that a finding speaks against. `systems`: names of systems -> id."""
    out: list[Remark] = []
    for line in statuses:
        for finding in findings:
            for seen in finding.seen:
                if _against(line, finding, seen.instance.place, systems, places, vocabulary):
                    lines = tuple(sorted({line.number, seen.instance.line.number}))
                    said = f"'{line.text}' stands against '{seen.instance.line.text}'."
                    note = Remark("contradiction", lines, said)
                    if note not in out:
                        out.append(note)
    return tuple(out)


def _against(
    line: Line, finding: Finding, place: str | None, systems: dict[str, str], places: Places, vocabulary: Vocabulary
) -> bool:
    where = line.where or (line.heading_place or "")
    things = [part.strip() for part in line.what.replace(";", ",").split(",") if part.strip()]
    for thing in things:
        plain = " ".join(thing.lower().split())
        whole = line.key in ("not inspected", "not present") and class_of(thing, places) in ("room", "space", "outbuilding", "outdoor")
        if whole and place and _inside(place, thing):
            return True
        if line.key == "partly":
            continue
        if plain in systems and systems[plain] == finding.system and line.key != "ok":
            return _same_place(where, place)
        parts = understand(thing, vocabulary).parts
        mine = understand(finding.title, vocabulary).parts | understand(finding.code.split(".")[1].replace("-", " "), vocabulary).parts
        if parts and parts <= mine and _same_place(where, place):
            return True
    return False


def _inside(place: str, space: str) -> bool:
    """Whether a place names that whole space (`crawl space, north end` lies in `crawl space`)."""
    wanted = [word for word in plain_words(space) if word not in _DROPPED]
    words = [word for word in plain_words(place) if word not in _DROPPED]
    return any(words[at : at + len(wanted)] == wanted for at in range(len(words)))


def _same_place(one: str, other: str | None) -> bool:
    """Whether two typed places are the same, or one holds the other, or neither was typed."""
    first = [part.strip() for part in one.replace(",", ";").split(";") if part.strip()]
    if not first:
        return True
    if not other:
        return False
    return any(_inside(other, part) or _inside(part, other) for part in first)
