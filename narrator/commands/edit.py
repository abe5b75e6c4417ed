"""`narrator edit`: an entry's text in the editor; what was changed goes into the firm's folder."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from narrator.commands.common import firm_for, write_whole
from narrator.errors import NarratorError, did_you_mean
from narrator.source.firm.folder import LOCK_FILE
from narrator.source.store import packaged_root
from narrator.source.text import read_text

_NO_FIRM = """No firm's folder lies here or above. Make one: a folder with a file firm.yaml that says

    format: narrator.firm/1
    name: The Name of Your Firm

and run the command in it, or name it with --firm."""


@click.command("edit")
@click.argument("code")
@click.option("--firm", metavar="DIR", help="The firm's folder, if it lies neither here nor above.")
@click.option("--library", "below", metavar="DIR", help="Another library folder than narrator's own.")
@click.option("--from", "kept", metavar="FILE", help="Go on with a text that was kept, instead of opening the editor.")
def command(code: str, firm: str | None, below: str | None, kept: str | None) -> int:
    """Change the wording of an entry, by its CODE, for your firm.

    The entry's texts open in your editor ($VISUAL or $EDITOR). Change the words, save and close: only what you changed is
    written into the firm's folder, after a check. With a fault your text is kept in a file, and nothing else is written.
    """
    root = firm_for(firm, False, None)
    if root is None:
        raise click.UsageError(_NO_FIRM)
    from narrator.source.firm.change import changed_file, shown_entry
    from narrator.source.firm.check import base_files
    from narrator.source.firm.layers import layers_of, read_firm
    from narrator.source.firm.sheet import sheet

    base = base_files(Path(below) if below else packaged_root())
    layers = layers_of(base, read_firm(root))
    if layers.faults:
        raise NarratorError(layers.faults)
    if code not in layers.files.entries:
        raise click.UsageError(f"The library has no entry '{code}'.{did_you_mean(code, layers.files.entries)}")
    before = sheet(code, shown_entry(layers, code))
    text = read_text(Path(kept), kept) if kept else click.edit(before, extension=".yaml")
    while True:
        if text is None:
            click.echo("Nothing was changed.")
            return 0
        try:
            change = changed_file(layers, code, text)
            break
        except NarratorError as error:
            click.echo(str(error), err=True)
            if not sys.stdin.isatty() or not click.confirm("Open it again?", default=True):
                return _keep(root, code, text, kept)
            text = click.edit(text, extension=".yaml", require_save=False)
    if change is None:
        click.echo("Nothing was changed.")
        return 0
    path = root / change.shown.removeprefix("firm/")
    path.parent.mkdir(parents=True, exist_ok=True)
    if change.text:
        write_whole(path, change.text)
    else:
        path.unlink(missing_ok=True)
    if change.lock is not None:
        write_whole(root / LOCK_FILE, change.lock)
    click.echo(f"Written to {path}: {', '.join(change.keys)}.")
    return 0


def _keep(root: Path, code: str, text: str, kept: str | None) -> int:
    """The text in a file of its own, so that nothing typed is lost."""
    names = [root / f"{code}{'' if not number else f'-{number}'}.unsaved" for number in range(100)]
    path = Path(kept) if kept else next(name for name in names if not name.exists())
    if not kept or text != read_text(path, str(path)):
        write_whole(path, text if text.endswith("\n") else text + "\n")
    click.echo(f"Nothing was written. Your text is kept in {path}; mend it and go on with:", err=True)
    click.echo(f"    narrator edit {code} --from {path}", err=True)
    return 1
