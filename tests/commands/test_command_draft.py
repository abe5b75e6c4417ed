"""`narrator draft`, `find` and `explain` as a user meets them: whole processes, files, bad input."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LINES = "Roof\nshingles curling | rear slope | photos 20, 21\nKitchen\nno gfci, left of sink\nodd thing nobody knows | yard\n"


def narrator(*args: str, cwd: Path, text: str | None = None, **environment: str) -> subprocess.CompletedProcess[bytes]:
    """One run of the command."""
    return subprocess.run(
        [sys.executable, "-m", "narrator", *args],
        cwd=cwd,
        input=None if text is None else text.encode(),
        capture_output=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
    )


@pytest.fixture
def checklist(tmp_path: Path) -> Path:
    file = tmp_path / "tonight.txt"
    file.write_text(LINES, encoding="utf-8")
    return file


def test_markdown_on_standard_output_and_notes_beside_it(checklist: Path) -> None:
    done = narrator("draft", "tonight.txt", cwd=checklist.parent)
    assert done.returncode == 0
    assert b"Roof shingles have curled" in done.stdout
    assert b"odd thing nobody knows" in done.stderr and b"line 5" in done.stderr


@pytest.mark.parametrize("suffix", ["md", "html", "txt", "json"])
def test_the_files_ending_says_how(checklist: Path, suffix: str) -> None:
    done = narrator("draft", "tonight.txt", "-o", f"draft.{suffix}", cwd=checklist.parent)
    assert done.returncode == 0 and not done.stdout
    text = (checklist.parent / f"draft.{suffix}").read_text(encoding="utf-8")
    assert "curled" in text
    assert {path.name for path in checklist.parent.iterdir()} == {"tonight.txt", f"draft.{suffix}"}


@pytest.mark.parametrize("form", ["docx", "pdf"])
def test_forms_that_come_later_say_so(checklist: Path, form: str) -> None:
    done = narrator("draft", "tonight.txt", "--to", form, cwd=checklist.parent)
    assert done.returncode == 2 and b"later" in done.stderr


def test_strict_is_one_while_a_note_is_left(checklist: Path) -> None:
    assert narrator("draft", "tonight.txt", "--strict", cwd=checklist.parent).returncode == 1
    checklist.write_text("Roof\nshingles curling | rear slope\n", encoding="utf-8")
    assert narrator("draft", "tonight.txt", "--strict", cwd=checklist.parent).returncode == 0


def test_a_paste_is_read(tmp_path: Path) -> None:
    done = narrator("draft", "-", cwd=tmp_path, text=LINES)
    assert done.returncode == 0 and b"curled" in done.stdout


def test_the_same_bytes_over_seeds_locales_and_folders(checklist: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "tonight.txt").write_text(LINES, encoding="utf-8")
    first = narrator("draft", "tonight.txt", cwd=checklist.parent, PYTHONHASHSEED="1", LC_ALL="C", TZ="UTC")
    second = narrator("draft", "tonight.txt", cwd=elsewhere, PYTHONHASHSEED="2", LC_ALL="de_DE.UTF-8", TZ="Asia/Tokyo")
    assert first.stdout == second.stdout and first.stdout


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", b"empty"),
        (b"  \n\n", b"empty"),
        (b"roof ok\nsh\xe4bby wall | rear\n", b"tonight.txt:2:3"),
        ("roof ok".encode("utf-16"), b"UTF-16"),
    ],
)
def test_what_cannot_be_read_is_said_with_its_place(checklist: Path, content: bytes, said: bytes) -> None:
    checklist.write_bytes(content)
    old = checklist.parent / "draft.md"
    old.write_text("the old draft", encoding="utf-8")
    done = narrator("draft", "tonight.txt", "-o", "draft.md", cwd=checklist.parent)
    assert done.returncode == 2 and said in done.stderr and b"Traceback" not in done.stderr
    assert old.read_text(encoding="utf-8") == "the old draft"


def test_a_folder_a_missing_file_and_a_near_name(checklist: Path) -> None:
    assert b"folder" in narrator("draft", ".", cwd=checklist.parent).stderr
    done = narrator("draft", "tonigth.txt", cwd=checklist.parent)
    assert done.returncode == 2 and b"tonight.txt" in done.stderr


def test_a_checklist_is_never_overwritten(checklist: Path) -> None:
    done = narrator("draft", "tonight.txt", "-o", "tonight.txt", cwd=checklist.parent)
    assert done.returncode == 2 and checklist.read_text(encoding="utf-8") == LINES


def test_broken_yaml_json_and_csv_say_where(tmp_path: Path) -> None:
    for name, text in (("a.yaml", "lines: [\n"), ("a.json", '{"lines": [}'), ("a.yml", "a: 1\na: 2\n")):
        (tmp_path / name).write_text(text, encoding="utf-8")
        done = narrator("draft", name, cwd=tmp_path)
        assert done.returncode == 2 and name.encode() + b":" in done.stderr and b"Traceback" not in done.stderr


def test_braces_and_markup_stay_text(tmp_path: Path) -> None:
    text = 'property: {{ 7*7 }} <script>alert(1)</script>\nown: <b>{{ x }}</b> | {% y %} | "{{ z }}"\n'
    page = narrator("draft", "-", "--to", "html", cwd=tmp_path, text=text).stdout.decode()
    assert "<script>" not in page and "<b>{{" not in page and "{{ 7*7 }}" in page and "{{ z }}" in page


def test_find_gives_the_best_first(tmp_path: Path) -> None:
    done = narrator("find", "no", "gfci", "--to", "json", cwd=tmp_path)
    found = json.loads(done.stdout)
    assert found[0]["code"] == "electrical.gfci.missing" and set(found[0]) == {"code", "title", "score"}


def test_explain_tells_file_line_figure_and_checklist_line(checklist: Path) -> None:
    checklist.write_text("stucco tight to roof | rear | gap 1/4 in\n", encoding="utf-8")
    told = narrator("explain", "tonight.txt", "1", cwd=checklist.parent).stdout.decode()
    assert "library/entries/walls/stucco/no-roof-gap.yaml:" in told
    assert "stucco-above-roof-clearance" in told and "checklist line 1" in told
    by_code = narrator("explain", "stairs.riser.high", cwd=checklist.parent).stdout.decode()
    assert "R311.7.5.1" in by_code


def test_unknown_words_are_answered_with_the_nearest(tmp_path: Path) -> None:
    assert b"Did you mean 'draft'" in narrator("drft", "x", cwd=tmp_path).stderr
    done = narrator("explain", "walls.stuco.no-roof-gap", cwd=tmp_path)
    assert done.returncode == 2 and b"walls.stucco.no-roof-gap" in done.stderr
