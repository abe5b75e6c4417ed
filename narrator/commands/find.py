"""`narrator find`: what the library calls a thing."""

from __future__ import annotations

import json

import click

from narrator.commands.common import FIRM, NO_FIRM, firm_for, library
from narrator.resolve.search import search

SHOWN = 10


@click.command("find")
@click.argument("words", nargs=-1, required=True)
@click.option(
    "--to", type=click.Choice(["text", "json"]), default="text", show_default=True, help="How to print what was found."
)
@FIRM
@NO_FIRM
@click.option("--library", "folder", metavar="DIR", help="Another library folder than narrator's own.")
def command(words: tuple[str, ...], to: str, firm: str | None, no_firm: bool, folder: str | None) -> int:
    """Look up WORDS in the library, as you would type them in a checklist. Best answer first.

    For example: narrator find no gfci
    """
    index = library(folder, firm_for(firm, no_firm, None))
    found = search(" ".join(words), index)[:SHOWN]
    if to == "json":
        click.echo(
            json.dumps([{"code": item.code, "title": item.title, "score": item.score} for item in found], indent=1)
        )
        return 0
    if not found:
        click.echo("The library has nothing like this. Try the part and what is wrong with it, such as: gutter loose")
        return 0
    width = max(len(item.title) for item in found)
    for item in found:
        click.echo(f"{item.title:<{width}}  {item.code}")
    return 0
