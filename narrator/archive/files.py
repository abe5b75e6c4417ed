"""What stands in an archive: checklists to draft, reports that went out, and what cannot be read.

The folder is the truth. Symbolic links are followed to files inside the folder only, and never to folders.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from narrator.errors import NarratorError, did_you_mean
from narrator.publish.order import DRAFT, DRAFT_END
from narrator.read.kinds import kind_of
from narrator.read.notation import MOST_BYTES
from narrator.source.firm.folder import FIRM_FILE, firm_files
from narrator.source.text import decode

CHECKLISTS = frozenset({".txt", ".yaml", ".yml", ".json", ".csv", ".tsv", ".tab"})
EDITS = ".edits.yaml"
_COLOPHON = "Written with narrator"


class Inspection(NamedTuple):
    """A checklist of the archive: its file, its name as printed, how it is written, and its text."""

    path: Path
    shown: str
    kind: str
    text: str


class Skipped(NamedTuple):
    """What was left out, and why."""

    shown: str
    why: str


class Report(NamedTuple):
    """A report in the archive: `issued` ones are never altered."""

    path: Path
    shown: str
    issued: bool


Found = Inspection | Skipped | Report


def archive(names: Iterable[str]) -> Iterator[Found]:
    """Everything in these folders and files, in order of their paths; a file is given once."""
    done: set[str] = set()
    for name in names:
        for path, shown, why in _files(Path(name)):
            if why:
                yield Skipped(shown, why)
                continue
            real = os.path.realpath(path)
            if real not in done:
                done.add(real)
                found = read_file(path, shown, named=Path(name) == path)
                if found is not None:
                    yield found


def _files(top: Path) -> Iterator[tuple[Path, str, str]]:
    """(file, its name as printed, why it is skipped) below a folder, or the file itself."""
    if not top.exists():
        names = [each.name for each in top.parent.iterdir()] if top.parent.is_dir() else []
        yield top, str(top), f"There is no such file or folder.{did_you_mean(top.name, names)}"
        return
    if top.is_file():
        yield top, str(top), ""
        return
    inside = os.path.realpath(top)
    stack = [top]
    empty = True
    wording: set[Path] = set()
    while stack:
        folder = stack.pop()
        try:
            items = sorted(folder.iterdir(), key=lambda each: each.name)
        except OSError as error:
            yield folder, str(folder), f"The folder could not be opened: {error.strerror or error}."
            continue
        if any(item.name == FIRM_FILE for item in items):
            wording |= set(firm_files(folder))  # a firm's folder may hold inspections too
        for item in items:
            if item.name.startswith("."):
                continue
            empty = False
            if item.is_symlink():
                yield item, str(item), _why_not(item, inside)
            elif item.is_file() and item not in wording:
                yield item, str(item), ""
        below = [item for item in items if item.is_dir() and not item.is_symlink() and not item.name.startswith(".")]
        stack += reversed(below)
    if empty:
        yield top, str(top), "The folder is empty."


def _why_not(link: Path, inside: str) -> str:
    """Why a symbolic link is not followed; nothing where it leads to a file in the same archive."""
    target = os.path.realpath(link)
    if os.path.isdir(target):
        return "This is a link to another folder; it is not followed."
    if not os.path.exists(target):
        return "This is a link to a file that is not there."
    if os.path.commonpath([inside, target]) != inside:
        return "This is a link that leads out of the archive; it is not followed."
    return ""


def read_file(path: Path, shown: str, named: bool = False) -> Found | None:
    """What a file is. None for what is no part of an inspection's words (photos, edits, other files) unless it was `named`."""
    suffix = path.suffix.lower()
    if path.name.endswith(EDITS) or path.name in ("firm.yaml", "firm.lock"):
        return None
    if suffix in (".md", ".html", ".htm"):
        return _page(path, shown)
    if suffix not in CHECKLISTS:
        return (
            Skipped(shown, "This is no checklist that narrator can read (txt, yaml, json, csv, tsv).")
            if named
            else None
        )
    try:
        if path.stat().st_size > MOST_BYTES:
            return Skipped(shown, "The file is longer than 4 MiB. A checklist is 30 to 150 lines.")
        text = decode(path.read_bytes(), shown)
    except OSError as error:
        return Skipped(shown, f"The file could not be read: {error.strerror or error}.")
    except NarratorError as error:
        return Skipped(shown, first_fault(error))
    if not text.strip():
        return Skipped(shown, "The file is empty.")
    if suffix == ".json" and '"narrator.' in text[:4000]:
        return _json(path, shown, text)
    if suffix == ".txt" and (DRAFT in text[:400] or _COLOPHON in text[-400:]):
        return Report(path, shown, DRAFT not in text and DRAFT_END not in text)
    return Inspection(path, shown, kind_of(str(path)), text)


def _page(path: Path, shown: str) -> Report | None:
    try:
        with path.open("rb") as stream:
            stream.seek(max(0, path.stat().st_size - 2000))
            end = stream.read().decode("utf-8", "replace")
    except OSError:
        return None
    return Report(path, shown, DRAFT_END not in end) if _COLOPHON in end else None


def _json(path: Path, shown: str, text: str) -> Found | None:
    """A report, a record of issue, or a checklist."""
    try:
        value = json.loads(text)
    except (ValueError, RecursionError):
        return Inspection(path, shown, "json", text)  # the reader says what is wrong with it, and where
    form = str(value.get("format", "")) if isinstance(value, dict) else ""
    if form.startswith("narrator.report/"):
        return Report(path, shown, value.get("state") == "issued")
    if form.startswith("narrator.") and not form.startswith("narrator.checklist/"):
        return Report(path, shown, True) if "record" in form or "issue" in form else None
    return Inspection(path, shown, "json", text)


def first_fault(error: NarratorError) -> str:
    """The first fault in one line: where, and what is wrong."""
    fault = error.faults[0]
    where = f"line {fault.pos.line}: " if fault.pos.line else ""
    return where + " ".join(fault.message.split())
