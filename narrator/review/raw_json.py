"""The report value as blocks: what its pages print, with the line of each finding in the JSON file."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from narrator.publish.blocks import Block, Condition, Figure, Heading, Items, Para
from narrator.publish.labels import Labels
from narrator.publish.meta import line as meta_line
from narrator.publish.order import walk
from narrator.publish.said import numbered, pointer
from narrator.publish.text import DOT
from narrator.review.pieces import Raw

if TYPE_CHECKING:
    from narrator.report import Report


def blocks(report: Report, labels: Labels, text: str = "") -> Iterator[Raw]:
    """Every printed block; `text` is the file, to find the lines of findings in."""
    lines = _lines(text)
    for part in walk(report, labels):
        for block in part.blocks:
            yield from _laid_out(block, lines)


def _lines(text: str) -> dict[str, int]:
    """Where each id is told first."""
    found: dict[str, int] = {}
    for match in re.finditer(r'"id":\s*("(?:[^"\\]|\\.)*")', text):
        found.setdefault(json.loads(match[1], strict=False), text.count("\n", 0, match.start()) + 1)
    return found


def _laid_out(block: Block, lines: dict[str, int]) -> Iterator[Raw]:
    if isinstance(block, Heading):
        yield Raw("heading", block.text, 0, block.level)
    elif isinstance(block, Para):
        yield Raw("text", block.text + pointer(block), 0)
    elif isinstance(block, Items):
        if block.label:
            yield Raw("text", f"{block.label}:", 0)
        for row in block.rows:
            yield Raw("row", numbered(row) + row.text, 0)
    elif isinstance(block, Condition):
        at = lines.get(block.ref.anchor, 0)
        yield Raw("heading", f"{block.ref.number}{DOT}{block.title}", at, 3, anchor=block.ref.anchor)
        yield Raw("text", meta_line(block.meta), at)
        yield from (Raw("text", text, at) for text in block.paragraphs)
    elif isinstance(block, Figure):
        yield Raw("chart", block.text, 0)
    else:
        yield Raw("head", "", 0, cells=block.head)
        yield from (Raw("cells", "", 0, cells=row) for row in block.rows)
