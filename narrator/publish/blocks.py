"""What a printed report is made of, before a format lays it out: texts ready to print, unescaped."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from narrator.report import Chart


class Ref(NamedTuple):
    """A finding that a text speaks of: the number people say, and the id to link to."""

    number: int
    anchor: str


class Heading(NamedTuple):
    """A heading: 1 the title, 2 a part of the report, 3 inside a part."""

    level: int
    text: str
    role: str = ""
    refs: tuple[Ref, ...] = ()


class Para(NamedTuple):
    """A paragraph. The role says what it is; formats may set it apart, and never change its words."""

    text: str
    role: str = "prose"
    refs: tuple[Ref, ...] = ()


class Row(NamedTuple):
    """One line of a list."""

    text: str
    ref: Ref | None = None


class Items(NamedTuple):
    """A list, under a label or none."""

    label: str
    rows: tuple[Row, ...]


class Meta(NamedTuple):
    """The one line under a finding's title."""

    severity: str
    leads: tuple[str, ...]
    others: tuple[str, ...]
    places: tuple[str, ...]
    photos: tuple[int, ...]
    sketches: tuple[int, ...]
    urgent: bool = False


class Condition(NamedTuple):
    """A finding."""

    ref: Ref
    title: str
    meta: Meta
    paragraphs: tuple[str, ...]


class Table(NamedTuple):
    """A table; the last `empty` columns are for the reader to fill in."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    empty: int = 0


class Figure(NamedTuple):
    """A picture, and all that it shows in words."""

    chart: Chart
    text: str


Block = Heading | Para | Items | Condition | Table | Figure


class Part(NamedTuple):
    """A part of the report, in printed order. Empty parts are never made."""

    role: str
    blocks: tuple[Block, ...]
    anchor: str = ""
