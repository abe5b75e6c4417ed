"""What an archive is taken to hold: checklists, reports that went out, and what is skipped by name."""

from __future__ import annotations

import os
from pathlib import Path

from narrator.archive.files import Inspection, Report, Skipped, archive
from narrator.commands.common import labels_of
from narrator.pipeline import draft_text
from narrator.publish import publish
from narrator.source.index import Index

TEXT = "property: 1 Test Row\ntrim decayed | rear\n"


def named(folder: Path, kind: type) -> list[str]:
    return [each.shown.removeprefix(f"{folder}/") for each in archive([str(folder)]) if isinstance(each, kind)]


def test_inspections_are_found_at_any_depth_and_in_order_of_their_paths(tmp_path: Path) -> None:
    for name in ("b/checklist.txt", "a/2026/march/notes.txt", "a/rows.csv", "top.yaml"):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(TEXT, encoding="utf-8")
    (tmp_path / "a" / "photo.jpg").write_bytes(b"\xff\xd8")
    (tmp_path / "a" / "notes.edits.yaml").write_text("format: narrator.edits/1\n", encoding="utf-8")
    (tmp_path / ".hidden.txt").write_text(TEXT, encoding="utf-8")
    assert named(tmp_path, Inspection) == ["top.yaml", "a/rows.csv", "a/2026/march/notes.txt", "b/checklist.txt"]
    assert named(tmp_path, Skipped) == []


def test_a_file_named_twice_is_read_once(tmp_path: Path) -> None:
    path = tmp_path / "notes.txt"
    path.write_text(TEXT, encoding="utf-8")
    assert len(list(archive([str(path), str(tmp_path)]))) == 1


def test_broken_files_are_named_with_what_is_wrong_and_the_rest_is_read(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_bytes(b"trim \xe4 decayed\n")
    (tmp_path / "b.txt").write_text("", encoding="utf-8")
    (tmp_path / "c.txt").write_text(TEXT, encoding="utf-8")
    found = list(archive([str(tmp_path), str(tmp_path / "none")]))
    skipped = {Path(each.shown).name: each.why for each in found if isinstance(each, Skipped)}
    assert "line 1: The byte 0xe4 is not UTF-8 text" in skipped["a.txt"]
    assert skipped["b.txt"] == "The file is empty."
    assert skipped["none"].startswith("There is no such file or folder.")
    assert [Path(each.shown).name for each in found if isinstance(each, Inspection)] == ["c.txt"]


def test_links_are_followed_to_files_inside_only(tmp_path: Path) -> None:
    inside, outside = tmp_path / "in", tmp_path / "out"
    for folder in (inside / "house", outside):
        folder.mkdir(parents=True)
        (folder / "notes.txt").write_text(TEXT, encoding="utf-8")
    os.symlink(outside / "notes.txt", inside / "a-away.txt")
    os.symlink(outside, inside / "b-folder")
    os.symlink(inside, inside / "c-loop")
    os.symlink(inside / "gone.txt", inside / "d-nowhere.txt")
    os.symlink(inside / "house" / "notes.txt", inside / "e-same.txt")
    assert named(inside, Inspection) == ["e-same.txt"], "the file and the link to it are one"
    why = {Path(each.shown).name: each.why for each in archive([str(inside)]) if isinstance(each, Skipped)}
    assert why["a-away.txt"] == "This is a link that leads out of the archive; it is not followed."
    assert why["b-folder"] == why["c-loop"] == "This is a link to another folder; it is not followed."
    assert why["d-nowhere.txt"] == "This is a link to a file that is not there."


def test_an_empty_folder_is_said(tmp_path: Path) -> None:
    (found,) = archive([str(tmp_path)])
    assert found == Skipped(str(tmp_path), "The folder is empty.")


def test_drafts_and_issued_reports_are_no_checklists(tmp_path: Path, library: Index) -> None:
    report = draft_text(TEXT, "notes.txt", library)
    for state in ("draft", "issued"):
        report["state"] = state
        for form in ("md", "html", "txt", "json"):
            (tmp_path / f"{state}.{form}").write_text(publish(report, form, labels_of(library)), encoding="utf-8")
    found = {Path(each.shown).name: each for each in archive([str(tmp_path)])}
    assert len(found) == 8
    assert all(isinstance(each, Report) for each in found.values())
    assert {name for name, each in found.items() if isinstance(each, Report) and each.issued} == {
        "issued.md", "issued.html", "issued.txt", "issued.json",
    }  # fmt: skip


def test_a_firms_wording_is_no_inspection(tmp_path: Path) -> None:
    for name in ("firm.yaml", "trades.yaml", "entries/walls/trim/decayed.yaml"):
        path = tmp_path / "firm" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("format: narrator.edit/1\n", encoding="utf-8")
    (tmp_path / "firm" / "2026").mkdir()
    (tmp_path / "firm" / "2026" / "notes.txt").write_text(TEXT, encoding="utf-8")
    assert named(tmp_path, Inspection) == ["firm/2026/notes.txt"]
