"""`narrator impact`: which paragraphs of which inspections a change of wording would alter."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import click

from narrator.commands.common import library, write_whole
from narrator.errors import did_you_mean
from narrator.source.index import Index

FORMS = ("txt", "json")


@click.command("impact")
@click.argument("old")
@click.argument("new")
@click.argument("checklists", nargs=-1, required=True)
@click.option("-o", "--output", metavar="FILE", help="Write it to this file; its ending (.txt, .json) says how.")
@click.option("--to", type=click.Choice(FORMS), help="How to write it, whatever the file is called.")
@click.option(
    "--allow", "allowed", multiple=True, metavar="KIND", help="Do not count changes of this kind (repeatable)."
)
@click.option(
    "--all", "everything", is_flag=True, help="Draft every inspection with both, and keep nothing for the next time."
)
@click.option("--rebuild", is_flag=True, help="Build anew what is kept of the archive.")
@click.option("--firm", metavar="DIR", help="A firm's folder that lies over both libraries.")
@click.option("--library", "folder", metavar="DIR", help="The library under two firm's folders, if not narrator's own.")
def command(
    old: str,
    new: str,
    checklists: tuple[str, ...],
    output: str | None,
    to: str | None,
    allowed: tuple[str, ...],
    everything: bool,
    rebuild: bool,
    firm: str | None,
    folder: str | None,
) -> int:
    """Show what a change of wording from OLD to NEW would alter in an archive.

    OLD and NEW are two library folders ("own" stands for narrator's own), or two folders of a firm. CHECKLISTS are checklist files, or
    folders of inspections. Issued reports are never altered. Edits by hand (NAME.edits.yaml) are left out of account:
    told is what narrator would write under them. Exits with 1 when a change that matters is among them.
    """
    from narrator.archive.sentences import IMPACT_KINDS

    for kind in allowed:
        if kind not in IMPACT_KINDS:
            hint = did_you_mean(kind, IMPACT_KINDS)
            raise click.UsageError(f"--allow: '{kind}' is not a kind of change ({', '.join(IMPACT_KINDS)}).{hint}")
    form = written_as(output, to, FORMS)
    before, after = _library(old, folder, firm), _library(new, folder, firm)
    found_all = frozenset(allowed)
    from narrator.archive import impact

    if everything:
        found = impact.impact_of_all(before, after, impact.contents_of(checklists), bar)
    else:
        found = impact.run(before, after, checklists, bar, rebuild)
    if not found.inspections:
        for each in found.skipped:
            click.echo(f"{each.shown}: {each.why}", err=True)
        raise click.ClickException("No checklist was found there, so nothing could be compared.")
    if form == "json":
        from narrator.archive import impact_json

        text = impact_json.write(found, before, after, found_all)
    else:
        from narrator.archive import impact_txt

        text = impact_txt.write(found, found_all)
    hand_over(text, output)
    return 1 if found.mattering(found_all) else 0


def _library(name: str, folder: str | None, firm: str | None) -> Index:
    """A library folder, or the base with a firm's folder laid over it."""
    if (Path(name) / "firm.yaml").is_file():
        if firm:
            raise click.UsageError(f"'{name}' is a firm's folder itself; leave --firm out.")
        return library(folder, Path(name))
    return library(None if name == "own" else name, Path(firm) if firm else None)


def written_as(output: str | None, to: str | None, forms: tuple[str, ...]) -> str:
    """`--to`, else the file's ending, else text for the screen."""
    found = to or ("txt" if not output or output == "-" else Path(output).suffix.removeprefix(".").lower())
    if found not in forms:
        raise click.UsageError(
            f"'{output}' does not say how to write it; use {' or '.join(f'.{each}' for each in forms)}, or say --to."
        )
    return found


def hand_over(text: str, output: str | None) -> None:
    """Write the text to a file, whole, or to the screen."""
    if output and output != "-":
        write_whole(Path(output), text.encode("utf-8", "backslashreplace"))
    else:
        sys.stdout.write(text)
        sys.stdout.flush()


def bar(said: str, steps: int) -> Callable[[], object]:
    """A progress bar on a terminal; nothing elsewhere."""
    if not sys.stderr.isatty() or steps < 2:
        return lambda: None
    shown = click.progressbar(length=steps, label=said, file=sys.stderr, update_min_steps=max(1, steps // 200))
    done = 0

    def tick() -> None:
        nonlocal done
        done += 1
        shown.update(1)
        if done == steps:
            shown.render_finish()

    return tick
