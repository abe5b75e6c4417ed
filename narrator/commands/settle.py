"""`narrator settle`: what a draft asks about a line, and the answer, kept beside the checklist."""

from __future__ import annotations

import click

from narrator.commands.common import FIRM, KINDS, NO_FIRM, edits_path, firm_for, library, read_any
from narrator.commands.draft import note_lines
from narrator.errors import did_you_mean
from narrator.source import index as store


@click.command("settle")
@click.argument("checklist")
@click.argument("line", type=click.IntRange(min=0))
@click.argument("code", required=False)
@click.option("--answer", "--as", "answer", metavar="TEXT", help="Answer what is open on the line, in your words.")
@click.option("--by", metavar="WHO", default="", help="Who answers.")
@click.option("--from", "kind", type=click.Choice(KINDS), help="How the checklist is written.")
@FIRM
@NO_FIRM
@click.option("--library", "folder", metavar="DIR", help="Another library folder than narrator's own.")
def command(
    checklist: str,
    line: int,
    code: str | None,
    answer: str | None,
    by: str,
    kind: str | None,
    firm: str | None,
    no_firm: bool,
    folder: str | None,
) -> int:
    """Answer what a draft of CHECKLIST asks about a LINE. Without CODE and --answer, list what is open on it.

    With a CODE (walls.trim.decayed) the line is read as that entry from now on: it confirms a likeness, or settles a line that
    was not understood. With --answer every other question on the line is answered in your words. LINE 0 stands for what is
    asked about no line. Answers are kept in NAME.edits.yaml and stay with the line when it moves.
    """
    if checklist == "-":
        raise click.UsageError("The answers are kept beside the checklist, so it must be a file.")
    if code and answer is not None:
        raise click.UsageError("Give a code or --answer, one of the two.")
    if answer is not None and not answer.strip():
        raise click.UsageError("--answer is empty. Say in a few words what is so.")
    from narrator.edits.model import Edits
    from narrator.edits.settle import open_on, with_answer, with_code
    from narrator.edits.store import load
    from narrator.edits.write import save
    from narrator.pipeline import draft_checklist

    index = library(folder, firm_for(firm, no_firm, checklist))
    path = edits_path(checklist)
    read = read_any(checklist, kind, index)
    edits = load(path) if path.is_file() else Edits(str(path))
    report = draft_checklist(read, index, edits=edits)
    found = open_on(report, read, line)
    if code is None and answer is None:
        return _listed(found.number, found.text, note_lines(found.notes))
    if code is not None:
        code = code.lower()
        if store.entry(index, code) is None:
            raise click.UsageError(f"'{code}' is not a code of the library.{did_you_mean(code, store.codes(index))}")
        edits = with_code(edits, found, report, read, code, by.strip())
    else:
        edits = with_answer(edits, found, " ".join(str(answer).split()), by.strip())
    save(edits)
    after = open_on(draft_checklist(read, index, edits=edits), read, line)
    click.echo(f"Settled, in {path}: line {line}{f' is {code}' if code else ''}.")
    return _listed(after.number, after.text, note_lines(after.notes)) if after.notes else 0


def _listed(number: int, text: str, lines: list[str]) -> int:
    where = f"Line {number}: {text}" if number else "What speaks of no line"
    click.echo(where)
    for each in lines[1:] if lines else ["  Nothing is open here."]:
        click.echo(each)
    return 0
