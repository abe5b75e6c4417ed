"""Sentences of two stretches paired: the same, one for another, left out, added; and which of them changed their order."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from narrator.review.pieces import Passage
from narrator.review.plainly import level, sentences
from narrator.review.structure import known_head
from narrator.review.wordwise import alike

_POINTER = re.compile(r" (\([^()]*\bas at number [0-9]+\))")

CHART = "chart"
"""The label of a line that says in words all that a picture shows."""

PAIRED = 0.5
"""Share of common words from which two sentences are forms of one."""


class Line(NamedTuple):
    """A sentence, a row or a cell. `key` is the finding that a row speaks of, `label` the list it stands in."""

    text: str
    line: int
    key: object = None
    label: str = ""
    shown: str = ""
    number: int | None = None

    @property
    def printed(self) -> str:
        """The text as it stands in its own report, before numbers were brought to those of the other."""
        return self.shown or self.text


class Pairing(NamedTuple):
    """Two lines that belong together; one of them is None where a line is only in one report."""

    before: Line | None
    after: Line | None
    at: int = -1  # the place of `before` in its own report


def lines_of(passages: Iterable[Passage], number_of: dict[int, object], whole: bool = False) -> list[Line]:
    """Each sentence of running text, each cell of a table, each row as one. `number_of` gives a finding's key by its number;
    `whole` keeps each passage in one, as in lists.
    """
    out: list[Line] = []
    for each in passages:
        key = number_of.get(each.number, f"number {each.number}") if each.number is not None else None
        if each.cells:
            cells = [(name, level(value)) for name, value in each.cells]
            out += [
                Line(f"{name}: {text}", each.line, key, known_head(name), "", each.number)
                for name, text in cells
                if text and name != "Number"
            ]
        elif each.kind == "label":
            continue  # its rows carry it
        elif each.kind == "chart":
            out.append(Line(level(each.text), each.line, None, CHART))
        elif key is not None or whole or each.kind == "row":
            out.append(Line(level(each.text), each.line, key, level(each.label), "", each.number))
        else:
            out += [Line(part, each.line) for text in sentences(level(each.text)) for part in _pointer_apart(text)]
    return out


def _pointer_apart(text: str) -> list[str]:
    """A limit that stands in brackets behind a sentence is read by itself: a redraft may hang it on another one."""
    found = _POINTER.search(text)
    return [text[: found.start()] + text[found.end() :], found[1]] if found else [text]


def pair(before: Sequence[Line], after: Sequence[Line]) -> list[Pairing]:
    """Every line of both, paired by the same words first and then by most words in common; in the order of the second."""
    if [(a.text, a.key) for a in before] == [(b.text, b.key) for b in after]:
        return [Pairing(one, other, at) for at, (one, other) in enumerate(zip(before, after, strict=True))]
    partner = _same(before, after)
    taken = set(partner.values())
    free = [at for at in range(len(before)) if at not in partner]
    left = [at for at in range(len(after)) if at not in taken]
    for _, one, other in sorted(
        _near(before, after, free, left), key=lambda each: (-each[0], abs(each[1] - each[2]), each[1:])
    ):
        if one not in partner and other not in taken:
            partner[one] = other
            taken.add(other)
    return _in_order(before, after, partner)


def _same(before: Sequence[Line], after: Sequence[Line]) -> dict[int, int]:
    known: dict[tuple[str, object], list[int]] = defaultdict(list)
    for at, each in enumerate(after):
        known[each.text, each.key].append(at)
    partner = {}
    for one, each in enumerate(before):
        where = known.get((each.text, each.key))
        if where:
            partner[one] = where.pop(0)
    return partner


def _near(
    before: Sequence[Line], after: Sequence[Line], free: list[int], left: list[int]
) -> list[tuple[float, int, int]]:
    out = []
    for one in free:
        for other in left:
            a, b = before[one], after[other]
            if (a.key is None) != (b.key is None):
                continue
            if a.key is not None and a.key == b.key and a.label == b.label:
                out.append((1 + alike(a.text, b.text), one, other))
                continue
            score = alike(a.text, b.text)
            least = 0.8 if a.key != b.key else PAIRED
            # Where one sentence stands for one between two that stayed, less likeness is enough.
            if score >= (0.3 if len(free) == len(left) == 1 and a.key is None else least):
                out.append((score, one, other))
    return out


def _in_order(before: Sequence[Line], after: Sequence[Line], partner: dict[int, int]) -> list[Pairing]:
    """By the order of the second; what is only in the first stands behind what it followed there."""
    back = {other: one for one, other in partner.items()}
    behind: dict[int, list[int]] = defaultdict(list)
    last = -1
    for one in range(len(before)):
        if one in partner:
            last = partner[one]
        else:
            behind[last].append(one)
    out = [Pairing(before[one], None, one) for one in behind[-1]]
    for other, each in enumerate(after):
        at = back.get(other, -1)
        out.append(Pairing(before[at] if at >= 0 else None, each, at))
        out += [Pairing(before[one], None, one) for one in behind[other]]
    return out


def displaced(order: Sequence[int]) -> set[int]:
    """Places whose value stands out of line: all but a longest run of rising values."""
    tails: list[int] = []
    ends: list[int] = []
    previous: list[int] = []
    for at, value in enumerate(order):
        where = bisect_left(tails, value)
        previous.append(ends[where - 1] if where else -1)
        tails[where : where + 1] = [value]
        ends[where : where + 1] = [at]
    kept, at = set(), ends[-1] if ends else -1
    while at >= 0:
        kept.add(at)
        at = previous[at]
    return set(range(len(order))) - kept
