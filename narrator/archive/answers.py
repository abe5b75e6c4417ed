"""What the words of a line are taken for, line by line, so that each distinct line of an archive is asked once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from narrator.archive.parts import digest
from narrator.archive.trace import BY_LINE
from narrator.compose.place import Places
from narrator.read.model import Checklist, Line
from narrator.resolve.lines import resolve
from narrator.resolve.model import Resolved
from narrator.source.index import Index

_ASKED = frozenset({"value", "series", "words", "quote"})
"""Details that can change what a line is taken for."""


def askable(checklist: Checklist) -> Iterator[tuple[int, Line]]:
    """Lines that name a thing of the library, each with its number and as if it stood alone."""
    for line in checklist.lines:
        if line.kind == "finding" or (line.kind == "status" and line.key in ("ok", "tested")):
            items = tuple(replace(item, column=1) for item in line.items if item.kind in _ASKED)
            yield line.number, replace(line, number=1, column=1, items=items, photos=(), text=line.what)


def line_key(line: Line) -> str:
    """A digest of all that can change what a line is taken for."""
    items = [[item.kind, item.text, item.label] for item in line.items]
    return digest(
        [line.kind, line.key, line.what, line.where, line.reason, line.heading_system, line.heading_place, items]
    )


def answer_of(line: Line, index: Index, places: Places) -> str:
    """A digest of what a line is taken for: codes, places, bound measures; not the wording of the entries."""
    return digest(_plain(resolve(Checklist("", (line,)), index, places)))


def asked_of(line: Line, index: Index, places: Places) -> tuple[str, frozenset[str]]:
    """The digest of the answer, and the parts of the library that it hung on."""
    assert index.asked is not None
    index.asked.clear()
    found = answer_of(line, index, places)
    used = (f"named:{key[6:]}" if key.startswith("entry:") else key for key in tuple(index.asked))
    return found, frozenset(key for key in used if key.startswith(BY_LINE) and not key.startswith("known:"))


def _plain(found: Resolved) -> str:
    """Instances without the entry itself, whose wording is told apart by its code; loose lines by their reason."""
    rows = [
        [repr(replace(one, entry=None, title="", match=one.match._replace(score=1.0))), *map(repr, one.measures)]
        for one in found.instances
    ]
    results = [kind for _, kind in found.results]
    loose = [bool(each.reason) for each in found.loose]
    return repr([rows, results, loose])
