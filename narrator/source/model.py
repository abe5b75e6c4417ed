"""What a library holds: entries with their variants and measures, and the shared lists."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

# Fields of an entry that hold one text or named variants.
TEXT_FIELDS = ("title", "observation", "implication", "recommendation")


class Variant(NamedTuple):
    """One wording of a field. `when` is closed data (empty: always); `line` is where the text stands in the entry's file.

    `pieces` is the parsed template: texts, and values as `[name]` or `[name, part]`. `file`: where the text stands, when that is
    not the entry's own file. `seam`: from which piece on it stands elsewhere, and where: (piece, file, line).
    """

    name: str
    when: Mapping[str, Any]
    text: str
    line: int
    pieces: tuple[Any, ...] = ()
    file: str = ""
    seam: tuple[int, str, int] | None = None


class MeasureSpec(NamedTuple):
    """A named quantity of an entry: its kind (dimension), the criterion it is held against, and the words for it.

    `context`: it stands beside the condition and judges nothing. `typical`: a usual service life, never a pass mark.
    `hold`: what of a series is held against the criterion: each reading, or the variation between them. `worked`: the
    sum that gives it (`by`) and the measures it needs, by role; `against`: the choice of its criterion, likewise.
    `bands`: criteria of kind band that a survey is counted against; `scale`: a published scale of words for the figure.
    """

    name: str
    kind: str
    criterion: str | None
    label: str
    also: tuple[str, ...]
    context: bool
    series: bool
    typical: str | None = None
    hold: str = "each"
    worked: tuple[tuple[str, str], ...] = ()
    against: tuple[tuple[str, str], ...] = ()
    bands: tuple[str, ...] = ()
    scale: str = ""


class Raise(NamedTuple):
    """When the grade goes up, and the reason that is printed."""

    when: Mapping[str, Any]
    to: str
    why: str


class Entry(NamedTuple):
    """One condition of the library. `code` is its path; `file` and the variants' lines say where each sentence stands.

    `call`: what to ask for on the phone, as it follows the word `Ask`; empty where no call is due before the client decides.
    """

    code: str
    file: str
    title: tuple[Variant, ...]
    names: tuple[str, ...]
    element: str
    lead: str
    beside: tuple[str, ...]
    ask: tuple[str, ...]
    severity: str
    why: str
    why_line: int
    danger: tuple[str, ...]
    course: str
    intrusive: bool
    basis: str
    raises: tuple[Raise, ...]
    measures: tuple[MeasureSpec, ...]
    observation: tuple[Variant, ...]
    implication: tuple[Variant, ...]
    recommendation: tuple[Variant, ...]
    leads_to: tuple[str, ...]
    limits: tuple[str, ...]
    call: str = ""
    why_file: str = ""

    @property
    def system(self) -> str:
        """The system of the house, the first word of the code."""
        return self.code.split(".", 1)[0]

    def measure(self, name: str) -> MeasureSpec | None:
        """The measure of that name."""
        return next((spec for spec in self.measures if spec.name == name), None)


def variants_of(value: Any) -> tuple[Variant, ...]:
    """Variants of a field as stored: `[name, when, text, line, pieces]` each, and what a layer adds (file, seam)."""
    return tuple(
        Variant(name, when, text, line, tuple(pieces), *apart[:1], *(tuple(seam) for seam in apart[1:]))
        for name, when, text, line, pieces, *apart in value
    )


def _spec(row: Sequence[Any]) -> MeasureSpec:
    """A measure as stored: a list in the order of the fields."""
    name, kind, criterion, label, also, context, series, typical, hold, worked, against, bands, scale = row
    return MeasureSpec(
        name,
        kind,
        criterion,
        label,
        tuple(also),
        context,
        series,
        typical,
        hold,
        tuple(worked.items()),
        tuple(against.items()),
        tuple(bands),
        scale,
    )


def entry_from(data: Mapping[str, Any]) -> Entry:
    """An entry from its stored form (see `stored_entry`)."""
    texts = {field: variants_of(data[field]) for field in TEXT_FIELDS}
    return Entry(
        code=data["code"],
        file=data["file"],
        names=tuple(data["names"]),
        element=data["element"],
        lead=data["lead"],
        beside=tuple(data["with"]),
        ask=tuple(data["ask"]),
        severity=data["severity"],
        why=data["why"],
        why_line=data["why_line"],
        danger=tuple(data["danger"]),
        course=data["course"],
        intrusive=data["intrusive"],
        basis=data["basis"],
        raises=tuple(Raise(when, to, why) for when, to, why in data["raise"]),
        measures=tuple(_spec(row) for row in data["measures"]),
        leads_to=tuple(data["leads_to"]),
        limits=tuple(data["limits"]),
        call=data["call"],
        why_file=data.get("why_file", data["file"]),
        **texts,
    )
