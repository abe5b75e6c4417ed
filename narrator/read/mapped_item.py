"""One mapping of a YAML or JSON checklist as a line. Its texts are data; only `details` splits as in the notation."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from narrator.errors import did_you_mean
from narrator.read.above import Context, Grammar, placed, remember
from narrator.read.cells import Piece
from narrator.read.fields import (
    detail_pieces,
    flat,
    holds_dash,
    one_text,
    photo_numbers_of,
    photo_text,
    shown,
    texts_of,
)
from narrator.read.items import read_items
from narrator.read.lines import described, description_of, findings_of, heading_of, line_of, own_of, status_of
from narrator.read.model import STATUSES, Line
from narrator.read.notation import MOST_CHARACTERS
from narrator.read.stands import found_at
from narrator.source.positions import Key, Located

_KINDS = ("heading", "note", "own", "name", *(name.replace(" ", "_") for name in STATUSES), "what", "photos")


@dataclass(slots=True)
class Reading:
    """The file, and what has been read of it so far."""

    located: Located
    grammar: Grammar
    context: Context = field(default_factory=Context)
    lines: list[Line] = field(default_factory=list)
    left_out: list[int] = field(default_factory=list)
    notes: list[tuple[str, int, str]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class MappedItem:
    """One mapping of `lines`: its texts, its key path, its line number, and the column (from 0) it starts at."""

    data: Mapping[str, Any]
    key: Key
    number: int
    start: int


def read_mapping(reading: Reading, item: MappedItem) -> None:
    """One mapping as one line, or several where its `what` holds a `;`."""
    data = item.data
    if one_text(data, "remark"):
        reading.left_out.append(item.number)
    kind = next((name for name in _KINDS if name in data), None)
    if kind is None:
        return
    if kind == "heading":
        _heading(reading, item)
        return
    texts = [text for key in (kind, "where", "details", "reason") for text in texts_of(data.get(key))]
    if kind != "note" and any(map(holds_dash, texts)):
        said = "' -- ' is kept as typed; a remark to yourself has its own key, `remark`."
        reading.notes.append(("form", item.number, said))
    if kind != "note" and "|" in one_text(data, kind):
        said = f"The bar in `{kind}` is kept as typed; place and details have their own keys, `where` and `details`."
        reading.notes.append(("form", item.number, said))
    reading.lines.extend(_lines(reading, item, kind))


def _lines(reading: Reading, item: MappedItem, kind: str) -> list[Line]:
    """The lines of a mapping that is no heading, by its kind."""
    context, number, first = reading.context, item.number, flat(one_text(item.data, kind))
    if kind == "note":
        value = one_text(item.data, "note").strip()
        return [line_of(number, "note", _whole(item, shown((first,), "note")), context, value=value)]
    if kind == "photos":
        return [_photos(item, context)]
    where = "; ".join(filter(None, map(flat, texts_of(item.data.get("where")))))
    details, exact = _details(reading.located, item)
    cells = (first, where, *(part.text for part in details))
    status, reason = kind.replace("_", " "), flat(one_text(item.data, "reason"))
    if sum(map(len, (*cells, reason))) > MOST_CHARACTERS:
        said = f"The item has more than {MOST_CHARACTERS} characters. Split it."
        return [line_of(number, "unresolved", _whole(item, shown(cells, "", reason)), context, reason=said)]
    if kind in ("what", "name"):
        made = _findings(reading, item, cells, details)
    elif kind == "own":
        made = [own_of(number, _whole(item, shown(cells, "own")), first, where, details, shown(cells), context)]
    else:
        typed, value = _whole(item, shown(cells, status, reason)), shown(cells, "", reason)
        why = Piece(reason, item.start)
        made = [status_of(number, status, typed, first, where, details, why, value, context)]
    if kind not in ("what", "name"):
        reading.context = remember(context, made[0])
    return made if exact else [_at_start(line, item) for line in made]


def _findings(reading: Reading, item: MappedItem, cells: tuple[str, ...], details: tuple[Piece, ...]) -> list[Line]:
    """`what`, or `name` and `value`: a name that speaks of a condition is a finding, as it is in the notation."""
    context, number, (first, where) = reading.context, item.number, cells[:2]
    kind = "what" if "what" in item.data else "name"
    if kind == "name":
        value = flat(one_text(item.data, "value"))
        cells = (f"{first} = {value}", *cells[1:])
    typed = _whole(item, shown(cells))
    empty = kind if not first else "value" if kind == "name" and not value else ""
    if empty:
        made = line_of(number, "unresolved", typed, context, reason=f"Nothing stands in `{empty}`.")
        reading.context = remember(context, placed(made, where, context))
        return [made]
    if kind == "name" and described(first, reading.grammar):
        made = description_of(number, typed, first, value, where, details, context)
        reading.context = remember(context, made)
        return [made]
    if kind == "name":
        said = f"'{first}' speaks of a condition; it was read as a finding, with '{value}' among its details."
        reading.notes.append(("form", number, said))
        details = (*detail_pieces(value, item.start), *details)
    found = found_at(reading.located, (*item.key, kind), first, number)
    what = Piece(first, found[1] if found else item.start)
    places, items = reading.grammar.places, read_items(details)
    out, reading.context = findings_of(number, typed, what, where, items, context, True, places)
    return out if found else [replace(line, column=item.start + 1) for line in out]


def _at_start(line: Line, item: MappedItem) -> Line:
    """A line whose details stand on other lines of the file: their columns are those of the item's start."""
    return replace(line, items=tuple(replace(one, column=item.start + 1) for one in line.items))


