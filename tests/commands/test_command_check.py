"""`narrator check` at the command line: what it prints and how it exits."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from narrator.commands import main

TINY = Path(__file__).parents[1] / "source" / "check" / "tiny"


def run(capsys: pytest.CaptureFixture[str], *args: str) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as stopped:
        main(["check", *args])
    printed = capsys.readouterr()
    assert isinstance(stopped.value.code, int)
    return stopped.value.code, printed.out, printed.err


def test_a_clean_library_gets_one_calm_line(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, str(TINY))
    assert (code, err) == (0, "")
    assert out == "Nothing to mend: 2 entries, 8 names, 6 cases, 3 figures checked.\n"


def test_what_is_only_worth_knowing_is_printed_when_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "--all", str(TINY))
    assert code == 0
    assert out.startswith("library/criteria/walls.yaml:26:3  criteria.2.id\n  No entry uses 'siding-age'.\n")


def test_faults_are_printed_with_place_line_and_count(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    root = tmp_path / "library"
    shutil.copytree(TINY, root)
    entry = root / "entries/walls/siding/near-roof.yaml"
    entry.write_text(entry.read_text(encoding="utf-8").replace("lead: siding,", "lead: sidng,"), encoding="utf-8")
    code, out, err = run(capsys, str(root))
    assert code == 1
    assert out == (
        "library/entries/walls/siding/near-roof.yaml:5:9  trade.lead\n"
        "  'sidng' is not a trade of trades.yaml. Did you mean 'siding'?\n"
        "  >   5 | trade: {lead: sidng, with: [carpenter]}\n"
    )
    assert err == "1 fault in 1 file.\n"


@pytest.mark.parametrize(
    ("made", "said"),
    [
        ("nothing", "There is no such library folder."),
        ("file", "This is a file; name the library's folder"),
        ("folder", "This folder is not a library: it holds no 'entries'."),
        ("clone", "There is one inside it:"),
    ],
)
def test_what_is_no_library_could_not_be_done(
    made: str, said: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "x"
    if made == "file":
        path.write_text("", encoding="utf-8")
    elif made == "clone":
        shutil.copytree(TINY, path / "library")
    elif made != "nothing":
        path.mkdir()
    code, out, err = run(capsys, str(path))
    assert (code, out) == (2, "")
    assert said in err
