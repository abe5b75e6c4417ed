"""What an archive teaches: what people keep changing, what stays unresolved, what they call things. Things are counted, not people."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from difflib import SequenceMatcher
from pathlib import Path
from typing import NamedTuple

from narrator.archive.files import Inspection, Report, Skipped, archive
from narrator.archive.proposals import Proposal, for_change, for_name
from narrator.archive.sent import Sent, Touch, sent_of
from narrator.publish.labels import Labels
from narrator.resolve.vocabulary import name_key
from narrator.review.wordwise import differences
from narrator.source import index as store
from narrator.source.index import Index

ALIKE = 0.8
"""Likeness of two edits, by their words, from which they count as the same."""


class Edited(NamedTuple):
    """An entry that people change: in how many inspections it is told, in how many it was changed, the commonest change."""

    code: str
    title: str
    told: int
    changed: int
    field: str
    times: int
    before: str
    after: str
    proposal: Proposal


class Open(NamedTuple):
    """Words that stay unresolved, how often, what is near, and what they were settled as."""

    what: str
    times: int
    nearest: tuple[str, ...]
    proposal: Proposal


class Called(NamedTuple):
    """What people type for an entry that has no such name: found by likeness each time."""

    what: str
    code: str
    title: str
    times: int
    proposal: Proposal


class Learnt(NamedTuple):
    """All of it; `least`: from how many inspections on something counts."""

    inspections: int
    with_changes: int
    least: int
    edited: tuple[Edited, ...]
    open: tuple[Open, ...]
    called: tuple[Called, ...]
    skipped: tuple[Skipped, ...]


def learn(
    names: Iterable[str], index: Index, labels: Labels, least: int, progress: Callable[[str, int], Callable[[], object]]
) -> Learnt:
    """Read the archive and count. Raises nothing for files that cannot be read: they are named in `skipped`."""
    found = list(archive(names))
    inspections = [each for each in found if isinstance(each, Inspection)]
    reports: dict[Path, list[Report]] = {}
    for each in found:
        if isinstance(each, Report):
            reports.setdefault(each.path.parent, []).append(each)
    skipped = [each for each in found if isinstance(each, Skipped)]
    tick = progress("Reading the archive", len(inspections))
    sent: list[Sent] = []
    for inspection in inspections:
        one, more = sent_of(inspection, index, labels, reports)
        sent += [one] if one else []
        skipped += more
        tick()
    changed = sum(bool(each.touched or each.settled) for each in sent)
    return Learnt(
        len(sent),
        changed,
        least,
        _edited(sent, index, least),
        _open(sent, index, least),
        _called(sent, index, least),
        tuple(skipped),
    )


def _edited(sent: Sequence[Sent], index: Index, least: int) -> tuple[Edited, ...]:
    told: Counter[str] = Counter()
    titles: dict[str, str] = {}
    touches: dict[str, list[tuple[int, Touch]]] = {}
    for at, each in enumerate(sent):
        findings = [found for section in each.report["sections"] for found in section["findings"]]
        told.update({found["code"] for found in findings})
        titles |= {found["code"]: found["title"] for found in findings}
        for touch in dict.fromkeys(each.touched):
            touches.setdefault(touch.code, []).append((at, touch))
    out = []
    for code, rows in touches.items():
        changed = len({at for at, _ in rows})
        if changed < least or store.entry(index, code) is None:
            continue
        common = commonest(rows)
        times = len({at for at, _ in common})
        first = Counter(touch for _, touch in common).most_common(1)[0][0]
        proposal = (
            for_change(first, index)
            if times >= least
            else Proposal("", "", "No change of it stands in two inspections.")
        )
        out.append(
            Edited(
                code,
                titles.get(code, code),
                told[code],
                changed,
                first.field,
                times,
                first.before,
                first.after,
                proposal,
            )
        )
    out.sort(key=lambda each: (-each.changed, -each.times, each.code))
    return tuple(out)


def commonest(rows: Sequence[tuple[int, Touch]]) -> list[tuple[int, Touch]]:
    """The largest group of edits that are alike: of one field, and by the words that left and came."""
    groups: list[list[tuple[int, Touch]]] = []
    for row in sorted(rows, key=lambda each: (each[1], each[0])):
        home = next((group for group in groups if _alike(group[0][1], row[1])), None)
        if home is None:
            groups.append([row])
        else:
            home.append(row)
    return max(groups, key=lambda group: (len({at for at, _ in group}), [-ord(sign) for sign in group[0][1].field]))


def _alike(one: Touch, other: Touch) -> bool:
    if one.field != other.field or bool(one.after) != bool(other.after) or bool(one.before) != bool(other.before):
        return False
    first, second = _words(one), _words(other)
    return first == second or SequenceMatcher(None, first, second, autojunk=False).ratio() >= ALIKE


def _words(touch: Touch) -> list[str]:
    """The words that left and that came; places and figures of one house stand on both sides and so in neither."""
    pieces = differences(touch.before, touch.after)
    return [
        *(f"-{word}" for piece in pieces for word in piece.lost),
        *(f"+{word}" for piece in pieces for word in piece.gained),
    ]


def _open(sent: Sequence[Sent], index: Index, least: int) -> tuple[Open, ...]:
    times: Counter[str] = Counter()
    shown: dict[str, str] = {}
    near: dict[str, tuple[str, ...]] = {}
    settled: dict[str, Counter[str]] = {}
    for each in sent:
        here: set[str] = set()
        for item in each.report["unresolved"]:
            what = item["text"].partition("|")[0].strip()
            key = name_key(what)
            if key:
                here.add(key)
                shown.setdefault(key, what)
                near.setdefault(key, tuple(one["code"] for one in item["nearest"]))
        for one in each.settled:
            settled.setdefault(name_key(one.what.partition("|")[0]), Counter())[one.code] += 1
        times.update(here)
    out = []
    for key, count in times.items():
        if count >= least:
            codes = settled.get(key, Counter())
            proposal = (
                for_name(shown[key], next(iter(codes)), index)
                if len(codes) == 1
                else Proposal("", "", _why_open(codes, near[key]))
            )
            out.append(Open(shown[key], count, near[key], proposal))
    out.sort(key=lambda each: (-each.times, each.what))
    return tuple(out)


def _why_open(codes: Counter[str], near: Sequence[str]) -> str:
    if codes:
        return f"It was settled in different ways ({', '.join(sorted(codes))}); a person has to choose."
    return (
        f"Nobody has settled it. Nearest: {', '.join(near)}."
        if near
        else "Nobody has settled it, and no entry is near."
    )


def _called(sent: Sequence[Sent], index: Index, least: int) -> tuple[Called, ...]:
    """Names by likeness, of lines whose words alone were matched."""
    times: Counter[tuple[str, str]] = Counter()
    shown: dict[tuple[str, str], tuple[str, str]] = {}
    for each in sent:
        here: set[tuple[str, str]] = set()
        for note in each.report["review_notes"]:
            if note["kind"] == "likeness":
                what, code = (
                    note["text"].split("' was taken for '", 1)[0].removeprefix("'"),
                    note["text"].rpartition("(")[2].rstrip(")."),
                )
                key = (name_key(what), code)
                here.add(key)
                shown.setdefault(key, (what, code))
        times.update(here)
    out = []
    for key, count in times.items():
        entry = store.entry(index, key[1])
        if count >= least and entry is not None and key[0]:
            what, code = shown[key]
            out.append(Called(what, code, entry.title[-1].text, count, for_name(what, code, index)))
    out.sort(key=lambda each: (-each.times, each.code, each.what))
    return tuple(out)
