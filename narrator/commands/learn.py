"""`narrator learn`: what people keep changing, and the firm edit that would settle it."""

from __future__ import annotations

from pathlib import Path

import click

from narrator.commands.common import FIRM, NO_FIRM, firm_for, labels_of, library
from narrator.commands.impact import FORMS, bar, hand_over, written_as


@click.command("learn")
@click.argument("reports", nargs=-1, required=True)
@click.option("-o", "--output", metavar="FILE", help="Write it to this file; its ending (.txt, .json) says how.")
@click.option("--to", type=click.Choice(FORMS), help="How to write it, whatever the file is called.")
@click.option(
    "--least",
    type=click.IntRange(1),
    default=2,
    show_default=True,
    help="Count only what comes up in so many inspections.",
)
@FIRM
@NO_FIRM
@click.option("--library", "folder", metavar="DIR", help="Another library folder than narrator's own.")
def command(
    reports: tuple[str, ...],
    output: str | None,
    to: str | None,
    least: int,
    firm: str | None,
    no_firm: bool,
    folder: str | None,
) -> int:
    """Show what people keep changing in drafts, and the firm edit that would settle it.

    REPORTS are folders of inspections: each a checklist with its file of hand edits (NAME.edits.yaml), or with the report that
    was sent (md, html, txt or json) in the same folder. Things are counted, never people.
    """
    form = written_as(output, to, FORMS)
    first = Path(reports[0])
    index = library(folder, firm_for(firm, no_firm, str(first / "x") if first.is_dir() else str(first)))
    from narrator.archive.learn import learn

    found = learn(reports, index, labels_of(index), least, bar)
    if not found.inspections:
        for each in found.skipped:
            click.echo(f"{each.shown}: {each.why}", err=True)
        raise click.ClickException("No checklist was found there, so there is nothing to learn from.")
    if form == "json":
        from narrator.archive import learn_json

        text = learn_json.write(found, index)
    else:
        from narrator.archive import learn_txt

        text = learn_txt.write(found)
    hand_over(text, output)
    return 0
