"""Quotations, cells and items of a line: where its signs count and where they are only words."""

from __future__ import annotations

import re
from typing import NamedTuple

OPENERS = '"“”„'
_CLOSERS = {'"': '"”', "“": '”"', "”": '”"', "„": '“”"'}
_OPENS_AFTER = re.compile(r"(?:[,|;\t=]|\b(?:do|because):?|\bhold back\s*[-–:])\s*$", re.IGNORECASE)
_REMARK = re.compile(r"(?:^|\s)(?:--|—)(?=\s|$)")
_LIST_MARK = re.compile(r"[-*•–]\s+|\d{1,3}[.)](?:\s+|(?=[^\W\d]))")
# Every space that text knows, and the marks without width that a copied page brings along.
_SPACES = "\t\n\v\f\r\x1c\x1d\x1e\x1f \x85\xa0\u1680\u2028\u2029\u202f\u205f\u3000"
_BLANKS = _SPACES + "".join(map(chr, range(0x2000, 0x200B))) + "\u200b\u200e\u200f\u2060\ufeff\xad"
_NOT_TAB = _BLANKS.replace("\t", "")
_CELL = re.compile(r"[ \t\u00a0]*\|[ \t\u00a0]*|\t")


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


def strip_line(text: str, start: int = 0) -> Piece:
    """A line without surrounding space, trailing empty cells and a leading list mark."""
    out = piece(text, start)
    mark = _LIST_MARK.match(out.text)
    if mark:
        out = piece(out.text[mark.end() :], out.start + mark.end())
    return strip_end(out)


def strip_end(line: Piece) -> Piece:
    """A line without trailing empty cells. A bar is one only when something stands before it."""
    body = line.text.rstrip(_BLANKS + "|")
    return Piece(body, line.start) if body else line


def quotations(text: str) -> tuple[tuple[int, int], ...]:
    """Spans of quotations, marks included. One opens at the start of an item or after do, because, hold back -; it
    closes at the next mark; unclosed on its line it is a plain character. A mark alone in its cell is a repeat sign."""
    spans: list[tuple[int, int]] = []
    at = 0
    while at < len(text):
        char = text[at]
        if char not in OPENERS or not _opens(text, at):
            at += 1
            continue
        after = next((other for other in text[at + 1 : at + 60] if other not in _NOT_TAB), "")
        ends = [found for mark in _CLOSERS[char] if (found := text.find(mark, at + 1)) >= 0]
        if not ends or (char in '"”' and (not after or after in "|\t,;")):
            at += 1
            continue
        spans.append((at, min(ends) + 1))
        at = min(ends) + 1
    return tuple(spans)


def _opens(text: str, at: int) -> bool:
    """Whether a quotation mark stands where one may open; no more than the 60 characters before it are looked at."""
    before = text[max(0, at - 60) : at]
    return (at <= 60 and not trim(before)) or _OPENS_AFTER.search(before) is not None


def outside(at: int, spans: tuple[tuple[int, int], ...]) -> bool:
    """Whether a position is outside every quotation."""
    return not any(start <= at < end for start, end in spans)


def public_part(line: Piece) -> tuple[Piece, bool]:
    """The line up to ` -- ` or ` — ` outside quotations, and whether something was left out."""
    if "--" not in line.text and "—" not in line.text:
        return line, False
    spans = quotations(line.text)
    for match in _REMARK.finditer(line.text):
        if outside(match.end() - 1, spans):
            return Piece(trim(line.text[: match.start()]), line.start), True
    return line, False


def cells(line: Piece) -> tuple[Piece, ...]:
    """The cells of a line: split at bars and tabs outside quotations."""
    spans = quotations(line.text)
    out: list[Piece] = []
    last = 0
    for match in _CELL.finditer(line.text):
        if outside(match.start(), spans) and outside(match.end() - 1, spans):
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
        if char != sign or not outside(at, spans):
            continue
        if sign == "," and _thousands(part.text, at):
            continue
        out.append(piece(part.text[last:at], part.start + last))
        last = at + 1
    out.append(piece(part.text[last:], part.start + last))
    return tuple(item for item in out if item.text)


def _thousands(text: str, at: int) -> bool:
    return at > 0 and text[at - 1].isdigit() and re.match(r"\d{3}(?!\d)", text[at + 1 : at + 5]) is not None


def first_sign(line: Piece) -> tuple[str, int]:
    """The first `|`, tab or `=` outside quotations and where it stands, or ('', -1)."""
    spans = quotations(line.text)
    for at, char in enumerate(line.text):
        if char in "|\t=" and outside(at, spans):
            return ("=" if char == "=" else "|", at)
    return "", -1


def unquote(text: str) -> str | None:
    """The words inside a quotation that is the whole text, or None."""
    spans = quotations(text)
    if len(spans) == 1 and spans[0] == (0, len(text)):
        return trim(text[1:-1])
    return None
