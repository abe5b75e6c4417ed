"""Whole findings that came, went, moved or were merged, and sentences that stand elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from narrator.review.align import Aligned
from narrator.review.kinds import Change
from narrator.review.lines import displaced
from narrator.review.pieces import Found, Reading
from narrator.review.plainly import level
from narrator.review.units import ADDED, BY_HAND, DROPPED, Unit
from narrator.review.wordwise import alike


class Noted(NamedTuple):
    """A change with the unit and the pairing it was found in (-1 for what stands above the lines), and its area."""

    change: Change
    unit: int
    at: int
    area: str


def whole_findings(before: Reading, after: Reading, aligned: Aligned, read: Sequence[Unit]) -> Iterator[Noted]:
    """Findings that only one report has as such."""
    ones, others = before.findings, after.findings
    place = {unit.owner: at for at, unit in enumerate(read) if unit.area == "finding"}
    of_after = {other: at for at, (_, other) in enumerate(aligned.pairs)}
    of_before = {one: at for at, (one, _) in enumerate(aligned.pairs)}
    for at in aligned.dropped:
        found, owner = ones[at], DROPPED + at
        change = Change(
            "dropped", found.name, "The second report does not have it.", found.title, "", found.line, 0, (), owner
        )
        yield Noted(change, place[owner], -1, "finding")
    for at in aligned.added:
        found, owner = others[at], ADDED + at
        change = Change(
            "added", found.name, "Only the second report has it.", "", found.title, 0, found.line, (), owner
        )
        yield Noted(change, place[owner], -1, "finding")
    for one, other in aligned.merged:
        change = _joined(
            "merged", ones[one], ones[one], others[other], f"It stands inside {_small(others[other].name)} now."
        )
        yield Noted(change._replace(owner=DROPPED + one), place[of_after[other]], -1, "finding")
    for other, one in aligned.split:
        change = _joined(
            "split", ones[one], ones[one], others[other], f"A part of it stands alone as {_small(others[other].name)}."
        )
        yield Noted(change._replace(owner=ADDED + other), place[of_before[one]], -1, "finding")


def _joined(kind: str, of: Found, one: Found, other: Found, said: str) -> Change:
    return Change(kind, of.name, said, one.title, other.title, one.line, other.line)


def _small(name: str) -> str:
    return name[:1].lower() + name[1:]


def moved_sentences(noted: Sequence[Noted]) -> Iterator[Noted]:
    """What left one place and came to another, word for word, has moved."""
    came: dict[str, list[int]] = {}
    for at, each in enumerate(noted):
        if each.at >= 0 and not each.change.before and each.change.after:
            came.setdefault(level(each.change.after), []).append(at)
    gone: set[int] = set()
    moved: dict[int, Noted] = {}
    for at, each in enumerate(noted):
        change = each.change
        targets = came.get(level(change.before)) if each.at >= 0 and change.before and not change.after else None
        if targets:
            to = targets.pop(0)
            gone.add(at)
            other = noted[to].change
            said = f"It stands under another heading now: {other.where}."
            new = change._replace(kind="moved", said=said, after=change.before, after_line=other.after_line)
            moved[to] = noted[to]._replace(change=new)
    yield from (moved.get(at, each) for at, each in enumerate(noted) if at not in gone)


def moved_findings(before: Reading, after: Reading, aligned: Aligned) -> Iterator[Noted]:
    """Findings that stand elsewhere, or have another number."""
    ones, others = before.findings, after.findings
    out = displaced([other for _, other in aligned.pairs])
    others_changed = bool(aligned.dropped or aligned.added or aligned.merged or aligned.split or out)
    for at, (one, other) in enumerate(aligned.pairs):
        a, b = ones[one], others[other]
        sections = level(a.section), level(b.section)
        elsewhere = sections[0] != sections[1] and alike(*sections) < 0.5
        if at in out or elsewhere:
            said = f"It stands elsewhere{f', under {b.section}' if b.section and elsewhere else ''}."
            yield Noted(Change("moved", a.name, said, a.title, b.title, a.line, b.line, (), at), -1, -1, "finding")
    changed = [(at, ones[one], others[other]) for at, (one, other) in enumerate(aligned.pairs)]
    changed = [each for each in changed if each[1].number != each[2].number]
    if changed and (others_changed or len(changed) > BY_HAND):
        first = changed[0]
        said = f"{len(changed)} findings have another number; {first[1].number} is now {first[2].number}."
        yield Noted(Change("renumbered", "Findings", said), -1, -1, "finding")
        return
    for at, a, b in changed:
        said = f"It is number {b.number} now." if b.number is not None else "It has lost its number."
        texts = (str(a.number or ""), str(b.number or ""), a.line, b.line)
        yield Noted(Change("number", a.name, said, *texts, (), at), -1, -1, "finding")
