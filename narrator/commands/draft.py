"""`narrator draft`: a checklist becomes a draft report."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from narrator.commands.common import FIRM, KINDS, NO_FIRM, draft_of, firm_for, labels_of, library, write_whole
from narrator.publish import FORMATS, LATER, by_suffix, publish

if TYPE_CHECKING:
    from narrator.report import Report, ReviewNote


@click.command("draft")
@click.argument("checklist")
@click.option(
    "-o",
    "--output",
    metavar="FILE",
    help="Write the draft to this file; its ending (.html, .md, .txt, .json) says how.",
)
@click.option("--to", type=click.Choice([*FORMATS, *LATER]), help="How to write it, whatever the file is called.")
@click.option(
    "--from", "kind", type=click.Choice(KINDS), help="How the checklist is written, if its ending does not say."
)
@FIRM
@NO_FIRM
@click.option("--library", "folder", metavar="DIR", help="Another library folder than narrator's own.")
@click.option("--library-lock", metavar="FILE", help="Refuse any library and firm but the approved ones in FILE.")
@click.option("--no-edits", is_flag=True, help="Leave out the hand edits and answers that lie beside the checklist.")
@click.option("--strict", is_flag=True, help="Exit with 1 while any review note is left.")
def command(
    checklist: str,
    output: str | None,
    to: str | None,
    kind: str | None,
    firm: str | None,
    no_firm: bool,
    folder: str | None,
    library_lock: str | None,
    no_edits: bool,
    strict: bool,
) -> int:
    """Turn CHECKLIST into a draft report.

    CHECKLIST is a text file with one line for each thing seen ("shingles curling | rear slope | photos 20, 21"), or the same
    as a spreadsheet's CSV, as YAML or JSON. A single - reads what you paste.

    Without -o the draft is printed as Markdown. What you should look at before you send it stands after it, with line numbers.
    """
    form = _form(output, to)
    if output and output != "-" and checklist != "-" and Path(output).absolute() == Path(checklist).absolute():
        raise click.UsageError("The draft would overwrite the checklist. Give -o another name.")
    index = library(folder, firm_for(firm, no_firm, checklist))
    if library_lock:
        from narrator.source.approved import refuse_others

        refuse_others(index, library_lock)
    report = draft_of(checklist, kind, index, with_edits=not no_edits)
    text = publish(report, form, labels_of(index))
    if output and output != "-":
        write_whole(Path(output), text)
    else:
        sys.stdout.write(text)
        sys.stdout.flush()
    _say(report, output if output != "-" else None)
    left = [note for note in report["review_notes"] if "settled" not in note]
    fallback = any(note["kind"] == "fallback" for note in left)
    return 1 if fallback or (strict and left) else 0


def _form(output: str | None, to: str | None) -> str:
    """The form to write: `--to`, else the file's ending, else Markdown."""
    found = to or ("md" if not output or output == "-" else by_suffix(output))
    if found is None:
        suffix = Path(str(output)).suffix or "no ending"
        raise click.UsageError(f"'{output}' has {suffix}; use .html, .md, .txt or .json, or say --to.")
    if found in LATER:
        raise click.UsageError(f"Drafts as {found} come in a later version. Use html, md, txt or json for now.")
    return found


def _say(report: Report, output: str | None) -> None:
    """Where the draft is, and the review notes, on standard error."""
    findings = sum(len(section["findings"]) for section in report["sections"])
    where = f" in {output}" if output else ""
    edits = sum(each["applied"] for each in report.get("edits", ()))
    by_hand = f", {edits} {'text' if edits == 1 else 'texts'} edited by hand" if edits else ""
    click.echo(f"Draft{where}: {findings} {'finding' if findings == 1 else 'findings'}{by_hand}.", err=True)
    for line in note_lines(report["review_notes"]):
        click.echo(line, err=True)


_KINDS = {
    "unresolved": "Lines still to settle (kept word for word)",
    "contradiction": "Lines that speak against each other",
    "edit": "Your edits",
    "settled": "Settled before, and not any more",
    "notice": "Who was warned?",
    "fallback": "Paragraphs that could not be worded",
    "likeness": "Read by likeness: is that what you meant?",
    "unit": "Units that were read into a figure",
    "measure": "Figures that cannot be",
    "words": "Kept as your own words",
    "result": "Read as things that went fine",
    "wording": "Words a client should not read",
    "inferred": "Inferred: from what?",
    "grade": "Without a grade",
    "override": "Set by hand",
    "held-back": "Not held back",
    "standard": "The standard of practice",
    "duty": "Owed under the standard of practice",
    "coverage": "Not spoken of",
    "header": "Headers",
    "firm": "What the firm asks for",
    "form": "How the file was read",
    "left-out": "Left out",
}


def note_lines(notes: Sequence[ReviewNote]) -> list[str]:
    """Review notes that nobody has answered, grouped by kind, the weightiest first, each with its line numbers."""
    answered = sum("settled" in note for note in notes)
    done = [f"{answered} {'thing is' if answered == 1 else 'things are'} settled already."] if answered else []
    notes = [note for note in notes if "settled" not in note]
    if not notes:
        return done
    out = [f"{len(notes)} {'thing' if len(notes) == 1 else 'things'} to look at before this goes out:"]
    order = [*_KINDS, *sorted({note["kind"] for note in notes} - set(_KINDS))]
    for kind in order:
        found = [note for note in notes if note["kind"] == kind]
        if not found:
            continue
        out.append(f"  {_KINDS.get(kind, kind)}")
        for note in found:
            lines = ", ".join(str(number) for number in note["lines"])
            out.append(
                f"    line{'s' if len(note['lines']) > 1 else ''} {lines}: {note['text']}"
                if lines
                else f"    {note['text']}"
            )
    return out + done
