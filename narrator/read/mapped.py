"""A checklist in YAML or JSON: headers as keys, lines as mappings whose texts are data, or as lines of the notation."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from narrator.errors import Fault, NarratorError, did_you_mean
from narrator.read.cells import Piece
from narrator.read.fields import detail_pieces, flat, holds_dash, photo_numbers_of, photo_text, shown
from narrator.read.items import read_items
from narrator.read.lines import (
    MOST_LINES,
    Context,
    Grammar,
    described,
    description_of,
    findings_of,
    finish,
    heading_of,
    line_of,
    own_of,
    status_of,
)
from narrator.read.model import STATUSES, Checklist, Line
from narrator.read.notation import read_typed
from narrator.read.stands import comment_notes, found_at
from narrator.source.positions import Key, Located
from narrator.source.schema import schema_faults

_KINDS = ("heading", "note", "own", "name", *(name.replace(" ", "_") for name in STATUSES), "what", "photos")


@dataclass(slots=True)
class _Reading:
    """The file, and what has been read of it so far."""

    located: Located
    grammar: Grammar
    context: Context = field(default_factory=Context)
    lines: list[Line] = field(default_factory=list)
    left_out: list[int] = field(default_factory=list)
    notes: list[tuple[str, int, str]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Item:
    """One mapping of `lines`: its texts, its key path, its line number, and the column (from 0) it starts at."""

    data: Mapping[str, Any]
    key: Key
    number: int
    start: int


def read_mapped(located: Located, grammar: Grammar) -> Checklist:
    """The checklist of a YAML or JSON file. Raises NarratorError with every way in which it does not fit its schema."""
    listed = located.value.get("lines") if isinstance(located.value, dict) else None
    if isinstance(listed, list) and len(listed) > MOST_LINES:
        message = f"The checklist has {len(listed)} lines; the most is {MOST_LINES}. Split it by inspection."
        raise NarratorError([located.fault(("lines", MOST_LINES), message)])
    faults = schema_faults(located, "checklist")
    if faults:
        raise NarratorError(_explained(fault, located) for fault in faults)
    reading = _Reading(located, grammar)
    _headers(reading)
    for index, value in enumerate(located.value["lines"]):
        key: Key = ("lines", index)
        line, column = located.places[key]
        if isinstance(value, str):
            _typed(reading, value, key, line)
        else:
            _mapping(reading, _Item(value, key, line, column - 1))
    notes = [*reading.notes, *comment_notes(located)]
    return finish(located.path, reading.lines, reading.left_out, notes)


def _explained(fault: Fault, located: Located) -> Fault:
    """A fault; where an item has one key that is none of ours, it was meant for a line of the notation."""
    path = fault.key.split(".")
    if len(path) == 3 and path[0] == "lines" and " is not a key here." in fault.message:
        item = located.value["lines"][int(path[1])]
        if isinstance(item, dict) and len(item) == 1:
            said = " If it is a line of the notation, put the whole line in quotation marks."
            return replace(fault, message=fault.message + said)
    return fault


def _headers(reading: _Reading) -> None:
    """Every key beside `format` and `lines` is a header; a list of clients gives one header each."""
    for key, value in reading.located.value.items():
        if key in ("format", "lines"):
            continue
        name = key.replace("_", " ")
        values = list(enumerate(value)) if isinstance(value, list) and value else [(None, value)]
        for index, one in values:
            spot = reading.located.places[(key,) if index is None else (key, index)]
            text = flat(_text(one))
            typed = Piece(f"{name}: {text}".rstrip(), spot[1] - 1)
            reading.lines.append(line_of(spot[0], "header", typed, Context(), key=name, value=text))


def _typed(reading: _Reading, text: str, key: Key, number: int) -> None:
    """A plain text: a line of the notation, or several if it holds line breaks."""
    found = found_at(reading.located, key, text)
    for part in re.split(r"\r\n|[\n\r]", text):
        start = found[1] if found else 0
        lines, remark, reading.context = read_typed(number, part, start, reading.grammar, reading.context)
        reading.lines.extend(lines)
        if remark and number not in reading.left_out:
            reading.left_out.append(number)


def _mapping(reading: _Reading, item: _Item) -> None:
    """One mapping as one line, or several where its `what` holds a `;`."""
    data = item.data
    if _one(data, "remark"):
        reading.left_out.append(item.number)
    kind = next((name for name in _KINDS if name in data), None)
    if kind is None:
        return
    if kind == "heading":
        _heading(reading, item)
        return
    texts = [*_list(data.get("where")), *_list(data.get("details")), *(_one(data, key) for key in (kind, "reason"))]
    if kind != "note" and any(map(holds_dash, texts)):
        said = "' -- ' is kept as typed; a remark to yourself has its own key, `remark`."
        reading.notes.append(("form", item.number, said))
    if kind != "note" and "|" in _one(data, kind):
        said = f"The bar in `{kind}` is kept as typed; place and details have their own keys, `where` and `details`."
        reading.notes.append(("form", item.number, said))
    reading.lines.extend(_lines(reading, item, kind))


def _lines(reading: _Reading, item: _Item, kind: str) -> list[Line]:
    """The lines of a mapping that is no heading, by its kind."""
    data, context, number = item.data, reading.context, item.number
    first, where = flat(_one(data, kind)), "; ".join(filter(None, map(flat, _list(data.get("where")))))
    details, exact = _details(reading.located, item)
    cells = (first, where, *(part.text for part in details))
    if kind == "note":
        typed = _whole(item, shown((first,), "note"))
        return [line_of(number, "note", typed, context, value=_one(data, "note").strip())]
    if kind == "photos":
        return [_photos(item, context)]
    status = kind.replace("_", " ")
    if status in STATUSES:
        reason = flat(_one(data, "reason"))
        value = shown(cells, "", reason)
        typed = _whole(item, shown(cells, status, reason))
        made = [status_of(number, status, typed, first, where, details, Piece(reason, item.start), value, context)]
    elif kind == "own":
        made = [own_of(number, _whole(item, shown(cells, "own")), first, where, details, shown(cells), context)]
    elif kind == "name":
        made = _description(reading, item, first, where, details)
    elif not first:
        typed = _whole(item, shown(cells))
        made = [line_of(number, "unresolved", typed, context, reason="Nothing stands in `what`.")]
    else:
        found = found_at(reading.located, (*item.key, kind), first, number)
        what = Piece(first, found[1] if found else item.start)
        items = read_items(details)
        made, reading.context = findings_of(number, _whole(item, shown(cells)), what, where, items, context, True)
        exact = exact and found is not None
    return made if exact else [_placed(line, item) for line in made]


def _placed(line: Line, item: _Item) -> Line:
    """A line whose texts stand on other lines of the file: its columns are those of the item's start."""
    at = item.start + 1
    return replace(line, column=at, items=tuple(replace(one, column=at) for one in line.items))


