"""`narrator check`: is a library or a firm's folder whole, consistent and well worded, and do its own cases hold."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import click

from narrator.commands.common import library as open_index
from narrator.commands.common import write_whole
from narrator.errors import Fault, stop
from narrator.source.firm.folder import FIRM_FILE, LOCK_FILE
from narrator.source.store import packaged_root


@click.command("check")
@click.argument("folder", required=False, metavar="[LIBRARY-or-FIRM]")
@click.option("--all", "every", is_flag=True, help="Print also what is only worth knowing, such as unused figures.")
@click.option(
    "--keep",
    multiple=True,
    metavar="CODE",
    help="Of an edit whose base changed: the firm's text stays. CODE or CODE:key.",
)
@click.option(
    "--take", multiple=True, metavar="CODE", help="Of an edit whose base changed: the base's text comes back."
)
@click.option(
    "--library", "below", metavar="DIR", help="The library that the firm's folder lies over, if not narrator's own."
)
@click.option(
    "--approve", metavar="FILE", help="Write down this library and firm as the approved set, for draft --library-lock."
)
def command(
    folder: str | None,
    every: bool,
    keep: tuple[str, ...],
    take: tuple[str, ...],
    below: str | None,
    approve: str | None,
) -> int:
    """Check a LIBRARY folder or a FIRM's folder; without one, narrator's own library.

    It reads every file and says what is wrong, in which file, line and column, and what would be right: form, names of
    things that are not there, wording, and the cases that each entry carries. For a firm also which of its edits the base has
    moved under: old and new side by side. Settle each with --keep or --take.

    Exit 0 when all is well, 1 with faults, 2 when it could not be done.
    """
    root = packaged_root() if folder is None else Path(folder)
    if root.name == FIRM_FILE and root.is_file():
        root = root.parent
    if (root / FIRM_FILE).is_file():
        code = _firm(root, Path(below) if below else packaged_root(), keep, take)
        firm: Path | None = root
    else:
        if keep or take or below:
            raise click.UsageError(
                "--keep, --take and --library are for a firm's folder, the one that holds firm.yaml."
            )
        _refuse(root, folder or "")
        code, firm = _library(root, every), None
    if approve and code == 0:
        from narrator.source.approved import approved_text

        named = below if firm else folder
        write_whole(Path(approve), approved_text(open_index(named, firm)))
        click.echo(f"Approved in {approve}. Hold a draft to it: narrator draft ... --library-lock {approve}")
    elif approve:
        click.echo(f"{approve} is not written: mend the faults first.", err=True)
    return code


def _library(root: Path, every: bool) -> int:
    from narrator.source.check.run import check_library  # heavy: schemas and the whole pipeline

    found = check_library(root)
    _print(found.faults)
    if every:
        _print(found.notices)
    if found.faults:
        return _count(found.faults)
    counts = ((found.entries, "entry"), (found.names, "name"), (found.cases, "case"), (found.criteria, "figure"))
    click.echo(f"Nothing to mend: {', '.join(_many(number, what) for number, what in counts)} checked.")
    return 0


def _firm(root: Path, below: Path, keep: tuple[str, ...], take: tuple[str, ...]) -> int:
    """Check a firm's folder; what settling changes is written, the files before the lock that speaks of them."""
    from narrator.source.firm.check import base_files, check_firm

    found = check_firm(base_files(below), root, keep, take)
    for shown, text in sorted(found.files.items()):
        path = root / shown.removeprefix("firm/")
        if text:
            write_whole(path, text if text.endswith("\n") else text + "\n")
        else:
            path.unlink()
    if found.lock is not None:
        write_whole(root / LOCK_FILE, found.lock)
    _print(found.faults)
    for line in found.said:
        click.echo(line)
    if found.notices:
        click.echo(f"Worth knowing ({len(found.notices)}):")
        _print(found.notices)
    if found.faults:
        return _count(found.faults)
    click.echo(
        f"Nothing to mend: {_many(found.edits, 'edit')} and {_many(found.own, 'entry')} of the firm's own checked."
    )
    return 0


def _print(faults: Iterable[Fault]) -> None:
    for fault in faults:
        click.echo(fault.show())


def _count(faults: tuple[Fault, ...]) -> int:
    files = len({fault.pos.path for fault in faults})
    click.echo(f"{_many(len(faults), 'fault')} in {_many(files, 'file')}.", err=True)
    return 1


def _refuse(root: Path, typed: str) -> None:
    """Say at once when the folder can be neither a library nor a firm's."""
    if root.is_file():
        raise stop(typed, "This is a file; name the library's folder, the one that holds 'entries'.")
    if root.is_dir() and not (root / "entries").is_dir():
        inside = f" There is one inside it: {root / 'library'}" if (root / "library" / "entries").is_dir() else ""
        raise stop(typed, f"This folder is not a library: it holds no 'entries'.{inside}")


def _many(number: int, what: str) -> str:
    if number == 1:
        return f"1 {what}"
    return f"{number:,} {what[:-1] + 'ies' if what.endswith('y') else what + 's'}"
