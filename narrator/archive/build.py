"""The archive's index brought up to date: every inspection drafted once with the library in force, and what it used kept."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from narrator.archive.answers import answer_of, askable, asked_of, line_key
from narrator.archive.files import Inspection, first_fault
from narrator.archive.kept import Kept, KeptLine
from narrator.archive.parts import changed, glossary_changes, mark_of, parts_of
from narrator.archive.trace import ALWAYS, read_checklist_of, traced
from narrator.errors import NarratorError
from narrator.read.model import Line
from narrator.source import index as store
from narrator.source.index import Index

Tick = Callable[[], object]
SAVED = 500


def bring_up(kept: Kept, inspections: Mapping[str, Inspection], index: Index, tick: Tick | None = None) -> int:
    """Keep what each inspection (by content) uses of this library; returns how many had to be drafted for it.

    Rows of an earlier library stay where nothing that they used has changed since.
    """
    listening = replace(index, asked=set(), cache={})
    if kept.about("library") != mark_of(index):
        parts = parts_of(index)
        if kept.about("library"):
            _forget_stale(kept, inspections, index, parts)
        kept.set_library(parts, mark_of(index), _glossary(index))
    there = kept.contents()
    missing = [(content, each) for content, each in inspections.items() if content not in there]
    numbers = kept.line_numbers()
    for count, (content, inspection) in enumerate(missing, 1):
        _keep(kept, content, inspection, listening, numbers)
        if tick is not None:
            tick()
        if count % SAVED == 0:
            kept.save()
    kept.save()
    return len(missing)


def _keep(kept: Kept, content: str, inspection: Inspection, listening: Index, numbers: dict[str, str]) -> None:
    from narrator.pipeline import places_of

    try:
        checklist, found = traced(inspection, listening)
    except NarratorError as error:
        kept.add_inspection(content, (*ALWAYS, "list:firm"), (), (), first_fault(error))
        return
    places = places_of(listening)
    lines: list[str] = []
    typed = inspection.text.splitlines() if inspection.kind == "text" else []
    for number, line in askable(checklist):
        key = line_key(line)
        if key not in numbers:
            source = _alone(line, typed[number - 1] if number <= len(typed) else "", key, listening)
            numbers[key] = kept.add_line(key, *asked_of(line, listening, places), content, source)
        lines.append(numbers[key])
    kept.add_inspection(content, found.used, dict.fromkeys(lines), found.said)


def _alone(line: Line, typed: str, key: str, index: Index) -> str:
    """The line as typed, under its heading, where that reads back as the same line; else nothing."""
    source = f"{line.heading_text}:\n{typed}" if line.heading_text else typed
    return source if typed and key in _read_alone(source, index) else ""


def _read_alone(source: str, index: Index) -> dict[str, Line]:
    try:
        read = read_checklist_of(Inspection(Path(), "", "text", source), index)
    except NarratorError:
        return {}
    return {line_key(line): line for _, line in askable(read)}


def _glossary(index: Index) -> str:
    return json.dumps(store.document(index, "glossary")["terms"], ensure_ascii=False, sort_keys=True)


def _forget_stale(kept: Kept, inspections: Mapping[str, Inspection], index: Index, parts: Mapping[str, str]) -> None:
    """Take out what the library in force would draft otherwise than the one that the rows are of."""
    moved = changed(kept.parts(), parts)
    numbers = kept.known(moved)
    stale: set[str] = set()
    gone: set[str] = set()
    listening = replace(index, asked=set(), cache={})
    from narrator.pipeline import places_of

    for old, line in lines_with(kept.lines_asking(numbers), inspections, index):
        if line is None:
            gone.add(old.number)
            continue
        answer, asks = asked_of(line, listening, places_of(listening))
        if answer != old.answer:
            stale.add(old.number)
        kept.add_line(old.key, answer, asks, old.example, old.source)
    words = glossary_changes(json.loads(kept.about("glossary")), json.loads(_glossary(index)))
    kept.forget(affected(kept, moved, frozenset(stale | gone), words))
    kept.forget_lines(gone)


def affected(kept: Kept, moved: frozenset[str], lines: frozenset[str], spellings: Sequence[str]) -> list[str]:
    """Inspections (by content) that use a changed part, have one of these lines, or print one of these trade words."""
    from narrator.compose.gloss import WORD

    numbers = kept.known(moved)
    firsts = {match.group() if (match := WORD.match(each)) else each for each in spellings}
    out = []
    for content, used, own, said, _ in kept.inspections():
        hit = not numbers.isdisjoint(used.split(" ")) or not lines.isdisjoint(own.split(" "))
        if hit or (firsts and not firsts.isdisjoint(said.split(" "))):
            out.append(content)
    return out


def lines_with(
    rows: Iterable[KeptLine], inspections: Mapping[str, Inspection], index: Index
) -> list[tuple[KeptLine, Line | None]]:
    """Each kept line with the line itself, read again from an inspection that has it; None where that is gone."""
    wanted: dict[str, list[KeptLine]] = {}
    out: list[tuple[KeptLine, Line | None]] = []
    for row in rows:
        line = _read_alone(row.source, index).get(row.key) if row.source else None
        if line is not None:
            out.append((row, line))
        else:
            wanted.setdefault(row.example, []).append(row)
    for content, group in wanted.items():
        found: dict[str, Line] = {}
        if content in inspections:
            try:
                read = read_checklist_of(inspections[content], index)
                found = {line_key(line): line for _, line in askable(read)}
            except NarratorError:
                found = {}
        out += [(row, found.get(row.key)) for row in group]
    return out


def moved_lines(
    kept: Kept, moved: frozenset[str], inspections: Mapping[str, Inspection], before: Index, after: Index
) -> tuple[frozenset[str], int]:
    """Numbers of the lines that the later library takes for something else, and how many lines were asked again."""
    from narrator.pipeline import places_of

    rows = lines_with(list(kept.lines_asking(kept.known(moved))), inspections, before)
    places = places_of(after)
    other = {row.number for row, line in rows if line is None or answer_of(line, after, places) != row.answer}
    return frozenset(other), len(rows)
