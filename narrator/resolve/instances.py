"""Instances of a line that found its entry: one for each place typed, with measures, words, acts, and how known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrator.compose.place import Places, class_of, combine
from narrator.read.cells import trim
from narrator.read.model import Item, Line
from narrator.resolve.answer import Answer
from narrator.resolve.bind import Bound
from narrator.resolve.model import Instance, Match, Measure, Remark
from narrator.resolve.vocabulary import plain_words
from narrator.source.model import Entry

# Kinds of measure that someone took with an instrument; an age or a count is seen or read, not measured.
INSTRUMENT_KINDS = frozenset(
    {
        "length",
        "area",
        "volume",
        "slope",
        "angle",
        "temperature",
        "moisture",
        "percent",
        "humidity",
        "pressure",
        "flow",
        "voltage",
        "current",
        "resistance",
        "power",
        "time",
        "speed",
        "concentration",
        "weight",
    }
)


def instances_of(
    line: Line,
    got: Answer,
    entry: Entry | None,
    bound: Bound,
    in_what: Sequence[Item],
    places: Places,
    tested: bool = False,
) -> tuple[list[Instance], list[Remark]]:
    """The instances of a line, and what should be looked at. `in_what`: figures that stood in the `what`."""
    basis, source, default = _basis(line, got, entry, bound.measures, tested)
    words, notes = _words(line, got, bound, in_what)
    full, extra = _places_of(line, got.place, places)
    counts = [item for item in line.items if item.kind == "count"]
    if len(counts) > 1:
        notes.append(Remark("words", (line.number,), "Two counts stand on this line; the first was taken."))
        words += [item.text for item in counts[1:]]
    for item in line.items:
        if item.kind == "basis" and (item.key != basis or (item.value or None) != source):
            said = f"line {line.number}, column {item.column}: '{item.text}' and another source stand on this line"
            notes.append(Remark("basis", (line.number,), f"{said}; it is told as '{basis}'."))
            words += [item.text] if item.value else []
    photos = [*line.photos, *(number for item in line.items if item.kind == "photos" for number in item.numbers)]
    made = Instance(
        line=line,
        match=Match(got.code, got.how, got.score),
        entry=entry,
        title=entry.title[-1].text if entry else line.what,
        place=None,
        basis=basis,
        source=source,
        measures=bound.measures,
        count=counts[0].numbers[0] if counts else None,
        photos=tuple(dict.fromkeys(photos)),
        sketches=tuple(dict.fromkeys(n for item in line.items if item.kind == "sketch" for n in item.numbers)),
        words=tuple(dict.fromkeys([*words, *extra])),
        acts=tuple(item for item in line.items if item.kind == "act"),
        unit=", ".join(dict.fromkeys(item.value for item in line.items if item.kind == "unit")) or None,
        overrides=tuple(item for item in line.items if item.kind == "override"),
        default_basis=default,
        says_wrong=bool(got.conditions),
    )
    return [replace(made, place=place) for place in full] or [made], notes


def _places_of(line: Line, inner: str | None, places: Places) -> tuple[list[str], list[str]]:
    """The places of a line in full, and what is kept as words. `inner` is a place that stood in the `what`."""
    wheres = [part for part in map(trim, line.where.split(";")) if part]
    extra: list[str] = []
    if inner and not wheres:
        wheres = [inner]
    elif inner and not any(set(plain_words(inner)) <= set(plain_words(where)) for where in wheres):
        joined = [_nested(inner, where, places) for where in wheres]
        if joined == wheres and not line.barred and class_of(inner, places) == "room":
            joined = [inner, *wheres]  # "no gfci kitchen, hall bath" names two rooms
        extra = [line.what] if joined == wheres else []
        wheres = joined
    heading = line.heading_place
    if not heading:
        return wheres, extra
    # `Walls` and its like name a system of parts: "on the walls, on the front wall" would say nothing more.
    if line.heading_both and class_of(heading, places) == "part":
        return wheres or [heading], extra
    return [combine(heading, where, places) for where in wheres] or [heading], extra


def _nested(inner: str, where: str, places: Places) -> str:
    """Two typed places as one: what is only a part or a relation goes into the other."""
    outer = combine(inner, where, places)
    return outer if outer != where or class_of(inner, places) not in ("part", "relation") else f"{where}, {inner}"


def _words(line: Line, got: Answer, bound: Bound, in_what: Sequence[Item]) -> tuple[list[str], list[Remark]]:
    """What is kept as the inspector's own words, verbatim, in the order typed, and a note of each."""
    kept: list[str] = []
    notes: list[Remark] = []

    def note(column: int, text: str) -> None:
        notes.append(Remark("words", (line.number,), f"line {line.number}, column {column}: {text}"))

    if got.left or any(item in bound.words for item in in_what):
        kept.append(line.what)
    for item in line.items:
        if item.kind == "quote":
            kept.append(item.value)
        elif item.kind == "words" or item in bound.words:
            kept.append(item.text)
            if item.kind == "words":
                note(item.column, f"'{item.text}' is kept as your own words.")
    if got.left:
        note(line.column, f"'{' '.join(got.left)}' is explained by no entry; your words are quoted whole.")
    return kept, notes


def _basis(
    line: Line, got: Answer, entry: Entry | None, measures: Sequence[Measure], tested: bool
) -> tuple[str, str | None, bool]:
    """(basis, source, whether it is a default): a `?`, then typed words, then what the line itself shows."""
    typed = [item for item in line.items if item.kind == "basis"]
    if line.inferred or got.hedged:
        return "inferred", None, False
    if typed:
        strongest = next((item for item in typed if item.key in ("told", "inferred")), typed[0])
        return strongest.key, strongest.value or None, False
    if tested:
        return "tested", None, False
    if any(measure.spec.kind in INSTRUMENT_KINDS for measure in measures):
        return "measured", None, False
    return (entry.basis if entry else "seen"), None, True
