"""The checklist notation: the first rule that fits decides what a line is.

Rules, in order: blank · remark (`--`, em dash) · reserved word and `:` · name of a system or known place and `:` ·
first `|`, tab or `=` · a line that exactly names a system or known place · else a finding without bars.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import partial

from narrator.compose.place import Places, class_of, is_known, written_out
from narrator.read.above import MOST_OF_A_PLACE, REPEATS, placed, remember
from narrator.read.cells import (
    Piece,
    cells,
    first_sign,
    outside,
    piece,
    public_part,
    quotations,
    split,
    strip_end,
    strip_line,
    trim,
)
from narrator.read.items import leading_numbers, photo_numbers, read_item, read_items
from narrator.read.lines import (
    MOST_BYTES,
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
    refuse_long,
    status_of,
)
from narrator.read.model import HEADERS, STATUSES, Checklist, Item, Line

__all__ = ["MOST_BYTES", "MOST_LINES", "Grammar", "finish", "read_checklist"]

_ENDS = re.compile(r"\r\n|\n|\r")
_WORDS = sorted((*HEADERS, *STATUSES, "note", "own"), key=len, reverse=True)
RESERVED = re.compile(r"(" + "|".join(word.replace(" ", r"\s+") for word in _WORDS) + r")\s*:", re.IGNORECASE)
PHOTOS = re.compile(r"(?:photos?|pics?|pictures?)(?:\s*\.?\s*(#?\d[^:]{0,400}))?\s*:", re.IGNORECASE)
_NUMBERS = re.compile(r"(?:[\d\s,;&+#–-]|and|to|thru)*", re.IGNORECASE)
REASON = re.compile(r"\s[-–]\s")
MOST_CHARACTERS = 10_000  # of a line that is not a note
_MOST_HEADINGS = 8  # on one line: `Garage: Kitchen: ...`


def read_checklist(text: str, path: str, grammar: Grammar) -> Checklist:
    """A checklist from its text; every line ends up somewhere. Raises NarratorError only for one that is too long."""
    raw = _ENDS.split(text)
    refuse_long(text, path, len(raw))
    lines: list[Line] = []
    left_out: list[int] = []
    context = Context()
    for number, typed in enumerate(raw, 1):
        found, remark, context = read_typed(number, typed, 0, grammar, context)
        if remark:
            left_out.append(number)
        lines.extend(found)
    return finish(path, lines, left_out, grammar.places)


def read_typed(
    number: int, typed: str, start: int, grammar: Grammar, context: Context, headings: int = 0
) -> tuple[list[Line], bool, Context]:
    """A line as typed, from its column on; returns its parts, whether a remark was left out, and the context below."""
    stripped = strip_line(typed, start)
    if not stripped.text:
        return [], False, context
    if stripped.text.startswith(("--", "—")):
        return [], True, context
    return read_line(number, stripped, grammar, context, headings)


def read_line(
    number: int, line: Piece, grammar: Grammar, context: Context, headings: int = 0
) -> tuple[list[Line], bool, Context]:
    """One line by the rules; returns its parts, whether a remark was left out, and the context for the next line."""
    match = RESERVED.match(line.text)
    key = " ".join(match.group(1).lower().split()) if match else ""
    after = match.end() if match else 0
    rest = piece(line.text[after:], line.start + after)
    if key == "note":
        return [line_of(number, "note", line, context, value=rest.text)], False, context
    if len(line.text) > MOST_CHARACTERS:
        reason = f"The line has {len(line.text)} characters; the most is {MOST_CHARACTERS}. Split it."
        return [line_of(number, "unresolved", line, context, reason=reason)], False, context
    if key:
        return _after_colon(number, line, rest, partial(_reserved, number, key, context))
    colon = line.text.find(":")
    photos = PHOTOS.match(line.text)
    if photos and _NUMBERS.fullmatch(photos.group(1) or ""):
        rest = piece(line.text[photos.end() :], line.start + photos.end())
        caption = partial(_photos, number, photos, context)
        return _after_colon(number, line, rest, lambda typed, told: ([caption(typed, told)], context))
    if colon > 0 and headings < _MOST_HEADINGS:
        heading = heading_of(number, Piece(trim(line.text[:colon]), line.start), grammar, context)
        if heading:
            head, context = heading
            rest = piece(line.text[colon + 1 :], line.start + colon + 1)
            below, remark, context = read_typed(number, rest.text, rest.start, grammar, context, headings + 1)
            return [head, *below], remark, context
    public, remark = public_part(line)
    sign, at = first_sign(public)
    if sign == "|":
        found, context = _barred(number, public, cells(public), grammar, context)
        return found, remark, context
    if sign == "=":
        return (*_equals(number, public, at, grammar, context, remark),)
    heading = heading_of(number, public, grammar, context)
    if heading:
        return [heading[0]], remark, heading[1]
    found, context = _unbarred(number, public, grammar, context)
    if public.text.endswith(":"):
        # A heading that no list knows: what follows is no longer at the place above.
        context = replace(context, system=None, place=None, heading=None, both=False)
    return found, remark, context


def _after_colon(
    number: int, line: Piece, rest: Piece, made: Callable[[Piece, Piece], tuple[list[Line], Context]]
) -> tuple[list[Line], bool, Context]:
    """What a reserved word takes: the rest of the line up to a remark. A quotation may open right after the colon."""
    public, remark = public_part(rest)
    typed = Piece(trim(line.text[: rest.start - line.start + len(public.text)]), line.start) if remark else line
    lines, context = made(typed, strip_end(public))
    return lines, remark, context


def _photos(number: int, match: re.Match[str], context: Context, line: Piece, rest: Piece) -> Line:
    """A caption; the numbers may also open the rest: `photos: 1-4 front`."""
    numbers, caption = photo_numbers(match.group(1) or ""), rest.text
    if not match.group(1):
        numbers, caption = leading_numbers(rest.text)
    if not numbers:
        reason = "The photo numbers cannot be read; write them like `photos 1-4, 7: front elevation`."
        return line_of(number, "unresolved", line, context, reason=reason)
    return line_of(number, "photos", line, context, value=caption, photos=numbers)


def _reserved(number: int, key: str, context: Context, line: Piece, rest: Piece) -> tuple[list[Line], Context]:
    if key in HEADERS:
        return [line_of(number, "header", line, context, key=key, value=rest.text)], context
    if key in STATUSES:
        spans = quotations(rest.text)
        dash = next((m for m in REASON.finditer(rest.text) if outside(m.start() + 1, spans)), None)
        reason = piece(rest.text[dash.end() :], rest.start + dash.end()) if dash else Piece("", rest.start)
        parts = cells(Piece(trim(rest.text[: dash.start()]), rest.start)) if dash else cells(rest)
        where = parts[1].text if len(parts) > 1 else ""
        made = status_of(number, key, line, parts[0].text, where, parts[2:], reason, rest.text, context)
    else:
        parts = cells(rest)
        where = parts[1].text if len(parts) > 1 else ""
        made = own_of(number, line, parts[0].text, where, parts[2:], rest.text, context)
    return [made], remember(context, made)


def _barred(
    number: int, line: Piece, parts: tuple[Piece, ...], grammar: Grammar, context: Context
) -> tuple[list[Line], Context]:
    """A finding with bars: what | where | details."""
    where = parts[1].text if len(parts) > 1 else ""
    details = parts[2:]
    if not parts[0].text:
        made = line_of(number, "unresolved", line, context, reason="Nothing stands before the first bar.")
        return [made], remember(context, placed(made, where, context))
    if where and all_typed(parts[1], grammar.places):
        # The place was skipped: what stands in its cell is nothing but details.
        where, details = "", parts[1:]
    return findings_of(number, line, parts[0], where, read_items(details), context, True, grammar.places)


def all_typed(cell: Piece, places: Places | None = None) -> bool:
    """Whether a cell holds nothing but details: photos, counts, sources, quotations, overrides, figures."""
    typed = {"photos", "sketch", "count", "basis", "act", "override", "quote", "series"}
    items = [read_item(part) for part in split(cell, ",")]
    for index, item in enumerate(items):
        figure = item.kind == "value" and (index or (places is not None and _figure_alone(item, places)))
        if item.kind not in typed and not figure:
            return False
    return bool(items)


def _figure_alone(item: Item, places: Places) -> bool:
    """Whether a figure says how much (`gap 1/4 in`), and not where (`3 ft from tub`, `bath 2`)."""
    words = item.label.lower().split()
    measured = len(words) < 3 and item.quantity is not None and bool(item.quantity.unit)
    return measured and places.words.isdisjoint(words)


def _equals(
    number: int, line: Piece, at: int, grammar: Grammar, context: Context, remark: bool
) -> tuple[list[Line], bool, Context]:
    """`name = value | where | details`, or a finding when the left side speaks of a condition."""
    left, right = trim(line.text[:at]), piece(line.text[at + 1 :], line.start + at + 1)
    if not left or not cells(right)[0].text:
        side = "left" if not left else "right"
        reason = f"Nothing stands on the {side} of the `=`."
        return [line_of(number, "unresolved", line, context, reason=reason)], remark, context
    if described(left, grammar):
        parts = cells(right)
        where = parts[1].text if len(parts) > 1 else ""
        made = description_of(number, line, left, parts[0].text, where, parts[2:], context)
        return [made], remark, remember(context, made)
    sign, _ = first_sign(Piece(right.text.replace("=", " "), right.start))
    if sign == "|":
        found, context = _barred(number, line, cells(line), grammar, context)
    else:
        found, context = _unbarred(number, line, grammar, context)
    return found, remark, context


def _unbarred(number: int, line: Piece, grammar: Grammar, context: Context) -> tuple[list[Line], Context]:
    """A finding without bars: what, known place, details; or only a what."""
    parts = split(line, ",")
    if not parts:
        return [line_of(number, "unresolved", line, context, reason="No words stand here.")], context
    where: list[str] = []
    details: list[Piece] = []
    open_place = True
    for part in parts[1:]:
        item = read_item(part)
        # "Bedroom 3" is no figure of three.
        room = item.kind == "value" and is_known(written_out(part.text, grammar.places), grammar.places)
        if open_place and (item.kind == "words" or room) and _is_place(part.text, grammar):
            where.append(part.text)
        else:
            open_place = open_place and not where
            details.append(part)
    return findings_of(number, line, parts[0], ", ".join(where), read_items(details), context, False, grammar.places)


def _is_place(text: str, grammar: Grammar) -> bool:
    """A known place, `same`, several places split by `;`, or a relation (`left of sink`)."""
    if len(text) > MOST_OF_A_PLACE:
        return False
    parts = [trim(part) for part in written_out(text, grammar.places).split(";")]
    return all(part and (part.lower() in REPEATS or class_of(part, grammar.places) != "") for part in parts)
