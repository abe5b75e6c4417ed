"""What changed between two reports, by meaning. All the text is read: findings, first page, conditions, sheets, terms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrator.review import kinds, telling
from narrator.review.align import align
from narrator.review.compare_follow import grouped
from narrator.review.compare_whole import Noted, moved_findings, moved_sentences, whole_findings
from narrator.review.kinds import KINDS, WEIGHT, Change, Comparison, Row, Side
from narrator.review.lines import CHART, Line, Pairing, displaced
from narrator.review.meaning import Known, Meaning, alone, between, gained
from narrator.review.pieces import Reading
from narrator.review.plainly import level
from narrator.review.units import Unit, units
from narrator.review.wordwise import alike, bag, marked, tokens


def compare(before: Reading, after: Reading) -> Comparison:
    """Everything that differs, the weightiest first; what only follows from another change stands under it."""
    aligned = align(before.findings, after.findings)
    known = Known(_vocabulary(before), _vocabulary(after), _glosses(before) | _glosses(after))
    read = units(before, after, aligned, known)
    noted = [each for at, unit in enumerate(read) for each in _changes(unit, at, known)]
    noted += whole_findings(before, after, aligned, read)
    noted = list(moved_sentences(noted))
    noted += moved_findings(before, after, aligned)
    heads = grouped([(each.change, each.area) for each in noted])
    order = sorted(range(len(heads)), key=lambda at: (WEIGHT[heads[at][0].kind], at))
    place = {member: rank for rank, at in enumerate(order) for member in heads[at][1]}
    shown = {(noted[at].unit, noted[at].at): rank for at, rank in sorted(place.items(), reverse=True)}
    return Comparison(
        named(before),
        named(after),
        tuple(heads[at][0] for at in order),
        tuple(notes(before, after)),
        tuple(_side(unit, at, shown) for at, unit in enumerate(read)),
    )


def named(reading: Reading) -> kinds.Report:
    """A report as the comparison names it."""
    return kinds.Report(reading.path, reading.form, reading.house, len(reading.findings))


def notes(before: Reading, after: Reading) -> Iterator[str]:
    """What the person at the screen should know of the two files."""
    yield from before.remarks
    yield from after.remarks
    houses = level(before.house).lower(), level(after.house).lower()
    if all(houses) and houses[0] != houses[1]:
        yield f"The two reports name different houses: {before.house} and {after.house}."
    if before.draft != after.draft:
        yield f"{(after if after.draft else before).path} is a draft, the other report is not."


def _vocabulary(reading: Reading) -> frozenset[str]:
    words: set[str] = set()
    for each in reading.order:
        words |= bag(each.title)
        for passage in each.passages:
            words |= bag(passage.text)
    return frozenset(words)


def _glosses(reading: Reading) -> frozenset[str]:
    rows = [
        passage.text.partition(": ")[2]
        for each in reading.pieces
        if each.role == "glossary"
        for passage in each.passages
    ]
    return frozenset(" ".join(each.lower() for each in tokens(row) if each[0].isalnum()) for row in rows)


def _changes(unit: Unit, at: int, known: Known) -> Iterator[Noted]:
    for field in unit.fields:
        yield Noted(field, at, -1, unit.area)
    if unit.role == "alone":
        return
    area = unit.area if unit.area == "other" or not _one_sided(unit) else f"whole {unit.area}"
    rows: dict[tuple[object, bool], list[int]] = {}
    renamed: set[tuple[object, object]] = set()
    for number, pairing in enumerate(unit.pairings):
        only = pairing.before if pairing.after is None else pairing.after if pairing.before is None else None
        if only is not None and only.key is not None:
            rows.setdefault((only.key, pairing.after is None), []).append(number)
        elif change := _change(unit, pairing, known):
            keys = (pairing.before.key, pairing.after.key) if pairing.before and pairing.after else (None, None)
            if keys[0] == keys[1] or keys not in renamed:  # a row is told once, whatever cells it has
                yield Noted(change, at, number, area)
            renamed.add(keys)
    for (key, gone), numbers in rows.items():
        yield Noted(_row(unit, key, gone, [unit.pairings[each] for each in numbers]), at, numbers[0], unit.area)
    yield from _reordered(unit, at)


def _reordered(unit: Unit, at: int) -> Iterator[Noted]:
    stay = [(n, each) for n, each in enumerate(unit.pairings) if each.before and each.after and each.before.key is None]
    out = displaced([each.at for _, each in stay])
    if out:
        number, first = stay[min(out)]
        assert first.before and first.after
        said = "One sentence stands elsewhere." if len(out) == 1 else f"{len(out)} sentences stand in another order."
        texts = (first.after.printed, first.after.printed, first.before.line, first.after.line)
        yield Noted(Change("reordered", unit.where, said, *texts, (), unit.owner), at, number, unit.area)


def _one_sided(unit: Unit) -> bool:
    return all(each.before is None for each in unit.pairings) or all(each.after is None for each in unit.pairings)


def _row(unit: Unit, key: object, gone: bool, pairings: Sequence[Pairing]) -> Change:
    """A row of a list or a sheet, or some cells of it, that is only in one report."""
    found = [line for each in pairings if (line := each.before if gone else each.after) is not None]
    text = "; ".join(each.printed for each in found)
    kind = alone(text, unit.role) if gone else gained(text, unit.role)
    if unit.area != "opening":
        kind = "omitted" if gone else kind if kind == "claim" else "added-text"
    whole = unit.area != "sheet" or any(each.label == "Item" for each in found)
    said = f"A {'row' if whole else 'cell'} was {'left out' if gone else 'added'}."
    texts = (text, "", found[0].line, 0) if gone else ("", text, 0, found[0].line)
    return Change(kind, _row_place(unit, found[0]), said, *texts, (), _owner(key))


def _row_place(unit: Unit, line: Line) -> str:
    return unit.where if line.number is None else f"{unit.where}, number {line.number}"


def _owner(key: object) -> int | None:
    return key if isinstance(key, int) else None


def _change(unit: Unit, pairing: Pairing, known: Known) -> Change | None:
    before, after = pairing.before, pairing.after
    if before and after:
        same = (before.text, before.key, before.label) == (after.text, after.key, after.label)
        return None if same else _altered(unit, before, after, known)
    if before:
        kind = "omitted" if before.label == CHART else alone(before.text, unit.role)
        said = telling.PICTURE if before.label == CHART else telling.gone(kind)
        return Change(kind, unit.where, said, before.printed, "", before.line, 0, (), unit.owner)
    assert after
    kind = gained(after.text, unit.role)
    return Change(kind, unit.where, telling.came(kind), "", after.printed, 0, after.line, (), unit.owner)


def _altered(unit: Unit, before: Line, after: Line, known: Known) -> Change | None:
    owner = unit.owner if unit.owner is not None else _owner(before.key)
    texts = before.printed, after.printed
    base = (*texts, before.line, after.line, marked(*texts), owner)
    plain = between(before.text, after.text, known)
    meanings = [_in_role(each, unit.role) for each in plain]
    also = tuple(each.kind for each in meanings)
    where = _row_place(unit, before)
    if before.key != after.key:
        return Change("number", where, "The row names another number.", *base, also)
    if before.label != after.label and unit.area == "opening" and alike(before.label, after.label) < 1:
        said = telling.became("The list it stands in", before.label, after.label)
        return Change("grade" if unit.where == "Summary" else "trade", where, said, *base, also)
    if not meanings:
        return None
    first, *rest = sorted(meanings, key=lambda each: WEIGHT[each.kind])
    return Change(first.kind, where, telling.altered(first), *base, _beside(first, [*rest, *plain]))


def _beside(first: Meaning, others: Sequence[Meaning]) -> tuple[str, ...]:
    """Further kinds in one sentence; of what a part of the report is held to, what it is elsewhere."""
    return tuple(dict.fromkeys(each.kind for each in others if each.kind != first.kind and KINDS[each.kind].matters))


_HELD = {
    "term": ("term", {"word", "reworded", "omitted", "added-text", "recommendation", "place"}),
    "deadline": ("deadline", {"number", "measure", "criterion", "negation", "omitted", "reworded", "stance"}),
    "limit": ("limit", {"omitted", "reworded"}),
    "header": ("header", {"word", "reworded", "omitted", "added-text", "trade", "stance", "recommendation"}),
}
"""Some parts are held to more: the terms to every word, the deadline to every figure."""


def _in_role(meaning: Meaning, role: str) -> Meaning:
    if role == "version":
        return meaning._replace(kind="version")
    name, heavy = _HELD.get(role, ("", set()))
    return meaning._replace(kind=name) if meaning.kind in heavy else meaning


def _side(unit: Unit, at: int, shown: dict[tuple[int, int], int]) -> Side:
    above = shown.get((at, -1))
    alone = unit.role == "alone"
    rows = [] if above is None or alone else [_above(unit, above)]
    for number, each in enumerate(unit.pairings):
        one, other = each.before.printed if each.before else "", each.after.printed if each.after else ""
        change = above if alone else shown.get((at, number))
        rows.append(Row(one, other, marked(one, other) if change is not None and one and other else (), change))
    return Side(unit.title or unit.where, tuple(rows))


def _above(unit: Unit, change: int) -> Row:
    """What stands above the lines and is another now: title, grade, trade, place, photos."""
    one, other = "; ".join(each.before for each in unit.fields), "; ".join(each.after for each in unit.fields)
    return Row(one, other, marked(one, other), change)
