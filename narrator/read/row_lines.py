"""One row of a table as a line. Its cells are data; the first may open with a reserved word, as in `ok: soffit`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from narrator.read.above import Context, Grammar, placed, remember
from narrator.read.cells import Piece, first_sign, outside, piece, quotations
from narrator.read.columns import POSITIONS, Columns
from narrator.read.fields import detail_pieces, flat, photo_numbers_of, photo_text, shown
from narrator.read.items import photo_numbers, read_items
from narrator.read.lines import described, description_of, findings_of, heading_of, line_of, own_of, status_of
from narrator.read.model import HEADERS, SEVERITIES, STATUSES, Item, Line
from narrator.read.notation import MOST_CHARACTERS, PHOTOS, REASON, RESERVED, all_typed

_KINDS = (*STATUSES, "note", "own", "photos", "remark", "finding", "description", "heading")
_UNSEEN = ("partly", "not inspected", "not present")
_PARTS = ("what", "name", "where", "details", "value", "caption", "photos", "reason", "severity", "status", "")


@dataclass(frozen=True, slots=True)
class Field:
    """A filled cell: its column's role and name, its text on one line and as typed, its column (from 0) and index."""

    role: str
    name: str
    text: str
    typed: str
    start: int
    index: int


@dataclass(frozen=True, slots=True)
class Row:
    """A row: the line it starts on and its filled cells."""

    number: int
    fields: tuple[Field, ...]


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
    """The lines of a row that is neither header nor remark nor a heading alone."""
    kind, row = _kind(row)
    if kind == "remark":
        rows.left_out.append(row.number)
        return []
    first = _what(row)
    if not kind:
        kind, first = _prefix(first)
    if kind in HEADERS or kind == "note":
        value = ", ".join([*filter(None, (first.text,)), *_labelled(row, ("what", "name"))])
        return [line_of(row.number, "note" if kind == "note" else "header", _typed(row, f"{kind}: {value}"), rows.context,
                        key="" if kind == "note" else kind, value=value)]  # fmt: skip
    if sum(len(one.text) for one in row.fields) > MOST_CHARACTERS:
        return [_loose(rows, row, f"The row has more than {MOST_CHARACTERS} characters. Split it.")]
    if kind == "heading":
        return _heading(rows, row, first)
    if kind.startswith("photos") or (not kind and not first.text and _texts(row, "caption")):
        return [_photos(rows, row, first, kind.removeprefix("photos").strip())]
    if not first.text and kind in (*STATUSES, "own") and _texts(row, "where"):
        # `not inspected`, and only a place: the place is what was not inspected.
        lead = next(one for one in row.fields if one.role == "where")
        first = Piece(lead.text, lead.start)
        row = replace(row, fields=tuple(one for one in row.fields if one.role != "where"))
    return _built(rows, row, kind, first)


def _built(rows: Rows, row: Row, kind: str, first: Piece) -> list[Line]:
    """A finding, a description, a status or an `own`."""
    where, details = "; ".join(_texts(row, "where")), _details(row)
    name, value = _described(rows, row, kind, first)
    if value and not name:
        details = (*detail_pieces(value.text, value.start), *details)
    extra = _extra(rows, row)
    reason = _reason(row)
    if kind in _UNSEEN and not reason.text and not name:
        # What stands beside a thing that nobody saw is why.
        reason, details = Piece(", ".join(part.text for part in details), details[0].start if details else 0), ()
    head = kind if kind in (*STATUSES, "own") else ""
    lead = f"{name.text} = {value.text}" if name and value else first.text
    cells = (lead, where, *(part.text for part in details), *(item.text for item in extra))
    typed = _typed(row, shown(cells, head, reason.text if head in STATUSES else ""))
    context, grammar = rows.context, rows.grammar
    if head in STATUSES:
        text = shown(cells, "", reason.text)
        made = status_of(row.number, head, typed, first.text, where, details, reason, text, context)
    elif head == "own":
        made = own_of(row.number, typed, first.text, where, details, shown(cells), context)
    elif name and value:
        made = description_of(row.number, typed, name.text, value.text, where, details, context)
    elif not first.text:
        made = line_of(row.number, "unresolved", typed, context, reason="Nothing stands in the cell for what was seen.")
        rows.context = remember(context, placed(made, where, context))
        return [made]
    else:
        if rows.columns is POSITIONS and where and not details and all_typed(Piece(where, 0)):
            where, details = "", detail_pieces(where, 0)
        items = (*read_items(details), *extra)
        out, rows.context = findings_of(row.number, typed, first, where, items, context, True, grammar.places)
        return out
    made = replace(made, items=(*made.items, *extra))
    rows.context = remember(context, made)
    return [made]
