"""What an archive teaches, for the screen."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from narrator.archive.impact_txt import WIDTH, skipped_lines
from narrator.archive.learn import Learnt
from narrator.archive.proposals import Proposal


def write(found: Learnt) -> str:
    """Entries that people change, words that stay unresolved, names that people type; each with its firm edit."""
    return (
        "\n".join(
            [*_head(found), *_edited(found), *_open(found), *_called(found), "", *skipped_lines(found.skipped)]
        ).rstrip()
        + "\n"
    )


def _head(found: Learnt) -> Iterator[str]:
    yield f"{found.inspections:,} inspections read; {found.with_changes:,} of them with something changed or settled by hand."
    if not (found.edited or found.open or found.called):
        yield f"Nothing came up in {found.least} inspections or more."
    else:
        yield "Each edit below goes into the firm's folder, under the name in its first line. Read it before you take it."


def _edited(found: Learnt) -> Iterator[str]:
    if found.edited:
        yield from ("", "Entries that people change")
    for each in found.edited:
        yield ""
        yield f"  {each.title} ({each.code}): changed in {each.changed:,} of {each.told:,} inspections that tell it"
        yield f"    The commonest change, in {each.times:,}: {each.field}"
        for sign, text in (("-", each.before), ("+", each.after)):
            if text:
                yield textwrap.fill(text, WIDTH, initial_indent=f"      {sign} ", subsequent_indent="        ")
        yield from _proposal(each.proposal)


def _open(found: Learnt) -> Iterator[str]:
    if found.open:
        yield from ("", "Words that stay unresolved")
    for each in found.open:
        yield from ("", f"  {each.what}: in {each.times:,} inspections")
        yield from _proposal(each.proposal)


def _called(found: Learnt) -> Iterator[str]:
    if found.called:
        yield from ("", "Names that people type, found by likeness each time")
    for each in found.called:
        yield from ("", f"  {each.what}: in {each.times:,} inspections, taken for {each.title} ({each.code})")
        yield from _proposal(each.proposal)


def _proposal(proposal: Proposal) -> Iterator[str]:
    if not proposal.text:
        yield f"    No edit is proposed. {proposal.why}"
        return
    yield f"    # {proposal.file}"
    yield from (f"    {line}" for line in proposal.text.rstrip("\n").split("\n"))
