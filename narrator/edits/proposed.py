"""Edits from an edited report: what a person changed in it against the draft as narrator prints it now."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from narrator.edits.grades import trades_text
from narrator.edits.printed import Text, became, owned, pointed, texts_of
from narrator.edits.slots import findings_of, part_slots
from narrator.edits.words import same
from narrator.publish.labels import Labels
from narrator.review.align import align
from narrator.review.compare_parts import paired
from narrator.review.pieces import Found, Passage, Piece, Reading
from narrator.review.plainly import level

if TYPE_CHECKING:
    from narrator.report import Finding, Report, TradeRef


class Proposed(NamedTuple):
    """A text that a person wants: what it is of, as in `Edit`, its new form, and the printed one that it replaces.

    `prints`: in how many places of the report it stands.
    """

    text: str
    shown: str
    finding: str = ""
    field: str = ""
    part: str = ""
    of: str = ""
    prints: int = 1


_PARTS = {
    "story": ("story",),
    "system": ("description",),
    "looked": ("result", "status"),
    "unseen-here": ("status", "limit"),
    "not-seen": ("status", "limit"),
    "unseen": ("status", "limit"),
    "notes": ("note",),
    "terms": ("term",),
}
"""Parts of the report whose texts print under a role."""

_WHOLE = frozenset({"story", "notes", "terms", "not-seen", "unseen"})
"""Roles that belong to no section."""


def proposed(
    report: Report, printed: Reading, edited: Reading, labels: Labels, bare: Reading, touched: Collection[str]
) -> list[Proposed]:
    """Everything that was changed and has a place. `printed` is the report as it reads back from the same form as `edited`.

    `bare` is the same without any edits: a finding that reads as there, and is not `touched` by an edit, was not changed by
    the person, but by what follows from another edit.
    """
    own = {each.number: _levelled(each.passages) for each in bare.findings}
    by_id = {found["id"]: found for found in findings_of(report)}
    by_number = {found["number"]: found for found in by_id.values()}
    aligned = align(printed.findings, edited.findings)
    out: list[Proposed] = []
    for one, other in sorted(aligned.pairs):
        before, after = printed.findings[one], edited.findings[other]
        found = by_id.get(before.id) or by_number.get(before.number or 0)
        if found is not None:
            as_bare = found["id"] not in touched and own.get(before.number) == _levelled(after.passages)
            out += _of_finding(found, before, after, labels, as_bare)
    pairs, _, _ = paired(printed.pieces, edited.pieces)
    for one, other in sorted(pairs):
        out += _of_piece(report, printed.pieces[one], edited.pieces[other])
    return out


def _of_finding(found: Finding, before: Found, after: Found, labels: Labels, as_bare: bool) -> Iterator[Proposed]:
    if not same(before.title, after.title) and after.title.strip():
        yield Proposed(after.title.strip(), found["title"], found["id"], "title")
    if after.grade != before.grade and after.grade is not None:
        yield Proposed(after.grade, found["severity"] or "", found["id"], "severity")
    if [level(each) for each in before.trades] != [level(each) for each in after.trades] and after.trades:
        text = _trades(found, after.trades, labels)
        if text:
            yield Proposed(text, trades_text(found["trades"]), found["id"], "trades")
    texts = texts_of(found)
    said, now = _prose(before.passages), _prose(after.passages)
    if as_bare or _levelled(before.passages) == _levelled(after.passages):
        return
    shown = {each.field: each.text for each in texts}
    shown |= {f"limits.{each['id']}": each["text"] for each in found["limits"]}
    for field, text in became(pointed(owned(said, texts), found), now, texts).items():
        if not same(text, shown[field]) and (text or field not in ("observation", "title")):
            yield Proposed(text, shown[field], found["id"], field)


def _prose(passages: Sequence[Passage]) -> list[str]:
    return [each.text for each in passages if each.kind not in ("chart", "label", "cells")]


def _levelled(passages: Sequence[Passage]) -> list[str]:
    return [level(each) for each in _prose(passages)]


def _trades(found: Finding, names: Sequence[str], labels: Labels) -> str:
    """The trades of an edited line by id: the first leads, the others keep their part or stand beside. Nothing for unknown ones."""
    ids = {level(label).lower(): trade for trade, label in labels.trades.items()} | {
        each: each for each in labels.trades
    }
    roles = {each["id"]: each["role"] for each in found["trades"]}
    refs: list[TradeRef] = []
    for name in names:
        trade = ids.get(level(name).lower())
        if trade is None:
            return ""
        refs.append({"id": trade, "role": roles.get(trade, "with")})
    if not any(each["role"] == "lead" for each in refs):
        refs[0]["role"] = "lead"
    # The reader of a report is no trade on its line; what is not printed stays.
    return trades_text([*refs, *(each for each in found["trades"] if each["id"] == "owner" and each["role"] != "lead")])


def _of_piece(report: Report, before: Piece, after: Piece) -> Iterator[Proposed]:
    said, now = _prose(before.passages), _prose(after.passages)
    if before.role not in _PARTS or _levelled(before.passages) == _levelled(after.passages):
        return
    numbers = _numbers(before.title) if before.role == "story" else set()
    slots = [
        (part, of, slot)
        for part, of, slot in part_slots(report)
        if part in _PARTS[before.role]
        and (before.role != "story" or _numbers(slot.name) == numbers)
        and (before.role in _WHOLE or part == "limit" or level(slot.name) == level(before.within or before.title))
    ]
    whole = " ".join(map(level, said))
    where = {id(slot): whole.find(level(slot.text)) for _, _, slot in slots}
    slots = sorted((each for each in slots if where[id(each[2])] >= 0), key=lambda each: where[id(each[2])])
    texts = [Text(f"part {at}", slot.text) for at, (_, _, slot) in enumerate(slots)]
    for field, text in became(owned(said, texts), now, texts, paragraphs=before.role == "story").items():
        part, of, slot = slots[int(field.split()[1])]
        if (text or part in ("limit", "term")) and not same(text, slot.text):
            twice = part == "status" and any(each["text"] == slot.text for each in report["unseen"])
            yield Proposed(text, slot.text, part=part, of=of, prints=2 if twice else 1)


def _numbers(text: str) -> set[str]:
    """`Numbers 5, 6 and 13, told together`."""
    return {each.strip(",") for each in level(text).split() if each.strip(",").isdigit()}
