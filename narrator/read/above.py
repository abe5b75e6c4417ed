"""What stands above a line: the heading in force, and the last what and where typed, which `same` and `"` repeat."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from narrator.compose.place import Places, class_of, find_known
from narrator.compose.place_names import STANDING
from narrator.read.cells import trim
from narrator.read.model import Line

REPEATS = ('"', "”", "same")
NOTHING_ABOVE = "'same' repeats a place, but none was typed above."
MOST_OF_A_PLACE = 500
_EMPTY_CELL = frozenset("-–.·_/\\ ")
_BESIDE = ("room", "outbuilding")


@dataclass(frozen=True, slots=True)
class Grammar:
    """What the reader must know of the library: names of systems (-> id), places, descriptions, condition words."""

    systems: Mapping[str, str]
    places: Places
    descriptions: frozenset[str]
    has_condition: Callable[[str], bool]


@dataclass(frozen=True, slots=True)
class Context:
    """What stands above a line: the heading in force, and the last what and where typed.

    `kind` tells what sort of line typed the `what`: finding, own or status. `under` is the place heading that the last
    `where` stood under; an empty `where` is that heading itself.
    """

    system: str | None = None
    place: str | None = None
    heading: str | None = None
    both: bool = False
    what: str | None = None
    kind: str = ""
    where: str | None = None
    under: str | None = None


def below_heading(context: Context, name: str, system: str | None, place: str | None, grammar: Grammar) -> Context:
    """The context below a heading that names a system, a place or both."""
    kind = class_of(place, grammar.places) if place else ""
    # The system of a name that was both ends with that room: what stands beside `Kitchen` is no part of it.
    above = class_of(context.place or "", grammar.places) if context.both else ""
    beside = above in _BESIDE and kind in (*_BESIDE, "space", "outdoor")
    kept = system or (None if beside else context.system)
    after = replace(context, system=kept, place=place, heading=name, both=bool(system and place))
    return replace(after, where="", under=place) if kind in STANDING else after


def remember(context: Context, line: Line, places: Places | None = None) -> Context:
    """The context below a line: what and where it typed. A place in the `what` of a finding counts as typed."""
    where = line.where
    if not where and line.kind == "finding" and places is not None:
        known = find_known(line.what, places)
        where = line.what[known[0] : known[1]] if known else ""
    if where:
        context = replace(context, where=where, under=line.heading_place)
    if line.kind in ("finding", "own", "status") and line.what:
        context = replace(context, what=line.what + ("?" if line.inferred else ""), kind=line.kind)
    return context


def placed(line: Line, where: str, context: Context) -> Line:
    """The line with its place: as typed, or with `same` (or a repeat sign) as it was above, under the heading then.

    With nothing above to repeat, or with a page of text for a place, it becomes unresolved.
    """
    if _EMPTY_CELL.issuperset(where):
        return line
    if len(where) > MOST_OF_A_PLACE:
        reason = f"The place has {len(where)} characters; the most is {MOST_OF_A_PLACE}."
        return replace(line, kind="unresolved", reason=reason)
    parts = [trim(part) for part in where.split(";")]
    if not any(part.lower() in REPEATS for part in parts):
        return replace(line, where=where)
    if context.where is None:
        return replace(line, kind="unresolved", where="", reason=NOTHING_ABOVE)
    whole = [context.where if part.lower() in REPEATS else part for part in parts]
    both = context.both and context.under == context.place
    return replace(line, where="; ".join(filter(None, whole)), heading_place=context.under, heading_both=both)
