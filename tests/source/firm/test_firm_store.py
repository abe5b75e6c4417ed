"""The index of a library with a firm over it: kept for both contents, made again when either changes, read without YAML."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from firms import NEAR, firm
from tiny_library import TINY, change

from narrator.errors import NarratorError
from narrator.pipeline import draft_text
from narrator.source import index as shape
from narrator.source import store

ROOT = Path(__file__).parents[3]
LINE = "siding tight to roof | rear wall\n"


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[int]:
    """How often a library with a firm was compiled."""
    monkeypatch.setenv("NARRATOR_CACHE", str(tmp_path / "cache"))
    times: list[int] = []
    compile_firm = store.compile_firm

    def counted(root: Path, folder: Path) -> shape.Index:
        times.append(1)
        return compile_firm(root, folder)

    monkeypatch.setattr(store, "compile_firm", counted)
    return times


def why(base: Path, root: Path | None) -> str:
    report = draft_text(LINE, "x.txt", store.open_library(base, root))
    return report["sections"][0]["findings"][0]["why"]


def test_it_is_made_again_only_when_a_file_changes(made: list[int], tmp_path: Path) -> None:
    base = tmp_path / "library"
    shutil.copytree(TINY, base)
    root = firm(tmp_path, {NEAR: "why: Wet ends rot.\n"})
    assert why(base, root) == "Wet ends rot."
    assert why(base, root) == "Wet ends rot." and len(made) == 1
    (root / "jobs").mkdir()
    (root / "jobs" / "tonight.txt").write_text(LINE, encoding="utf-8")
    (root / "firm.lock").write_text("{}", encoding="utf-8")
    assert why(base, root) == "Wet ends rot." and len(made) == 1
    (root / NEAR).write_text("format: narrator.edit/1\nwhy: Wet boards rot at their ends.\n", encoding="utf-8")
    assert why(base, root) == "Wet boards rot at their ends." and len(made) == 2
    change(base, "limits.yaml", "inside the wall", "into the wall")
    assert why(base, root) == "Wet boards rot at their ends." and len(made) == 3


def test_a_shipped_library_takes_a_firm_too(made: list[int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    packaged = tmp_path / "b" / "_library"
    shutil.copytree(TINY, packaged)
    shipped = packaged.parent / "_index.sqlite"
    store.write_index(store.compile_library(packaged), tmp_path / "part.sqlite", shipped, store.SHIPPED)
    monkeypatch.setattr(store, "packaged_root", lambda: packaged)
    root = firm(tmp_path, {NEAR: "why: Wet ends rot.\n"})
    for _ in range(2):
        report = draft_text(LINE, "x.txt", store.open_library(None, root))
        assert report["sections"][0]["findings"][0]["why"] == "Wet ends rot."
    assert len(made) == 1


def test_the_same_base_without_the_firm_stays_its_own(made: list[int], tmp_path: Path) -> None:
    root = firm(tmp_path, {NEAR: "why: Wet ends rot.\n"})
    assert why(TINY, root) == "Wet ends rot."
    assert why(TINY, None) == "Wet board ends rot."
    assert why(TINY, root) == "Wet ends rot." and len(made) == 1


def test_layout_leaves_the_fingerprint_of_a_firm_alone(made: list[int], tmp_path: Path) -> None:
    marks = []
    for number, text in enumerate(("why: Wet ends rot.\n", "# why\nwhy:   'Wet ends rot.'\n", "why: Wet ends of boards rot.\n")):
        root = firm(tmp_path / str(number), {NEAR: text})
        index = store.open_library(TINY, root)
        marks.append(shape.document(index, "firm")["fingerprint"])
        assert index.fingerprint == store.open_library(TINY).fingerprint  # the library is the same with any firm
    assert marks[0] == marks[1] != marks[2]


def test_a_faulty_firm_is_no_index(made: list[int], tmp_path: Path) -> None:
    root = firm(tmp_path, {NEAR: "severity: upkeep\n"})
    for _ in range(2):
        with pytest.raises(NarratorError, match="never graded down"):
            store.open_library(TINY, root)


def test_a_draft_with_a_firm_reads_no_yaml_once_it_is_made(tmp_path: Path) -> None:
    root = firm(tmp_path, {NEAR: "why: Wet ends rot.\n"})
    text = root / "tonight.txt"
    text.write_text(LINE, encoding="utf-8")
    code = (
        "import sys\nfrom narrator.commands import main\n"
        f"try: main(['draft', {str(text)!r}, '--library', {str(TINY)!r}, '-o', {str(tmp_path / 'd.md')!r}])\n"
        "except SystemExit as e: assert not e.code, e.code\n"
        "print(sorted(m for m in ('yaml', 'jsonschema', 'jinja2', 'hashlib') if m in sys.modules))"
    )
    environment = {"PYTHONPATH": str(ROOT), "NARRATOR_CACHE": str(tmp_path / "cache"), "PATH": ""}
    runs = [
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env=environment)
        for _ in range(2)
    ]
    assert runs[0].stdout.strip() != "[]" and runs[1].stdout.strip() == "[]"
    assert "Wet ends rot." in (tmp_path / "d.md").read_text(encoding="utf-8")
