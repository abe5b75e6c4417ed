"""Plain text as blocks: one line a paragraph, two empty lines before a heading; also wrapped, or with no empty lines left."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.publish.said import CHART
from narrator.review.pieces import Raw

_ENDS = re.compile(r"[.!?:;”\"’)…]\s*$")
_MARK = re.compile(r"\s*(?:[-*•–]|\d{1,3}[.)])\s+(?=\S)")
_NUMBERED = re.compile(r"\s*[0-9]{1,4}\s*·\s")
WIDEST = 120
"""Letters. A page without a longer line was wrapped by an editor: a line that ends within a sentence goes on in the next."""


def blocks(text: str) -> Iterator[Raw]:
    """Every block of a page, in order. Where the page has no double gap, headings are left to be known by their words."""
    lines = [line.rstrip() for line in text.split("\n")]
    gaps = any(not lines[at] and not lines[at + 1] for at in range(len(lines) - 1))
    wrapped = max(map(len, lines)) <= WIDEST
    empty, held, start = 2, "", 0
    inside = False
    for number, line in enumerate([*lines, ""], 1):
        if not line.strip():
            if held:
                yield _block(held, start, inside)
                held = ""
            empty, inside = empty + 1, False
            continue
        if wrapped and len(held.rsplit("\n", 1)[-1]) > WIDEST // 3 and not _ENDS.search(held) and "·" not in held:
            held += "\n" + line.strip()
            continue
        if held:
            yield _block(held, start, inside)
            held, inside = "", True
        if gaps and empty >= 2 and not inside:
            yield Raw("heading", line.strip(" \t"), number)
            inside = bool(_NUMBERED.match(line))
        else:
            held, start = line.strip(" \t"), number
        empty = 0
    if held:
        yield _block(held, start, inside)


def _block(text: str, line: int, inside: bool) -> Raw:
    text = text.replace("\n", " ")
    if text.startswith(f"{CHART} ·"):
        return Raw("chart", text[len(CHART) + 2 :].strip(), line)
    mark = _MARK.match(text)
    return Raw("row", text[mark.end() :], line) if mark and inside else Raw("text", text, line)
