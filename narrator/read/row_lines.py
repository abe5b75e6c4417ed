"""One row of a table as a line. Its cells are data; only details are split as in the notation."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from narrator.read.above import Context, Grammar, placed, remember
from narrator.read.cells import Piece, first_sign, piece
from narrator.read.columns import POSITIONS, Columns
from narrator.read.fields import detail_pieces, photo_numbers_of, photo_text, shown
from narrator.read.items import leading_numbers, read_items
from narrator.read.lines import described, description_of, findings_of, heading_of, line_of, own_of, status_of
from narrator.read.model import HEADERS, STATUSES, Line
from narrator.read.notation import MOST_CHARACTERS, all_typed
from narrator.read.row_parts import UNSEEN, Parts, Row, parts_of


@dataclass(slots=True)
class Rows:
    """What has been read so far, and what stands above the next row."""

    grammar: Grammar
    columns: Columns = POSITIONS
    context: Context = field(default_factory=Context)
    heading: str = ""
    room: str = ""
    carried: list[int] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    left_out: list[int] = field(default_factory=list)
    notes: list[tuple[str, int, str]] = field(default_factory=list)


def row_lines(rows: Rows, row: Row) -> list[Line]:
    """The lines of a row that is neither remark nor a heading alone."""
    parts = parts_of(row)
    if parts.kind == "remark":
        if row.number not in rows.left_out:
            rows.left_out.append(row.number)
        return []
    if parts.kind == "note" or parts.kind in HEADERS:
        whole = ", ".join(filter(None, (parts.first.text, *parts.beside)))
        typed = Piece(f"{parts.kind}: {whole}", parts.start)
        if parts.kind == "note":
            return [line_of(row.number, "note", typed, rows.context, value=whole)]
        return [line_of(row.number, "header", typed, Context(), key=parts.kind, value=whole)]
    if sum(len(one.text) for one in row.fields) > MOST_CHARACTERS:
        return [_loose(rows, parts, f"The row has more than {MOST_CHARACTERS} characters. Split it.")]
    if parts.kind == "heading":
        return _heading(rows, parts)
    if parts.kind.startswith("photos") or parts.caption:
        return [_photos(rows, parts)]
    if parts.kind in STATUSES or parts.kind == "own":
        return [_told(rows, parts)]
    name, value = _described(rows, parts)
    if name.text and value.text:
        return [_description(rows, parts, name, value)]
    return _findings(rows, parts)


def _typed(parts: Parts, text: str) -> Piece:
    return Piece(text, parts.start)


def _all_details(parts: Parts) -> tuple[Piece, ...]:
    """Detail cells, then photos."""
    return (*parts.details, parts.photos) if parts.photos.text else parts.details


def _because(parts: Parts) -> tuple[Piece, ...]:
    """The reason as a detail, where a line has no reason of its own."""
    return detail_pieces(parts.reason.text, parts.reason.start) if parts.reason.text else ()


def _loose(rows: Rows, parts: Parts, reason: str) -> Line:
    """An unresolved line that shows every cell."""
    first = ", ".join(filter(None, (parts.first.text, *parts.beside)))
    text = f"{parts.kind}: {first}" if parts.kind else first
    return line_of(parts.number, "unresolved", _typed(parts, text), rows.context, reason=reason)


def _heading(rows: Rows, parts: Parts) -> list[Line]:
    """A row that is told to be a heading; one of an unknown name gives no place, cells beside it stay unresolved."""
    found = heading_of(parts.number, parts.first, rows.grammar, rows.context) if parts.first.text else None
    if found is None:
        after = replace(rows.context, system=None, place=None, heading=parts.first.text or None, both=False)
        found = line_of(parts.number, "heading", parts.first, after), after
        said = f"The heading '{parts.first.text}' is neither a system nor a known place."
        rows.notes.append(("form", parts.number, said))
    rows.context = found[1]
    rows.heading = rows.room = ""
    if not parts.beside:
        return [found[0]]
    beside = _typed(parts, ", ".join(parts.beside))
    reason = "These cells stand beside a heading."
    return [found[0], line_of(parts.number, "unresolved", beside, rows.context, reason=reason)]


def _photos(rows: Rows, parts: Parts) -> Line:
    """A caption: the numbers in the photos column, after the word `photos`, or first in the cell."""
    typed_numbers = parts.kind.removeprefix("photos").strip()
    caption = parts.first.text
    if typed_numbers or parts.photos.text:
        numbers = photo_numbers_of(photo_text([typed_numbers]) if typed_numbers else parts.photos.text)
    else:
        numbers, caption = leading_numbers(caption)
    # With numbers told twice, those in the column are words beside the caption.
    skipped = "" if typed_numbers else parts.photos.text
    beside = [text for text in parts.beside if text != skipped]
    value = ", ".join(filter(None, (caption, *beside)))
    if not numbers:
        return _loose(rows, parts, "The photo numbers cannot be read; write them like 1-4, 7.")
    head = photo_text([typed_numbers]) if typed_numbers else parts.photos.text or "photos"
    text = shown((value if parts.photos.text or typed_numbers else parts.first.text,), head)
    return line_of(parts.number, "photos", _typed(parts, text), rows.context, value=value, photos=numbers)


def _told(rows: Rows, parts: Parts) -> Line:
    """A status or an `own`. What stands beside a thing that nobody saw, and gives no other reason, is the reason."""
    details, reason = _all_details(parts), parts.reason
    value = detail_pieces(parts.value.text, parts.value.start) if parts.value.text else ()
    details = (*value, *details)
    if parts.kind in UNSEEN and not reason.text and details:
        reason, details = Piece(", ".join(part.text for part in details), details[0].start), ()
    extra = tuple(item.text for item in parts.extra)
    cells = (parts.first.text, parts.where, *(part.text for part in details), *extra)
    first, number, context = parts.first.text, parts.number, rows.context
    if parts.kind == "own":
        details = (*details, *_because(parts))
        cells = (*cells, reason.text)
        made = own_of(number, _typed(parts, shown(cells, "own")), first, parts.where, details, shown(cells), context)
    else:
        typed, text = _typed(parts, shown(cells, parts.kind, reason.text)), shown(cells, "", reason.text)
        made = status_of(number, parts.kind, typed, first, parts.where, details, reason, text, context)
    made = replace(made, items=(*made.items, *parts.extra))
    rows.context = remember(context, made)
    return made


def _described(rows: Rows, parts: Parts) -> tuple[Piece, Piece]:
    """Name and value of a description: from their columns, from a known name and a value, or from `name = value`."""
    first, nothing = parts.first, Piece("", 0)
    if parts.name.text:
        name = parts.name if not first.text else Piece(f"{parts.name.text}, {first.text}", parts.name.start)
        fits = parts.kind == "description" or described(name.text, rows.grammar)
        return (name, parts.value) if parts.value.text and fits else (nothing, nothing)
    known = " ".join(first.text.lower().split()) in rows.grammar.descriptions
    if first.text and parts.value.text and (parts.kind == "description" or known):
        return first, parts.value
    sign, at = first_sign(first)
    if sign == "=" and parts.kind != "finding":
        left, right = piece(first.text[:at], first.start), piece(first.text[at + 1 :], first.start + at + 1)
        if left.text and right.text and described(left.text, rows.grammar):
            return left, right
    return nothing, nothing


def _description(rows: Rows, parts: Parts, name: Piece, value: Piece) -> Line:
    """`name = value | where | details`."""
    details = (*_all_details(parts), *_because(parts))
    if parts.value.text and value is not parts.value:
        details = (*detail_pieces(parts.value.text, parts.value.start), *details)
    extra = (item.text for item in parts.extra)
    text = shown((f"{name.text} = {value.text}", parts.where, *(part.text for part in details), *extra))
    typed = _typed(parts, text)
    made = description_of(parts.number, typed, name.text, value.text, parts.where, details, rows.context)
    made = replace(made, items=(*made.items, *parts.extra))
    rows.context = remember(rows.context, made)
    return made


def _findings(rows: Rows, parts: Parts) -> list[Line]:
    """A finding, or one for each part of its first cell split by `;`."""
    first, where, details = parts.first, parts.where, (*_all_details(parts), *_because(parts))
    if parts.name.text:
        both = ", ".join(filter(None, (parts.name.text, first.text)))
        first = Piece(both, parts.name.start)
    if parts.value.text:
        details = (*detail_pieces(parts.value.text, parts.value.start), *details)
    if rows.columns is POSITIONS and where and all_typed(Piece(where, 0)):
        # The place was skipped: what stands in its cell is nothing but details.
        where, details = "", (*detail_pieces(where, 0), *details)
    extra = (item.text for item in parts.extra)
    typed = _typed(parts, shown((first.text, where, *(part.text for part in details), *extra)))
    if not first.text:
        made = line_of(parts.number, "unresolved", typed, rows.context, reason="Nothing says what was seen.")
        rows.context = remember(rows.context, placed(made, where, rows.context))
        return [made]
    items = (*read_items(details), *parts.extra)
    places = rows.grammar.places
    out, rows.context = findings_of(parts.number, typed, first, where, items, rows.context, True, places)
    return out
