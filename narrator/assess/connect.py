"""Findings that tend to cause each other, near each other: the ground of a story.

`leads_to` makes a graph over the library. Two findings belong together when one lies within two steps of the other on it and
their places are near: the same place, the same part (`entry window`), the same room, or, between the ground and the
foundation, the same side of the house. A story is told only where the signs of its topic are there: an opinion about water
needs something that water does, and one about movement something that moved.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from narrator.assess.model import Finding
from narrator.resolve.vocabulary import plain_words
from narrator.source import index as store
from narrator.source.index import Index

_SIDES = frozenset(["front", "rear", "back", "left", "right", "north", "south", "east", "west"])
_SMALL = frozenset(
    [
        "the",
        "a",
        "an",
        "of",
        "in",
        "on",
        "at",
        "to",
        "by",
        "from",
        "and",
        "side",
        "sides",
        "house",
        "lower",
        "upper",
        "near",
        "above",
        "below",
        "under",
        "over",
        "beside",
        "behind",
        "between",
        "around",
        "along",
        "inside",
        "outside",
        "next",
        "corner",
        "corners",
        "middle",
        "center",
        "top",
        "bottom",
        "end",
    ]
)
_BARE = frozenset(
    ["wall", "walls", "slope", "roof", "floor", "ceiling", "ground", "door", "window", "windows", "stairs"]
)
_AXES = (frozenset({"front", "rear"}), frozenset({"left", "right"}), frozenset({"north", "south", "east", "west"}))
_GROUND = frozenset({"site", "structure", "roof"})
SIGNS = 2


class Cluster(NamedTuple):
    """Findings told as one story: in order, the topic, the place they share as typed, and every place that belongs to it."""

    findings: tuple[Finding, ...]
    topic: Mapping[str, Any]
    place: str
    spots: frozenset[str] = frozenset()


class _Spot(NamedTuple):
    """A typed place as what can be compared: its parts by name, and its sides of the house."""

    typed: str
    parts: frozenset[str]
    sides: frozenset[str]


def clusters(findings: Sequence[Finding], index: Index, topics: Sequence[Mapping[str, Any]]) -> tuple[Cluster, ...]:
    """Stories among the findings seen first-hand, in printed order; each needs two findings with typed places."""
    nodes = [
        (finding, _spot(one.instance.place))
        for finding in findings
        if finding.entry is not None and finding.basis_kind == "first-hand"
        for one in finding.seen
        if one.instance.place
    ]
    reach = {finding.code: _reach(finding, index) for finding, _ in nodes}
    links: list[tuple[int, int, str]] = []
    for i, j in _pairs(nodes):
        (first, here), (second, there) = nodes[i], nodes[j]
        linked = second.code in reach[first.code] or first.code in reach[second.code]
        place = _near(here, there, first.system, second.system) if linked and first.code != second.code else None
        if place is not None:
            links.append((i, j, place))
    out: list[Cluster] = []
    told: set[int] = set()
    for topic in topics:
        mine = {at for at, (one, _) in enumerate(nodes) if one.number not in told and within(one.code, topic["among"])}
        for group, place in _groups(mine, links):
            found = {nodes[at][0].number: nodes[at][0] for at in group}
            if len(found) < SIGNS or not _shown([one.code for one in found.values()], topic["signs"]):
                continue
            told |= set(found)
            spots = frozenset(nodes[at][1].typed for at in group)
            out.append(Cluster(tuple(found[number] for number in sorted(found)), topic, place, spots))
    return tuple(sorted(out, key=lambda cluster: cluster.findings[0].number))


def within(code: str, names: Sequence[str]) -> bool:
    """Whether a code is one of these, or lies in a system or component that they name (`roof`, `roof.gutter`)."""
    return any(code == name or code.startswith(name + ".") for name in names)


def _shown(codes: Sequence[str], signs: Sequence[Sequence[str]]) -> bool:
    """Whether each kind of sign that the opinion rests on is among the findings."""
    return all(any(within(code, kind) for code in codes) for kind in signs)


def _groups(mine: set[int], links: Sequence[tuple[int, int, str]]) -> list[tuple[list[int], str]]:
    """Nodes that hang together by links among themselves, each group with the place of its first link."""
    root = {at: at for at in mine}

    def top(at: int) -> int:
        while root[at] != at:
            at = root[at]
        return at

    held = [link for link in links if link[0] in mine and link[1] in mine]
    for i, j, _ in held:
        a, b = sorted((top(i), top(j)))
        root[b] = a
    place: dict[int, str] = {}
    for i, _, shared in held:
        place.setdefault(top(i), shared)
    members: dict[int, list[int]] = {}
    for at in sorted(mine):
        members.setdefault(top(at), []).append(at)
    return [(members[at], shared) for at, shared in sorted(place.items())]


def _pairs(nodes: Sequence[tuple[Finding, _Spot]]) -> list[tuple[int, int]]:
    """Pairs that can be near: the same place, a part in common, or a side in common between ground and foundation."""
    shelves: dict[tuple[str, str], list[int]] = {}
    for at, (finding, spot) in enumerate(nodes):
        keys = [("place", spot.typed.lower()), *(("part", part) for part in spot.parts)]
        if finding.system in _GROUND:
            keys += [("side", side) for side in spot.sides]
        for key in keys:
            shelves.setdefault(key, []).append(at)
    return sorted({(i, j) for shelf in shelves.values() for at, i in enumerate(shelf) for j in shelf[:at]})


def _reach(finding: Finding, index: Index) -> frozenset[str]:
    """Codes within two steps of what this condition tends to cause."""
    direct = finding.entry.leads_to if finding.entry else ()
    further = {code for step in direct if (entry := store.entry(index, step)) for code in entry.leads_to}
    return frozenset(direct) | further


def _spot(place: str | None) -> _Spot:
    parts: set[str] = set()
    sides: set[str] = set()
    for segment in (place or "").replace(";", ",").split(","):
        typed = plain_words(segment)
        # "left of the window" is no side of the house.
        beside = {at for at, word in enumerate(typed[:-1]) if typed[at + 1] == "of" and word in ("left", "right")}
        words = [word for at, word in enumerate(typed) if at not in beside and word not in _SMALL]
        sides |= {("rear" if word == "back" else word) for word in words if word in _SIDES}
        named = " ".join(word for word in words if word not in _SIDES)
        if named and named not in _BARE:
            parts.add(named)
    return _Spot(place or "", frozenset(parts), frozenset(sides))


def _near(one: _Spot, other: _Spot, first: str, second: str) -> str | None:
    """The place two spots share, as typed, or None when they are apart."""
    if one.typed.lower() == other.typed.lower():
        return one.typed
    for axis in _AXES:
        here, there = one.sides & axis, other.sides & axis
        if here and there and not here & there:
            return None
    common = one.parts & other.parts
    if common:
        return min((one.typed, other.typed), key=lambda text: (len(text), text))
    if {first, second} <= _GROUND and first != second and one.sides & other.sides:
        return min((one.typed, other.typed), key=lambda text: (len(text), text))
    return None
