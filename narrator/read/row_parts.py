"""What the cells of one row say: its kind, its first words, place, details, reason and photos."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from narrator.read.cells import Piece, outside, piece, quotations
from narrator.read.fields import detail_pieces, photo_text
from narrator.read.model import SEVERITIES, STATUSES, Item
from narrator.read.notation import PHOTOS, REASON, RESERVED

UNSEEN = ("partly", "not inspected", "not present")
_TOLD = (*STATUSES, "note", "own", "photos", "remark", "finding", "description", "heading")
_OPENING = (*STATUSES, "note", "own", "photos", "remark")
_NOTHING = Piece("", 0)
_REMARK = re.compile(r"(remark)\s*:", re.IGNORECASE)


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


@dataclass(frozen=True, slots=True)
class Parts:
    """A row by its parts. `kind` is '' for a finding or a description; `beside` is all but the first words."""

    number: int
    start: int
    kind: str
    first: Piece
    name: Piece
    value: Piece
    where: str
    details: tuple[Piece, ...]
    reason: Piece
    photos: Piece
    caption: str
    extra: tuple[Item, ...]
    beside: tuple[str, ...]


def parts_of(row: Row) -> Parts:
    """The parts of a row. A kind is told by the status column, by the first cell alone, or by a word and `:` in it."""
    kind, row = _told(row)
    if not kind:
        kind, row = _opening(row)
    first, reason = _joined(row, "what"), _joined(row, "reason")
    if not kind:
        kind, first, why = _prefix(first)
        if why.text:
            reason = Piece(", ".join(filter(None, (why.text, reason.text))), why.start)
    name, caption = _joined(row, "name"), ""
    if name.text and kind in (*STATUSES, "own"):
        first, name = Piece(", ".join(filter(None, (name.text, first.text))), name.start), _NOTHING
    if not first.text and kind in (*STATUSES, "own"):
        # Only a place beside `not inspected`: the place is what was not inspected.
        first, row = _joined(row, "where"), _without(row, "where")
    numbers = [one.text for one in row.fields if one.role == "photos"]
    photos = Piece(photo_text(numbers), _joined(row, "photos").start)
    if kind.startswith("photos") or not (kind or first.text or name.text):
        caption = _joined(row, "caption").text
    return Parts(
        number=row.number,
        start=row.fields[0].start if row.fields else 0,
        kind=kind,
        first=first,
        name=name,
        value=_joined(row, "value"),
        where="; ".join(one.text for one in row.fields if one.role == "where"),
        details=_details(row, () if caption else ("caption",)),
        reason=reason,
        photos=photos if numbers else _NOTHING,
        caption=caption,
        extra=_extra(row),
        beside=tuple(_labelled(one) for one in row.fields if one.role != "what"),
    )


def _told(row: Row) -> tuple[str, Row]:
    """The kind that the status column tells, and the row without that cell; a word that is no kind stays in the row."""
    for one in row.fields:
        kind = " ".join(one.text.lower().replace("_", " ").replace("-", " ").split())
        if one.role == "status" and kind in _TOLD:
            return kind, replace(row, fields=tuple(other for other in row.fields if other is not one))
    return "", row


def _opening(row: Row) -> tuple[str, Row]:
    """A first cell that is only `ok`, `note` and their like: the cells after it move up by one."""
    lead = row.fields[0] if row.fields else None
    kind = " ".join(lead.text.lower().replace("_", " ").split()).rstrip(" :") if lead else ""
    if lead is None or lead.index or lead.role != "what" or kind not in _OPENING or len(row.fields) < 2:
        return "", row
    moved = tuple(replace(one, role=_moved(one)) for one in row.fields[1:])
    return kind, replace(row, fields=moved)


def _moved(one: Field) -> str:
    """The role of a cell that moves up by one: the place's is the first, that of the details after it the place."""
    return "what" if one.role == "where" else "where" if one.role == "details" and one.index == 2 else one.role


def _prefix(first: Piece) -> tuple[str, Piece, Piece]:
    """A reserved word and `:` at the start of the first cell; a status's reason starts at the first spaced dash."""
    match = RESERVED.match(first.text) or PHOTOS.match(first.text) or _REMARK.match(first.text)
    if match is None:
        return "", first, _NOTHING
    rest = piece(first.text[match.end() :], first.start + match.end())
    if match.re is PHOTOS:
        return f"photos {match.group(1) or ''}".rstrip(), rest, _NOTHING
    kind = " ".join(match.group(1).lower().split())
    spans = quotations(rest.text)
    dashes = REASON.finditer(rest.text) if kind in STATUSES else ()
    dash = next((one for one in dashes if outside(one.start() + 1, spans)), None)
    if dash is None:
        return kind, rest, _NOTHING
    why = piece(rest.text[dash.end() :], rest.start + dash.end())
    return kind, piece(rest.text[: dash.start()], rest.start), why


def _joined(row: Row, role: str) -> Piece:
    """The cells of a role as one piece, in the order of the columns."""
    found = [one for one in row.fields if one.role == role]
    return Piece(", ".join(one.text for one in found), found[0].start) if found else _NOTHING


def _without(row: Row, role: str) -> Row:
    return replace(row, fields=tuple(one for one in row.fields if one.role != role))


def _details(row: Row, more: Sequence[str]) -> tuple[Piece, ...]:
    """The detail cells in the order of the columns."""
    out: list[Piece] = []
    for one in row.fields:
        if one.role == "details" or one.role in more:
            out.extend(detail_pieces(one.typed.strip(), one.start))
    return tuple(out)


def _extra(row: Row) -> tuple[Item, ...]:
    """Cells that no other part takes: a grade as an override, all else as own words under the column's name."""
    out: list[Item] = []
    for one in row.fields:
        grade = one.text.lower().replace(" ", "-")
        if one.role in ("severity", "status") and grade in SEVERITIES:
            out.append(Item("override", one.text, one.start + 1, key="severity", value=grade))
        elif one.role in ("severity", "status", ""):
            out.append(Item("words", _labelled(one), one.start + 1))
    return tuple(out)


def _labelled(one: Field) -> str:
    """A cell as words: photos say so, and a column that is none of ours gives its name."""
    if one.role == "photos":
        return photo_text([one.text])
    if one.role in ("severity", "status", ""):
        return f"{one.name or f'column {one.index + 1}'}: {one.text}"
    return one.text
