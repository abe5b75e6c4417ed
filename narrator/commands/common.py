"""What several verbs share: reading a checklist, opening a library, writing a file whole or not at all."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from narrator.errors import NarratorError, stop
from narrator.publish.labels import SEVERITIES, Labels
from narrator.read.kinds import KINDS, kind_of
from narrator.read.model import Checklist
from narrator.read.notation import MOST_BYTES
from narrator.source import index as store
from narrator.source.index import Index
from narrator.source.store import open_library
from narrator.source.text import decode

if TYPE_CHECKING:
    from narrator.report import Report


def library(folder: str | None, firm: Path | None = None) -> Index:
    """The library to use: the product's own or a folder, with a firm's folder laid over it if there is one."""
    return open_library(Path(folder) if folder else None, firm)


def firm_for(given: str | None, none: bool, beside: str | None) -> Path | None:
    """The firm's folder: `--firm`, else the nearest one beside or above the checklist; None with `--no-firm` or for pasted text.

    `beside`: a checklist's path, `-` for standard input, None for the folder in which the command runs.
    """
    if given and none:
        raise click.UsageError("--firm and --no-firm cannot stand together.")
    if none or (beside == "-" and not given):
        return None
    if given:
        from narrator.source.firm.folder import firm_folder

        return firm_folder(given)
    return firm_above(Path(beside).parent if beside else Path("."))


def firm_above(start: Path) -> Path | None:
    """The nearest folder with a `firm.yaml`, from this folder upwards."""
    try:
        folder = start.resolve()
    except (OSError, RuntimeError):
        return None
    return next((each for each in (folder, *folder.parents) if os.path.isfile(each / "firm.yaml")), None)


FIRM = click.option(
    "--firm", metavar="DIR", help="The firm's folder; otherwise one beside or above the checklist is used."
)
NO_FIRM = click.option("--no-firm", is_flag=True, help="Use no firm's folder, even if one lies beside the checklist.")


def checklist_text(path: str) -> str:
    """The text of a checklist file or of standard input. Raises NarratorError with what is wrong and what would be right."""
    shown = "standard input" if path == "-" else path
    try:
        raw = sys.stdin.buffer.read(MOST_BYTES * 2) if path == "-" else _bytes(Path(path), shown)
    except OSError as error:
        raise stop(shown, f"The file could not be read: {error.strerror or error}.") from None
    if len(raw) > MOST_BYTES:
        raise stop(shown, "The file is longer than 4 MiB. A checklist is 30 to 150 lines; is this the right file?")
    text = decode(raw, shown)
    if not text.strip():
        raise stop(
            shown, "The checklist is empty. Type one line for each thing seen, such as: shingles curling | rear slope"
        )
    return text


def _bytes(path: Path, shown: str) -> bytes:
    if path.is_dir():
        raise stop(shown, "This is a folder; name the checklist file in it.")
    if not path.exists():
        raise stop(shown, f"There is no such file.{_near_file(path)}")
    return path.read_bytes()


def _near_file(path: Path) -> str:
    from narrator.errors import did_you_mean

    try:
        names = [item.name for item in path.parent.iterdir() if item.is_file()]
    except OSError:
        return ""
    return did_you_mean(path.name, names)


def read_any(path: str, given: str | None, index: Index) -> Checklist:
    """A checklist in any of its forms."""
    from narrator.pipeline import grammar_of
    from narrator.read.notation import read_checklist

    text, kind = checklist_text(path), kind_of(path, given)
    shown = "standard input" if path == "-" else path
    if kind == "text":
        return read_checklist(text, shown, grammar_of(index))
    from narrator.read.structured import read_structured

    return read_structured(text, shown, kind, grammar_of(index), store.document(index, "firm").get("columns", {}))


def draft_of(path: str, given: str | None, index: Index, with_edits: bool = True) -> Report:
    """The draft of a checklist in any of its forms, with the hand edits that lie beside it."""
    from narrator.pipeline import draft_checklist

    checklist = read_any(path, given, index)
    if not with_edits or path == "-" or not os.path.isfile(edits_path(path)):
        return draft_checklist(checklist, index)
    from narrator.edits.store import load

    return draft_checklist(checklist, index, edits=load(edits_path(path)))


def edits_path(checklist: str) -> Path:
    """Where the hand edits of a checklist lie: `tonight.edits.yaml` for `tonight.txt`."""
    path = Path(checklist)
    return path.with_name(f"{path.stem}.edits.yaml")


def labels_of(index: Index) -> Labels:
    """Printed words for grades, trades, people to ask and dangers."""
    from narrator.compose.report import DANGERS

    trades: Mapping[str, Any] = store.document(index, "trades")
    grades: Mapping[str, str] = store.document(index, "firm").get("grades", {})
    return Labels(
        {**SEVERITIES, **grades},
        {item["id"]: item["label"] for item in trades["trades"]},
        {item["id"]: item["label"] for item in trades["ask"]},
        dict(DANGERS),
    )


def write_whole(path: Path, text: str | bytes) -> None:
    """Write a file so that the old one stays untouched unless the new one is complete."""
    folder = path.parent if str(path.parent) else Path(".")
    if path.is_dir():
        raise stop(str(path), "This is a folder; name a file in it.")
    if not folder.is_dir():
        raise stop(str(path), f"The folder '{folder}' does not exist.")
    part = folder / f".{path.name}.{os.getpid()}.part"
    try:
        with part.open("xb") as stream:
            stream.write(text.encode("utf-8") if isinstance(text, str) else text)
        part.chmod(path.stat().st_mode & 0o777 if path.exists() else 0o644)
        os.replace(part, path)
    except OSError as error:
        raise stop(str(path), f"The file could not be written: {error.strerror or error}.") from None
    finally:
        part.unlink(missing_ok=True)


__all__ = [
    "FIRM",
    "KINDS",
    "NO_FIRM",
    "NarratorError",
    "checklist_text",
    "draft_of",
    "edits_path",
    "firm_for",
    "kind_of",
    "labels_of",
    "library",
    "read_any",
    "write_whole",
]