def _description(reading: _Reading, item: _Item, name: str, where: str, details: tuple[Piece, ...]) -> list[Line]:
    """`name` and `value`; a name that speaks of a condition is read as a finding, as in the notation."""
    value = flat(_one(item.data, "value"))
    cells = (f"{name} = {value}", where, *(part.text for part in details))
    typed = _whole(item, shown(cells))
    if not name or not value:
        empty = "name" if not name else "value"
        reason = f"Nothing stands in `{empty}`."
        return [line_of(item.number, "unresolved", typed, reading.context, reason=reason)]
    if described(name, reading.grammar):
        return [description_of(item.number, typed, name, value, where, details, reading.context)]
    said = f"'{name}' speaks of a condition; it was read as a finding, with '{value}' among its details."
    reading.notes.append(("form", item.number, said))
    pieces = (*detail_pieces(value, item.start), *details)
    made, reading.context = findings_of(
        item.number, typed, Piece(name, item.start), where, read_items(pieces), reading.context, True
    )
    return made


def _heading(reading: _Reading, item: _Item) -> None:
    """A heading. An unknown one ends the heading above and gives no place: it may be any words."""
    name = Piece(flat(_one(item.data, "heading")), item.start)
    found = heading_of(item.number, name, reading.grammar, reading.context) if name.text else None
    if found is None:
        after = replace(reading.context, system=None, place=None, heading=name.text or None, both=False)
        found = line_of(item.number, "heading", name, after), after
        near = did_you_mean(name.text.lower(), reading.grammar.systems)
        said = f"The heading '{name.text}' is neither a system nor a known place; the lines below take no place from it."
        reading.notes.append(("form", item.number, said + near))
    reading.lines.append(found[0])
    reading.context = found[1]


def _photos(item: _Item, context: Context) -> Line:
    """A caption, or an unresolved line if the numbers cannot be read."""
    text = photo_text(_list(item.data["photos"]))
    caption = flat(_one(item.data, "caption"))
    typed = _whole(item, shown((caption,), text or "photos"))
    numbers = photo_numbers_of(text)
    if not numbers:
        reason = "The photo numbers cannot be read; write them like 1-4, 7."
        return line_of(item.number, "unresolved", typed, context, reason=reason)
    return line_of(item.number, "photos", typed, context, value=caption, photos=numbers)


def _details(located: Located, item: _Item) -> tuple[tuple[Piece, ...], bool]:
    """The detail cells, photos last, and whether each stands on the item's own line as it is typed."""
    out: list[Piece] = []
    exact = True
    typed = item.data.get("details")
    for index, text in enumerate(_list(typed)):
        key = (*item.key, "details", index) if isinstance(typed, list) else (*item.key, "details")
        found = found_at(located, key, text, item.number)
        exact = exact and found is not None
        out.extend(detail_pieces(text, found[1] if found else item.start))
    photos = photo_text(_list(item.data.get("photos")))
    if photos and "photos" in item.data:
        exact = False
        out.append(Piece(photos, item.start))
    return tuple(out), exact or not out


def _whole(item: _Item, text: str) -> Piece:
    return Piece(text, item.start)


def _one(data: Mapping[str, Any], key: str) -> str:
    return _text(data.get(key))


def _text(value: Any) -> str:
    """A value as text: nothing and a list are '', true and false are yes and no."""
    if value is None or isinstance(value, list):
        return ""
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def _list(value: Any) -> Sequence[str]:
    return [_text(one) for one in value] if isinstance(value, list) else [_text(value)] if value is not None else []
