"""Two inspectors on one house: what only one reported, what they graded or measured apart. It ranks nobody."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrator.publish.labels import NOT_GRADED
from narrator.review.align import align, prose
from narrator.review.compare import named, notes
from narrator.review.kinds import WEIGHT, Change, Comparison, Row, Side
from narrator.review.meaning import figures
from narrator.review.patterns import CRITERION
from narrator.review.pieces import Found, Reading
from narrator.review.plainly import level, sentences
from narrator.review.wordwise import alike, bag

SAME_PLACE = 0.5
"""Share of common words from which two places are taken for one."""


def compare_house(before: Reading, after: Reading) -> Comparison:
    """Findings of two reports, by what and where, whatever their words."""
    ones, others = before.findings, after.findings
    aligned = align(ones, others, one_draft=False)
    partner = dict(aligned.pairs)
    both = {*partner.values()}
    told: list[tuple[Change, int]] = []
    rows: list[Row] = []
    for at, one in enumerate(ones):
        other = others[partner[at]] if at in partner else None
        rows.append(Row(_line(one), _line(other) if other else ""))
        found = list(_apart(one, other)) if other else [_only("missed", one)]
        told += [(change, len(rows) - 1) for change in found]
    for at, each in enumerate(others):
        if at not in both:
            rows.append(Row("", _line(each)))
            told.append((_only("extra", each), len(rows) - 1))
    order = sorted(range(len(told)), key=lambda at: (WEIGHT[told[at][0].kind], at))
    for rank, at in reversed(list(enumerate(order))):
        rows[told[at][1]] = rows[told[at][1]]._replace(change=rank)
    changes = tuple(told[at][0] for at in order)
    said = (
        f"{len(aligned.pairs)} findings stand in both reports, {len(ones)} in the first, {len(others)} in the second."
    )
    sides = (Side("Findings by what and where", tuple(rows)),)
    return Comparison(named(before), named(after), changes, (*notes(before, after), said), sides, True)


def _line(found: Found) -> str:
    return " · ".join(filter(None, (found.name, found.severity, "; ".join(found.places))))


def _only(kind: str, found: Found) -> Change:
    at = f", {'; '.join(found.places)}" if found.places else ""
    which = "first" if kind == "missed" else "second"
    said = f"Only the {which} report has it{at}. {found.severity.capitalize() or NOT_GRADED.capitalize()}."
    if kind == "missed":
        return Change(kind, found.name, said, _line(found), "", found.line, 0)
    return Change(kind, found.name, said, "", _line(found), 0, found.line)


def _apart(one: Found, other: Found) -> Iterator[Change]:
    lines = one.line, other.line
    yield from _places(one, other)
    if one.grade != other.grade:
        said = f"“{one.severity or NOT_GRADED}” in the first report, “{other.severity or NOT_GRADED}” in the second."
        yield Change("graded", one.name, said, one.severity, other.severity, *lines)
    first, second = _measured(one), _measured(other)
    for unit in (each for each in first if each in second):
        if sorted({value for value, _ in first[unit]}) != sorted({value for value, _ in second[unit]}):
            a, b = (", ".join(dict.fromkeys(text for _, text in found[unit])) for found in (first, second))
            yield Change("measured", one.name, f"{a} in the first report, {b} in the second.", a, b, *lines)


def _places(one: Found, other: Found) -> Iterator[Change]:
    """Places that only one of the two gives; where one gives none, nothing is known of it."""
    if not one.places or not other.places:
        return
    for kind, found, against in (("missed", one, other), ("extra", other, one)):
        for place in found.places:
            if not any(_one_place(place, each) for each in against.places):
                which = "first" if kind == "missed" else "second"
                said = f"Only the {which} report has it there: {place}."
                texts = (place, "", found.line, 0) if kind == "missed" else ("", place, 0, found.line)
                yield Change(kind, found.name, said, *texts)


def _one_place(one: str, other: str) -> bool:
    """Whether two places are one: most words in common, or one only says it more closely."""
    return alike(one, other) >= SAME_PLACE or bag(one) <= bag(other) or bag(other) <= bag(one)


def _measured(found: Found) -> dict[str, list[tuple[str, str]]]:
    """Figures by unit, value and text, from sentences that hold no published one."""
    out: dict[str, list[tuple[str, str]]] = {}
    for sentence in _observed(sentences(level(prose(found)))):
        for value, unit, text in figures(sentence):
            if unit:
                out.setdefault(unit, []).append((value, text))
    return dict(sorted(out.items()))


def _observed(texts: Sequence[str]) -> list[str]:
    return [each for each in texts if not CRITERION.search(each)]
