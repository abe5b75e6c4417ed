"""Texts of a structured checklist as the pieces that lines are built from. They are data: a sign in them is a sign."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from narrator.read.cells import Piece, piece, quotations, trim
from narrator.read.items import read_items
from narrator.read.notation import MOST_CHARACTERS

BREAK = re.compile(r"[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]\s*|\t+")
_SPACES = re.compile(" {2,}")
_PHOTO = re.compile(r"\s*(?:sketch\s+)?(?:photo|pic|picture|img|image)s?\b", re.IGNORECASE)
_DASH = re.compile(r"(?:^|\s)(?:--|—)(?=\s|$)")


def flat(text: str) -> str:
    """A text on one line, without surrounding space."""
    return trim(_SPACES.sub(" ", BREAK.sub(" ", text)) if BREAK.search(text) else text)


def detail_pieces(text: str, start: int) -> tuple[Piece, ...]:
    """A text of details as cells: a new line outside a quotation ends a cell, as a bar does in the notation."""
    if len(text) > MOST_CHARACTERS:
        return (_flat_piece(text, start),)
    spans = quotations(BREAK.sub(lambda match: "," * len(match.group()), text))
    begins = [begin for begin, _ in spans]
    out: list[Piece] = []
    last = 0
    for match in BREAK.finditer(text):
        before = bisect_right(begins, match.start()) - 1
        inside = before >= 0 and match.start() < spans[before][1]
        if not inside and match.group().strip("\t "):
            out.append(_flat_piece(text[last : match.start()], start + last))
            last = match.end()
    out.append(_flat_piece(text[last:], start + last))
    return tuple(part for part in out if part.text)


def _flat_piece(text: str, start: int) -> Piece:
    found = piece(text, start)
    return Piece(flat(found.text), found.start)


def photo_text(texts: Iterable[str]) -> str:
    """Photo numbers as an item of details: `photos 1-4, 7`; a text that says photo itself stays as it is."""
    typed = ", ".join(text for text in map(flat, texts) if text)
    return typed if not typed or _PHOTO.match(typed) else f"photos {typed}"


def photo_numbers_of(text: str) -> tuple[int, ...]:
    """The numbers of `photos 1-4, 7`; empty when it is anything else."""
    found = read_items((Piece(text, 0),)) if text else ()
    return found[0].numbers if len(found) == 1 and found[0].kind == "photos" else ()


def shown(cells: Sequence[str], head: str = "", reason: str = "") -> str:
    """The cells as a line of the notation shows them: `head: what | where | details - reason`."""
    texts = list(cells)
    while texts and not texts[-1]:
        texts.pop()
    line = texts[0] if texts else ""
    for text in texts[1:]:
        line += f" | {text}" if text else " |"
    line = line.strip()
    line = f"{head}: {line}".rstrip() if head else line
    return f"{line} - {reason}" if reason else line


def holds_dash(text: str) -> bool:
    """Whether a text holds the sign that would begin a remark in the notation, and words after it."""
    found = _DASH.search(text)
    return found is not None and any(map(str.isalnum, text[found.end() :]))


def text_of(value: Any) -> str:
    """A value as text: nothing and a list are '', true and false are yes and no."""
    if value is None or isinstance(value, list):
        return ""
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def one_text(data: Mapping[str, Any], key: str) -> str:
    """The text of a key, '' when it is not there."""
    return text_of(data.get(key))


def texts_of(value: Any) -> Sequence[str]:
    """A text or a list of texts as texts."""
    return [text_of(one) for one in value] if isinstance(value, list) else [] if value is None else [text_of(value)]