def _heading(reading: Reading, item: MappedItem) -> None:
    """A heading. An unknown one ends the heading above and gives no place: it may be any words."""
    name = Piece(flat(one_text(item.data, "heading")), item.start)
    found = heading_of(item.number, name, reading.grammar, reading.context) if name.text else None
    if found is None:
        after = replace(reading.context, system=None, place=None, heading=name.text or None, both=False)
        found = line_of(item.number, "heading", name, after), after
        near = did_you_mean(name.text.lower(), reading.grammar.systems)
        said = f"The heading '{name.text}' is neither a system nor a known place; the lines below take none from it."
        reading.notes.append(("form", item.number, said + near))
    reading.lines.append(found[0])
    reading.context = found[1]


def _photos(item: MappedItem, context: Context) -> Line:
    """A caption, or an unresolved line if the numbers cannot be read."""
    text = photo_text(texts_of(item.data["photos"]))
    caption = flat(one_text(item.data, "caption"))
    typed = _whole(item, shown((caption,), text or "photos"))
    numbers = photo_numbers_of(text)
    if not numbers:
        reason = "The photo numbers cannot be read; write them like 1-4, 7."
        return line_of(item.number, "unresolved", typed, context, reason=reason)
    return line_of(item.number, "photos", typed, context, value=caption, photos=numbers)


def _details(located: Located, item: MappedItem) -> tuple[tuple[Piece, ...], bool]:
    """The detail cells, photos last, and whether each stands on the item's own line as it is typed."""
    out: list[Piece] = []
    exact = True
    typed = item.data.get("details")
    for index, text in enumerate(texts_of(typed)):
        key = (*item.key, "details", index) if isinstance(typed, list) else (*item.key, "details")
        found = found_at(located, key, text, item.number)
        exact = exact and found is not None
        out.extend(detail_pieces(text, found[1] if found else item.start))
    photos = photo_text(texts_of(item.data.get("photos")))
    if photos and "photos" in item.data:
        exact = False
        out.append(Piece(photos, item.start))
    return tuple(out), exact or not out


def _whole(item: MappedItem, text: str) -> Piece:
    return Piece(text, item.start)
