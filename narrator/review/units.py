"""Both reports in stretches that are read together: a finding with its own form, a piece with its own, the rest alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from narrator.review import telling
from narrator.review.align import Aligned
from narrator.review.compare_findings import fields
from narrator.review.compare_parts import area, meant, paired, where
from narrator.review.kinds import KINDS, Change
from narrator.review.lines import Line, Pairing, lines_of, pair
from narrator.review.meaning import Known, between
from narrator.review.pieces import Found, Passage, Piece, Reading
from narrator.review.plainly import level
from narrator.review.references import translated
from narrator.review.wordwise import marked

DROPPED, ADDED = 1_000_000, 2_000_000
"""Where the owners of findings begin that have no partner; those of pairs begin at 0."""


BY_HAND = 2
"""So many numbers may change by hand in a report; more are counted anew, and then the text counts with them."""

LISTS = frozenset({"unseen", "photos", "glossary", "settle"})
"""Roles whose text is a list: a row is one, however many sentences it has."""


class Unit(NamedTuple):
    """A stretch of both reports that is read together. Either side may have no lines.

    `role` is what its text is about (`alone`: a finding that only one report has), `area` the kind of its place.
    """

    title: str
    where: str
    role: str
    area: str
    owner: int | None
    pairings: tuple[Pairing, ...]
    fields: tuple[Change, ...] = ()


class _Numbers(NamedTuple):
    """The owner of each number in both reports, and the second's number for each of the first where they differ."""

    before: dict[int, object]
    after: dict[int, object]
    to: dict[int, int | None]

    def lines(self, passages: Iterable[Passage], whole: bool = False) -> list[Line]:
        """Lines of the first report, with the numbers of the second."""
        found = lines_of(passages, self.before, whole)
        if not self.to:
            return found
        brought = ((each, translated(each.text, self.to)) for each in found)
        return [each if text == each.text else each._replace(text=text, shown=each.text) for each, text in brought]


def units(before: Reading, after: Reading, aligned: Aligned, known: Known) -> list[Unit]:
    """The whole of both reports, in the order of the second; what is only in the first stands at the end."""
    ones, others = before.findings, after.findings
    numbers = _numbers(ones, others, aligned)
    findings = dict(_findings(ones, others, aligned, numbers, known))
    pieces, gone = _pieces(before.pieces, after.pieces, numbers, known)
    rows, parts = iter(range(len(others))), iter(pieces)
    out = []
    for each in after.order:
        unit = findings.get(next(rows)) if isinstance(each, Found) else next(parts)
        out += [unit] if unit else []
    for at in aligned.dropped:
        only = tuple(Pairing(line, None, number) for number, line in enumerate(numbers.lines(ones[at].passages)))
        gone.append(Unit(ones[at].name, ones[at].name, "alone", "finding", DROPPED + at, only))
    return [*out, *gone]


def _numbers(ones: Sequence[Found], others: Sequence[Found], aligned: Aligned) -> _Numbers:
    owner = {one: at for at, (one, _) in enumerate(aligned.pairs)}
    fresh = {other: at for at, (_, other) in enumerate(aligned.pairs)}
    before: dict[int, object] = {}
    after: dict[int, object] = {}
    for at, found in reversed(list(enumerate(ones))):
        if found.number is not None:
            before[found.number] = owner.get(at, DROPPED + at)
    for at, found in reversed(list(enumerate(others))):
        if found.number is not None:
            after[found.number] = fresh.get(at, ADDED + at)
    changed = sum(ones[one].number != others[other].number for one, other in aligned.pairs)
    alone = aligned.dropped or aligned.added or aligned.merged or aligned.split
    if not changed or (changed <= BY_HAND and not alone):
        # What changed by hand in one place still has its old number on page one and in the sheets.
        kept = {
            number: at
            for at, (one, other) in enumerate(aligned.pairs)
            if (number := ones[one].number) == others[other].number and number is not None
        }
        before, after = {**before, **kept}, {**after, **kept}
        return _Numbers({**after, **before}, {**before, **after}, {})
    to: dict[int, int | None] = {found.number: None for found in ones if found.number is not None}
    for one, other in (*aligned.merged, *aligned.pairs):
        number = ones[one].number
        if number is not None:
            to[number] = others[other].number
    return _Numbers(before, after, to)


