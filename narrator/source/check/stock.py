"""Everything the checks look at, read once: files with their places, entries, criteria, vocabulary, an index."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from narrator.errors import Fault, NarratorError, Pos
from narrator.measure.criterion import Criterion, from_mapping
from narrator.resolve.vocabulary import Vocabulary
from narrator.source import index as store
from narrator.source.entries import stored_entry
from narrator.source.index import Index
from narrator.source.library import LIBRARY_VERSION, Files, criteria_of, documents_of
from narrator.source.model import Entry, entry_from
from narrator.source.positions import Key, Located

# A text that a library writes for print: where it stands, and how it reads.
Text = tuple[Located, Key, str]


@dataclass(frozen=True, slots=True)
class Stock:
    """A library as the checks see it. `entries` are the well-formed ones; `codes` all that have a file."""

    files: Files
    entries: Mapping[str, Entry]
    codes: frozenset[str]
    criteria: Mapping[str, Criterion]
    criteria_at: Mapping[str, tuple[Located, Key]]
    vocabulary: Vocabulary
    index: Index

    def located(self, code: str) -> Located:
        """The file of an entry."""
        return self.files.entries[code]


def stock_of(files: Files, broken: frozenset[str]) -> tuple[Stock, list[Fault]]:
    """The stock of files whose lists are well formed, without the entries in `broken`.

    Beside it the faults of texts that are no templates, whose entries are left out too, and of criteria that cannot be
    read.
    """
    documents = documents_of(files)
    criteria, at, faults = _criteria(files)
    stored: list[dict[str, Any]] = []
    for code, located in sorted(files.entries.items()):
        if code in broken:
            continue
        try:
            stored.append(stored_entry(located, code))
        except NarratorError as error:
            faults.extend(error.faults)
    connection = sqlite3.connect(":memory:")
    rows = [row for row in criteria_of(files) if row["id"] in criteria]
    store.build(connection, documents, stored, {row["id"]: row for row in rows}.values())
    index = Index(connection, LIBRARY_VERSION, store.fingerprint(documents, stored, rows))
    entries = {data["code"]: entry_from(data) for data in stored}
    made = Stock(files, entries, frozenset(files.entries), criteria, at, store.vocabulary(index), index)
    return made, faults


def _criteria(files: Files) -> tuple[dict[str, Criterion], dict[str, tuple[Located, Key]], list[Fault]]:
    found: dict[str, Criterion] = {}
    at: dict[str, tuple[Located, Key]] = {}
    faults: list[Fault] = []
    for _, located in sorted(files.criteria.items()):
        for number, row in enumerate(located.value.get("criteria", [])):
            key: Key = ("criteria", number, "id")
            name = str(row["id"])
            if name in at:
                other = at[name][0].pos(at[name][1])
                faults.append(located.fault(key, f"'{name}' stands also in {other.path}, line {other.line}. Keep one."))
                continue
            at[name] = (located, key)
            try:
                found[name] = from_mapping(row)
            except ValueError as error:
                faults.append(located.fault(("criteria", number), f"{error}."))
    return found, at, faults


def fault_at(located: Located, key: Key, word: str, message: str) -> Fault:
    """A fault at a word of a text: its own line and column where the file shows it, else where the text starts."""
    located, key = located.home(key)
    base = located.fault(key, message)
    start = base.pos.line
    for number in range(start, min(start + 40, len(located.lines) + 1)):
        line = located.lines[number - 1]
        column = line.find(word, base.pos.column - 1 if number == start else 0) if word else -1
        if column >= 0:
            pos = Pos(located.path, number, column + 1)
            return base._replace(pos=pos, excerpt=line.rstrip())
    return base


def listed(names: Sequence[str], most: int = 12) -> str:
    """Names for a message, cut short when there are many."""
    cut = ", ".join(names[:most])
    return cut if len(names) <= most else f"{cut} and {len(names) - most} more"
