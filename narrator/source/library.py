"""A library folder read whole: shared lists, entries, criteria. Faults are gathered, sorted and raised together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from narrator.errors import Fault, NarratorError, Pos, stop
from narrator.source.entries import stored_entry
from narrator.source.index import WRITING
from narrator.source.positions import Located, load
from narrator.source.text import read_text

LISTS = (
    "systems",
    "trades",
    "words",
    "places",
    "limits",
    "glossary",
    "descriptions",
    "windows",
    "terms",
    "stories",
    "elements",
)
LIBRARY_VERSION = "1.0"


@dataclass(frozen=True, slots=True)
class Files:
    """Every file of a library, located: lists by name, entries by code, files of criteria and of practice by name."""

    root: Path
    lists: Mapping[str, Located]
    entries: Mapping[str, Located]
    criteria: Mapping[str, Located]
    practice: Mapping[str, Located]


def shown_path(root: Path, path: Path) -> str:
    """A path as printed: from the library's own folder on, the same wherever the library lies."""
    return "library/" + path.relative_to(root).as_posix()


def entry_code(root: Path, path: Path) -> str:
    """The code of an entry file: its path under `entries/`, with dots."""
    return ".".join(path.relative_to(root / "entries").with_suffix("").parts)


def read_files(root: Path) -> Files:
    """Read every YAML file of a library folder; raises NarratorError with all faults of syntax."""
    if not root.is_dir():
        raise stop(str(root), "There is no such library folder.")
    faults: list[Fault] = []

    def take(path: Path) -> Located | None:
        shown = shown_path(root, path)
        try:
            located = load(read_text(path, shown), shown)
        except NarratorError as error:
            faults.extend(error.faults)
            return None
        if not isinstance(located.value, dict):
            faults.append(Fault(Pos(shown, 1, 1), "", "The file must hold keys and values, such as 'format: ...'."))
            return None
        return located

    lists: dict[str, Located] = {}
    for name in LISTS:
        path = root / f"{name}.yaml"
        if not path.is_file():
            faults.append(Fault(Pos(shown_path(root, path)), "", "This file of the library is missing."))
            continue
        found = take(path)
        if found:
            lists[name] = found
    entries = {
        entry_code(root, path): found for path in sorted((root / "entries").rglob("*.yaml")) if (found := take(path))
    }
    criteria = {path.stem: found for path in sorted((root / "criteria").glob("*.yaml")) if (found := take(path))}
    practice = {path.stem: found for path in sorted((root / "practice").glob("*.yaml")) if (found := take(path))}
    if faults:
        raise NarratorError(faults)
    return Files(root, lists, entries, criteria, practice)


def documents_of(files: Files) -> dict[str, Any]:
    """Shared lists as plain data; each standard of practice by itself, and a list of their names to find one by."""
    lists = {name: located.value for name, located in files.lists.items()}
    standards = {name: located for name, located in files.practice.items() if name != WRITING}
    practice = {f"practice/{name}": located.value for name, located in files.practice.items()}
    known = [
        {"id": name, "title": located.value["title"], "names": located.value["names"]}
        for name, located in standards.items()
    ]
    return {**lists, **practice, "standards": known}


def entries_of(files: Files) -> list[dict[str, Any]]:
    """Stored entries, sorted by code. The files must have passed the schema."""
    return [stored_entry(located, code) for code, located in sorted(files.entries.items())]


def criteria_of(files: Files) -> list[dict[str, Any]]:
    """Criteria rows of every file, in file and row order."""
    return [row for _, located in sorted(files.criteria.items()) for row in located.value.get("criteria", [])]
