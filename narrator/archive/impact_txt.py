"""An impact for the screen."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from narrator.archive.files import Skipped
from narrator.archive.impact import Impact
from narrator.archive.impact_told import Sample, groups, inspections_of
from narrator.archive.sentences import IMPACT_KINDS

WIDTH = 96


def write(found: Impact, allowed: frozenset[str] = frozenset()) -> str:
    """Counts first, then each entry with its changes by meaning, then what was skipped."""
    return "\n".join([*_head(found, allowed), *_entries(found), *_tail(found)]) + "\n"


def _count(number: int, one: str, more: str) -> str:
    return f"{number:,} {one if number == 1 else more}"


def _head(found: Impact, allowed: frozenset[str]) -> Iterator[str]:
    total = sum(len(each.changes) for each in found.altered)
    of = _count(found.inspections, "inspection", "inspections")
    if total:
        yield f"{_count(total, 'paragraph', 'paragraphs')} in {len(found.altered):,} of {of} would be otherwise."
    else:
        yield f"No paragraph in {of} would be otherwise."
    matters = found.mattering(allowed)
    yield (
        f"{_count(matters, 'change matters', 'changes matter')}."
        if matters
        else "None of that matters."
        if total
        else ""
    )


def _entries(found: Impact) -> Iterator[str]:
    entry = None
    for group in groups(found):
        if group.entry != entry:
            entry = group.entry
            yield ""
            yield f"{entry or 'No entry'}: in {_count(inspections_of(found.altered, entry), 'inspection', 'inspections')}"
        yield f"  {IMPACT_KINDS[group.kind].label}: {_count(group.paragraphs, 'paragraph', 'paragraphs')}"
        for sample in group.samples:
            yield from _sample(sample)
        if group.paragraphs > len(group.samples):
            yield f"    and {group.paragraphs - len(group.samples):,} more"


def _sample(sample: Sample) -> Iterator[str]:
    change = sample.change
    lines = ", ".join(map(str, change.lines))
    where = f"line {lines}" if len(change.lines) == 1 else f"lines {lines}" if lines else ""
    yield f"    {', '.join(filter(None, (sample.shown, where, change.field)))}"
    for sign, text in (("-", change.before), ("+", change.after)):
        if text:
            yield textwrap.fill(text, WIDTH, initial_indent=f"      {sign} ", subsequent_indent="        ")


def _tail(found: Impact) -> Iterator[str]:
    yield ""
    if found.issued:
        said = "issued report lies" if found.issued == 1 else "issued reports lie"
        yield (
            f"{found.issued:,} {said} in the archive. It stays as it went out."
            if found.issued == 1
            else (f"{found.issued:,} {said} in the archive. They stay as they went out.")
        )
    else:
        yield "Reports that were issued are never altered."
    yield from skipped_lines(found.skipped)


def skipped_lines(skipped: tuple[Skipped, ...]) -> Iterator[str]:
    """What was left out, by name."""
    if skipped:
        yield f"Skipped, {_count(len(skipped), 'file or folder', 'files and folders')}:"
        yield from (f"  {each.shown}: {each.why}" for each in skipped)
