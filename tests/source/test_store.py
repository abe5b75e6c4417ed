"""The stored index: whatever happens to a cache, it is noticed, and the report is the same."""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from narrator.errors import NarratorError
from narrator.pipeline import draft_text
from narrator.report import Report
from narrator.source import store
from narrator.source.index import Index

TINY = Path(__file__).parent / "check" / "tiny"
CHECKLIST = "visited: 4 March 2026\nsiding too close to roof | rear wall | gap 1 in\nrot in trim | kitchen\nzzz\n"


class Shelf:
    """A library, a cache folder and a count of how often the library was compiled."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.root, self.cache, self.compiled = folder / "library", folder / "cache", 0
        shutil.copytree(TINY, self.root)
        monkeypatch.setenv("NARRATOR_CACHE", str(self.cache))
        compile_library = store.compile_library

        def counted(root: Path) -> Index:
            self.compiled += 1
            return compile_library(root)

        monkeypatch.setattr(store, "compile_library", counted)

    def draft(self) -> Report:
        """A report by the library as it is opened now."""
        return draft_text(CHECKLIST, "x.txt", store.open_library(self.root))

    @property
    def stored(self) -> Path:
        """The stored index."""
        (path,) = self.cache.glob("library-*.sqlite")
        return path

    @property
    def side(self) -> Path:
        """Its side file."""
        return self.stored.with_suffix(".json")


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shelf:
    return Shelf(tmp_path, monkeypatch)


def test_a_missing_cache_is_made_and_then_used(shelf: Shelf) -> None:
    first = shelf.draft()
    assert (shelf.compiled, shelf.stored.is_file(), shelf.side.is_file()) == (1, True, True)
    assert shelf.draft() == first
    assert shelf.compiled == 1
    # Nothing else is left in the folder.
    assert sorted(path.name for path in shelf.cache.iterdir()) == sorted([shelf.stored.name, shelf.side.name])


def cut_short(shelf: Shelf) -> None:
    shelf.stored.write_bytes(shelf.stored.read_bytes()[:-1000])


def emptied(shelf: Shelf) -> None:
    shelf.stored.write_bytes(b"")


def one_byte_altered(shelf: Shelf) -> None:
    raw = bytearray(shelf.stored.read_bytes())
    at = raw.find(b"stops")
    assert at > 0
    raw[at] ^= 1
    shelf.stored.write_bytes(bytes(raw))


def index_gone(shelf: Shelf) -> None:
    shelf.stored.unlink()


def side_gone(shelf: Shelf) -> None:
    shelf.side.unlink()


def side_cut_short(shelf: Shelf) -> None:
    shelf.side.write_text(shelf.side.read_text(encoding="utf-8")[:-10], encoding="utf-8")


def side_no_mapping(shelf: Shelf) -> None:
    shelf.side.write_text("[1]", encoding="utf-8")


def side_not_text(shelf: Shelf) -> None:
    shelf.side.write_bytes(b"\xff\xfe\x00")


def side_nested_deep(shelf: Shelf) -> None:
    shelf.side.write_text("[" * 100_000, encoding="utf-8")


def side_with(key: str, value: Any) -> Callable[[Shelf], None]:
    def change(shelf: Shelf) -> None:
        side = json.loads(shelf.side.read_text(encoding="utf-8"))
        assert key in side
        side[key] = value
        shelf.side.write_text(json.dumps(side), encoding="utf-8")

    return change


def index_is_a_folder(shelf: Shelf) -> None:
    path = shelf.stored
    path.unlink()
    path.mkdir()


DAMAGE: dict[str, Callable[[Shelf], None]] = {
    "cut short": cut_short,
    "emptied": emptied,
    "one byte altered": one_byte_altered,
    "index gone": index_gone,
    "side gone": side_gone,
    "side cut short": side_cut_short,
    "side no mapping": side_no_mapping,
    "side not text": side_not_text,
    "side nested deep": side_nested_deep,
    "another shape of index": side_with("index", "0"),
    "another version of narrator": side_with("narrator", "0.0.1"),
    "another library": side_with("signature", "x"),
    "another digest": side_with("digest", "00000000-0"),
}


@pytest.mark.parametrize("name", DAMAGE)
def test_damage_is_noticed_and_mended(name: str, shelf: Shelf) -> None:
    before = shelf.draft()
    whole = shelf.stored.read_bytes()
    DAMAGE[name](shelf)
    assert shelf.draft() == before
    assert shelf.compiled == 2
    # The deep side file makes the reader give up before it knows of a cache: that one is done without.
    if name != "side nested deep":
        assert shelf.stored.read_bytes() == whole
        assert shelf.draft() == before
        assert shelf.compiled == 2


def test_an_index_that_cannot_be_replaced_is_done_without(shelf: Shelf) -> None:
    before = shelf.draft()
    index_is_a_folder(shelf)
    assert shelf.draft() == before
    assert shelf.compiled == 2


def test_a_changed_library_is_compiled_anew(shelf: Shelf) -> None:
    before = shelf.draft()
    entry = shelf.root / "entries/walls/siding/near-roof.yaml"
    text = entry.read_text(encoding="utf-8")
    entry.write_text(text.replace("Siding nearly touches the roof", "Siding almost touches the roof"), encoding="utf-8")
    after = shelf.draft()
    assert shelf.compiled == 2
    assert before["library"]["fingerprint"] != after["library"]["fingerprint"]
    assert after["sections"][0]["findings"][1]["title"] == "Siding almost touches the roof"


def test_a_new_or_lost_file_is_noticed(shelf: Shelf) -> None:
    shelf.draft()
    entry = shelf.root / "entries/walls/trim/decayed.yaml"
    shutil.copy(entry, entry.with_name("soft.yaml"))
    shelf.draft()
    assert shelf.compiled == 2
    entry.unlink()
    shelf.draft()
    assert shelf.compiled == 3


def test_a_library_with_faults_is_refused_even_beside_a_good_cache(shelf: Shelf) -> None:
    shelf.draft()
    entry = shelf.root / "entries/walls/trim/decayed.yaml"
    entry.write_text(entry.read_text(encoding="utf-8").replace("severity:", "severty:"), encoding="utf-8")
    with pytest.raises(NarratorError, match="Did you mean 'severity'"):
        shelf.draft()


def test_a_cache_folder_that_cannot_be_made_is_done_without(shelf: Shelf) -> None:
    shelf.cache.write_text("a file stands here", encoding="utf-8")
    first = shelf.draft()
    assert shelf.draft() == first
    assert shelf.compiled == 2
    assert shelf.cache.read_text(encoding="utf-8") == "a file stands here"


def test_a_folder_that_refuses_every_write_is_done_without(shelf: Shelf, monkeypatch: pytest.MonkeyPatch) -> None:
    """What a read-only folder does, for a user whom no mode bits hold back."""
    shelf.cache.mkdir()

    def refuse(*_: Any, **__: Any) -> sqlite3.Connection:
        raise sqlite3.OperationalError("unable to open database file")

    connect = sqlite3.connect
    monkeypatch.setattr(sqlite3, "connect", lambda path, **more: connect(path) if path == ":memory:" else refuse())
    first = shelf.draft()
    assert shelf.draft() == first
    assert shelf.compiled == 2
    assert list(shelf.cache.iterdir()) == []


def test_a_write_that_stops_half_way_leaves_the_old_cache(shelf: Shelf, monkeypatch: pytest.MonkeyPatch) -> None:
    shelf.draft()
    whole = shelf.stored.read_bytes()
    (shelf.root / "entries/walls/trim/decayed.yaml").touch()

    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    first = shelf.draft()
    assert shelf.stored.read_bytes() == whole
    assert shelf.draft() == first
    assert shelf.compiled == 3


def test_no_home_and_no_cache_named_is_done_without(shelf: Shelf, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NARRATOR_CACHE")
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)

    def homeless() -> Path:
        raise RuntimeError("Could not determine home directory.")

    monkeypatch.setattr(Path, "home", homeless)
    first = shelf.draft()
    assert shelf.draft() == first
    assert shelf.compiled == 2


def test_odd_signs_in_the_folders_name_do_no_harm(
    shelf: Shelf, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = shelf.draft()
    monkeypatch.setenv("NARRATOR_CACHE", str(tmp_path / "a b#c%41?d=é"))
    assert shelf.draft() == first
    assert shelf.draft() == first
    assert shelf.compiled == 2


def test_the_shipped_index_is_used_if_it_is_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shelf = Shelf(tmp_path / "a", monkeypatch)
    packaged = tmp_path / "b" / "_library"
    shutil.copytree(TINY, packaged)
    shipped = packaged.parent / "_index.sqlite"
    index = store.compile_library(packaged)
    store.write_index(index, tmp_path / "part.sqlite", shipped, store.SHIPPED)
    monkeypatch.setattr(store, "packaged_root", lambda: packaged)
    before = draft_text(CHECKLIST, "x.txt", index)
    assert draft_text(CHECKLIST, "x.txt", store.open_library()) == before
    assert shelf.compiled == 1
    shipped.write_bytes(shipped.read_bytes()[:-1000])
    assert draft_text(CHECKLIST, "x.txt", store.open_library()) == before
    assert shelf.compiled == 2


def test_what_is_stored_is_data_and_never_code(shelf: Shelf) -> None:
    shelf.draft()
    raw = shelf.stored.read_bytes()
    assert raw.startswith(b"SQLite format 3\x00")
    connection = sqlite3.connect(shelf.stored)
    for cells in ("json FROM document", "json, known FROM entry", "json FROM name", "json FROM criterion"):
        for row in connection.execute(f"SELECT {cells}"):
            for cell in row:
                json.loads(cell)
    connection.close()
