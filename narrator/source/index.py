"""The library as a stored index: data in SQLite, never code, keyed by content.

A draft reads only what it uses: the shared lists, the names that share a word with a line, and the entries that answered.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Any

from narrator.measure.verdict import Criterion, from_mapping
from narrator.resolve.likeness import Known, Name
from narrator.resolve.spelling import spelling_table
from narrator.resolve.vocabulary import Vocabulary, build_phrases, plain_words
from narrator.resolve.words import understand
from narrator.source.model import Entry, entry_from

# Raised whenever the stored shape changes: an index of another shape is rebuilt.
INDEX_FORMAT = "11"
MOST_NAMES = 60
# The file of `practice/` that holds for every standard; each other one is a standard.
WRITING = "report-writing"

_SCHEMA = """
CREATE TABLE document(name TEXT PRIMARY KEY, json TEXT NOT NULL);
CREATE TABLE entry(code TEXT PRIMARY KEY, json TEXT NOT NULL, known TEXT NOT NULL);
CREATE TABLE name(id INTEGER PRIMARY KEY, code TEXT NOT NULL, key TEXT NOT NULL, json TEXT NOT NULL);
CREATE INDEX name_key ON name(key);
CREATE TABLE posting(word TEXT NOT NULL, id INTEGER NOT NULL, weight INTEGER NOT NULL, PRIMARY KEY(word, id)) WITHOUT ROWID;
CREATE TABLE slip(key TEXT PRIMARY KEY, words TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE form(word TEXT PRIMARY KEY, json TEXT NOT NULL, inside INTEGER NOT NULL) WITHOUT ROWID;
CREATE TABLE criterion(id TEXT PRIMARY KEY, json TEXT NOT NULL);
"""


@dataclass(frozen=True, slots=True)
class Index:
    """An open index. `version` and `fingerprint` name the library it was made from.

    `asked`, where there is one, takes down what a draft asks of the library: `entry:CODE`, `name:KEY`, `word:WORD` and so on.
    Whatever else changes in the library cannot change that draft (see `narrator/archive/`).
    """

    connection: sqlite3.Connection
    version: str
    fingerprint: str
    cache: dict[str, Any] = field(default_factory=dict)
    asked: set[str] | None = None


def build(
    connection: sqlite3.Connection,
    documents: Mapping[str, Any],
    entries: Sequence[Mapping[str, Any]],
    criteria: Iterable[Mapping[str, Any]],
) -> None:
    """Fill an empty database from loaded files: shared lists by name, stored entries, criteria rows."""
    connection.executescript(_SCHEMA)
    words = documents["words"]
    phrases = build_phrases(words)
    slips = spelling_table(words)
    alone = frozenset(words.get("alone", ()))
    vocabulary = vocabulary_from(words, phrases, lambda key: slips.get(key, ()))
    small = {key: value for key, value in words.items() if key not in ("parts", "conditions", "functions", "negated")}
    stored = {**documents, "words": small}
    inside = _inside(phrases)
    forms = [(word, _dump(phrases.get(word, [])), int(word in inside)) for word in sorted({*phrases, *inside})]
    connection.executemany("INSERT INTO form VALUES (?, ?, ?)", forms)
    connection.executemany(
        "INSERT INTO document VALUES (?, ?)", [(name, _dump(value)) for name, value in stored.items()]
    )
    connection.executemany("INSERT INTO slip VALUES (?, ?)", [(key, " ".join(found)) for key, found in slips.items()])
    connection.executemany("INSERT INTO criterion VALUES (?, ?)", [(row["id"], _dump(row)) for row in criteria])
    names: list[tuple[int, str, str, str, list[tuple[str, int]]]] = []
    for entry in sorted(entries, key=lambda item: str(item["code"])):
        parts: set[str] = set()
        conditions: set[str] = set()
        for name in entry["names"]:
            phrase = understand(name, vocabulary)
            parts |= phrase.parts
            conditions |= phrase.conditions
            measured = not phrase.conditions
            row = [sorted(group) for group in (phrase.parts, phrase.conditions, phrase.fine, phrase.others)]
            key = " ".join(plain_words(name))
            weighed = [(word, 4) for word in phrase.conditions] + [(word, 3) for word in phrase.parts]
            if not phrase.parts:
                weighed += [(word, 1) for word in phrase.others]
            if not (measured or phrase.parts or phrase.others or phrase.conditions & alone):
                weighed = []  # "scorched" may be said of anything: such a name is found only when typed exactly
            others = len(phrase.fine | phrase.others) if phrase.parts else 0
            weight = sum(value for _, value in weighed) + others
            names.append((weight, entry["code"], key, _dump([*row, measured]), weighed))
        title = understand(entry["title"][-1][2], vocabulary)
        known = [entry["title"][-1][2], sorted(parts | title.parts), sorted(conditions), entry["room"]]
        connection.execute("INSERT INTO entry VALUES (?, ?, ?)", (entry["code"], _dump(entry), _dump(known)))
    # Names that say least beside the words in common come first: of many that share a word, the nearest are looked at.
    for number, (_, code, key, stored_name, weighed) in enumerate(sorted(names), 1):
        connection.execute("INSERT INTO name VALUES (?, ?, ?, ?)", (number, code, key, stored_name))
        connection.executemany("INSERT OR IGNORE INTO posting VALUES (?, ?, ?)", [(w, number, v) for w, v in weighed])
    connection.commit()


def _dump(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def fingerprint(documents: Mapping[str, Any], entries: Iterable[Mapping[str, Any]], criteria: Iterable[Any]) -> str:
    """A short digest of what the library says, whatever its layout, comments or file order."""
    plain = [without_lines(entry) for entry in sorted(entries, key=lambda item: str(item["code"]))]
    import hashlib  # only when a library is compiled

    text = json.dumps([documents, plain, list(criteria)], ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def without_lines(entry: Mapping[str, Any]) -> dict[str, Any]:
    """An entry without file and line numbers, which say nothing about its words."""
    texts = {
        key: [variant[:3] for variant in value]
        for key, value in entry.items()
        if key in ("title", "observation", "implication", "recommendation")
    }
    return {key: texts.get(key, value) for key, value in entry.items() if key not in ("file", "why_line", "why_file")}


def document(index: Index, name: str) -> Any:
    """A shared list by name (`systems`, `trades`, `places`...), as loaded."""
    if index.asked is not None:
        index.asked.add(f"list:{name}")
    if name not in index.cache:
        row = index.connection.execute("SELECT json FROM document WHERE name = ?", (name,)).fetchone()
        index.cache[name] = json.loads(row[0]) if row else {}
    return index.cache[name]


def entry(index: Index, code: str) -> Entry | None:
    """An entry by code, or None."""
    key = f"entry:{code}"
    if index.asked is not None:
        index.asked.add(key)
    if key not in index.cache:
        row = index.connection.execute("SELECT json FROM entry WHERE code = ?", (code,)).fetchone()
        index.cache[key] = entry_from(json.loads(row[0])) if row else None
    found: Entry | None = index.cache[key]
    return found


def codes(index: Index) -> tuple[str, ...]:
    """Every code of the library, sorted."""
    if index.asked is not None:
        index.asked.add("codes")
    return tuple(row[0] for row in index.connection.execute("SELECT code FROM entry ORDER BY code"))


def component_codes(index: Index, code: str) -> tuple[str, ...]:
    """Every code of the same component (`walls.stucco`), sorted."""
    component = code.rpartition(".")[0]
    if index.asked is not None:
        index.asked.add(f"component:{component}")
    # "/" comes right after "." in the order of codes.
    rows = index.connection.execute(
        "SELECT code FROM entry WHERE code > ? AND code < ? ORDER BY code", (f"{component}.", f"{component}/")
    )
    return tuple(row[0] for row in rows)


def criterion(index: Index, name: str) -> Criterion | None:
    """A criterion by id, or None."""
    key = f"criterion:{name}"
    if index.asked is not None:
        index.asked.add(key)
    if key not in index.cache:
        row = index.connection.execute("SELECT json FROM criterion WHERE id = ?", (name,)).fetchone()
        index.cache[key] = from_mapping(json.loads(row[0])) if row else None
    found: Criterion | None = index.cache[key]
    return found


def exact(index: Index, key: str) -> str | None:
    """The code that answers a name exactly; None when none or more than one does."""
    if index.asked is not None:
        index.asked.add(f"name:{key}")
    rows = index.connection.execute("SELECT DISTINCT code FROM name WHERE key = ?", (key,)).fetchall()
    return rows[0][0] if len(rows) == 1 else None


def name_rows(index: Index, words: Iterable[str]) -> tuple[Name, ...]:
    """The names that share most with these canonical words; a fixed number at most, so a large library costs no more."""
    wanted = sorted(set(words))
    if not wanted:
        return ()
    if index.asked is not None:
        index.asked.update(f"word:{word}" for word in wanted)
    marks = ",".join("?" * len(wanted))
    rows = index.connection.execute(
        "SELECT n.code, n.key, n.json FROM (SELECT id, sum(weight) AS shared FROM posting"
        f" WHERE word IN ({marks}) GROUP BY id ORDER BY shared DESC, id LIMIT {MOST_NAMES}) AS p"
        " JOIN name AS n ON n.id = p.id ORDER BY n.id",
        wanted,
    )
    out = []
    for code, key, text in rows:
        parts, conditions, fine, others, measured = json.loads(text)
        out.append(
            Name(code, key, frozenset(parts), frozenset(conditions), frozenset(fine), frozenset(others), measured)
        )
    return tuple(out)


def known_of(index: Index, wanted: Iterable[str]) -> dict[str, Known]:
    """What each of these entries explains."""
    out: dict[str, Known] = {}
    for code in sorted(set(wanted)):
        key = f"known:{code}"
        if index.asked is not None:
            index.asked.add(key)
        if key not in index.cache:
            row = index.connection.execute("SELECT known FROM entry WHERE code = ?", (code,)).fetchone()
            title, parts, conditions, room = json.loads(row[0])
            index.cache[key] = Known(code, title, frozenset(parts), frozenset(conditions), room)
        out[code] = index.cache[key]
    return out


def vocabulary(index: Index) -> Vocabulary:
    """The word lists of the index."""
    if "vocabulary" not in index.cache:
        forms = _Forms(index.connection, {}, index.asked)
        index.cache["vocabulary"] = vocabulary_from(
            document(index, "words"), forms, partial(_slips, index), _Inside(forms)
        )
    found: Vocabulary = index.cache["vocabulary"]
    return found


def _slips(index: Index, key: str) -> tuple[str, ...]:
    if index.asked is not None:
        index.asked.add(f"slip:{key}")
    row = index.connection.execute("SELECT words FROM slip WHERE key = ?", (key,)).fetchone()
    return tuple(row[0].split()) if row else ()


def _inside(phrases: Mapping[str, Any]) -> frozenset[str]:
    """Words that stand inside a phrase, behind its first word."""
    return frozenset(part for options in phrases.values() for parts, _, _ in options for part in parts[1:])


class _Forms(Mapping[str, Any]):
    """The phrase table, read word by word: a draft meets a few hundred words of thousands."""

    def __init__(
        self, connection: sqlite3.Connection, rows: dict[str, tuple[Any, bool]], asked: set[str] | None
    ) -> None:
        self._connection, self._rows, self._asked = connection, rows, asked

    def row(self, word: str) -> tuple[Any, bool]:
        """(options that start with the word, whether it stands inside a phrase)."""
        if self._asked is not None:
            self._asked.add(f"form:{word}")
        if word not in self._rows:
            found = self._connection.execute("SELECT json, inside FROM form WHERE word = ?", (word,)).fetchone()
            options = [(tuple(parts), kind, canon) for parts, kind, canon in json.loads(found[0])] if found else []
            self._rows[word] = (options, bool(found and found[1]))
        return self._rows[word]

    def __getitem__(self, word: str) -> Any:
        options = self.row(word)[0]
        if not options:
            raise KeyError(word)
        return options

    def __iter__(self) -> Iterator[str]:
        return (row[0] for row in self._connection.execute("SELECT word FROM form WHERE json != '[]' ORDER BY word"))

    def __len__(self) -> int:
        return sum(1 for _ in self)


class _Inside(Container[str]):
    """Words that stand inside a phrase, asked one by one."""

    def __init__(self, forms: _Forms) -> None:
        self._forms = forms

    def __contains__(self, word: object) -> bool:
        return isinstance(word, str) and self._forms.row(word)[1]


def vocabulary_from(
    words: Mapping[str, Any], phrases: Mapping[str, Any], slips: Any, inner: Container[str] | None = None
) -> Vocabulary:
    """A vocabulary from `words.yaml`, its phrase table and a look-up for slips of spelling."""
    if inner is None:
        inner = _inside(phrases)
    return Vocabulary(
        phrases=phrases,
        abbreviations={key: plain_words(full) for key, full in words["abbreviations"].items()},
        fillers=frozenset(words["fillers"]),
        ordinary=frozenset(words.get("ordinary", ())),
        turned=words.get("turned", {}),
        hedges=frozenset(words.get("hedges", ())),
        weights=words["weights"],
        thresholds=words["thresholds"],
        inner=inner,
        neutral=frozenset(words.get("neutral", ())),
        telling=frozenset(words.get("telling", ())),
        exceptions=frozenset(words.get("exceptions", ())),
        slips=slips,
    )


def open_file(path: Path) -> sqlite3.Connection:
    """A read-only connection to a stored index."""
    return sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro&immutable=1", uri=True)
