"""A comparison as one HTML file: the changes by weight, then both reports side by side, the unchanged folded away."""

from __future__ import annotations

from functools import cache
from itertools import groupby
from typing import NamedTuple

from jinja2 import Template

from narrator.publish.html import environment, style
from narrator.publish.text import shown
from narrator.review.kinds import KINDS, Change, Comparison, Row, Side, Word


class Fold(NamedTuple):
    """A run of rows: unchanged ones are folded away."""

    changed: bool
    rows: tuple[Row, ...]


class Group(NamedTuple):
    """Changes of one kind, each with its place in the order of weight."""

    kind: str
    label: str
    changes: tuple[tuple[int, Change], ...]


def write(found: Comparison, allowed: frozenset[str] = frozenset()) -> str:
    """The comparison as HTML, without script and with nothing from elsewhere."""
    matters = found.mattering(allowed)
    numbered = list(enumerate(found.changes))
    return _template().render(
        found=found,
        heavy=_groups([(at, each) for at, each in numbered if each in matters]),
        light=_groups([(at, each) for at, each in numbered if each not in matters]),
        matters=matters,
        runs=_runs([(side, folds(side.rows)) for side in found.sides]),
        anchored={row.change for side in found.sides for row in side.rows if row.change is not None},
        labels={name: kind.label for name, kind in KINDS.items()},
        style=style("comparison.css"),
    )


def _groups(changes: list[tuple[int, Change]]) -> list[Group]:
    return [Group(kind, KINDS[kind].label, tuple(group)) for kind, group in groupby(changes, lambda each: each[1].kind)]


def _runs(sides: list[tuple[Side, list[Fold]]]) -> list[tuple[bool, list[tuple[Side, list[Fold]]]]]:
    """Stretches in runs of changed and unchanged ones."""
    return [(changed, list(run)) for changed, run in groupby(sides, lambda each: any(fold.changed for fold in each[1]))]


def folds(rows: tuple[Row, ...]) -> list[Fold]:
    """Rows in runs of changed and unchanged ones."""
    return [Fold(changed, tuple(group)) for changed, group in groupby(rows, lambda row: row.change is not None)]


def one_side(words: tuple[Word, ...], state: str) -> list[Word]:
    """The words of one report: those that stayed and those of its own, what stayed beside a mark unmarked."""
    return [word for word in words if word.state in ("same", state)]


@cache
def _template() -> Template:
    pages = environment()
    pages.filters |= {"one_side": one_side, "shown": shown}
    return pages.get_template("comparison.html.j2")
