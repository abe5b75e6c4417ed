"""The checklist notation: the first rule that fits decides what a line is.

Rules, in order: blank · remark (`--`, em dash) · reserved word and `:` · name of a system or known place and `:` ·
first `|`, tab or `=` · a line that exactly names a system or known place · else a finding without bars.
"""

from __future__ import annotations

import re

from narrator.compose.place import class_of
from narrator.read.cells import (
    Piece,
    cells,
    first_sign,
    outside,
    piece,
    public_part,
    quotations,
    split,
    strip_line,
    trim,
)
from narrator.read.items import photo_numbers, read_item, read_items
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
from narrator.read.model import HEADERS, STATUSES, Checklist, Line

__all__ = ["MOST_BYTES", "MOST_LINES", "Grammar", "finish", "read_checklist"]

_ENDS = re.compile(r"\r\n|\n|\r")
_WORDS = sorted((*HEADERS, *STATUSES, "note", "own"), key=len, reverse=True)
RESERVED = re.compile(r"(" + "|".join(word.replace(" ", r"\s+") for word in _WORDS) + r")\s*:", re.IGNORECASE)
PHOTOS = re.compile(r"photos?\s+([#\d][^:]*?)\s*:", re.IGNORECASE)
REASON = re.compile(r"\s[-–]\s")
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
    return finish(path, lines, left_out)


def read_typed(
    number: int, typed: str, start: int, grammar: Grammar, context: Context
) -> tuple[list[Line], bool, Context]:
    """A line as typed, from its column on; returns its parts, whether a remark was left out, and the context below."""
    stripped = strip_line(typed)
    if not stripped.text:
        return [], False, context
    if stripped.text.startswith(("--", "—")):
        return [], True, context
    return read_line(number, Piece(stripped.text, stripped.start + start), grammar, context)


def read_line(
    number: int, line: Piece, grammar: Grammar, context: Context, headings: int = 0
) -> tuple[list[Line], bool, Context]:
    """One line by the rules; returns its parts, whether a remark was left out, and the context for the next line."""
    match = RESERVED.match(line.text)
    key = re.sub(r"\s+", " ", match.group(1).lower()) if match else ""
    if key == "note" and match:
        value = piece(line.text[match.end() :], line.start + match.end())
        return [line_of(number, "note", line, context, value=value.text)], False, context
    public, remark = public_part(line)
    if not public.text:
        return [], True, context
    if match and len(public.text) >= match.end():
        rest = piece(public.text[match.end() :], public.start + match.end())
        return [_reserved(number, key, public, rest, context)], remark, context
    photos = PHOTOS.match(public.text)
    if photos and photo_numbers(photos.group(1)):
        rest = piece(public.text[photos.end() :], public.start + photos.end())
        numbers = photo_numbers(photos.group(1))
        return [line_of(number, "photos", public, context, value=rest.text, photos=numbers)], remark, context
    colon = public.text.find(":")
    if colon > 0 and headings < _MOST_HEADINGS and outside(public.text, colon, quotations(public.text)):
        heading = heading_of(number, Piece(trim(public.text[:colon]), public.start), grammar, context)
        if heading:
            head, after = heading
            rest = piece(public.text[colon + 1 :], public.start + colon + 1)
            if not rest.text:
                return [head], remark, after
            below, more, after = read_line(number, rest, grammar, after, headings + 1)
            return [head, *below], remark or more, after
    sign, at = first_sign(public)
    if sign == "|":
        found, context = _barred(number, public, cells(public), grammar, context)
        return found, remark, context
    if sign == "=":
        return *_equals(number, public, at, grammar, context, remark),
    heading = heading_of(number, public, grammar, context)
    if heading:
        return [heading[0]], remark, heading[1]
    found, context = _unbarred(number, public, grammar, context)
    return found, remark, context


def _reserved(number: int, key: str, line: Piece, rest: Piece, context: Context) -> Line:
    if key in HEADERS:
        return line_of(number, "header", line, context, key=key, value=rest.text)
    if key in STATUSES:
        spans = quotations(rest.text)
        dash = next((m for m in REASON.finditer(rest.text) if outside(rest.text, m.start() + 1, spans)), None)
        reason = piece(rest.text[dash.end() :], rest.start + dash.end()) if dash else Piece("", rest.start)
        parts = cells(Piece(trim(rest.text[: dash.start()]), rest.start)) if dash else cells(rest)
        where = parts[1].text if len(parts) > 1 else ""
        return status_of(number, key, line, parts[0].text, where, parts[2:], reason, rest.text, context)
    parts = cells(rest)
    where = parts[1].text if len(parts) > 1 else ""
    return own_of(number, line, parts[0].text, where, parts[2:], rest.text, context)


def _barred(
    number: int, line: Piece, parts: tuple[Piece, ...], grammar: Grammar, context: Context
) -> tuple[list[Line], Context]:
    """A finding with bars: what | where | details."""
    if not parts[0].text:
        return [line_of(number, "unresolved", line, context, reason="Nothing stands before the first bar.")], context
    where = parts[1].text if len(parts) > 1 else ""
    details = parts[2:]
    if where and all_typed(parts[1]):
        # The place was skipped: what stands in its cell is nothing but details.
        where, details = "", parts[1:]
    return findings_of(number, line, parts[0], where, read_items(details), context, barred=True)


def all_typed(cell: Piece) -> bool:
    """Whether a cell holds nothing but photos, counts, sources, quotations or overrides."""
    kinds = [read_item(part).kind for part in split(cell, ",")]
    typed = {"photos", "sketch", "count", "basis", "act", "override", "quote", "series"}
    bare = all(kind in typed or (kind == "value" and index) for index, kind in enumerate(kinds))
    return bool(kinds) and bare


def _equals(
    number: int, line: Piece, at: int, grammar: Grammar, context: Context, remark: bool
) -> tuple[list[Line], bool, Context]:
    """`name = value | where | details`, or a finding when the left side speaks of a condition."""
    left, right = trim(line.text[:at]), piece(line.text[at + 1 :], line.start + at + 1)
    if not left or not right.text.strip("| \t"):
        side = "left" if not left else "right"
        reason = f"Nothing stands on the {side} of the `=`."
        return [line_of(number, "unresolved", line, context, reason=reason)], remark, context
    if described(left, grammar):
        parts = cells(right)
        where = parts[1].text if len(parts) > 1 else ""
        return [description_of(number, line, left, parts[0].text, where, parts[2:], context)], remark, context
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
        typed = read_item(part).kind
        if open_place and typed in ("words", "unit") and _is_place(part.text, grammar):
            where.append(part.text)
        else:
            open_place = open_place and not where
            details.append(part)
    return findings_of(number, line, parts[0], ", ".join(where), read_items(details), context, barred=False)


def _is_place(text: str, grammar: Grammar) -> bool:
    """A known place, `same`, several places split by `;`, or a relation (`left of sink`)."""
    if text.lower() == "same":
        return True
    parts = [trim(part) for part in text.split(";")]
    return all(part and class_of(part, grammar.places) != "" for part in parts)
