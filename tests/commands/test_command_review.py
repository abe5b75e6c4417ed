"""`narrator review`: exit codes, both ways of printing, the checklist beside the report, and files that are no report."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from drafting import LIBRARY, draft
from jsonschema import Draft202012Validator

from narrator.commands import main
from narrator.commands.common import labels_of
from narrator.publish import publish

ROOT = Path(__file__).parents[2]
CLEAN = """property: 14 Larch Hollow Road, Penhallow Falls
visited: 4 March 2026
inspector: R. Vance, license 221
client: Dana Ortiz
agreement: signed 2 March 2026
siding cracked | front wall | photo 3
stucco tight to roof | left side | gap 1/4 in, photo 4
"""


def call(*args: str, given: bytes | None = None) -> tuple[int, str, str]:
    done = subprocess.run(
        [sys.executable, "-m", "narrator", "review", *args], input=given, capture_output=True, cwd=ROOT, check=False
    )
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def written(folder: Path, to: str, text: str = CLEAN) -> Path:
    file = folder / f"draft.{to}"
    file.write_text(publish(draft(text), to, labels_of(LIBRARY)), encoding="utf-8")  # type: ignore[arg-type]
    return file


@pytest.mark.parametrize("to", ["md", "html", "txt", "json"])
def test_a_clean_report_exits_0(tmp_path: Path, to: str) -> None:
    code, out, err = call(str(written(tmp_path, to)))
    assert (code, err) == (0, "") and "nothing found to look at" in out


def test_a_matter_exits_1_with_its_line(tmp_path: Path) -> None:
    file = written(tmp_path, "md")
    text = file.read_text(encoding="utf-8").replace("1/4 inch above", "3/4 inch above")
    file.write_text(text, encoding="utf-8")
    code, out, _ = call(str(file))
    assert code == 1 and "A figure that does not agree" in out and "line " in out and "gap 1/4 inch" in out


def test_json_keeps_to_its_schema(tmp_path: Path) -> None:
    file = written(tmp_path, "txt", CLEAN.replace("agreement: signed 2 March 2026\n", ""))
    code, out, _ = call(str(file), "--to", "json")
    value = json.loads(out)
    schema = json.loads((ROOT / "schemas" / "review.schema.json").read_text(encoding="utf-8"))
    assert code == 1 and list(Draft202012Validator(schema).iter_errors(value)) == []
    assert [each["kind"] for each in value["matters"]] == ["header"]


def test_the_checklist_beside_it(tmp_path: Path) -> None:
    file, notes = written(tmp_path, "md"), tmp_path / "notes.txt"
    notes.write_text(CLEAN, encoding="utf-8")
    assert call(str(file), "--checklist", str(notes))[0] == 0
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("1/4 inch", "5/8 inch"), encoding="utf-8")  # everywhere: the report agrees with itself
    assert call(str(file))[0] == 0
    code, out, _ = call(str(file), "--checklist", str(notes))
    assert code == 1 and "5/8" in out
    file.write_text(text.replace("left side", "right side"), encoding="utf-8")
    code, out, _ = call(str(file), "--checklist", str(notes))
    assert code == 1 and "the checklist says “left side”" in " ".join(out.split())
    notes.write_text(CLEAN.replace("14 Larch", "41 Larch"), encoding="utf-8")
    assert "the checklist is about" in " ".join(call(str(file), "--checklist", str(notes))[1].split())


@pytest.mark.parametrize(
    ("name", "given", "says"),
    [
        ("empty.md", b"", "empty"),
        ("other.md", b"# Shopping\n\n- milk\n- bread\n", "does not look like a report"),
        ("other.json", b'{"format": "someone/3", "rows": []}', "no report of narrator"),
        ("broken.json", b'{"format": "narrator.report/1", "sections": [', "ends in the middle"),
        ("picture.html", b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "not a text"),
        ("page.html", b"<html><body><p>Hello</p></body></html>", "does not look like a report"),
    ],
)
def test_what_is_no_report_exits_2(tmp_path: Path, name: str, given: bytes, says: str) -> None:
    (tmp_path / name).write_bytes(given)
    code, out, err = call(str(tmp_path / name))
    assert code == 2 and out == "" and says in err and "Traceback" not in err


@pytest.mark.parametrize("to", ["md", "html", "txt", "json"])
def test_half_a_file_exits_2(tmp_path: Path, to: str) -> None:
    file = written(tmp_path, to, (ROOT / "examples" / "stucco-house" / "checklist.txt").read_text(encoding="utf-8"))
    raw = file.read_bytes()
    file.write_bytes(raw[: raw.index(b"soaks up rain") + 4])
    code, _, err = call(str(file))
    assert code == 2 and "Traceback" not in err and ("middle" in err or "missing" in err)


def test_a_missing_file_is_said_with_the_nearest_name(tmp_path: Path) -> None:
    file = written(tmp_path, "md")
    code, _, err = call(str(file.with_name("drafd.md")))
    assert code == 2 and "Did you mean 'draft.md'?" in err


def test_a_broken_part_of_the_json_is_named_with_its_line(tmp_path: Path) -> None:
    file = written(tmp_path, "json")
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace('"overrides": [],', '"overrides": 7,', 1), encoding="utf-8")
    code, out, err = call(str(file))
    assert code == 2 and out == "" and "overrides" in err and "Traceback" not in err
    line = text[: text.index('"overrides": [],')].count("\n") + 1
    assert f":{line}:" in err


def test_what_is_pasted_is_read_too(tmp_path: Path) -> None:
    code, out, _ = call("-", given=written(tmp_path, "md").read_bytes())
    assert code == 0 and out.startswith("standard input: nothing found")


def test_a_firms_own_grades_and_terms_are_known(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    firm = Path(__file__).parents[2] / "examples" / "firms" / "tarn-and-thistle"
    out = tmp_path / "visit.md"
    with pytest.raises(SystemExit):
        main(["draft", str(firm / "visit.csv"), "-o", str(out)])
    with pytest.raises(SystemExit) as done:
        main(["review", str(out), "--firm", str(firm)])
    said = capsys.readouterr().out
    assert done.value.code == 1
    assert "could hurt someone" in said
    for wrong in ("no grade", "A term", "First page", "inspector’s name"):
        assert wrong not in said
