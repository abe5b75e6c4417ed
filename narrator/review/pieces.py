"""A report as it was read back: its pieces and findings in printed order, every text with its line."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from narrator.report import Report


class Raw(NamedTuple):
    """A block as a format shows it, before anything is known of its meaning. `line` counts from 1.

    Kinds: `heading`, `text`, `row` (of a list), `cells` (of a table; `head` is its first row), `chart`, `rule`.
    `level` is 0 where the format does not say it; a separator of ours in `text` still ends in its no-break space.
    """

    kind: str
    text: str
    line: int
    level: int = 0
    cells: tuple[str, ...] = ()
    anchor: str = ""


class Passage(NamedTuple):
    """A paragraph or a row. `number` is the finding that a row speaks of, `label` the list that it stands in."""

    text: str
    line: int
    kind: str = "text"
    number: int | None = None
    label: str = ""
    cells: tuple[tuple[str, str], ...] = ()


class Piece(NamedTuple):
    """A stretch of the report under one heading. `within` is the system that it belongs to.

    Roles: head, danger, deadline, find-out, not-seen, in-time, counts, summary, day, system, story, looked, unseen-here, charts,
    photos, notes, unseen, sheet, glossary, terms, colophon, settle, other.
    """

    role: str
    title: str
    line: int
    passages: tuple[Passage, ...]
    within: str = ""


class Found(NamedTuple):
    """A finding as it is printed. `id` is known from JSON and from HTML, else empty; `grade` is the key of the contract."""

    number: int | None
    id: str
    title: str
    line: int
    severity: str
    grade: str | None
    trades: tuple[str, ...]
    places: tuple[str, ...]
    photos: tuple[int, ...]
    sketches: tuple[int, ...]
    passages: tuple[Passage, ...]
    section: str = ""

    @property
    def name(self) -> str:
        """`Number 7, Stucco nearly touches the roof`: how people speak of it."""
        return f"Number {self.number}, {self.title}" if self.number is not None else self.title


class Reading(NamedTuple):
    """A whole report. `report` is the value itself where it came as JSON; `remarks` are for the person at the screen."""

    path: str
    form: str
    draft: bool
    house: str
    order: tuple[Piece | Found, ...]
    report: Report | None = None
    remarks: tuple[str, ...] = ()

    @property
    def findings(self) -> tuple[Found, ...]:
        """The findings, in printed order."""
        return tuple(each for each in self.order if isinstance(each, Found))

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """All that is no finding, in printed order."""
        return tuple(each for each in self.order if isinstance(each, Piece))
