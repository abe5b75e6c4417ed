"""Where a text of a YAML or JSON file stands in it, and what YAML leaves out of a line."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from narrator.read.fields import BREAK
from narrator.source.positions import Key, Located

_COMMENT = re.compile(r"\s+#\s?(.*\S)")


def found_at(located: Located, key: Key, text: str, number: int = 0) -> tuple[int, int, bool] | None:
    """Where a text stands as typed: line, column from 0, whether in quotation marks; None when it does not."""
    line, column = located.places[key]
    typed = located.lines[line - 1] if line <= len(located.lines) else ""
    begin = column - 1
    if isinstance(key[-1], str):
        name = typed.find(key[-1], begin)
        begin = name + len(key[-1]) if name >= 0 else begin
    at = typed.find(text, begin) if text and not BREAK.search(text) else -1
    between = typed[begin:at]
    if at < 0 or between.strip(" \t:\"'") or (number and line != number):
        return None
    return line, at, between[-1:] in ("'", '"')


def comment_notes(located: Located) -> list[tuple[str, int, str]]:
    """A note for each YAML comment that follows plain words: `stain # left of sink` loses its end."""
    out: list[tuple[str, int, str]] = []
    for key, text in _leaves(located.value, ()):
        found = found_at(located, key, text)
        if found and not found[2]:
            match = _COMMENT.match(located.lines[found[0] - 1], found[1] + len(text))
            if match:
                said = f"'# {match.group(1)}' is left out: YAML takes it for a comment. Quotation marks would keep it."
                out.append(("form", found[0], said))
    return out


def _leaves(value: Any, key: Key) -> Iterator[tuple[Key, str]]:
    if isinstance(value, str):
        yield key, value
    elif isinstance(value, dict | list):
        for name, child in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _leaves(child, (*key, name))
