"""Which paragraphs of which inspections a change of wording would alter, without drafting those that it cannot touch."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

from narrator.archive.build import affected, bring_up, moved_lines
from narrator.archive.changes import changes
from narrator.archive.files import Inspection, Report, Skipped, archive, first_fault
from narrator.archive.kept import Kept, content_of, in_memory, open_kept
from narrator.archive.parts import changed, glossary_changes, parts_of
from narrator.archive.sentences import IMPACT_KINDS, Change
from narrator.archive.trace import drafted
from narrator.errors import NarratorError
from narrator.source import index as store
from narrator.source.index import Index

Progress = Callable[[str, int], Callable[[], object]]
"""Told what is done and in how many steps; gives back what to call at each."""


class Altered(NamedTuple):
    """An inspection with what would be otherwise in it."""

    shown: str
    changes: tuple[Change, ...]


class Impact(NamedTuple):
    """What a change of wording would do. `asked`: distinct lines asked again; `drafted`: inspections drafted with both."""

    inspections: int
    issued: int
    traced: int
    asked: int
    drafted: int
    skipped: tuple[Skipped, ...]
    altered: tuple[Altered, ...]

    def mattering(self, allowed: frozenset[str] = frozenset()) -> int:
        """How many changes matter and are not allowed by the name of their kind."""
        return sum(
            IMPACT_KINDS[change.kind].matters and change.kind not in allowed
            for each in self.altered
            for change in each.changes
        )


class Contents(NamedTuple):
    """An archive as read: inspections in order, the first of each content, what was skipped, how many issued reports."""

    inspections: tuple[Inspection, ...]
    by_content: Mapping[str, Inspection]
    contents: tuple[str, ...]
    skipped: tuple[Skipped, ...]
    issued: int


def contents_of(names: Iterable[str]) -> Contents:
    """Read an archive."""
    found = list(archive(names))
    inspections = [each for each in found if isinstance(each, Inspection)]
    contents = [content_of(each) for each in inspections]
    by_content: dict[str, Inspection] = {}
    for content, each in zip(contents, inspections, strict=True):
        by_content.setdefault(content, each)
    skipped = [each for each in found if isinstance(each, Skipped)]
    issued = sum(isinstance(each, Report) and each.issued for each in found)
    return Contents(tuple(inspections), by_content, tuple(contents), tuple(skipped), issued)


def impact(before: Index, after: Index, read: Contents, kept: Kept, progress: Progress) -> Impact:
    """What drafting everything with both libraries would find, from as few drafts as can be."""
    traced = bring_up(kept, read.by_content, before, progress("Reading the archive", len(read.by_content)))
    moved = changed(parts_of(before), parts_of(after))
    lines, asked = moved_lines(kept, moved, read.by_content, before, after)
    terms = glossary_changes(*(store.document(index, "glossary")["terms"] for index in (before, after)))
    wanted = frozenset(affected(kept, moved, lines, terms)) & read.by_content.keys()
    faults = {content: fault for content, _, _, _, fault in kept.inspections() if fault}
    return _told(before, after, read, wanted, progress, faults)._replace(traced=traced, asked=asked)


def impact_of_all(before: Index, after: Index, read: Contents, progress: Progress) -> Impact:
    """The same from drafting every inspection with both libraries."""
    return _told(before, after, read, frozenset(read.by_content), progress, {})


def _told(
    before: Index, after: Index, read: Contents, wanted: frozenset[str], progress: Progress, faults: Mapping[str, str]
) -> Impact:
    found: dict[str, tuple[Change, ...]] = {}
    broken = dict(faults)
    tick = progress("Drafting", len(wanted))
    for content, inspection in read.by_content.items():
        if content not in wanted:
            continue
        try:
            found[content] = changes(drafted(inspection, before), drafted(inspection, after))
        except NarratorError as error:
            broken[content] = first_fault(error)
        tick()
    altered, skipped = [], list(read.skipped)
    for content, inspection in zip(read.contents, read.inspections, strict=True):
        if found.get(content):
            altered.append(Altered(inspection.shown, found[content]))
        if content in broken:
            skipped.append(Skipped(inspection.shown, broken[content]))
    count = len(read.inspections) - sum(content in broken for content in read.contents)
    return Impact(count, read.issued, 0, 0, len(wanted), tuple(sorted(skipped)), tuple(altered))


def silent(_: str, __: int) -> Callable[[], object]:
    """No progress shown."""
    return lambda: None


def run(before: Index, after: Index, names: Sequence[str], progress: Progress = silent, fresh: bool = False) -> Impact:
    """The impact on the archive in these folders and files, with what is kept of it."""
    read = contents_of(names)
    kept = open_kept(names, fresh)
    try:
        return impact(before, after, read, kept, progress)
    except sqlite3.Error:  # a cache that another run holds, that is full or cannot be written is done without
        return impact(before, after, read, in_memory(), progress)
    finally:
        kept.connection.close()


__all__ = ["Altered", "Impact", "contents_of", "impact", "impact_of_all", "run", "silent"]
