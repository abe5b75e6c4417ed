"""`narrator review`: one report alone, read for what speaks against itself or says too much."""

from __future__ import annotations

import click

from narrator.commands.common import FIRM, NO_FIRM, firm_for, labels_of, library


@click.command("review")
@click.argument("report")
@click.option(
    "--checklist",
    metavar="FILE",
    help="The checklist behind the report: figures, places and names are held against it.",
)
@click.option(
    "--to", type=click.Choice(["text", "json"]), default="text", show_default=True, help="How to print what was found."
)
@click.option(
    "--from",
    "form",
    type=click.Choice(["md", "html", "txt", "json"]),
    help="How the report is written, if its ending does not say.",
)
@FIRM
@NO_FIRM
@click.option("--library", "folder", metavar="DIR", help="Another library folder than narrator's own.")
def command(
    report: str, checklist: str | None, to: str, form: str | None, firm: str | None, no_firm: bool, folder: str | None
) -> int:
    """Read REPORT as a reviewer would: a draft or an issued report, as Markdown, HTML, text or JSON, also edited by hand.

    It looks for what speaks against itself, says too much or was left out, gravest first. A single - reads what you paste.

    Exit 0: nothing found. 1: something to look at. 2: the report could not be read.
    """
    index = library(folder, firm_for(firm, no_firm, checklist or report))
    labels = labels_of(index)
    from narrator.review.opened import open_report
    from narrator.review.solo import drafted_from, review
    from narrator.review.solo_print import as_json, as_text

    reading = open_report(report, labels, form)
    drafted = drafted_from(checklist, index, labels) if checklist else None
    found = review(reading, index, labels, drafted)
    click.echo(as_json(reading, found) if to == "json" else as_text(reading, found), nl=False)
    for remark in reading.remarks:
        click.echo(remark, err=True)
    return 1 if found else 0
