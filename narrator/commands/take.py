"""`narrator take`: the hand edits of a draft become edits of this inspection."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from narrator.commands.common import FIRM, KINDS, NO_FIRM, edits_path, firm_for, labels_of, library, read_any

if TYPE_CHECKING:
    from narrator.edits.model import Edit
    from narrator.edits.take import Taken


@click.command("take")
@click.argument("edited")
@click.argument("checklist")
@click.option("--by", metavar="WHO", default="", help="Who made the edits.")
@click.option("--because", "reason", metavar="WHY", default="", help="Why; needed to grade a danger down.")
@click.option("--from", "kind", type=click.Choice(KINDS), help="How the checklist is written.")
@FIRM
@NO_FIRM
@click.option("--library", "folder", metavar="DIR", help="Another library folder than narrator's own.")
def command(
    edited: str,
    checklist: str,
    by: str,
    reason: str,
    kind: str | None,
    firm: str | None,
    no_firm: bool,
    folder: str | None,
) -> int:
    """Take what you changed by hand in EDITED, a draft of CHECKLIST, and apply it at each redraft from now on.

    EDITED is the draft as .md, .html, .txt or .json, or a .docx that a word processor made of one. Only what you changed is kept,
    beside the checklist in NAME.edits.yaml. Take before you change the checklist, and redraft after.
    """
    if checklist == "-":
        raise click.UsageError("The edits are kept beside the checklist, so it must be a file.")
    from narrator.edits.model import Edits
    from narrator.edits.open_any import load_any
    from narrator.edits.store import load
    from narrator.edits.take import take
    from narrator.edits.write import save
    from narrator.pipeline import draft_checklist

    index = library(folder, firm_for(firm, no_firm, checklist))
    path = edits_path(checklist)
    read = read_any(checklist, kind, index)
    old = load(path) if path.is_file() else Edits(str(path))
    labels = labels_of(index)
    taken = take(
        load_any(edited, labels),
        old,
        lambda edits: draft_checklist(read, index, edits=edits),
        labels,
        by.strip(),
        reason.strip(),
    )
    save(taken.edits)
    for line in said(taken, str(path)):
        click.echo(line)
    return 0


def said(taken: Taken, path: str) -> Iterator[str]:
    """What was taken, what could not be placed, and what to look at again, in plain words."""
    count = len(taken.fresh)
    if not (count or taken.back or taken.unplaced):
        yield "Nothing to take: the draft says the same, or it was taken before."
    if count:
        yield f"Took {count} {'edit' if count == 1 else 'edits'}, kept in {path}:"
        yield from (f"  {_name(each)}: {_change(each)}" for each in taken.fresh)
    if taken.waiting:
        yield "Kept, and not printed yet:"
        yield from (f"  {each}" for each in taken.waiting)
    if taken.back:
        yield "Back to narrator's own words:"
        yield from (f"  {_name(each)}" for each in taken.back)
    if taken.unplaced:
        number = len(taken.unplaced)
        yield f"Could not place {number} {'change' if number == 1 else 'changes'} (kept in the file under unplaced):"
        for each in taken.unplaced:
            lines = ", ".join(map(str, taken.lines.get(each.finding, ())))
            at = f" (checklist line{'s' if ',' in lines else ''} {lines})" if lines else ""
            yield f"  {each.where}{at}: {each.said}"
    if taken.order:
        yield "The order of findings and sentences follows the house and the checklist; a new order was not taken."
    if taken.second:
        yield "Worth a second look:"
        yield from (f"  {each.where}: {each.said}" for each in taken.second)


def _name(edit: Edit) -> str:
    return f"{edit.finding}, {edit.field}" if edit.finding else f"{edit.part} {edit.of}".strip()


def _change(edit: Edit) -> str:
    from narrator.edits.words import told

    return told(edit.base, edit.text) if edit.text else "taken out"


__all__ = ["command", "said"]
