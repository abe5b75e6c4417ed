"""Plain text to paste into a form: one line a paragraph, a blank line between, two before a heading."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from narrator.publish.blocks import Block, Condition, Figure, Heading, Items, Para, Row, Table
from narrator.publish.labels import Labels
from narrator.publish.meta import line
from narrator.publish.order import DRAFT, DRAFT_END, is_draft, walk
from narrator.publish.said import charted, numbered, pointer
from narrator.publish.text import DOT

if TYPE_CHECKING:
    from narrator.report import Report


def write(report: Report, labels: Labels) -> str:
    """The report as plain text."""
    blocks = [text for part in walk(report, labels) for block in part.blocks for text in _laid_out(block)]
    if is_draft(report):
        blocks = [DRAFT, *blocks, f"\n{DRAFT_END}"]
    return "\n\n".join(blocks).removeprefix("\n") + "\n"


def _laid_out(block: Block) -> Iterator[str]:
    if isinstance(block, Heading):
        yield f"\n{block.text}"
    elif isinstance(block, Para):
        yield ("\n" if block.role == "colophon" else "") + block.text + pointer(block)
    elif isinstance(block, Items):
        yield "\n".join(([f"{block.label}:"] if block.label else []) + [_row(row) for row in block.rows])
    elif isinstance(block, Condition):
        yield f"\n{block.ref.number}{DOT}{block.title}\n{line(block.meta)}"
        yield from block.paragraphs
    elif isinstance(block, Figure):
        yield charted(block)
    else:
        yield _table(block)


def _row(row: Row) -> str:
    return numbered(row) + row.text


def _table(table: Table) -> str:
    return "\n".join(
        "; ".join(f"{head}: {cell}".rstrip() for head, cell in zip(table.head, row, strict=True)) for row in table.rows
    )
