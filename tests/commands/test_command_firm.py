"""The commands with a firm's folder: found beside the checklist, named or refused; edited in the editor; held to an approved set."""

from __future__ import annotations

import json
import shutil
import stat
from pathlib import Path

import pytest

from narrator.commands import main

FIRM = Path(__file__).parents[2] / "examples" / "firms" / "tarn-and-thistle"
CODE = "walls.stucco.no-roof-gap"
LINES = "property: 9 Millrace Row\ninspector: MT\nfirm: Other Name\nstucco tight to roof | rear wall | gap 1/4 in\n"


@pytest.fixture
def firm(tmp_path: Path) -> Path:
    root = tmp_path / "firm"
    shutil.copytree(FIRM, root)
    return root


def run(capsys: pytest.CaptureFixture[str], *args: str) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as stopped:
        main(args)
    out, err = capsys.readouterr()
    code = stopped.value.code
    assert isinstance(code, int)
    return code, out, err


def checklist(folder: Path, text: str = LINES) -> str:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "tonight.txt"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_a_firm_above_the_checklist_is_used(firm: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = checklist(firm / "jobs" / "march")
    code, out, err = run(capsys, "draft", path)
    assert code == 0
    assert "By Maren Tarn (licence BW-0117) of Tarn & Thistle Home Inspection" in out and "6 mm" in out
    assert "line 3: 'firm: Other Name' is typed, and this draft is made with the folder of Tarn & Thistle" in err
    assert "A report of this firm needs 'client:' and 'agreement:', and nothing gives it." in err
    code, out, err = run(capsys, "draft", path, "--no-firm")
    assert "Tarn" not in out and "1/4 inch" in out


def test_a_firm_can_be_named(firm: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = checklist(tmp_path / "elsewhere")
    assert "1/4 inch" in run(capsys, "draft", path)[1]
    assert "6 mm" in run(capsys, "draft", path, "--firm", str(firm))[1]
    assert run(capsys, "draft", path, "--firm", str(tmp_path / "no"))[0] == 2
    code, _, err = run(capsys, "draft", path, "--firm", str(tmp_path / "elsewhere"))
    assert code == 2 and "holds no firm.yaml" in err
    assert run(capsys, "draft", path, "--firm", str(firm), "--no-firm")[0] == 2


def test_a_broken_edit_stops_the_draft_with_its_place(firm: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (firm / "entries/walls/stucco/damp.yaml").write_text("format: narrator.edit/1\nwhi: X.\n", encoding="utf-8")
    code, out, err = run(capsys, "draft", checklist(firm))
    assert (code, out) == (2, "")
    assert "firm/entries/walls/stucco/damp.yaml:2:1  whi" in err and "Did you mean 'why'?" in err


def test_initials_that_nobody_has_are_a_note(firm: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, _, err = run(capsys, "draft", checklist(firm, LINES.replace("MT", "MTT")))
    assert "line 2: 'MTT' is not on the firm's roster. Did you mean 'MT'? It has MT (Maren Tarn) and JT" in err


def test_a_banned_phrase_is_a_note_and_a_fault(firm: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = firm / "firm.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("as-is condition", "roof covering"), encoding="utf-8")
    _, _, err = run(capsys, "draft", checklist(firm, LINES + "note: At your  own risk, says the seller.\n"))
    assert "line 4: Number 1 says 'roof covering', which the firm bans" in err
    assert "line 5: A note says 'At your own risk', which the firm bans" in err
    code, out, _ = run(capsys, "check", str(firm))
    assert code == 1
    assert "'roof covering' is banned by firm.yaml. Reword it: narrator edit" in out


def test_find_and_explain_know_the_firm(firm: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(firm)
    assert "roof.gutter.heat-cable-loose" in run(capsys, "find", "heat", "cable", "loose")[1]
    assert "roof.gutter.heat-cable-loose" not in run(capsys, "find", "heat", "cable", "loose", "--no-firm")[1]
    _, out, _ = run(capsys, "explain", CODE)
    assert "edited    observation.looked by Tarn & Thistle Home Inspection  firm/entries/walls/stucco/no-roof-gap.yaml:6" in out


def test_explain_names_layer_file_line_wording_measure_and_figure(firm: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "explain", checklist(firm), CODE)
    lines = [" ".join(line.split()) for line in out.splitlines()]
    assert "On the rear wall, the stucco stops 6 mm above the roof covering." in lines
    assert "library library/entries/walls/stucco/no-roof-gap.yaml:23 wording 'measured'" in lines
    assert "quantity: measure:gap, checklist line 4" in lines
    assert "criterion: stucco-above-roof-clearance" in lines
    at = lines.index("Ask for photos of what the opening shows.")
    assert lines[at + 1] == "firm firm/entries/walls/stucco/no-roof-gap.yaml:3"
    assert any(line.startswith("limit behind-cladding") and "firm firm/limits.yaml" in line for line in lines)


def editor(folder: Path, monkeypatch: pytest.MonkeyPatch, old: str, new: str) -> None:
    """An editor that replaces one piece of the sheet."""
    script = folder / "editor.py"
    script.write_text(
        f"import sys\np = sys.argv[-1]\nt = open(p, encoding='utf-8').read()\nassert {old!r} in t, t\n"
        f"open(p, 'w', encoding='utf-8').write(t.replace({old!r}, {new!r}))\n"
        "import os\nos.utime(p, (2e9, 2e9))\n",
        encoding="utf-8",
    )
    script.chmod(script.stat().st_mode | stat.S_IXUSR)
    import sys

    monkeypatch.setenv("EDITOR", f"{sys.executable} {script}")
    monkeypatch.delenv("VISUAL", raising=False)


def test_edit_writes_only_what_was_changed(
    firm: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = firm / "entries/walls/stucco/no-roof-gap.yaml"
    before = path.read_text(encoding="utf-8")
    editor(tmp_path, monkeypatch, "no gap is left", "no daylight is left")
    code, out, err = run(capsys, "edit", CODE, "--firm", str(firm))
    assert code == 0, err
    assert "observation.looked" in out
    assert path.read_text(encoding="utf-8") == before.replace("no gap is left", "no daylight is left")


def test_edit_makes_a_file_and_a_lock_item_for_a_new_edit(
    firm: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    editor(tmp_path, monkeypatch, "severity: plan", "severity: upkeep")
    assert run(capsys, "edit", "walls.flashing.no-head-flashing", "--firm", str(firm))[0] == 0
    made = firm / "entries/walls/flashing/no-head-flashing.yaml"
    assert made.read_text(encoding="utf-8") == "format: narrator.edit/1\nseverity: upkeep\n"
    items = json.loads((firm / "firm.lock").read_text(encoding="utf-8"))["items"]
    assert items["walls.flashing.no-head-flashing:severity"]["base"] == "plan"
    editor(tmp_path, monkeypatch, "severity: upkeep", "severity: plan")  # as the base again: nothing is left of the edit
    assert run(capsys, "edit", "walls.flashing.no-head-flashing", "--firm", str(firm))[0] == 0
    assert not made.exists()


def test_an_edit_at_fault_is_kept_and_nothing_is_written(
    firm: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = firm / "entries/walls/stucco/no-roof-gap.yaml"
    before, lock = path.read_bytes(), (firm / "firm.lock").read_bytes()
    editor(tmp_path, monkeypatch, "no gap is left", "{{ gapp }} is perfectly safe 7")
    code, _, err = run(capsys, "edit", CODE, "--firm", str(firm))
    assert code == 1
    assert "'gapp' is not a value of this entry. Did you mean 'gap'?" in err and "'safe' is a word" in err
    kept = firm / f"{CODE}.unsaved"
    assert f"Your text is kept in {kept}" in err
    assert "perfectly safe" in kept.read_text(encoding="utf-8")
    assert (path.read_bytes(), (firm / "firm.lock").read_bytes()) == (before, lock)
    mended = kept.read_text(encoding="utf-8").replace("{{ gapp }} is perfectly safe 7", "nothing stays")
    kept.write_text(mended, encoding="utf-8")
    assert run(capsys, "edit", CODE, "--firm", str(firm), "--from", str(kept))[0] == 0
    assert "nothing stays" in path.read_text(encoding="utf-8")


def test_a_danger_is_not_edited_down(
    firm: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    editor(tmp_path, monkeypatch, "severity: act-now", "severity: upkeep")
    code, _, err = run(capsys, "edit", "alarms.co.missing", "--firm", str(firm))
    assert code == 1 and "it is never graded down. The base says 'act-now'" in err
    assert not (firm / "entries/alarms").exists()


def test_edit_without_a_firm_says_how_to_make_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    code, _, err = run(capsys, "edit", CODE)
    assert code == 2 and "format: narrator.firm/1" in err


def test_a_draft_is_held_to_the_approved_set(firm: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lock, path = str(tmp_path / "approved.json"), checklist(firm)
    code, out, _ = run(capsys, "check", str(firm), "--approve", lock)
    assert code == 0 and f"--library-lock {lock}" in out
    assert run(capsys, "draft", path, "--library-lock", lock)[0] == 0
    why = firm / "entries/walls/stucco/damp.yaml"
    why.write_text("# a comment is no change\n" + why.read_text(encoding="utf-8"), encoding="utf-8")
    assert run(capsys, "draft", path, "--library-lock", lock)[0] == 0
    why.write_text("format: narrator.edit/1\nwhy: Only a look behind it can tell.\n", encoding="utf-8")
    code, out, err = run(capsys, "draft", path, "--library-lock", lock)
    assert (code, out) == (2, "")
    assert "This is not the approved set." in err and "Changed: walls.stucco.damp\n" in err
    code, _, err = run(capsys, "draft", path, "--library-lock", lock, "--no-firm")
    assert code == 2 and "no firm" in err and "roof.gutter.heat-cable-loose" in err


@pytest.mark.parametrize(
    ("text", "said"),
    [("{", "cannot be read as JSON"), ("{}", "This is not an approved set"), ("[]", "not an approved set")],
)
def test_what_is_no_approved_set_is_refused(
    text: str, said: str, firm: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lock = tmp_path / "approved.json"
    lock.write_text(text, encoding="utf-8")
    code, _, err = run(capsys, "draft", checklist(firm), "--library-lock", str(lock))
    assert code == 2 and said in err


def test_keep_and_take_are_for_a_firm(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys, "check", "--keep", CODE)
    assert code == 2 and "are for a firm's folder" in err
