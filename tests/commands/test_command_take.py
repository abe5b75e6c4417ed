"""`narrator take` and `narrator settle` as a hurried inspector meets them."""

from __future__ import annotations

import importlib
from pathlib import Path

import pytest

from narrator.commands import main
from narrator.publish.readback import plain

NOTES = """\
visited: 4 March 2026
stucco tight to roof | front, left of entry window | gap 1/4 in, photos 3, 4
shingles curling | rear slope | photos 20, 21
caulk failed | hose bib, rear
gas smell | meter, right side
frobnicated thing | rear wall
"""


def run(capsys: pytest.CaptureFixture[str], *args: str) -> tuple[int, str, str]:
    """Exit code, standard output and standard error."""
    with pytest.raises(SystemExit) as stopped:
        main(list(args))
    said = capsys.readouterr()
    return int(stopped.value.code or 0), said.out, said.err


@pytest.fixture
def notes(tmp_path: Path) -> Path:
    path = tmp_path / "tonight.txt"
    path.write_text(NOTES, encoding="utf-8")
    return path


def drafted(notes: Path, capsys: pytest.CaptureFixture[str], form: str = "md", *more: str) -> Path:
    out = notes.with_name(f"tonight-draft.{form}")
    assert run(capsys, "draft", str(notes), "-o", str(out), *more)[0] == 0
    return out


