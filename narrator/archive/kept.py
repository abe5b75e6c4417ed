"""What is kept of an archive between runs: for each inspection the parts of the library that its draft used, and its lines.

A SQLite file in the cache folder, never the truth: one that is missing, damaged or of another version is built again. Rows go
by what a checklist says, not by its path. All of them are of one library, the one named in `about`.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from narrator import __version__
from narrator.archive.files import Inspection
from narrator.archive.parts import digest
from narrator.source.index import INDEX_FORMAT
from narrator.source.store import cache_folder

FORMAT = f"1/{INDEX_FORMAT}/{__version__}"
_SCHEMA = """
CREATE TABLE about(name TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE part(id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, digest TEXT);
CREATE TABLE line(id INTEGER PRIMARY KEY, key TEXT NOT NULL UNIQUE, answer TEXT NOT NULL, asks TEXT NOT NULL, example TEXT NOT NULL,
 source TEXT NOT NULL);
CREATE TABLE inspection(content TEXT PRIMARY KEY, used TEXT NOT NULL, lines TEXT NOT NULL, said TEXT NOT NULL, fault TEXT NOT NULL)
 WITHOUT ROWID;
"""


class KeptLine(NamedTuple):
    """A distinct line: its number, the digest of its answer, an inspection (by content) that has it, and its text as typed, under
    its heading, where that alone reads back as the same line.
    """

    number: str
    key: str
    answer: str
    example: str
    source: str


def content_of(inspection: Inspection) -> str:
    """A digest of all that goes into a draft beside the library."""
    return digest(f"{inspection.kind}\n{inspection.text}")


class Kept:
    """The open file. Sets of numbers are stored as text, a space between."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection
        self.numbers: dict[str, str] = {
            name: str(number) for number, name in connection.execute("SELECT id, name FROM part")
        }

    def about(self, name: str) -> str:
        """One of `library` (its fingerprint) and `glossary` (its terms, as JSON); empty when nothing was kept yet."""
        row = self.connection.execute("SELECT value FROM about WHERE name = ?", (name,)).fetchone()
        return str(row[0]) if row else ""

    def parts(self) -> dict[str, str]:
        """The parts of the library that all rows are of."""
        return dict(self.connection.execute("SELECT name, digest FROM part WHERE digest IS NOT NULL"))

    def set_library(self, parts: Mapping[str, str], fingerprint: str, glossary: str) -> None:
        """Take another library as the one that all rows are of."""
        self.connection.execute("UPDATE part SET digest = NULL")
        self.connection.executemany(
            "INSERT INTO part(name, digest) VALUES (?, ?) ON CONFLICT(name) DO UPDATE SET digest = excluded.digest",
            list(parts.items()),
        )
        rows = [("library", fingerprint), ("glossary", glossary), ("format", FORMAT)]
        self.connection.executemany("INSERT OR REPLACE INTO about VALUES (?, ?)", rows)
        self.numbers = {name: str(n) for n, name in self.connection.execute("SELECT id, name FROM part")}

    def numbers_of(self, names: Iterable[str]) -> str:
        """Numbers of parts; one that the library does not have gets a number too, as it may come."""
        out = []
        for name in names:
            if name not in self.numbers:
                cursor = self.connection.execute("INSERT INTO part(name) VALUES (?)", (name,))
                self.numbers[name] = str(cursor.lastrowid)
            out.append(self.numbers[name])
        return " ".join(sorted(out))

    def known(self, names: Iterable[str]) -> frozenset[str]:
        """Numbers of those parts that any row has asked for or could."""
        return frozenset(self.numbers[name] for name in names if name in self.numbers)

    def contents(self) -> frozenset[str]:
        """What is kept, by content."""
        return frozenset(row[0] for row in self.connection.execute("SELECT content FROM inspection"))

    def add_inspection(
        self, content: str, used: Iterable[str], lines: Iterable[str], said: Iterable[str], fault: str = ""
    ) -> None:
        """Keep an inspection; `fault` says why it could not be drafted."""
        row = (content, self.numbers_of(used), " ".join(lines), " ".join(sorted(said)), fault)
        self.connection.execute("INSERT OR REPLACE INTO inspection VALUES (?, ?, ?, ?, ?)", row)

    def line_numbers(self) -> dict[str, str]:
        """The number of every distinct line by its key."""
        return {key: str(number) for number, key in self.connection.execute("SELECT id, key FROM line")}

    def add_line(self, key: str, answer: str, asks: Iterable[str], example: str, source: str) -> str:
        """Keep a line, or what it is taken for now; returns its number."""
        self.connection.execute(
            "INSERT INTO line(key, answer, asks, example, source) VALUES (?, ?, ?, ?, ?) ON CONFLICT(key) DO UPDATE SET"
            " answer = excluded.answer, asks = excluded.asks",
            (key, answer, self.numbers_of(asks), example, source),
        )
        return str(self.connection.execute("SELECT id FROM line WHERE key = ?", (key,)).fetchone()[0])

    def lines_asking(self, numbers: frozenset[str]) -> Iterator[KeptLine]:
        """Lines whose answer hung on any of these parts."""
        for number, key, answer, asks, example, source in self.connection.execute(
            "SELECT id, key, answer, asks, example, source FROM line ORDER BY id"
        ):
            if not numbers.isdisjoint(asks.split(" ")):
                yield KeptLine(str(number), key, answer, example, source)

    def inspections(self) -> Iterator[tuple[str, str, str, str, str]]:
        """(content, used, lines, said, fault) of every inspection."""
        yield from self.connection.execute("SELECT content, used, lines, said, fault FROM inspection ORDER BY content")

    def forget(self, contents: Iterable[str]) -> None:
        """Take inspections out."""
        self.connection.executemany("DELETE FROM inspection WHERE content = ?", [(each,) for each in contents])

    def forget_lines(self, numbers: Iterable[str]) -> None:
        """Take lines out."""
        self.connection.executemany("DELETE FROM line WHERE id = ?", [(int(each),) for each in numbers])

    def save(self) -> None:
        """Write what was kept; a cache that cannot be written is done without."""
        with suppress(sqlite3.Error):
            self.connection.commit()


def open_kept(tops: Iterable[str], fresh: bool = False) -> Kept:
    """What is kept of the archive in these folders and files; a new file where there is none, or `fresh` is asked for."""
    places = sorted({str(Path(top).resolve()) for top in tops})
    path = None
    with suppress(OSError, RuntimeError, sqlite3.Error):
        path = cache_folder() / f"archive-{digest(json.dumps(places))}.sqlite"
        path.parent.mkdir(parents=True, exist_ok=True)
        if fresh:
            path.unlink(missing_ok=True)
        found = _opened(path)
        if found is not None:
            return found
        path.unlink(missing_ok=True)
        return Kept(_new(sqlite3.connect(path)))
    return in_memory()


def in_memory() -> Kept:
    """Nothing kept, and nothing that will be."""
    return Kept(_new(sqlite3.connect(":memory:")))


def _opened(path: Path) -> Kept | None:
    """The stored file, if it is whole and of this version."""
    if not path.is_file():
        return None
    connection = sqlite3.connect(path, timeout=2)
    try:
        whole = connection.execute("PRAGMA quick_check").fetchone()[0] == "ok"
        row = connection.execute("SELECT value FROM about WHERE name = 'format'").fetchone()
        if whole and row and row[0] == FORMAT:
            return Kept(connection)
    except sqlite3.Error as error:
        if "locked" in str(error):
            connection.close()
            raise  # another run holds it: it is left alone
    connection.close()
    return None


def _new(connection: sqlite3.Connection) -> sqlite3.Connection:
    connection.execute("PRAGMA synchronous = OFF")
    connection.executescript(_SCHEMA)
    return connection
