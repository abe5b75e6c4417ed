"""A small firm over the tiny library, in folders of their own."""

from __future__ import annotations

from pathlib import Path

from tiny_library import TINY

from narrator.source.firm.check import FirmCheck, base_files, check_firm
from narrator.source.firm.layers import Layers, layers_of, read_firm
from narrator.source.firm.lock import LOCK_FILE

HEAD = "format: narrator.firm/1\nname: Tarn & Thistle\n"
EDIT = "format: narrator.edit/1\n"
NEAR = "entries/walls/siding/near-roof.yaml"
DECAYED = "entries/walls/trim/decayed.yaml"
BASE = base_files(TINY)


def firm(folder: Path, files: dict[str, str] | None = None, settings: str = "") -> Path:
    """A firm's folder; every file but firm.yaml is an edit unless it names a format."""
    root = folder / "firm"
    root.mkdir(parents=True, exist_ok=True)
    (root / "firm.yaml").write_text(HEAD + settings, encoding="utf-8")
    for name, text in (files or {}).items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text if "format:" in text else EDIT + text, encoding="utf-8")
    return root


def laid(folder: Path, files: dict[str, str], settings: str = "") -> Layers:
    """The tiny library with a firm's files over it."""
    return layers_of(BASE, read_firm(firm(folder, files, settings)))


def said(layers: Layers) -> list[str]:
    """`file:line:column message` of every fault."""
    return [f"{fault.pos.path}:{fault.pos.line}:{fault.pos.column} {fault.message}" for fault in layers.faults]


def check(root: Path, base: Path = TINY, keep: tuple[str, ...] = (), take: tuple[str, ...] = ()) -> FirmCheck:
    """A check of the firm's folder, with what it settles written, as the command does."""
    found = check_firm(base_files(base), root, keep, take)
    for shown, text in found.files.items():
        path = root / shown.removeprefix("firm/")
        if text:
            path.write_text(text, encoding="utf-8")
        else:
            path.unlink()
    if found.lock is not None:
        (root / LOCK_FILE).write_text(found.lock, encoding="utf-8")
    return found
