"""The rows of a table as a checklist: the row of column names, headers, headings, remarks, and every other row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from narrator.errors import did_you_mean
from narrator.read.above import Context, Grammar
from narrator.read.cells import Piece
from narrator.read.columns import Columns, columns_of, known_names, near_names
from narrator.read.fields import flat, holds_dash
from narrator.read.lines import finish, heading_of, line_of
from narrator.read.model import HEADERS, Checklist
from narrator.read.row_lines import Rows, row_lines
from narrator.read.row_parts import Field, Row
from narrator.read.table import Record, Table

_DASHES = ("--", "—")


def read_rows(table: Table, path: str, grammar: Grammar, columns: Mapping[str, str]) -> Checklist:
    """The checklist of a table. `columns` maps a firm's column names, as compared, to ours."""
    rows = Rows(grammar)
    names = _names_at(table.records, columns)
    if names is None:
        _say_no_names(rows, table.records)
    for index, record in enumerate(table.records):
        if names is not None and index == names:
            _named(rows, record, columns)
        else:
            _record(rows, record)
    _say_carried(rows)
    return finish(path, rows.lines, rows.left_out, grammar.places, rows.notes)


def _names_at(records: Sequence[Record], columns: Mapping[str, str]) -> int | None:
    """The row of column names: the first that is one, with nothing but headers, titles and remarks above it."""
    for index, record in enumerate(records):
        texts = [cell.text for cell in record.cells]
        if known_names(texts, columns):
            return index
        filled = [text for text in texts if flat(text)]
        if len(filled) > 1 and not _header_key(texts[0]):
            return None
    return None


def _say_no_names(rows: Rows, records: Sequence[Record]) -> None:
    for record in records:
        texts = [cell.text for cell in record.cells]
        if sum(bool(flat(text)) for text in texts) > 1 and not _header_key(texts[0]):
            said = "No row of column names was found; the columns were read as what, where, details."
            rows.notes.append(("form", record.number, said + near_names(texts, 2)))
            return


def _named(rows: Rows, record: Record, columns: Mapping[str, str]) -> None:
    """The row of column names; a name that is nobody's is said, and so is a firm's name that is missing."""
    rows.columns = columns_of([cell.text for cell in record.cells], columns)
    for name, role in zip(rows.columns.names, rows.columns.roles, strict=True):
        if name and not role:
            said = f"The column '{name}' is not known; its cells are kept as your own words.{near_names([name])}"
            rows.notes.append(("form", record.number, said))
    found = columns_of(rows.columns.names, {name: name for name in columns}).roles
    for name in columns:
        if name not in found:
            rows.notes.append(("form", record.number, f"The firm's column '{name}' is not among the columns here."))


def _record(rows: Rows, record: Record) -> None:
    """One row that is not the row of names."""
    row = _row(record, rows.columns)
    lead = next((one for one in row.fields if one.role == "what"), None)
    alone = row.fields[0] if len(row.fields) == 1 else None
    if not row.fields:
        return
    remark = lead or alone
    if remark is not None and remark.text.startswith(_DASHES) and (alone or any(map(str.isalnum, remark.text))):
        rows.left_out.append(record.number)
        return
    if any(one.role == "remark" for one in row.fields):
        rows.left_out.append(record.number)
        row = replace(row, fields=tuple(one for one in row.fields if one.role != "remark"))
        if not row.fields:
            return
    if _header(rows, row) or (alone is not None and _heading_alone(rows, row, alone)):
        return
    if any(holds_dash(one.text) for one in row.fields):
        said = "' -- ' in a cell is kept as typed; only a row that starts with -- is a remark to yourself."
        rows.notes.append(("form", record.number, said))
    row = _headings(rows, row)
    made = row_lines(rows, row) if row.fields else []
    rows.lines.extend(made)
    barred = any(line.kind in ("finding", "unresolved") and "|" in line.what for line in made)
    if alone is not None and barred and not any("notation" in text for _, _, text in rows.notes):
        said = "The bars here are kept as typed: a table's cells are no lines of the notation. Is the file a text?"
        rows.notes.append(("form", record.number, said))


