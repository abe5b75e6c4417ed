"""Markdown (CommonMark with pipe tables). What people wrote is escaped and prints as written."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from narrator.publish.blocks import Block, Condition, Figure, Heading, Items, Para, Row, Table
from narrator.publish.labels import Labels
from narrator.publish.meta import line
from narrator.publish.order import DRAFT_END, is_draft, walk
from narrator.publish.said import charted, numbered, pointer
from narrator.publish.text import DOT

if TYPE_CHECKING:
    from narrator.report import Report

_ANYWHERE = re.compile(r"[\\`*_\[\]#|~{}]")
_ENTITY = re.compile(r"&(?=#|[A-Za-z])")
_LINK = re.compile(r"(?i)(?<=[a-z])(?=://)|(?<=\bwww)(?=\.)")


def escape(text: str) -> str:
    """One line of text, with every sign that Markdown would take for its own made plain."""
    text = _ANYWHERE.sub(r"\\\g<0>", text)
    text = _LINK.sub(r"\\", _ENTITY.sub("&amp;", text).replace("<", "&lt;"))
    if text.startswith(("-", "+", "=", ":", ">")):
        return f"\\{text}"
    return re.sub(r"^(\d{1,9})([.)])(?=\s|$)", r"\1\\\2", text)


def write(report: Report, labels: Labels) -> str:
    """The report as Markdown."""
    blocks = [text for part in walk(report, labels) for block in part.blocks for text in _laid_out(block)]
    if is_draft(report):
        blocks.append(f"*{DRAFT_END}*")
    return "\n\n".join(blocks) + "\n"


def _laid_out(block: Block) -> Iterator[str]:
    if isinstance(block, Heading):
        yield f"{'#' * block.level} {escape(block.text)}"
    elif isinstance(block, Para):
        if block.role == "colophon":
            yield "---"
        yield escape(block.text + pointer(block))
    elif isinstance(block, Items):
        if block.label:
            yield escape(f"{block.label}:")
        yield "\n".join(f"- {_row(row)}" for row in block.rows)
    elif isinstance(block, Condition):
        yield f"### {block.ref.number}{DOT}{escape(block.title)}"
        yield f"*{escape(line(block.meta))}*"
        yield from map(escape, block.paragraphs)
    elif isinstance(block, Figure):
        yield escape(charted(block))
    else:
        yield _table(block)


def _row(row: Row) -> str:
    return escape(numbered(row) + row.text)


def _table(table: Table) -> str:
    rule = "|" + "---|" * len(table.head)
    return "\n".join([_cells(table.head), rule, *map(_cells, table.rows)])


def _cells(cells: tuple[str, ...]) -> str:
    return "".join(f"| {escape(cell)} " if cell else "| " for cell in cells) + "|"
