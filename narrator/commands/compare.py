"""`narrator compare`: what changed between two reports, by meaning."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from narrator.commands.common import FIRM, NO_FIRM, firm_for, labels_of, library, write_whole
from narrator.errors import did_you_mean
from narrator.publish import by_suffix
from narrator.publish.labels import Labels
from narrator.review.kinds import KINDS, Comparison

FORMS = ("txt", "html", "json")
NARROW, WIDE = 40, 100


@click.command("compare")
@click.argument("before", metavar="A")
@click.argument("after", metavar="B")
@click.option("-o", "--output", metavar="FILE", help="Write it to this file; its ending (.html, .txt, .json) says how.")
@click.option("--to", type=click.Choice(FORMS), help="How to write it, whatever the file is called.")
@click.option(
    "--allow",
    "allowed",
    multiple=True,
    metavar="KIND",
    help="Do not count changes of this kind (repeatable), such as reworded.",
)
@click.option(
    "--same-house", is_flag=True, help="Two inspectors on one house: missed, extra, graded or measured apart."
)
@FIRM
@NO_FIRM
@click.option("--library", "folder", metavar="DIR", help="Another library folder than narrator's own.")
def command(
    before: str,
    after: str,
    output: str | None,
    to: str | None,
    allowed: tuple[str, ...],
    same_house: bool,
    firm: str | None,
    no_firm: bool,
    folder: str | None,
) -> int:
    """Show what changed from report A to report B, by meaning.

    A and B are reports in any form (.md, .html, .txt, .json), also after a person edited them. The changes that matter come
    first: findings that are gone, grades, trades, figures, negations, sides, limits. Exits with 1 when there is one.

    Each kind is shown with its name, such as limit or reworded; --allow takes that name.
    """
    for kind in allowed:
        if kind not in KINDS:
            raise click.UsageError(
                f"--allow: '{kind}' is not a kind of change ({', '.join(KINDS)}).{did_you_mean(kind, KINDS)}"
            )
    form = _form(output, to)
    if output and output != "-" and Path(output).absolute() in {Path(each).absolute() for each in (before, after)}:
        raise click.UsageError("The comparison would overwrite a report. Give -o another name.")
    if before == after == "-":
        raise click.UsageError("Only one of the two reports can come from standard input.")
    index = library(folder, firm_for(firm, no_firm, before if before != "-" else after))
    found = _compared(before, after, same_house, labels_of(index))
    text = _written(found, form, frozenset(allowed))
    if output and output != "-":
        write_whole(Path(output), text)
        from narrator.review.compare_txt import summary

        click.echo(f"Comparison in {output}: {summary(found, frozenset(allowed))}", err=True)
        for note in found.notes:
            click.echo(note, err=True)
    else:
        sys.stdout.write(text)
        sys.stdout.flush()
    return 1 if found.mattering(frozenset(allowed)) else 0


def _compared(before: str, after: str, same_house: bool, labels: Labels) -> Comparison:
    from narrator.review.reading import load

    one, other = load(before, labels), load(after, labels)
    if same_house:
        from narrator.review.compare_house import compare_house

        return compare_house(one, other)
    from narrator.review.compare import compare

    return compare(one, other)


def _form(output: str | None, to: str | None) -> str:
    """`--to`, else the file's ending, else text for the screen."""
    found = to or ("txt" if not output or output == "-" else by_suffix(output))
    if found not in FORMS:
        suffix = Path(str(output)).suffix or "no ending"
        raise click.UsageError(f"'{output}' has {suffix}; use .html, .txt or .json, or say --to.")
    return found


def _written(found: Comparison, form: str, allowed: frozenset[str]) -> str:
    if form == "json":
        from narrator.review import compare_json

        return compare_json.write(found, allowed)
    if form == "html":
        from narrator.review import compare_html

        return compare_html.write(found, allowed)
    from narrator.review import compare_txt

    return compare_txt.write(found, allowed, _width())


def _width() -> int:
    """Of the terminal; always the same where the text goes elsewhere."""
    if not sys.stdout.isatty():
        return 88
    import shutil

    return max(NARROW, min(WIDE, shutil.get_terminal_size((88, 24)).columns))
