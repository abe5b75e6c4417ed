"""A firm's folder: found beside or above a checklist, and which of its files belong to it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from narrator.errors import stop

FIRM_FILE = "firm.yaml"
LOCK_FILE = "firm.lock"
# Lists of the library that a firm may edit beside its entries. Its terms stand in firm.yaml.
LISTS = ("glossary", "limits", "places", "words", "trades", "descriptions", "windows")


def firm_folder(given: str) -> Path:
    """The folder that `--firm` names. Raises NarratorError when it is no firm's folder."""
    root = Path(given)
    if root.is_file() and root.name == FIRM_FILE:
        return root.parent
    if not root.is_dir():
        raise stop(given, "There is no such folder. --firm names the folder that holds firm.yaml.")
    if not (root / FIRM_FILE).is_file():
        raise stop(given, "This folder holds no firm.yaml, so it is not a firm's folder.")
    return root


def firm_files(root: Path) -> Iterator[Path]:
    """Every file of the firm that counts as wording or setting; checklists in folders below are not looked at."""
    for name in (FIRM_FILE, *(f"{name}.yaml" for name in LISTS)):
        if (root / name).is_file():
            yield root / name
    for part in ("entries", "criteria"):
        if (root / part).is_dir():
            yield from sorted((root / part).rglob("*.yaml"))


def stray_files(root: Path) -> Iterator[tuple[Path, str]]:
    """Files that look as if they should be read and are not, each with what would be right."""
    from narrator.errors import nearest

    for part in ("entries", "criteria"):
        for path in sorted((root / part).rglob("*")) if (root / part).is_dir() else ():
            if path.is_file() and path.suffix != ".yaml" and not path.name.startswith("."):
                yield path, f"This file is not read: its name must end in .yaml, such as {path.stem}.yaml."
    known = [FIRM_FILE, *(f"{name}.yaml" for name in LISTS)]
    for path in sorted(root.iterdir()):
        if path.name == "terms.yaml":
            yield path, "A firm's terms stand in firm.yaml, under 'terms:'. This file is not read."
        elif path.suffix in (".yaml", ".yml") and path.name not in known and nearest(path.name, known):
            yield path, f"This file is not read. Did you mean '{nearest(path.name, known)}'?"


def shown_firm(root: Path, path: Path) -> str:
    """A firm's path as printed: from its own folder on, the same wherever it lies."""
    return "firm/" + path.relative_to(root).as_posix()
