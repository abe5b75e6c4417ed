"""The kinds of change, in order of weight, and what a comparison is made of."""

from __future__ import annotations

from typing import NamedTuple


class Kind(NamedTuple):
    """A kind of change. `matters`: it makes the command exit with 1 unless it is allowed."""

    name: str
    label: str
    matters: bool


_TABLE = (
    ("dropped", "Finding dropped", True),
    ("added", "Finding added", True),
    ("merged", "Findings merged", True),
    ("split", "Finding split", True),
    ("grade", "Grade", True),
    ("trade", "Trade", True),
    ("measure", "Measured figure", True),
    ("criterion", "Published figure", True),
    ("negation", "Negation or opposite", True),
    ("side", "Side or direction", True),
    ("place", "Place", True),
    ("number", "Number or date", True),
    ("photo", "Photo numbers", True),
    ("limit", "What was not seen", True),
    ("term", "Terms", True),
    ("deadline", "Deadline", True),
    ("stance", "How it is known", True),
    ("claim", "A claim beyond what was seen", True),
    ("act", "Act or warning", True),
    ("recommendation", "What to do", True),
    ("header", "House, people, day", True),
    ("omitted", "Text left out", True),
    ("reworded", "Put in other words", True),
    ("added-text", "Text added", False),
    ("word", "A word for another", False),
    ("spelling", "Spelling and signs", False),
    ("heading", "Heading", False),
    ("moved", "Moved", False),
    ("reordered", "Another order of sentences", False),
    ("renumbered", "Numbered anew", False),
    ("version", "Version of the wording", False),
    # Two inspectors on one house:
    ("missed", "Only in the first report", True),
    ("extra", "Only in the second report", True),
    ("graded", "Graded apart", True),
    ("measured", "Measured apart", True),
)
KINDS = {name: Kind(name, label, matters) for name, label, matters in _TABLE}
"""Every kind by name, the weightiest first."""

WEIGHT = {name: at for at, name in enumerate(KINDS)}


class Word(NamedTuple):
    """A stretch of a changed text: `same`, `removed` or `added`."""

    state: str
    text: str


class Change(NamedTuple):
    """One change. `where` names its place in the report, `said` tells it in a sentence; lines are 0 where there is none.

    `owner` is the finding it belongs to (its place in the alignment), `also` further kinds in the same sentence, `follows` what
    page one and the trade sheets say otherwise because of it.
    """

    kind: str
    where: str
    said: str
    before: str = ""
    after: str = ""
    before_line: int = 0
    after_line: int = 0
    words: tuple[Word, ...] = ()
    owner: int | None = None
    also: tuple[str, ...] = ()
    follows: tuple[Change, ...] = ()

    @property
    def matters(self) -> bool:
        """Whether its kind, or one beside it, is one that matters."""
        return any(KINDS[each].matters for each in (self.kind, *self.also))


class Row(NamedTuple):
    """A line of the two reports side by side. `change` is its place in the list of changes, None where nothing changed."""

    before: str
    after: str
    words: tuple[Word, ...] = ()
    change: int | None = None


class Side(NamedTuple):
    """A stretch of both reports under one heading."""

    title: str
    rows: tuple[Row, ...]


class Report(NamedTuple):
    """One of the two reports, as the comparison names it."""

    path: str
    form: str
    house: str
    findings: int


class Comparison(NamedTuple):
    """What changed, the weightiest first, and the whole of both reports side by side."""

    before: Report
    after: Report
    changes: tuple[Change, ...]
    notes: tuple[str, ...]
    sides: tuple[Side, ...]
    same_house: bool = False

    def mattering(self, allowed: frozenset[str] = frozenset()) -> tuple[Change, ...]:
        """Changes that matter and that are not allowed by the name of their kind."""
        return tuple(
            change
            for change in self.changes
            if any(KINDS[each].matters and each not in allowed for each in (change.kind, *change.also))
        )
