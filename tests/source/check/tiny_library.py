"""A tiny library in a folder of its own, broken in one place."""

from __future__ import annotations

import shutil
from pathlib import Path

from narrator.errors import Fault
from narrator.source.check.run import Checked, check_library

TINY = Path(__file__).with_name("tiny")
NEAR_ROOF = "entries/walls/siding/near-roof.yaml"
DECAYED = "entries/walls/trim/decayed.yaml"


def tiny(folder: Path) -> Path:
    """A whole, faultless library."""
    root = folder / "library"
    shutil.copytree(TINY, root)
    return root


def change(root: Path, file: str, old: str, new: str) -> None:
    """Replace one piece of one file; the piece must stand there once."""
    path = root / file
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
    path.write_text(text.replace(old, new), encoding="utf-8")


def broken(folder: Path, file: str, old: str, new: str) -> Checked:
    """What a check says of the tiny library after one change."""
    root = tiny(folder)
    change(root, file, old, new)
    return check_library(root)


def place(fault: Fault) -> str:
    """`file:line:column`, the file from the library's folder on."""
    return f"{fault.pos.path.removeprefix('library/')}:{fault.pos.line}:{fault.pos.column}"
