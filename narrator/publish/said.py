"""The numbers that a text speaks of, in words."""

from __future__ import annotations

import re

from narrator.compose.english import join_list
from narrator.publish.blocks import Figure, Para, Row
from narrator.publish.text import DOT, numbers

CHART = "Chart"
"""What a paragraph begins with that stands for a picture."""

_SAID = re.compile(r"(?i)\bnumbers?\s\d")


def pointer(block: Para) -> str:
    """` See numbers 1, 3 and 7 to 12.` after a paragraph about findings that names none of their numbers."""
    if not block.refs or _SAID.search(block.text):
        return ""
    every = join_list(numbers(ref.number for ref in block.refs).split(", "))
    return f" See number{'s' if len(block.refs) > 1 else ''} {every}."


def charted(block: Figure) -> str:
    """`Chart · Moisture readings, in percent.`: a picture in words, where none can be shown."""
    return f"{CHART}{DOT}{block.text}"


def numbered(row: Row) -> str:
    """`Number 7: ` before a line of a list that is about a finding."""
    return f"Number {row.ref.number}: " if row.ref else ""
