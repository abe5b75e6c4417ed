"""Lines from cells, whatever form the checklist came in: the notation and the structured forms build theirs here."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from narrator.compose.place import Places, is_known
from narrator.errors import stop
from narrator.read.cells import Piece, split, trim
from narrator.read.items import read_items
from narrator.read.model import Checklist, Item, Line

MOST_BYTES = 4 * 1024 * 1024
MOST_LINES = 20_000
_REPEATS = ('"', "”", "same")


@dataclass(frozen=True, slots=True)
class Grammar:
    """What the reader must know of the library: names of systems (-> id), places, descriptions, condition words."""

    systems: Mapping[str, str]
    places: Places
    descriptions: frozenset[str]
    has_condition: Callable[[str], bool]


@dataclass(frozen=True, slots=True)
class Context:
    """What stands above a line: the heading in force, and the last what and where typed."""

    system: str | None = None
    place: str | None = None
    heading: str | None = None
    both: bool = False
    what: str | None = None
    where: str | None = None


def refuse_long(text: str, path: str, count: int) -> None:
    """Refuse a text of more than 4 MiB or more than 20,000 lines."""
    if len(text) > MOST_BYTES or len(text.encode("utf-8", "replace")) > MOST_BYTES:
        raise stop(path, "The file is longer than 4 MiB. A checklist is 30 to 150 lines; is this the right file?")
    if count > MOST_LINES:
        message = f"The file has {count} lines; the most is {MOST_LINES}. Split it by inspection."
        raise stop(path, message, MOST_LINES + 1, 1)


def finish(
    path: str, lines: Sequence[Line], left_out: Sequence[int], notes: Sequence[tuple[str, int, str]] = ()
) -> Checklist:
    """A checklist from its lines: headers gathered by name in the order typed."""
    headers: dict[str, tuple[tuple[str, int], ...]] = {}
    for line in lines:
        if line.kind == "header":
            headers[line.key] = (*headers.get(line.key, ()), (line.value, line.number))
    return Checklist(path, tuple(lines), tuple(left_out), tuple(notes), headers)


def line_of(number: int, kind: str, line: Piece, context: Context, **fields: object) -> Line:
    """A line of a kind under the heading in force."""
    base = Line(
        number,
        kind,
        line.text,
        line.start + 1,
        heading_system=context.system,
        heading_place=context.place,
        heading_text=context.heading,
        heading_both=context.both,
    )
    return replace(base, **fields)  # type: ignore[arg-type]


def heading_of(number: int, name: Piece, grammar: Grammar, context: Context) -> tuple[Line, Context] | None:
    """A heading line and the context below it, if the text exactly names a system or a known place."""
    wanted = " ".join(name.text.lower().split())
    system = grammar.systems.get(wanted)
    place = name.text if is_known(name.text, grammar.places) else None
    if system is None and place is None:
        return None
    after = replace(context, system=system or context.system, place=place, heading=name.text, both=bool(system and place))
    return line_of(number, "heading", name, context, key=system or "", where=place or ""), after


def status_of(
    number: int,
    key: str,
    line: Piece,
    what: str,
    where: str,
    details: Sequence[Piece],
    reason: Piece,
    value: str,
    context: Context,
) -> Line:
    """`ok`, `tested`, `partly`, `not inspected`, `not present`: photo numbers among the reason are taken out of it."""
    kept, photos = _photos_of(reason)
    return line_of(
        number,
        "status",
        line,
        context,
        key=key,
        what=what,
        where=repeat_where(where, context),
        items=read_items(details),
        reason=kept,
        photos=photos,
        value=value,
    )


def own_of(
    number: int, line: Piece, what: str, where: str, details: Sequence[Piece], value: str, context: Context
) -> Line:
    """A finding that the library does not have."""
    return line_of(
        number,
        "own",
        line,
        context,
        what=what.rstrip("?") if what.endswith("?") else what,
        inferred=what.endswith("?"),
        where=repeat_where(where, context),
        items=read_items(details),
        value=value,
        barred=True,
    )


def described(name: str, grammar: Grammar) -> bool:
    """Whether a name left of a `=` describes the house: a known name, or one without comma and condition word."""
    known = " ".join(name.lower().split()) in grammar.descriptions
    return known or ("," not in name and not grammar.has_condition(name))


def description_of(
    number: int, line: Piece, name: str, value: str, where: str, details: Sequence[Piece], context: Context
) -> Line:
    """`name = value | where | details`."""
    return line_of(
        number,
        "description",
        line,
        context,
        key=name,
        value=value,
        where=repeat_where(where, context),
        items=read_items(details),
    )


def _photos_of(reason: Piece) -> tuple[str, tuple[int, ...]]:
    """A reason without its photo numbers, and the numbers."""
    kept: list[str] = []
    photos: tuple[int, ...] = ()
    for item in read_items((reason,)) if reason.text else ():
        if item.kind == "photos":
            photos += item.numbers
        else:
            kept.append(item.text)
    return (", ".join(kept), photos) if photos else (reason.text, ())


def repeat_where(where: str, context: Context) -> str:
    """The place, or the one above where `same` is typed."""
    return context.where or "" if where.lower() == "same" else where


def findings_of(
    number: int,
    line: Piece,
    what: Piece,
    where: str,
    items: tuple[Item, ...],
    context: Context,
    barred: bool,
) -> tuple[list[Line], Context]:
    """The findings of a line: one for each part of its first cell split by `;`."""
    wheres = repeat_where(where, context)
    missing_where = where.lower() == "same" and context.where is None
    typed_what = what
    if what.text.lower() in _REPEATS:
        if context.what is None:
            reason = "It repeats the line above, but no finding stands above."
            return [line_of(number, "unresolved", line, context, reason=reason)], context
        typed_what = Piece(context.what, what.start)
    if missing_where:
        reason = "'same' repeats a place, but none was typed above."
        return [line_of(number, "unresolved", line, context, reason=reason)], context
    out: list[Line] = []
    for part in split(typed_what, ";"):
        asked = part.text.endswith("?")
        text = trim(part.text.rstrip("?")) if asked else part.text
        if not text:
            out.append(line_of(number, "unresolved", line, context, reason="Only a question mark stands here."))
            continue
        out.append(
            line_of(
                number,
                "finding",
                line,
                context,
                what=text,
                where=wheres,
                items=items,
                inferred=asked,
                barred=barred,
                column=part.start + 1,
            )
        )
    if not out:
        out.append(line_of(number, "unresolved", line, context, reason="No words stand here."))
    return out, replace(context, what=typed_what.text, where=wheres or context.where)
