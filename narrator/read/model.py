"""What the checklist says, before any word is bound to the library: lines, cells, items."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from narrator.measure.quantity import Quantity

HEADERS = (
    "property",
    "visited",
    "inspector",
    "client",
    "built",
    "weather",
    "rain before",
    "faces",
    "present",
    "occupied",
    "utilities",
    "agreement",
    "method",
    "review window",
    "standard",
    "firm",
    "moisture meter",
)
STATUSES = ("ok", "tested", "partly", "not inspected", "not present")
BASES = ("seen", "measured", "tested", "smelled", "heard", "felt", "read", "told", "inferred")
SEVERITIES = ("act-now", "find-out", "plan", "upkeep")


@dataclass(frozen=True, slots=True)
class Point:
    """One reading of a series: a value, or the reason why none was taken."""

    name: str | None
    value: Quantity | None
    reason: str | None


@dataclass(frozen=True, slots=True)
class Item:
    """One detail of a line. `kind` says which of the other fields hold; `column` counts from 1 in the line as typed.

    value: `label`, `quantity` · series: `label`, `points`, `unit`, `control` · photos, sketch: `numbers` · count:
    `numbers[0]` · basis: `key`, `value` (who told) · act: `key` (verb), `value` (who), `time` · override: `key`,
    `value` · unit: `value` · quote: `value` (words inside) · words: nothing more than `text`.
    """

    kind: str
    text: str
    column: int
    label: str = ""
    quantity: Quantity | None = None
    points: tuple[Point, ...] = ()
    unit: str = ""
    control: bool = False
    numbers: tuple[int, ...] = ()
    key: str = ""
    value: str = ""
    time: str | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the checklist, or one part of it split by `;`.

    kind: header, heading, status, note, own, photos, description, finding, unresolved. `key` is the reserved word, the
    description's name or the heading's system; `value` the rest. `heading` fields tell under which heading the line
    stands; `heading_both`: it names a system and a place.
    """

    number: int
    kind: str
    text: str
    column: int = 1
    key: str = ""
    value: str = ""
    what: str = ""
    where: str = ""
    items: tuple[Item, ...] = ()
    reason: str = ""
    photos: tuple[int, ...] = ()
    inferred: bool = False
    barred: bool = False
    heading_system: str | None = None
    heading_place: str | None = None
    heading_text: str | None = None
    heading_both: bool = False


@dataclass(frozen=True, slots=True)
class Checklist:
    """A whole checklist.

    `left_out` holds the numbers of lines with a remark to oneself; `notes` what the reader noticed.
    """

    path: str
    lines: tuple[Line, ...]
    left_out: tuple[int, ...] = ()
    notes: tuple[tuple[str, int, str], ...] = ()
    headers: Mapping[str, tuple[tuple[str, int], ...]] = field(default_factory=dict)
