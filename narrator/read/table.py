"""Rows and cells of a CSV or TSV text, each knowing its line and column; which sign parts the cells."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from narrator.errors import Fault, Pos

SIGNS = (",", ";", "\t")
_BREAK = re.compile(r"\r\n|\n|\r")
_QUOTED = re.compile(r'"[^"]*(?:""[^"]*)*"(?!")')
_TOLD = re.compile(r'\A"?sep=([^\w\s"]|\t)"?[ \t]*(?:\r\n|\n|\r|\Z)', re.IGNORECASE)
_MOST_FAULTS = 20
MOST_CELLS = 1000  # of a row
_NAMES = {",": "comma", ";": "semicolon", "\t": "tab"}


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell: its text without quotation marks, the line it starts on and the column (from 0) its text starts at."""

    text: str
    line: int
    start: int


@dataclass(frozen=True, slots=True)
class Record:
    """A row: the line it starts on, the line it ends on, its cells."""

    number: int
    last: int
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of a text under one parting sign, and what is wrong with its quotation marks."""

    sign: str
    records: tuple[Record, ...]
    faults: tuple[Fault, ...]


def read_table(text: str, path: str, kind: str, known: Callable[[Sequence[str]], int]) -> Table:
    """The rows of a CSV or TSV text. `known` counts the column names in a row: they tell which sign parts cells."""
    told = _TOLD.match(text)
    if told:
        return _split(text, path, told.group(1), told.end(), 2)
    if kind == "tsv":
        return _split(text, path, "\t")
    tables = [_split(text, path, sign) for sign in SIGNS if sign in text] or [_split(text, path, ",")]
    # The first of the best wins: commas before semicolons before tabs.
    return max(tables, key=lambda table: _likeness(table, known))


def _likeness(table: Table, known: Callable[[Sequence[str]], int]) -> tuple[int, bool, int, float, int]:
    """How well a sign parts the text: column names found, no faults, rows parted, rows of even width, cells."""
    rows = [record for record in table.records if any(cell.text.strip() for cell in record.cells)]
    names = max((known([cell.text for cell in record.cells]) for record in rows[:40]), default=0)
    widths = [len(record.cells) for record in rows]
    parted = sum(width > 1 for width in widths)
    even = max((widths.count(width) for width in set(widths) if width > 1), default=0) / max(len(widths), 1)
    return names, not table.faults, parted, even, sum(widths)


def _split(text: str, path: str, sign: str, at: int = 0, line: int = 1) -> Table:
    """Every record and cell of the text under one sign."""
    plain = re.compile(rf"[^{re.escape(sign)}\r\n]*")
    spaces = re.compile("[ \u00a0]*" if sign == "\t" else "[ \t\u00a0]*")
    records: list[Record] = []
    faults: list[Fault] = []
    begin = at  # where the present line starts
    cells: list[Cell] = []
    number, broken = line, False
    while True:
        # One cell: quoted if its closing mark is followed by the sign, a line break or the end, else as it stands.
        opened = spaces.match(text, at)
        first = opened.end() if opened else at
        found = _QUOTED.match(text, first) if text[first : first + 1] == '"' and not broken else None
        after = spaces.match(text, found.end()) if found else None
        end = after.end() if after else at
        inside = found.group() if found else ""
        parted = sign in inside or _BREAK.search(inside) is not None
        ends = text[end : end + 1] in ("", sign, "\r", "\n")
        if found and ends:
            cells.append(Cell(inside[1:-1].replace('""', '"'), line, first + 1 - begin))
            for brk in _BREAK.finditer(text, found.start(), found.end()):
                line, begin = line + 1, brk.end()
        else:
            if text[first : first + 1] == '"' and not broken and (found is None or parted):
                faults.append(_fault(text, path, sign, (line, begin), first, end if found else None))
                broken = found is None or len(faults) >= _MOST_FAULTS
            bare = plain.match(text, at)
            end = bare.end() if bare else at
            cells.append(Cell(text[at:end], line, at - begin))
        at = end
        if text[at : at + 1] == sign and len(cells) < MOST_CELLS:
            at += 1
            continue
        if text[at : at + 1] == sign:
            said = f"The row has more than {MOST_CELLS} cells. Is a {_NAMES.get(sign, sign)} what parts them?"
            return Table(sign, tuple(records), (*faults, Fault(Pos(path, line, at - begin + 1), "", said)))
        records.append(Record(number, line, tuple(cells)))
        cells = []
        ended = _BREAK.match(text, at)
        if ended is None:
            return Table(sign, tuple(records), tuple(faults))
        at = begin = ended.end()
        line += 1
        number = line


def _fault(text: str, path: str, sign: str, spot: tuple[int, int], opened: int, closed: int | None) -> Fault:
    """A quotation mark that is never closed, or whose cell goes on after it is closed."""
    line, begin = spot
    if closed is None:
        at = opened
        said = "This quotation mark is never closed. Close it; to repeat the row above write `same`"
    else:
        at = closed
        line += len(_BREAK.findall(text, opened, closed))
        begin = max([begin, *(match.end() for match in _BREAK.finditer(text, opened, closed))])
        said = f"The cell goes on after its closing quotation mark; a {_NAMES.get(sign, sign)} is needed here"
    excerpt = _BREAK.split(text[begin : begin + 400], maxsplit=1)[0][:200]
    message = f"{said}. A quotation mark inside a quoted cell is written twice."
    return Fault(Pos(path, line, at - begin + 1), "", message, excerpt)
