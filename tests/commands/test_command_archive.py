"""`narrator impact` and `narrator learn` as they are typed."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner, Result

from narrator.archive.sentences import IMPACT_KINDS
from narrator.commands import cli

ROOT = Path(__file__).parents[2]


def run(*words: str) -> Result:
    return CliRunner().invoke(cli, list(words), standalone_mode=False)


def schema(name: str) -> dict[str, object]:
    found: dict[str, object] = json.loads((ROOT / "schemas" / f"{name}.schema.json").read_text(encoding="utf-8"))
    return found


@pytest.fixture(scope="module")
def other(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The library with one grade changed and one entry put in other words."""
    root = tmp_path_factory.mktemp("other") / "library"
    shutil.copytree(ROOT / "library", root)
    path = root / "entries" / "walls" / "trim" / "decayed.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("severity: plan", "severity: find-out"), encoding="utf-8")
    return str(root)


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    folder = tmp_path / "archive"
    for number in range(5):
        path = folder / f"house-{number}" / "checklist.txt"
        path.parent.mkdir(parents=True)
        path.write_text(f"property: {number} Test Row\ntrim decayed | rear\n", encoding="utf-8")
    (folder / "broken.txt").write_bytes(b"trim \xe4\n")
    return folder


def test_a_change_that_matters_is_told_with_three_samples_and_exits_with_1(archive: Path, other: str) -> None:
    result = run("impact", "own", other, str(archive))
    assert result.return_value == 1
    assert "5 paragraphs in 5 of 5 inspections would be otherwise." in result.output
    assert "walls.trim.decayed: in 5 inspections" in result.output
    assert result.output.count("      - plan\n") == 3
    assert "and 2 more" in result.output
    assert "Reports that were issued are never altered." in result.output
    assert "broken.txt: line 1: The byte 0xe4 is not UTF-8 text." in result.output


def test_an_allowed_kind_and_no_change_exit_with_0(archive: Path, other: str) -> None:
    assert run("impact", "own", other, str(archive), "--allow", "grade").return_value == 0
    result = run("impact", other, other, str(archive))
    assert result.return_value == 0
    assert "No paragraph in 5 inspections would be otherwise." in result.output


def test_drafting_all_of_it_says_the_same(archive: Path, other: str) -> None:
    assert run("impact", "own", other, str(archive), "--all").output == run("impact", "own", other, str(archive)).output


def test_the_json_of_an_impact_holds_to_its_schema(archive: Path, other: str) -> None:
    result = run("impact", "own", other, str(archive), "--to", "json")
    value = json.loads(result.output)
    jsonschema.validate(value, schema("impact"))
    assert (value["matters"], value["altered"], value["groups"][0]["kind"]) == (5, 5, "grade")
    assert [Path(each["file"]).name for each in value["skipped"]] == ["broken.txt"]
    kinds = schema("impact")["$defs"]["kind"]["enum"]  # type: ignore[index]
    assert sorted(kinds) == sorted(IMPACT_KINDS)


def test_two_folders_of_a_firm_can_be_compared(archive: Path, tmp_path: Path) -> None:
    for name in ("old", "new"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "firm.yaml").write_text("format: narrator.firm/1\nname: Elm Row\n", encoding="utf-8")
    entry = tmp_path / "new" / "entries" / "walls" / "trim" / "decayed.yaml"
    entry.parent.mkdir(parents=True)
    entry.write_text("format: narrator.edit/1\nrecommendation+: Do it before winter.\n", encoding="utf-8")
    result = run("impact", str(tmp_path / "old"), str(tmp_path / "new"), str(archive), "--to", "json")
    value = json.loads(result.output)
    assert [(group["entry"], group["paragraphs"]) for group in value["groups"]] == [("walls.trim.decayed", 5)]
    assert value["groups"][0]["samples"][0]["after"] == "Do it before winter."
    again = run("impact", str(tmp_path / "old"), str(tmp_path / "old"), str(archive))
    assert "No paragraph" in again.output


def test_a_firm_laid_over_both_libraries(archive: Path, other: str) -> None:
    firm = str(ROOT / "examples" / "firms" / "tarn-and-thistle")
    assert run("impact", "own", other, str(archive), "--firm", firm).return_value in (0, 1)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--allow", "grad"), "Did you mean 'grade'?"),
        (("-o", "impact.doc"), "does not say how to write it"),
    ],
)
def test_what_is_typed_wrong_is_said(words: tuple[str, ...], said: str, archive: Path) -> None:
    result = run("impact", "own", "own", str(archive), *words)
    assert said in str(result.exception)


def test_nothing_to_compare_cannot_be_done(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    os.symlink(ROOT, tmp_path / "empty" / "away")
    result = run("impact", "own", "own", str(tmp_path / "empty"))
    assert "No checklist was found there" in str(result.exception)
    assert "This is a link to another folder; it is not followed." in result.output


def test_no_bar_is_drawn_where_there_is_no_terminal(archive: Path, other: str) -> None:
    result = run("impact", "own", other, str(archive), "--rebuild")
    assert "Reading the archive" not in result.output
    assert "\r" not in result.output


def test_what_is_learnt_is_printed_with_its_edit(archive: Path) -> None:
    for number in range(3):
        path = archive / f"house-{number}" / "checklist.txt"
        path.write_text(path.read_text(encoding="utf-8") + "window trim quite rotted | front\n", encoding="utf-8")
    result = run("learn", str(archive), "--no-firm")
    assert result.return_value == 0
    assert "window trim quite rotted: in 3 inspections, taken for Decayed wood trim (walls.trim.decayed)" in result.output
    assert "    # entries/walls/trim/decayed.yaml\n    format: narrator.edit/1\n    names+: [window trim quite rotted]" in result.output
    assert "broken.txt: line 1: The byte 0xe4 is not UTF-8 text." in result.output
    value = json.loads(run("learn", str(archive), "--no-firm", "--to", "json").output)
    jsonschema.validate(value, schema("learnt"))
    assert [each["what"] for each in value["names"]] == ["window trim quite rotted"]


def test_a_file_is_written_whole(archive: Path, tmp_path: Path) -> None:
    out = tmp_path / "learnt.json"
    result = run("learn", str(archive), "--no-firm", "-o", str(out))
    assert result.output == ""
    assert json.loads(out.read_text(encoding="utf-8"))["inspections"] == 5
