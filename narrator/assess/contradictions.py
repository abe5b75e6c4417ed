"""A status against a finding on the same part at the same place: both stay, a review note names both."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from narrator.assess.model import Finding, Seen
from narrator.compose.place import Places, class_of
from narrator.measure.scan import scan
from narrator.read.model import Line
from narrator.resolve.model import Remark
from narrator.resolve.vocabulary import Vocabulary, plain_words
from narrator.resolve.words import understand

_DROPPED = frozenset({"the", "a", "an", "in", "on", "at", "of"})
_FROM_BELOW = ("B3015", "B3016")  # UNIFORMAT II (NISTIR 6389), level 4: eaves and soffits; gutters and downspouts
_WHOLE = ("room", "space", "outbuilding", "outdoor")


def contradictions(
    statuses: Sequence[Line],
    findings: Sequence[Finding],
    systems: Mapping[str, str],
    places: Places,
    vocabulary: Vocabulary,
) -> tuple[Remark, ...]:
    """Every status that a finding speaks against. `systems`: names of systems -> id."""
    statuses = [line for line in statuses if not _tells_failure(line, vocabulary)]
    if not statuses:
        return ()
    titled = {finding.id: understand(finding.title, vocabulary).parts for finding in findings}
    wide = {
        finding.id: titled[finding.id] | understand(finding.code.split(".")[1].replace("-", " "), vocabulary).parts
        for finding in findings
    }
    out: dict[tuple[int, ...], Remark] = {}
    for line in statuses:
        for thing in (part.strip() for part in line.what.replace(";", ",").split(",")):
            if not thing:
                continue
            whole = class_of(thing, places) in _WHOLE
            parts = understand(thing, vocabulary).parts
            system = systems.get(_plain(thing))
            for finding in findings:
                unseen = whole and line.key in ("not inspected", "not present")
                own = unseen and system == finding.system == _plain(thing) and _needs_reach(finding)
                told = own or (
                    not whole
                    and line.key != "partly"
                    and (
                        system == finding.system
                        or (bool(parts) and same_part(line.key, parts, titled[finding.id], wide[finding.id]))
                    )
                )
                for seen in finding.seen:
                    if line.key == "tested" and _is_of_age(finding):
                        continue  # an old one can run
                    if line.key == "not inspected" and seen.instance.basis in ("told", "inferred"):
                        continue  # nobody says that it was seen there
                    place = seen.instance.place
                    inside = unseen and place is not None and within(place, thing)
                    # A finding at a place is the exception to `ok: shingles`; the section's own heading is no place.
                    where = line.where or ("" if line.heading_both else line.heading_place)
                    placed = bool(where) or not place
                    said = told or (not whole and placed and line.key == "ok" and _said(parts, seen, vocabulary))
                    if inside or (said and _same_place(line, place, places)):
                        lines = tuple(sorted({line.number, seen.instance.line.number}))
                        text = f"'{line.text}' stands against '{seen.instance.line.text}'."
                        out.setdefault(lines, Remark("contradiction", lines, text))
    return tuple(out.values())


def against_descriptions(lines: Sequence[Line], places: Places, vocabulary: Vocabulary) -> tuple[Remark, ...]:
    """Every `not present` that a description speaks against: what is described is there."""
    out: dict[tuple[int, ...], Remark] = {}
    absent = [line for line in lines if line.kind == "status" and line.key == "not present"]
    described = [line for line in lines if line.kind == "description"]
    for line in absent:
        for thing in (part.strip() for part in line.what.replace(";", ",").split(",")):
            parts = understand(thing, vocabulary).parts
            for other in described:
                named = _plain(thing) == _plain(other.key) or (
                    bool(parts) and parts == understand(other.key, vocabulary).parts
                )
                where = other.where or other.heading_place
                inside = class_of(thing, places) in _WHOLE and where is not None and within(where, thing)
                if inside or (named and _same_place(line, where, places)):
                    numbers = tuple(sorted({line.number, other.number}))
                    text = f"'{line.text}' stands against '{other.text}'."
                    out.setdefault(numbers, Remark("contradiction", numbers, text))
    return tuple(out.values())


def _plain(text: str) -> str:
    return " ".join(word for word in plain_words(text) if word not in _DROPPED)


def _is_of_age(finding: Finding) -> bool:
    """Whether the finding is that a thing is old, and not that it fails."""
    return finding.entry is not None and any(spec.kind == "age" and not spec.context for spec in finding.entry.measures)


def _needs_reach(finding: Finding) -> bool:
    """Whether one must come to the space itself to see it: gutters, eaves and soffits are seen from the ground."""
    return finding.entry is not None and finding.entry.element not in _FROM_BELOW


def _said(parts: frozenset[str], seen: Seen, vocabulary: Vocabulary) -> bool:
    """Whether the finding was typed with no other part than these: `shingles curling` against `ok: shingles`."""
    typed = understand(seen.instance.line.what, vocabulary).parts
    return bool(typed) and typed <= parts


def same_part(key: str, parts: frozenset[str], titled: frozenset[str], wide: frozenset[str]) -> bool:
    """`ok: dishwasher` says nothing of the hose behind it; `not inspected: dishwasher` leaves nothing of it to find."""
    return bool(titled) and titled <= parts if key in ("ok", "tested") else parts <= wide


def _tells_failure(line: Line, vocabulary: Vocabulary) -> bool:
    """Whether a test says itself that one failed (`11 of 12 tripped`, `did not fire`): it stands against no finding."""
    if line.key != "tested":
        return False
    texts = [*(item.text for item in line.items), line.what, line.reason]
    counts = [found.quantity for text in texts for found in scan(text)]
    some = any(one.of is not None and one.low < one.of for one in counts)
    return some or any(understand(text, vocabulary, outcome=True).conditions for text in texts if text)


def within(place: str, space: str) -> bool:
    """Whether a place names that whole space (`crawl space, north end` lies in `crawl space`)."""
    wanted = [word for word in plain_words(space) if word not in _DROPPED]
    words = [word for word in plain_words(place) if word not in _DROPPED]
    return bool(wanted) and any(words[at : at + len(wanted)] == wanted for at in range(len(words)))


def _same_place(line: Line, other: str | None, places: Places) -> bool:
    """Whether a status and a finding speak of the same place: one holds the other, or neither names one."""
    where = line.where or line.heading_place or ""
    first = [part.strip() for part in where.replace(",", ";").split(";") if part.strip()]
    if not first:
        return line.key != "tested" or not other
    if not other:
        return False
    return any(meet(one, two, places) for one in first for two in other.split(","))


def meet(one: str, two: str, places: Places) -> bool:
    """Whether one place holds the other. `bath` does not hold `hall bath`: two rooms; `baths` holds every one."""
    if within(one, two) and within(two, one):
        return True
    wide, close = (two, one) if within(one, two) else (one, two)
    if not within(close, wide):
        return wide.endswith("s") and within(close, wide.removesuffix("s"))
    return not (class_of(wide, places) == class_of(close, places) == "room")
