"""Quotations, cells and items of a line: where its signs count and where they are only words."""

from __future__ import annotations

import re
from typing import NamedTuple

_OPENERS = '"“”„'
_CLOSERS = {'"': '"”', "“": '”"', "”": '”"', "„": '“”"'}
_OPENS_AFTER = re.compile(r"(?:[,|;\t=:]|\b(?:do|because)|\bhold back\s+[-–])\s*$", re.IGNORECASE)
_REMARK = re.compile(r"\s(?:--|—)(?=\s|$)")
_LIST_MARK = re.compile(r"(?:[-*•–]|\d{1,3}\.)\s+")
_BLANKS = " \t\u00a0\u2007\u202f\u200b\ufeff\r\f\v"
_CELL = re.compile(r"[ \u00a0]*\|[ \t\u00a0]*|\t")


class Piece(NamedTuple):
    """A piece of a line and the column (from 0) it starts at."""

    text: str
    start: int


def trim(text: str) -> str:
    """Surrounding space of every kind removed."""
    return text.strip(_BLANKS)


def piece(text: str, start: int) -> Piece:
    """A piece without its surrounding space."""
    left = len(text) - len(text.lstrip(_BLANKS))
    return Piece(trim(text), start + left)


def strip_line(text: str) -> Piece:
    """A line without surrounding space, trailing empty cells and a leading list mark."""
    out = piece(text, 0)
    mark = _LIST_MARK.match(out.text)
    if mark:
        out = piece(out.text[mark.end() :], out.start + mark.end())
    body = out.text.rstrip(_BLANKS + "|")
    # A bar is only a trailing empty cell when something stands before it.
    return Piece(body, out.start) if body else out


def quotations(text: str) -> tuple[tuple[int, int], ...]:
    """Spans of quotations, marks included. One opens at the start of an item or after do, because, hold back -; it
    closes at the next mark; unclosed on its line it is a plain character. A mark alone in its cell is a repeat sign."""
    spans: list[tuple[int, int]] = []
    at = 0
    while at < len(text):
        char = text[at]
        if char not in _OPENERS or not _opens(text, at):
            at += 1
            continue
        rest = text[at + 1 :].lstrip(_BLANKS.replace("\t", ""))
        if char in '"”' and (not rest or rest[0] in "|\t,;"):
            at += 1
            continue
        close = next((i for i in range(at + 1, len(text)) if text[i] in _CLOSERS[char]), None)
        if close is None:
            at += 1
            continue
        spans.append((at, close + 1))
        at = close + 1
    return tuple(spans)


def _opens(text: str, at: int) -> bool:
    """Whether a quotation mark stands where one may open; no more than the 60 characters before it are looked at."""
    before = text[max(0, at - 60) : at]
    return (at <= 60 and not before.strip()) or _OPENS_AFTER.search(before) is not None


def outside(text: str, at: int, spans: tuple[tuple[int, int], ...]) -> bool:
    """Whether a position is outside every quotation."""
    del text
    return not any(start <= at < end for start, end in spans)


def public_part(line: Piece) -> tuple[Piece, bool]:
    """The line up to ` -- ` or ` — ` outside quotations, and whether something was left out."""
    spans = quotations(line.text)
    for match in _REMARK.finditer(line.text):
        if outside(line.text, match.start() + 1, spans):
            return Piece(trim(line.text[: match.start()]), line.start), True
    return line, False


def cells(line: Piece) -> tuple[Piece, ...]:
    """The cells of a line: split at bars and tabs outside quotations."""
    spans = quotations(line.text)
    out: list[Piece] = []
    last = 0
    for match in _CELL.finditer(line.text):
        if outside(line.text, match.start(), spans) and outside(line.text, match.end() - 1, spans):
            out.append(piece(line.text[last : match.start()], line.start + last))
            last = match.end()
    out.append(piece(line.text[last:], line.start + last))
    return tuple(out)


def split(part: Piece, sign: str) -> tuple[Piece, ...]:
    """A piece split at a sign outside quotations; a comma between a digit and exactly three digits does not split."""
    spans = quotations(part.text)
    out: list[Piece] = []
    last = 0
    for at, char in enumerate(part.text):
        if char != sign or not outside(part.text, at, spans):
            continue
        if sign == "," and _thousands(part.text, at):
            continue
        out.append(piece(part.text[last:at], part.start + last))
        last = at + 1
    out.append(piece(part.text[last:], part.start + last))
    return tuple(item for item in out if item.text)


def _thousands(text: str, at: int) -> bool:
    return at > 0 and text[at - 1].isdigit() and re.match(r"\d{3}(?!\d)", text[at + 1 :]) is not None


def first_sign(line: Piece) -> tuple[str, int]:
    """The first `|`, tab or `=` outside quotations and where it stands, or ('', -1)."""
    spans = quotations(line.text)
    for at, char in enumerate(line.text):
        if char in "|\t=" and outside(line.text, at, spans):
            return ("=" if char == "=" else "|", at)
    return "", -1


def unquote(text: str) -> str | None:
    """The words inside a quotation that is the whole text, or None."""
    spans = quotations(text)
    if len(spans) == 1 and spans[0] == (0, len(text)):
        return trim(text[1:-1])
    return None