def _findings(
    ones: Sequence[Found], others: Sequence[Found], aligned: Aligned, numbers: _Numbers, known: Known
) -> Iterator[tuple[int, Unit]]:
    """Each finding of the second report but those that are parts of one of the first."""
    parted = dict(aligned.split)
    partner = {other: (at, one) for at, (one, other) in enumerate(aligned.pairs)}
    for at, each in enumerate(others):
        if at in partner:
            owner, one = partner[at]
            joined = [other for other, into in aligned.merged if into == at]
            parts = [other for other, of in aligned.split if of == one]
            texts = [passage for member in (one, *joined) for passage in ones[member].passages]
            news = [*each.passages, *(passage for part in parts for passage in others[part].passages)]
            said = tuple(fields(_with(ones[one], [ones[other] for other in joined], each), each, known, owner))
            pairings = tuple(pair(numbers.lines(texts), lines_of(news, numbers.after)))
            yield at, Unit(each.name, each.name, "finding", "finding", owner, pairings, said)
        elif at not in parted:
            only = tuple(Pairing(None, line) for line in lines_of(each.passages, numbers.after))
            yield at, Unit(each.name, each.name, "alone", "finding", ADDED + at, only)


def _with(found: Found, joined: Sequence[Found], after: Found) -> Found:
    """A finding with the places and photos that came from those merged into it: they are no change of their own."""
    for each in joined:
        found = found._replace(
            places=(
                *found.places,
                *(place for place in each.places if place in after.places and place not in found.places),
            ),
            photos=tuple({*found.photos, *({*each.photos} & {*after.photos})}),
            sketches=tuple({*found.sketches, *({*each.sketches} & {*after.sketches})}),
        )
    return found


def _pieces(
    before: Sequence[Piece], after: Sequence[Piece], numbers: _Numbers, known: Known
) -> tuple[list[Unit], list[Unit]]:
    """A unit for each piece of the second report, and those that only the first has."""
    titled = (
        [each._replace(title=translated(level(each.title), numbers.to)) for each in before] if numbers.to else before
    )
    pairs, gone, _ = paired(titled, after)
    partner = {other: one for one, other in pairs}
    out = []
    for at, each in enumerate(after):
        old = before[partner[at]] if at in partner else None
        whole = each.role in LISTS
        pairings = tuple(
            pair(numbers.lines(old.passages if old else (), whole), lines_of(each.passages, numbers.after, whole))
        )
        heading = _heading(old, titled[partner[at]].title, each, known) if old else _new_heading(each)
        out.append(Unit(each.title, where(each), meant(each), area(each), None, pairings, tuple(heading)))
    left = []
    for at in gone:
        only = tuple(
            Pairing(line, None, number)
            for number, line in enumerate(numbers.lines(before[at].passages, before[at].role in LISTS))
        )
        left.append(Unit(before[at].title, where(before[at]), meant(before[at]), area(before[at]), None, only))
    return out, left


def _heading(old: Piece, title: str, new: Piece, known: Known) -> Iterator[Change]:
    if level(title) == level(new.title):
        return
    meanings = between(level(title), level(new.title), known)
    kind = meanings[0].kind if meanings else "spelling"
    if old.role == "head" and kind not in ("spelling", "number"):
        kind = "header"
    elif not KINDS[kind].matters or (kind in ("reworded", "omitted") and area(old) != "opening"):
        kind = "spelling" if kind == "spelling" else "heading"
    said = telling.became("Heading", old.title, new.title)
    words = marked(level(title), level(new.title))
    yield Change(kind, where(new), said, old.title, new.title, old.line, new.line, words)


def _new_heading(piece: Piece) -> Iterator[Change]:
    if piece.title and piece.role in ("system", "other"):
        yield Change("heading", where(piece), f"A heading was added: “{piece.title}”.", "", piece.title, 0, piece.line)
