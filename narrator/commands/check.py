"""`narrator check`: is a library whole, consistent and well worded, and do its own cases hold."""

from __future__ import annotations

from pathlib import Path

import click

from narrator.errors import stop
from narrator.source.store import packaged_root


@click.command("check")
@click.argument("library", required=False, metavar="[LIBRARY]")
@click.option("--all", "every", is_flag=True, help="Print also what is only worth knowing, such as unused figures.")
def command(library: str | None, every: bool) -> int:
    """Check a LIBRARY folder; without one, narrator's own.

    It reads every file and says what is wrong, in which file, line and column, and what would be right: form, names of
    things that are not there, wording, and the cases that each entry carries.

    Exit 0 when all is well, 1 with faults, 2 when it could not be done.
    """
    root = packaged_root() if library is None else Path(library)
    _refuse(root, library or "")
    from narrator.source.check.run import check_library  # heavy: schemas and the whole pipeline

    found = check_library(root)
    for fault in found.faults:
        click.echo(fault.show())
    if every:
        for notice in found.notices:
            click.echo(notice.show())
    if found.faults:
        files = len({fault.pos.path for fault in found.faults})
        click.echo(f"{_many(len(found.faults), 'fault')} in {_many(files, 'file')}.", err=True)
        return 1
    counts = ((found.entries, "entry"), (found.names, "name"), (found.cases, "case"), (found.criteria, "figure"))
    click.echo(f"Nothing to mend: {', '.join(_many(number, what) for number, what in counts)} checked.")
    return 0


def _refuse(root: Path, typed: str) -> None:
    """Say at once when the folder cannot be a library."""
    if root.is_file():
        raise stop(typed, "This is a file; name the library's folder, the one that holds 'entries'.")
    if (root / "firm.yaml").is_file():
        raise stop(typed, "This is a firm's folder. Checking one comes in a later version; name a library folder.")
    if root.is_dir() and not (root / "entries").is_dir():
        inside = f" There is one inside it: {root / 'library'}" if (root / "library" / "entries").is_dir() else ""
        raise stop(typed, f"This folder is not a library: it holds no 'entries'.{inside}")


def _many(number: int, what: str) -> str:
    if number == 1:
        return f"1 {what}"
    return f"{number:,} {what[:-1] + 'ies' if what.endswith('y') else what + 's'}"
