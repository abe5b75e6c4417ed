"""`narrator sheets` as a user meets it: files, reports, one trade, and what is said when something is wrong."""

from __future__ import annotations

import gc
import json
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from narrator.commands import main

LINES = "stucco tight to roof | front | gap 1/4 in\nno gfci | kitchen\n"


def run(capsys: pytest.CaptureFixture[str], *args: str) -> tuple[int, str, str]:
    """One run: exit code, standard output, standard error."""
    with pytest.raises(SystemExit) as stopped:
        main(["sheets", *args])
    out, err = capsys.readouterr()
    return int(str(stopped.value.code)), out, err


@pytest.fixture(autouse=True)
def collecting() -> Iterator[None]:
    """A run switches the collection of garbage off; the tests after it need it."""
    yield
    gc.enable()


@pytest.fixture
def notes(tmp_path: Path) -> str:
    path = tmp_path / "notes.txt"
    path.write_text(LINES, encoding="utf-8")
    return str(path)


def test_one_trade_by_any_of_its_names_has_a_page_of_its_own(notes: str, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, notes, "--trade", "Plasterer")
    assert code == 0 and out.count("Notes for a price:") == 1 and "kitchen" not in out


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("--trade", "plasterrer"), "Did you mean 'plasterer'?"),
        (("--trade", "pool"), "Trades with a sheet: stucco, electric."),
        (("--to", "xlsx"), "-o prices.xlsx"),
        (("-o", "sheets.docx"), "ends in none of .html, .csv and .xlsx"),
    ],
)
def test_what_cannot_be_done_is_said(
    notes: str, args: tuple[str, ...], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, err = run(capsys, notes, *args)
    assert (code, out) == (2, "") and says in err


def test_a_report_file_gives_the_same_sheets(notes: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    report = tmp_path / "report.json"
    with pytest.raises(SystemExit):
        main(["draft", notes, "-o", str(report)])
    capsys.readouterr()
    assert run(capsys, str(report), "--to", "csv")[:2] == run(capsys, notes, "--to", "csv")[:2]
    value = json.loads(report.read_text(encoding="utf-8"))
    value["trade_sheets"] = [{"trade": 1}]
    report.write_text(json.dumps(value), encoding="utf-8")
    code, _, err = run(capsys, str(report))
    assert code == 2 and "not a whole report" in err and "trade_sheets.0" in err


def test_a_missing_library_for_worksheets_leaves_the_old_file(
    notes: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    old = tmp_path / "prices.xlsx"
    old.write_bytes(b"old")
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    code, _, err = run(capsys, notes, "-o", str(old))
    assert code == 2 and "openpyxl" in err and old.read_bytes() == b"old"