def _row(record: Record, columns: Columns) -> Row:
    """The cells of a record that hold something, each with its column's role and name."""
    fields: list[Field] = []
    for index, cell in enumerate(record.cells):
        text = flat(cell.text)
        if text:
            name = columns.names[index] if index < len(columns.names) else ""
            # A column counts only on the line that the row starts on.
            start = cell.start + len(cell.text) - len(cell.text.lstrip()) if cell.line == record.number else 0
            fields.append(Field(columns.role(index), name, text, cell.text, start, index))
    return Row(record.number, tuple(fields))


def _header_key(text: str) -> str:
    """The header that a first cell names: `property`, `Review window:`; '' if it names none."""
    key = " ".join(text.replace("_", " ").lower().split()).rstrip(" :")
    return key if key in HEADERS else ""


def _header(rows: Rows, row: Row) -> bool:
    """A row such as `property, 12 Elm Street`: the name of a header, then its value; further cells belong to it."""
    first = row.fields[0]
    key = _header_key(first.text)
    if not key or first.index or len(row.fields) < 2 or first.role not in ("what", "heading", "room", "name", ""):
        return False
    value = ", ".join(one.text for one in row.fields[1:])
    typed = Piece(f"{key}: {value}", first.start)
    rows.lines.append(line_of(row.number, "header", typed, Context(), key=key, value=value))
    return True


def _heading_alone(rows: Rows, row: Row, alone: Field) -> bool:
    """A system or a known place alone in its row."""
    if alone.role in ("heading", "room"):
        return False
    found = heading_of(row.number, Piece(alone.text.rstrip(" :"), alone.start), rows.grammar, rows.context)
    if found is None:
        return False
    rows.lines.append(found[0])
    rows.context = found[1]
    rows.heading, rows.room = "", ""
    return True


def _headings(rows: Rows, row: Row) -> Row:
    """The row without its heading and room cells; where they say something new, a heading line for each.

    An empty cell under a filled one counts as filled, as in merged cells; a note says so.
    """
    heading = "; ".join(one.text for one in row.fields if one.role == "heading")
    room = "; ".join(one.text for one in row.fields if one.role == "room")
    start = next((one.start for one in row.fields if one.role in ("heading", "room")), 0)
    rest = replace(row, fields=tuple(one for one in row.fields if one.role not in ("heading", "room")))
    changed = bool(heading) and heading.lower() != rows.heading.lower()
    if changed:
        rows.heading, rows.room = heading, ""
        _below(rows, row.number, Piece(heading, start), place=False)
    if room and room.lower() != rows.room.lower():
        rows.room = room
        _below(rows, row.number, Piece(room, start), place=True)
    elif not room and rows.room and rest.fields:
        rows.carried.append(row.number)
    return rest


def _below(rows: Rows, number: int, name: Piece, place: bool) -> None:
    """A heading line out of a column. An unknown room is a place as typed; an unknown heading gives none."""
    found = heading_of(number, name, rows.grammar, rows.context)
    if found is None and place:
        system = None if rows.context.both else rows.context.system
        after = replace(
            rows.context, system=system, place=name.text, heading=name.text, both=False, where="", under=name.text
        )
        found = line_of(number, "heading", name, after, where=name.text), after
    elif found is None:
        after = replace(rows.context, system=None, place=None, heading=name.text, both=False)
        found = line_of(number, "heading", name, after), after
        near = did_you_mean(name.text.lower(), rows.grammar.systems)
        said = f"The heading '{name.text}' is neither a system nor a known place; the rows below take none from it."
        rows.notes.append(("form", number, said + near))
    rows.lines.append(found[0])
    rows.context = found[1]


def _say_carried(rows: Rows) -> None:
    """One note for all rows whose empty room cell was read as the room above."""
    if rows.carried:
        listed = ", ".join(map(str, rows.carried[:12])) + (" and more" if len(rows.carried) > 12 else "")
        said = f"An empty cell under a room was read as the same room, as in merged cells: rows on lines {listed}."
        rows.notes.append(("form", rows.carried[0], said))
