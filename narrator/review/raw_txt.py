"""Plain text as blocks: one line a paragraph, two empty lines before a heading; also wrapped, or with no empty lines left."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.review.pieces import Raw

_MARK = re.compile(r"\s*[•◦▪‣]\s+(?=\S)")
_BEGINS = re.compile(r"(?:Number[ \u00a0]\d+:|Number: \d+;|[0-9]{1,4}\s*·\s)")
WIDEST = 120
"""Letters. A page without a longer line was wrapped by an editor."""


def blocks(text: str) -> Iterator[Raw]:
    """Every block of a page, in order. Where the page has no double gap, headings are left to be known by their words."""
    lines = unwrapped([line.rstrip() for line in text.split("\n")])
    gaps = any(lines[at][0] == "" == lines[at + 1][0] for at in range(len(lines) - 1))
    empty = 2
    for line, number in lines:
        if not line:
            empty += 1
            continue
        if gaps and empty >= 2:
            yield Raw("heading", line.strip(" \t"), number)
        else:
            mark = _MARK.match(line)  # of a word processor; we write none
            yield Raw("row" if mark else "text", line[mark.end() if mark else 0 :].strip(" \t"), number)
        empty = 0


def unwrapped(lines: list[str]) -> list[tuple[str, int]]:
    """Lines with their numbers. In a page that an editor wrapped, a line goes on in the next where its first word had no room."""
    width = max(map(len, lines))
    out: list[tuple[str, int]] = []
    before = ""
    for number, line in enumerate(lines, 1):
        word = line.split(" ", 1)[0]
        full = width <= WIDEST and before and word and len(before) + 1 + len(word) > width
        if full and not _BEGINS.match(line):
            out[-1] = (f"{out[-1][0]} {line.strip()}", out[-1][1])
        else:
            out.append((line if line.strip() else "", number))
        before = line
    return out