def test_edit_take_add_a_photo_redraft(notes: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = drafted(notes, capsys)
    page.write_text(page.read_text("utf-8").replace("the stucco stops", "the stucco ends"), encoding="utf-8")
    code, out, _ = run(capsys, "take", str(page), str(notes), "--by", "R. Vance")
    assert code == 0
    assert "Took 1 edit" in out and "“stops” is now “ends”" in out
    notes.write_text(NOTES.replace("photos 20, 21", "photos 20, 21, 22") + "gutter full | rear\n", encoding="utf-8")
    text = drafted(notes, capsys).read_text("utf-8")
    assert "the stucco ends 1/4 inch" in text and "20 to 22" in text
    assert "the stucco stops 1/4 inch" in drafted(notes, capsys, "md", "--no-edits").read_text("utf-8")
    code, out, _ = run(capsys, "sheets", str(notes), "--to", "csv")
    assert code == 0
    code, out, _ = run(capsys, "explain", str(notes), "walls.stucco.no-roof-gap")
    assert "edited by hand" in out and "tonight.edits.yaml" in out


def test_taking_an_unedited_draft_writes_no_file(notes: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "take", str(drafted(notes, capsys)), str(notes))
    assert (code, out) == (0, "Nothing to take: the draft says the same, or it was taken before.\n")
    assert not notes.with_name("tonight.edits.yaml").exists()


def test_a_word_processors_file_is_read(notes: Path, capsys: pytest.CaptureFixture[str]) -> None:
    docx = importlib.import_module("docx")
    page = drafted(notes, capsys)
    made = docx.Document()
    for block in plain(page.read_text("utf-8")).split("\n\n"):
        block = block.strip("\n")
        if block.startswith("#"):
            marks, _, title = block.partition(" ")
            made.add_heading(title, len(marks))
        elif block.startswith("- "):
            for row in block.split("\n"):
                made.add_paragraph(row.removeprefix("- "), style="List Bullet")
        elif block.startswith("|"):
            head, _, *rows = [[cell.strip() for cell in row.strip("|").split("|")] for row in block.split("\n")]
            table = made.add_table(rows=0, cols=len(head))
            for row in [head, *rows]:
                for cell, text in zip(table.add_row().cells, row, strict=True):
                    cell.text = text
        elif set(block) != {"-"}:
            paragraph = made.add_paragraph()
            paragraph.add_run(block.strip("*")).italic = block.startswith("*")
    path = notes.with_name("sent.docx")
    made.save(str(path))
    code, out, err = run(capsys, "take", str(path), str(notes))
    assert (code, err) == (0, ""), err
    assert out == "Nothing to take: the draft says the same, or it was taken before.\n"
    for paragraph in made.paragraphs:
        if "the stucco stops" in paragraph.text:
            paragraph.text = paragraph.text.replace("the stucco stops", "the stucco ends")
    made.save(str(path))
    code, out, _ = run(capsys, "take", str(path), str(notes))
    assert code == 0 and "Took 1 edit" in out and "Could not place" not in out


@pytest.mark.parametrize(
    ("name", "raw", "said"),
    [
        ("a.docx", b"PK\x03\x04 nothing", "not a whole DOCX"),
        ("a.md", b"# Shopping\n\nmilk\n", "does not look like a report"),
        ("a.md", b"", "empty"),
        ("a.json", b'{"format": "narrator.report/1", "sections"', "half of it is missing"),
    ],
)
def test_a_file_that_is_no_report_is_a_message(
    notes: Path, capsys: pytest.CaptureFixture[str], name: str, raw: bytes, said: str
) -> None:
    path = notes.with_name(name)
    path.write_bytes(raw)
    code, _, err = run(capsys, "take", str(path), str(notes))
    assert code == 2 and said in err and "Traceback" not in err


def test_a_broken_edits_file_stops_the_draft_and_stays(notes: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = drafted(notes, capsys)
    broken = notes.with_name("tonight.edits.yaml")
    broken.write_text("format: narrator.edits/1\nedits:\n- finding: a\n  text: [\n", encoding="utf-8")
    before = page.read_bytes()
    code, _, err = run(capsys, "draft", str(notes), "-o", str(page))
    assert code == 2 and "tonight.edits.yaml:5" in err
    assert run(capsys, "take", str(page), str(notes))[0] == 2
    assert page.read_bytes() == before and "text: [" in broken.read_text("utf-8")
    assert run(capsys, "draft", str(notes), "-o", str(page), "--no-edits")[0] == 0


def test_settle_lists_confirms_binds_and_answers(notes: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "settle", str(notes), "4")
    assert code == 0 and "walls.sealant.failed" in out
    assert run(capsys, "settle", str(notes), "4", "walls.sealant.failed", "--by", "Jo")[0] == 0
    assert "Nothing is open here" in run(capsys, "settle", str(notes), "4")[1]
    assert run(capsys, "settle", str(notes), "6", "walls.trim.decayed")[0] == 0
    assert run(capsys, "settle", str(notes), "5", "--answer", "told the agent by phone")[0] == 0
    code, _, err = run(capsys, "draft", str(notes), "--strict", "-o", str(notes.with_name("d.md")))
    assert code == 1 and "settled already" in err and "caulk" not in err and "warned" not in err
    left = [line for line in err.splitlines() if "line 6" in line]
    assert left and run(capsys, "settle", str(notes), "6", "--as", "leave it")[0] == 0
    assert run(capsys, "draft", str(notes), "--strict", "-o", str(notes.with_name("d.md")))[0] == 0


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (("6", "walls.trim.decaed"), "Did you mean 'walls.trim.decayed'?"),
        (("99",), "line 99 is not there; its lines go from 1 to 6"),
        (("1", "walls.trim.decayed"), "is no finding"),
        (("6", "walls.trim.decayed", "--answer", "x"), "one of the two"),
        (("6", "--answer", " "), "empty"),
        (("2", "--answer", "x"), "Nothing is open on line 2"),
        (("4", "--answer", "x"), "confirm its code: narrator settle CHECKLIST 4 walls.sealant.failed"),
    ],
)
def test_settle_says_what_is_wrong(
    notes: Path, capsys: pytest.CaptureFixture[str], args: tuple[str, ...], said: str
) -> None:
    code, _, err = run(capsys, "settle", str(notes), *args)
    assert code == 2 and said in err
    assert not notes.with_name("tonight.edits.yaml").exists()
