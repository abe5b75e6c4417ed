"""Lines from cells, whatever form the checklist came in: the notation and the structured forms build theirs here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrator.compose.place import Places, is_known, written_out
from narrator.errors import stop
from narrator.read.above import MOST_OF_A_PLACE, REPEATS, Context, Grammar, below_heading, placed, remember
from narrator.read.cells import OPENERS, Piece, split, trim
from narrator.read.items import off_photos, off_series, read_items, with_photos
from narrator.read.model import Checklist, Item, Line

__all__ = [
    "MOST_BYTES",
    "MOST_LINES",
    "Context",
    "Grammar",
    "described",
    "description_of",
    "findings_of",
    "finish",
    "heading_of",
    "line_of",
    "own_of",
    "refuse_long",
    "status_of",
]

# What people put around a heading: `** Kitchen **`, `Roof.`, `[Garage]`.
_FRAME = " .,*#_=[]()<>-–—:\u00a0"
MOST_OF_A_THING = 1_000  # characters of a first cell
MOST_BYTES = 4 * 1024 * 1024
MOST_LINES = 20_000


def refuse_long(text: str, path: str, count: int) -> None:
    """Refuse a text of more than 4 MiB or more than 20,000 lines."""
    if len(text) > MOST_BYTES or len(text.encode("utf-8", "replace")) > MOST_BYTES:
        raise stop(path, "The file is longer than 4 MiB. A checklist is 30 to 150 lines; is this the right file?")
    if count > MOST_LINES:
        message = f"The file has {count} lines; the most is {MOST_LINES}. Split it by inspection."
        raise stop(path, message, MOST_LINES + 1, 1)


def finish(
    path: str,
    lines: Sequence[Line],
    left_out: Sequence[int],
    places: Places,
    notes: Sequence[tuple[str, int, str]] = (),
) -> Checklist:
    """A checklist from its lines: headers gathered by name in the order typed, places typed short written out."""
    headers: dict[str, tuple[tuple[str, int], ...]] = {}
    for line in lines:
        if line.kind == "header":
            headers[line.key] = (*headers.get(line.key, ()), (line.value, line.number))
    return Checklist(path, tuple(_spelled(line, places) for line in lines), tuple(left_out), tuple(notes), headers)


def _spelled(line: Line, places: Places) -> Line:
    """The line with its place written out (`LR` is the living room); its text stays as typed."""
    where = written_out(line.where, places) if line.where else ""
    return replace(line, where=where) if where != line.where else line


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
    if len(name.text) > MOST_OF_A_PLACE or any(mark in name.text for mark in (*OPENERS, "?", "!")):
        return None
    plain = name.text.strip(_FRAME)
    full = written_out(plain, grammar.places)
    system = grammar.systems.get(" ".join(plain.lower().split())) or grammar.systems.get(" ".join(full.lower().split()))
    place = full if full and is_known(full, grammar.places) else None
    if system is None and place is None:
        return None
    after = below_heading(context, name.text, system, place, grammar)
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
    items = read_items(details)
    if key not in ("ok", "tested"):
        # Details of what was not seen say why: they are part of the reason.
        told = ", ".join(item.text for item in items if item.kind not in ("photos", "sketch"))
        kept = "; ".join(filter(None, (kept, told)))
        items = tuple(item for item in items if item.kind in ("photos", "sketch"))
    made = line_of(number, "status", line, context, key=key, what=what, items=items, value=value)
    return placed(_named(replace(made, reason=kept, photos=photos), key), where, context)


def own_of(
    number: int, line: Piece, what: str, where: str, details: Sequence[Piece], value: str, context: Context
) -> Line:
    """A finding that the library does not have."""
    made = line_of(number, "own", line, context, items=read_items(details), value=value, barred=True)
    return placed(_named(_asked(made, what), "own"), where, context)


def _named(line: Line, word: str) -> Line:
    """The line, unresolved if nothing stands after its reserved word, or more than a thing."""
    if not line.what:
        return replace(line, kind="unresolved", reason=f"Nothing stands after '{word}:'.")
    return _short(line)


def _short(line: Line) -> Line:
    """The line, unresolved if its first cell is a page of text."""
    if len(line.what) <= MOST_OF_A_THING:
        return line
    reason = f"The first cell has {len(line.what)} characters; the most is {MOST_OF_A_THING}."
    return replace(line, kind="unresolved", reason=reason)


def _asked(line: Line, what: str) -> Line:
    """The line with its `what`; a trailing `?` means that it is inferred."""
    return replace(line, what=trim(what.rstrip("?")), inferred=what.endswith("?"))


def described(name: str, grammar: Grammar) -> bool:
    """Whether a name left of a `=` describes the house: a known name, or one without comma and condition word."""
    known = " ".join(name.lower().split()) in grammar.descriptions
    return known or ("," not in name and not grammar.has_condition(name))


def description_of(
    number: int, line: Piece, name: str, value: str, where: str, details: Sequence[Piece], context: Context
) -> Line:
    """`name = value | where | details`."""
    made = line_of(number, "description", line, context, key=name, value=value, items=read_items(details))
    return placed(made, where, context)


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


def findings_of(
    number: int,
    line: Piece,
    what: Piece,
    where: str,
    items: tuple[Item, ...],
    context: Context,
    barred: bool,
    places: Places | None = None,
) -> tuple[list[Line], Context]:
    """The findings of a line: one for each part of its first cell split by `;`."""
    where, photos = off_photos(where)
    items = with_photos(photos, items) if photos else items
    base = placed(line_of(number, "finding", line, context, items=items, barred=barred), where, context)
    if base.kind == "unresolved":
        return [base], context
    if what.text.lower() in REPEATS:
        if context.what is None or context.kind == "status":
            above = "no finding stands above" if context.what is None else "what stands above is no finding"
            return [replace(base, kind="unresolved", reason=f"It repeats the line above, but {above}.")], remember(
                context, base
            )
        what = Piece(context.what, what.start)
        if context.kind == "own":
            own = replace(_asked(base, what.text), kind="own")
            return [own], remember(context, own)
    parts = split(what, ";")
    out: list[Line] = []
    for part in parts:
        text, photos = off_photos(part.text)
        text, readings = off_series(text)
        details = (replace(readings, column=part.start + readings.column), *items) if readings else items
        made = replace(_asked(base, text), column=part.start + 1)
        made = replace(made, items=with_photos(photos, details) if photos else details)
        if len(parts) > 1:
            # Each part shows its own words and the cells that they share.
            shared = line.text[len(what.text) :] if line.text.startswith(what.text) else f" ({line.text})"
            made = replace(made, text=part.text + shared)
        made = _short(made)
        if not made.what:
            made = replace(made, kind="unresolved", reason="No words stand here, only a question mark.")
        out.append(made)
    if not out:
        return [replace(base, kind="unresolved", reason="No words stand here.")], context
    for made in out:
        context = remember(context, made, places)
    return out, replace(context, what=what.text, kind="finding")
