"""A checklist in YAML or JSON: headers as keys, lines as mappings whose texts are data, or as lines of the notation."""

from __future__ import annotations

import re

from narrator.errors import Fault, NarratorError
from narrator.read.above import Context, Grammar
from narrator.read.cells import Piece
from narrator.read.fields import flat, text_of
from narrator.read.lines import MOST_LINES, finish, line_of
from narrator.read.mapped_item import MappedItem, Reading, read_mapping
from narrator.read.model import Checklist
from narrator.read.notation import read_typed
from narrator.read.stands import comment_notes, found_at
from narrator.source.positions import Key, Located
from narrator.source.schema import schema_faults


def read_mapped(located: Located, grammar: Grammar) -> Checklist:
    """The checklist of a YAML or JSON file. Raises NarratorError with every way in which it does not fit its schema."""
    listed = located.value.get("lines") if isinstance(located.value, dict) else None
    if isinstance(listed, list) and len(listed) > MOST_LINES:
        message = f"The checklist has {len(listed)} lines; the most is {MOST_LINES}. Split it by inspection."
        raise NarratorError([located.fault(("lines", MOST_LINES), message)])
    faults = schema_faults(located, "checklist")
    if faults:
        raise NarratorError(_explained(fault, located) for fault in faults)
    reading = Reading(located, grammar)
    _headers(reading)
    for index, value in enumerate(located.value["lines"]):
        key: Key = ("lines", index)
        line, column = located.places[key]
        if isinstance(value, str):
            _typed(reading, value, key, line)
        else:
            read_mapping(reading, MappedItem(value, key, line, column - 1))
    notes = [*reading.notes, *comment_notes(located)]
    return finish(located.path, reading.lines, reading.left_out, grammar.places, notes)


def _explained(fault: Fault, located: Located) -> Fault:
    """A fault; where an item has one key that is none of ours, it was meant for a line of the notation."""
    path = fault.key.split(".")
    if len(path) == 3 and path[0] == "lines" and " is not a key here." in fault.message:
        item = located.value["lines"][int(path[1])]
        if isinstance(item, dict) and len(item) == 1:
            said = " If it is a line of the notation, put the whole line in quotation marks."
            return fault._replace(message=fault.message + said)
    return fault


def _headers(reading: Reading) -> None:
    """Every key beside `format` and `lines` is a header; a list of clients gives one header each."""
    for key, value in reading.located.value.items():
        if key in ("format", "lines"):
            continue
        name = key.replace("_", " ")
        values = list(enumerate(value)) if isinstance(value, list) and value else [(None, value)]
        for index, one in values:
            spot = reading.located.places[(key,) if index is None else (key, index)]
            text = flat(text_of(one))
            typed = Piece(f"{name}: {text}".rstrip(), spot[1] - 1)
            reading.lines.append(line_of(spot[0], "header", typed, Context(), key=name, value=text))


def _typed(reading: Reading, text: str, key: Key, number: int) -> None:
    """A plain text: a line of the notation, or several if it holds line breaks."""
    found = found_at(reading.located, key, text)
    for part in re.split(r"\r\n|[\n\r]", text):
        start = found[1] if found else 0
        lines, remark, reading.context = read_typed(number, part, start, reading.grammar, reading.context)
        reading.lines.extend(lines)
        if remark and number not in reading.left_out:
            reading.left_out.append(number)
