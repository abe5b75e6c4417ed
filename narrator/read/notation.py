"""The checklist notation: the first rule that fits decides what a line is.

Rules, in order: blank · remark (`--`, em dash) · reserved word and `:` · name of a system or known place and `:` · first `|`,
tab or `=` · a line that exactly names a system or known place · else a finding without bars.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from narrator.compose.place import Places, class_of, is_known
from narrator.errors import stop
from narrator.read.cells import Piece, cells, first_sign, outside, piece, public_part, quotations, split, strip_line, trim
from narrator.read.items import photo_numbers, read_item, read_items
from narrator.read.model import HEADERS, STATUSES, Checklist, Line

MOST_BYTES = 4 * 1024 * 1024
MOST_LINES = 20_000
_ENDS = re.compile(r"\r\n|\n|\r")
_RESERVED = re.compile(
    r"(" + "|".join(sorted((re.escape(w).replace(r"\ ", r"\s+") for w in (*HEADERS, *STATUSES, "note", "own")), key=len, reverse=True)) + r")\s*:",
    re.IGNORECASE,
)
_PHOTOS = re.compile(r"photos?\s+([#\d][^:]*?)\s*:", re.IGNORECASE)
_REASON = re.compile(r"\s[-–]\s")
_REPEATS = ('"', "”", "same")


@dataclass(frozen=True, slots=True)
class Grammar:
    """What the reader must know of the library: names of systems (-> id), places, descriptions, and what a condition word is."""

    systems: Mapping[str, str]
    places: Places
    descriptions: frozenset[str]
    has_condition: Callable[[str], bool]


@dataclass(frozen=True, slots=True)
class Context:
    """What stands above a line: the heading in force, and the last what and where typed."""

    system: str | None = None
    place: str | None = None
    heading: str | None = None
    what: str | None = None
    where: str | None = None


def read_checklist(text: str, path: str, grammar: Grammar) -> Checklist:
    """A checklist from its text. Raises NarratorError only for a text that is too long; every line ends up somewhere."""
    if len(text) > MOST_BYTES:
        raise stop(path, "The file is longer than 4 MiB. A checklist is 30 to 150 lines; is this the right file?")
    raw = _ENDS.split(text)
    if len(raw) > MOST_LINES:
        raise stop(path, f"The file has {len(raw)} lines; the most is {MOST_LINES}. Split it by inspection.", MOST_LINES + 1, 1)
    lines: list[Line] = []
    left_out: list[int] = []
    context = Context()
    for number, typed in enumerate(raw, 1):
        stripped = strip_line(typed)
        if not stripped.text:
            continue
        if stripped.text.startswith(("--", "—")):
            left_out.append(number)
            continue
        found, remark, context = _read_line(number, stripped, grammar, context)
        if remark:
            left_out.append(number)
        lines.extend(found)
    return finish(path, lines, left_out)


def finish(path: str, lines: list[Line], left_out: list[int]) -> Checklist:
    """A checklist from its lines: headers gathered by name in the order typed."""
    headers: dict[str, tuple[tuple[str, int], ...]] = {}
    for line in lines:
        if line.kind == "header":
            headers[line.key] = (*headers.get(line.key, ()), (line.value, line.number))
    return Checklist(path, tuple(lines), tuple(left_out), (), headers)


def _read_line(number: int, line: Piece, grammar: Grammar, context: Context) -> tuple[list[Line], bool, Context]:
    """One line by the rules; returns its parts, whether a remark was left out, and the context for the next line."""
    match = _RESERVED.match(line.text)
    key = re.sub(r"\s+", " ", match.group(1).lower()) if match else ""
    if key == "note" and match:
        value = piece(line.text[match.end() :], line.start + match.end())
        return [_line(number, "note", line, context, value=value.text)], False, context
    public, remark = public_part(line)
    if not public.text:
        return [], True, context
    if match and len(public.text) >= match.end():
        rest = piece(public.text[match.end() :], public.start + match.end())
        return [_reserved(number, key, public, rest, context)], remark, context
    photos = _PHOTOS.match(public.text)
    if photos and photo_numbers(photos.group(1)):
        rest = piece(public.text[photos.end() :], public.start + photos.end())
        numbers = photo_numbers(photos.group(1))
        return [_line(number, "photos", public, context, value=rest.text, photos=numbers)], remark, context
    colon = public.text.find(":")
    if colon > 0 and outside(public.text, colon, quotations(public.text)):
        heading = _heading(number, Piece(trim(public.text[:colon]), public.start), grammar, context)
        if heading:
            head, after = heading
            rest = piece(public.text[colon + 1 :], public.start + colon + 1)
            if not rest.text:
                return [head], remark, after
            below, more, after = _read_line(number, rest, grammar, after)
            return [head, *below], remark or more, after
    sign, at = first_sign(public)
    if sign == "|":
        found, context = _barred(number, public, cells(public), grammar, context)
        return found, remark, context
    if sign == "=":
        return *_equals(number, public, at, grammar, context, remark),
    heading = _heading(number, public, grammar, context)
    if heading:
        return [heading[0]], remark, heading[1]
    found, context = _unbarred(number, public, grammar, context)
    return found, remark, context


def _line(number: int, kind: str, line: Piece, context: Context, **fields: object) -> Line:
    base = Line(
        number,
        kind,
        line.text,
        line.start + 1,
        heading_system=context.system,
        heading_place=context.place,
        heading_text=context.heading,
    )
    return replace(base, **fields)  # type: ignore[arg-type]


def _heading(number: int, name: Piece, grammar: Grammar, context: Context) -> tuple[Line, Context] | None:
    """A heading line and the context below it, if the text exactly names a system or a known place."""
    wanted = " ".join(name.text.lower().split())
    system = grammar.systems.get(wanted)
    place = name.text if is_known(name.text, grammar.places) else None
    if system is None and place is None:
        return None
    after = replace(context, system=system or context.system, place=place, heading=name.text)
    return _line(number, "heading", name, context, key=system or "", where=place or ""), after


def _reserved(number: int, key: str, line: Piece, rest: Piece, context: Context) -> Line:
    if key in HEADERS:
        return _line(number, "header", line, context, key=key, value=rest.text)
    if key in STATUSES:
        spans = quotations(rest.text)
        dash = next((m for m in _REASON.finditer(rest.text) if outside(rest.text, m.start() + 1, spans)), None)
        reason = piece(rest.text[dash.end() :], rest.start + dash.end()) if dash else Piece("", rest.start)
        parts = cells(Piece(trim(rest.text[: dash.start()]), rest.start)) if dash else cells(rest)
        items = read_items(parts[2:])
        kept, photos = _photos_of(reason)
        return _line(
            number,
            "status",
            line,
            context,
            key=key,
            what=parts[0].text,
            where=_repeat_where(parts[1].text, context) if len(parts) > 1 else "",
            items=items,
            reason=kept,
            photos=photos,
            value=rest.text,
        )
    parts = cells(rest)
    return _line(
        number,
        "own",
        line,
        context,
        what=parts[0].text.rstrip("?") if parts[0].text.endswith("?") else parts[0].text,
        inferred=parts[0].text.endswith("?"),
        where=_repeat_where(parts[1].text, context) if len(parts) > 1 else "",
        items=read_items(parts[2:]),
        value=rest.text,
        barred=True,
    )


def _photos_of(reason: Piece) -> tuple[str, tuple[int, ...]]:
    """A reason without its photo numbers, and the numbers."""
    kept: list[str] = []
    photos: tuple[int, ...] = ()
    for item in read_items((reason,)) if reason.text else ():
        if item.kind == "photos":
            photos += item.numbers
        else:
            kept.append(item.text)
    return (", ".join(kept), photos) if photos else (reason.text, ())


def _repeat_where(where: str, context: Context) -> str:
    return context.where or "" if where.lower() == "same" else where


def _barred(
    number: int, line: Piece, parts: tuple[Piece, ...], grammar: Grammar, context: Context
) -> tuple[list[Line], Context]:
    """A finding with bars: what | where | details."""
    if not parts[0].text:
        return [_line(number, "unresolved", line, context, reason="Nothing stands before the first bar.")], context
    where = parts[1].text if len(parts) > 1 else ""
    details = parts[2:]
    if where and _all_typed(parts[1]):
        # The place was skipped: what stands in its cell is nothing but details.
        where, details = "", parts[1:]
    return _findings(number, line, parts[0], where, read_items(details), context, barred=True)


def _all_typed(cell: Piece) -> bool:
    """Whether a cell holds nothing but photos, counts, sources, quotations or overrides."""
    kinds = [read_item(part).kind for part in split(cell, ",")]
    typed = {"photos", "sketch", "count", "basis", "act", "override", "quote", "series"}
    bare = all(kind in typed or (kind == "value" and index) for index, kind in enumerate(kinds))
    return bool(kinds) and bare


def _findings(
    number: int,
    line: Piece,
    what: Piece,
    where: str,
    items: tuple[object, ...],
    context: Context,
    barred: bool,
) -> tuple[list[Line], Context]:
    """The findings of a line: one for each part of its first cell split by `;`."""
    wheres = _repeat_where(where, context)
    missing_where = where.lower() == "same" and context.where is None
    typed_what = what
    if what.text.lower() in _REPEATS:
        if context.what is None:
            return [_line(number, "unresolved", line, context, reason="It repeats the line above, but no finding stands above.")], context
        typed_what = Piece(context.what, what.start)
    if missing_where:
        return [_line(number, "unresolved", line, context, reason="'same' repeats a place, but none was typed above.")], context
    out: list[Line] = []
    for part in split(typed_what, ";"):
        asked = part.text.endswith("?")
        text = trim(part.text.rstrip("?")) if asked else part.text
        if not text:
            out.append(_line(number, "unresolved", line, context, reason="Only a question mark stands here."))
            continue
        out.append(
            _line(
                number,
                "finding",
                line,
                context,
                what=text,
                where=wheres,
                items=items,
                inferred=asked,
                barred=barred,
                column=part.start + 1,
            )
        )
    if not out:
        out.append(_line(number, "unresolved", line, context, reason="No words stand here."))
    return out, replace(context, what=typed_what.text, where=wheres or context.where)


def _equals(
    number: int, line: Piece, at: int, grammar: Grammar, context: Context, remark: bool
) -> tuple[list[Line], bool, Context]:
    """`name = value | where | details`, or a finding when the left side speaks of a condition."""
    left, right = trim(line.text[:at]), piece(line.text[at + 1 :], line.start + at + 1)
    if not left or not right.text.strip("| \t"):
        side = "left" if not left else "right"
        return [_line(number, "unresolved", line, context, reason=f"Nothing stands on the {side} of the `=`.")], remark, context
    known = " ".join(left.lower().split()) in grammar.descriptions
    if known or ("," not in left and not grammar.has_condition(left)):
        parts = cells(right)
        made = _line(
            number,
            "description",
            line,
            context,
            key=left,
            value=parts[0].text,
            where=_repeat_where(parts[1].text, context) if len(parts) > 1 else "",
            items=read_items(parts[2:]),
        )
        return [made], remark, context
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
        return [_line(number, "unresolved", line, context, reason="No words stand here.")], context
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
    return _findings(number, line, parts[0], ", ".join(where), read_items(details), context, barred=False)


def _is_place(text: str, grammar: Grammar) -> bool:
    """A known place, `same`, several places split by `;`, or a relation (`left of sink`)."""
    if text.lower() == "same":
        return True
    parts = [trim(part) for part in text.split(";")]
    return all(part and class_of(part, grammar.places) != "" for part in parts)
