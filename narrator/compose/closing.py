"""Plain closing sentences: what the chosen wording left out is said, never dropped."""

from __future__ import annotations

from collections.abc import Sequence

from narrator.assess.model import Seen
from narrator.compose.english import clock, lower_first, number_word
from narrator.compose.facts import Told, line_ref, place_value
from narrator.compose.spans import Paragraph, Span, engine, first_end
from narrator.read.model import Item


def _by_line(seen: Sequence[Seen]) -> list[list[Seen]]:
    """Instances by the line they come from: a count or a quotation stands once, for all its places."""
    groups: dict[object, list[Seen]] = {}
    for one in seen:
        groups.setdefault((one.instance.line.number, one.instance.line.column), []).append(one)
    return list(groups.values())


def count_sentence(seen: Sequence[Seen], told: Told) -> Paragraph | None:
    """`There are three of these.` or, at several places, how many at each."""
    by_line = _by_line([one for one in seen if one.instance.count is not None])
    counted = [group[0] for group in by_line]
    if not counted:
        return None
    spans: list[Span] = []
    for index, one in enumerate(counted):
        number = one.instance.count or 0
        verb = "is" if number == 1 else "are"
        lead = f"There {verb} " if index == 0 else (" and " if index == len(counted) - 1 else ", ")
        spans += [
            engine(lead, "count"),
            Span(number_word(number), "count", line_ref(one), None, one.instance.line.number),
        ]
        where = place_value(by_line[index], told)
        if len(_by_line(seen)) > 1 and where.spans:
            spans += [engine(" ", "count"), *where.spans]
        elif index == 0:
            spans.append(engine(" of these", "count"))
    return Paragraph((*spans, engine(".", "count")))


def same_sentence(seen: Sequence[Seen], told: Told) -> Paragraph | None:
    """Places that show the condition without a figure of their own."""
    where = place_value(seen, told)
    if not where.spans:
        return None
    return Paragraph((engine("It is the same ", "places"), *where.spans, engine(".", "places")))


def words_sentence(seen: Sequence[Seen], told: Told) -> Paragraph | None:
    """The inspector's own words, verbatim and marked as such."""
    first: dict[tuple[str, int], Seen] = {}
    for one in seen:
        for words in one.instance.words:
            first.setdefault((words, one.instance.line.number), one)
    said = [(words, one) for (words, _), one in first.items()]
    if not said:
        return None
    spans: list[Span] = [engine("In the inspector's words: ", "words")]
    groups = {(group[0].instance.line.number, group[0].instance.line.column): group for group in _by_line(seen)}
    several = len({one.instance.place for one in seen}) > 1 and len(groups) > 1
    for index, (words, one) in enumerate(said):
        if index:
            spans.append(engine("; ", "words"))
        spans += [
            engine("“", "words"),
            Span(words, "words", line_ref(one), None, one.instance.line.number),
            engine("”", "words"),
        ]
        line = one.instance.line
        where = place_value(groups[line.number, line.column], told)
        if several and where.spans:
            spans += [engine(" ", "words"), *where.spans]
    return Paragraph((*spans, engine(".", "words")))


def unit_sentence(seen: Sequence[Seen]) -> Paragraph | None:
    """Which of several: `This is furnace 2.`"""
    units = [(one.instance.unit, one) for one in seen if one.instance.unit]
    if not units:
        return None
    spans: list[Span] = [engine("This is ", "unit")]
    for index, (unit, one) in enumerate(dict(units).items()):
        if index:
            spans.append(engine(" and " if index == len(units) - 1 else ", ", "unit"))
        spans.append(Span(unit or "", "unit", line_ref(one), None, one.instance.line.number))
    return Paragraph((*spans, engine(".", "unit")))


def act_sentences(seen: Sequence[Seen]) -> list[Paragraph]:
    """What was done on site, from typed lines only: `We warned the occupant at 2:10 p.m.`"""
    out: list[Paragraph] = []
    done: set[str] = set()
    for one in seen:
        for act in one.instance.acts:
            text = act_text(act)
            if text not in done:
                done.add(text)
                out.append(
                    Paragraph((Span(text, "act", line_ref(one), None, one.instance.line.number), engine(".", "act")))
                )
    return out


def act_text(act: Item) -> str:
    """An act as a sentence without its full stop."""
    who = act.value
    if not who.lower().startswith(("the ", "a ", "an ", "our ", "my ")) and who.islower():
        who = f"the {who}"
    return f"We {act.key} {who}" + (f" at {clock_typed(act.time)}" if act.time else "")


def clock_typed(text: str) -> str:
    """A typed hour in house style (`14:10` -> `2:10 p.m.`); anything else as typed."""
    from narrator.assess.window import parse_clock  # only when an hour was typed

    found = parse_clock(text)
    return clock(found).rstrip(".") if found else text


_KNOWN = {"tested": "A test showed it", "heard": "We heard it", "felt": "We felt it", "smelled": "We smelled it"}


def with_basis(observation: Paragraph, seen: Sequence[Seen]) -> Paragraph:
    """How it is known, put before what is known, where the line says so: tested, heard, felt, smelled, read."""
    one = seen[0]
    known = not one.instance.default_basis and one.instance.basis in (*_KNOWN, "read")
    if not known or len({each.instance.basis for each in seen}) > 1 or not observation.spans:
        return observation
    number, ref = one.instance.line.number, line_ref(one)
    if one.instance.basis == "read":
        source = one.instance.source or "a label or a paper"
        lead = [engine("We read on ", "basis"), Span(source, "source", ref, None, number), engine(": ", "basis")]
    else:
        lead = [Span(f"{_KNOWN[one.instance.basis]}: ", "source", ref, None, number)]
    first = observation.spans[0]
    return Paragraph((*lead, first._replace(text=lower_first(first.text)), *observation.spans[1:]))


def basis_sentences(seen: Sequence[Seen], told: Told) -> list[Paragraph]:
    """How it is known at each place, where the places differ: `We heard it at the front.`"""
    out: list[Paragraph] = []
    if len({each.instance.basis for each in seen}) < 2 and len({each.instance.place for each in seen}) < 2:
        return out
    for basis, lead in _KNOWN.items():
        group = [each for each in seen if each.instance.basis == basis and not each.instance.default_basis]
        where = place_value(group, told) if group else None
        if where is not None and where.spans:
            ref, number = line_ref(group[0]), group[0].instance.line.number
            spans = (Span(lead, "source", ref, None, number), engine(" ", "basis"), *where.spans, engine(".", "basis"))
            out.append(Paragraph(spans))
    return out


def with_count(observation: Paragraph, seen: Sequence[Seen]) -> Paragraph:
    """The count of a single line, put behind the first sentence: `the stucco sounds hollow (two of them)`."""
    counts = {one.instance.line: one.instance.count for one in seen}
    (line, count), *others = counts.items()
    if others or count is None:
        return observation
    added = (
        engine(" (", "count"),
        Span(number_word(count), "count", f"line {line.number}", None, line.number),
        engine(" of them)" if count != 1 else " of these)", "count"),
    )
    spans = list(observation.spans)
    end = first_end(spans)
    if end is None:
        return Paragraph((*spans, *added))
    at, stop = end
    before, after = spans[at]._replace(text=spans[at].text[:stop]), spans[at]._replace(text=spans[at].text[stop:])
    return Paragraph((*spans[:at], before, *added, after, *spans[at + 1 :]))
