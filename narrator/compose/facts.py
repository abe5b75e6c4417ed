"""Facts of a finding as typed values and plain closing sentences: what the chosen wording left out is said, never dropped."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from narrator.assess.airs import air_of
from narrator.assess.model import Judged, Seen
from narrator.compose.english import clock, join_list, number_word
from narrator.compose.place import Places, join_places, phrase
from narrator.compose.spans import Paragraph, Span, engine, sentence_case
from narrator.compose.template import Value
from narrator.measure.show import show
from narrator.measure.verdict import usual
from narrator.read.model import Item, Point

# `@` is where the place goes, when the sentence stands among those of other places.
_REASONS = {
    "OL": ("One reading@ went past the top of the scale", "{n} readings@ went past the top of the scale"),
    "no-hold": (
        "At one point@ the pins met nothing firm, and a meter cannot tell why",
        "At {n} points@ the pins met nothing firm, and a meter cannot tell why",
    ),
    "void": ("One point@ met a void and gave no reading", "{n} points@ met a void and gave no reading"),
    "blocked": ("One point@ was blocked and gave no reading", "{n} points@ were blocked and gave no reading"),
    "too short": ("At one point@ the pins were too short to reach", "At {n} points@ the pins were too short to reach"),
}


class Told(NamedTuple):
    """Settings that the sentences need."""

    places: Places


def line_ref(seen: Seen) -> str:
    """The reference of a span to its checklist line."""
    return f"line {seen.instance.line.number}"


def place_value(seen: Sequence[Seen], told: Told) -> Value:
    """All places of these instances as one phrase with prepositions; empty when none was typed."""
    found: dict[str, Seen] = {}
    for one in seen:
        if one.instance.place:
            found.setdefault(one.instance.place, one)
    if not found:
        return Value(())
    text = join_places([phrase(place, told.places) for place in found])
    lines = sorted({one.instance.line.number for one in seen})
    return Value((Span(text, "place", "line " + ", ".join(str(n) for n in lines), None, lines[0]),))


def measure_value(judged: Judged, seen: Seen) -> Value:
    """A measure for a template: its figure, with `usual` (the published figure in words) and `count` of readings."""
    spec = judged.measure.spec
    number = seen.instance.line.number
    text = series_text(judged.measure.points) if judged.measure.points else judged.text
    parts: dict[str, Value] = {}
    if judged.criterion is not None:
        parts["usual"] = Value((Span(usual_text(judged), "criterion", judged.criterion.id, None, None),))
    if judged.measure.points:
        words = number_word(len(judged.measure.points))
        parts["count"] = Value((Span(words, "count", f"measure:{spec.name}", None, number),))
        for item in judged.derived:
            key = item.name.rsplit(" ", 1)[-1]
            parts[key] = Value((Span(item.text, "quantity", f"derived:{item.name}", None, number),))
    return Value((Span(text, "quantity", f"measure:{spec.name}", None, number),), parts)


_METRIC = frozenset({"millimeter", "centimeter", "meter", "meter**2", "degC", "delta_degC", "kilopascal"})


def usual_text(judged: Judged) -> str:
    """The published figure in words, in the reader's own kind of unit: metric where metric was typed."""
    assert judged.criterion is not None
    unit = judged.measure.unit
    if unit in _METRIC and judged.criterion.unit not in _METRIC:
        try:
            return usual(judged.criterion, unit)
        except ValueError:
            return usual(judged.criterion)
    return usual(judged.criterion)


def series_text(points: Sequence[Point]) -> str:
    """The values of a series, named where they have names: `11 % at A1 and 12 % at A2`."""
    shown = []
    for point in points:
        if point.value is not None:
            shown.append(f"{show(point.value)} at {point.name}" if point.name else show(point.value))
    return join_list(shown)


def reason_sentences(judged: Judged, seen: Seen, where: Sequence[Span] = ()) -> list[Paragraph]:
    """One sentence for each reason why no figure was had: past the scale, nothing firm, void, blocked, too short.

    `where`: the place, when these are not the leading instance's points; only the leading ones say what it means.
    """
    out: list[Paragraph] = []
    grouped: dict[str, list[Point]] = {}
    for point in judged.measure.points:
        if point.reason:
            grouped.setdefault(point.reason, []).append(point)
    ref, number = line_ref(seen), seen.instance.line.number
    for reason, points in grouped.items():
        one, many = _REASONS[reason]
        text = one if len(points) == 1 else many.format(n=number_word(len(points)))
        before, after = text.split("@")
        names = [point.name for point in points if point.name]
        spans = [Span(before[0].upper() + before[1:], "count", ref, None, number)]
        if where:
            spans += [engine(" ", "reasons"), *where]
        spans.append(engine(after, "reasons"))
        if names:
            spans += [engine(" (", "reasons"), Span(join_list(names), "quantity", ref, None, number), engine(")", "reasons")]
        out.append(Paragraph((*spans, engine(".", "reasons"))))
        if reason == "no-hold" and not where:
            held = any(point.value is not None for point in judged.measure.points)
            out.append(Paragraph((engine(_HELD if held else _NONE_HELD, "no-hold"),)))
    return out


# A wall counts as altered only beside points where the pins held; otherwise it was not measured, and that is all.
_HELD = (
    "They held at the other points, so what backs the wall differs there. A second row of holes or a small opening, with the "
    "seller's written permission, would show how."
)
_NONE_HELD = "So the wall could not be measured there."


def share_sentence(judged: Judged, seen: Seen) -> Paragraph | None:
    """How many readings of a survey lie above the published figure: `Three of six readings are above 20 %.`"""
    share = next((item for item in judged.derived if item.name.endswith("above")), None)
    if share is None or judged.criterion is None:
        return None
    number = seen.instance.line.number
    verb = "is" if share.value == 1 else "are"
    spans = (
        Span(share.text, "quantity", f"derived:{share.name}", None, number),
        engine(f" readings {verb} above ", "share"),
        Span(usual_text(judged), "criterion", judged.criterion.id),
        engine(".", "share"),
    )
    return Paragraph(sentence_case(spans))


def figure_sentence(label: str, parts: Sequence[tuple[Judged, Seen]], told: Told) -> Paragraph:
    """`The gap is 1/2 inch on the rear wall and 3/8 inch in the garage.`"""
    plural = label.endswith("s") and not label.endswith("ss")
    spans: list[Span] = [engine(f"The {label} {'are' if plural else 'is'} ", "figures")]
    grouped: dict[str, list[tuple[Judged, Seen]]] = {}
    for judged, seen in parts:
        grouped.setdefault(measure_value(judged, seen).spans[0].text, []).append((judged, seen))
    for index, (text, group) in enumerate(grouped.items()):
        if index:
            spans.append(engine(" and " if index == len(grouped) - 1 else ", ", "figures"))
        judged, seen = group[0]
        spans.append(Span(text, "quantity", f"measure:{judged.measure.spec.name}", None, seen.instance.line.number))
        where = place_value([one for _, one in group], told)
        if where.spans and (len(grouped) > 1 or len(parts) > 1):
            spans += [engine(" ", "figures"), *where.spans]
    return Paragraph((*spans, engine(".", "figures")))


def date_sentence(judged: Judged, seen: Seen) -> Paragraph:
    """`The year of make is 2005, so it was 21 years old at this visit.`"""
    number = seen.instance.line.number
    spans = [
        engine("The year of make is ", "age"),
        Span(judged.text, "date", f"measure:{judged.measure.spec.name}", None, number),
    ]
    age = next((item for item in judged.derived if item.name == "age"), None)
    if age is not None:
        spans += [engine(", which is ", "age"), Span(age.text, "quantity", f"derived:{age.name}", None, number), engine(" before this visit", "age")]
    return Paragraph((*spans, engine(".", "age")))


def control_sentence(judged: Judged, seen: Seen, told: Told, whole: bool = False) -> Paragraph:
    """The readings on a part believed dry, which the others are compared with first: their range, or (`whole`) each."""
    number = seen.instance.line.number
    where = place_value([seen], told)
    ends = [item.text for name in ("lowest", "highest") for item in judged.derived if item.name.endswith(name)]
    text = series_text(judged.measure.points)
    lead = "Readings on a part believed dry "
    if not whole:
        lead = "For comparison, a part believed dry "
        text = f"{ends[0].removesuffix(' %')} to {ends[1]}" if len(set(ends)) == 2 else text
    verb = " were " if whole else " read "
    spans = [engine(lead, "control"), *where.spans]
    spans += [
        engine(verb if where.spans else verb.lstrip(), "control"),
        Span(text, "quantity", "measure:control", None, number),
    ]
    return Paragraph((*spans, engine(".", "control")))


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
        spans += [engine(lead, "count"), Span(number_word(number), "count", line_ref(one), None, one.instance.line.number)]
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
    said: list[tuple[str, Seen]] = []
    for one in seen:
        for words in one.instance.words:
            if all(words != old or one.instance.line.number != old_seen.instance.line.number for old, old_seen in said):
                said.append((words, one))
    if not said:
        return None
    spans: list[Span] = [engine("In the inspector's words: ", "words")]
    several = len({one.instance.place for one in seen}) > 1 and len(_by_line(seen)) > 1
    for index, (words, one) in enumerate(said):
        if index:
            spans.append(engine("; ", "words"))
        spans += [engine("“", "words"), Span(words, "words", line_ref(one), None, one.instance.line.number), engine("”", "words")]
        where = place_value([other for other in seen if other.instance.line == one.instance.line], told)
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
                out.append(Paragraph((Span(text, "act", line_ref(one), None, one.instance.line.number), engine(".", "act"))))
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


def basis_sentence(seen: Sequence[Seen], source_said: bool) -> Paragraph | None:
    """How it is known, where the line says so and the wording does not: tested, heard, felt, smelled, read."""
    del source_said
    words = {
        "tested": "This comes from a test, not from looks alone.",
        "heard": "We heard this.",
        "felt": "We felt this by hand.",
        "smelled": "We smelled this.",
    }
    for one in seen:
        basis = one.instance.basis
        if one.instance.default_basis:
            continue
        number = one.instance.line.number
        if basis == "read":
            source = one.instance.source or "a label or a paper"
            return Paragraph(
                (engine("We read this on ", "basis"), Span(source, "source", line_ref(one), None, number), engine(".", "basis"))
            )
        if basis in words:
            return Paragraph((Span(words[basis], "source", line_ref(one), None, number),))
    return None


_WET = {
    "yes": ", colder than that, so water from the air could have wet it that day.",
    "no": ", warmer than that, so water from the air did not wet it that day.",
    "too close": ", too near to it to tell whether water from the air could wet it that day.",
}


def air_sentences(seen: Seen, moisture: bool) -> list[Paragraph]:
    """The dew point of the typed air and what it says of a typed surface; for wood, what such air would bring it to."""
    found = air_of(seen)
    if found is None:
        return []
    number = seen.instance.line.number
    spans = [
        engine("Air of ", "air"),
        Span(found.air, "quantity", "measure:air", None, number),
        engine(" and ", "air"),
        Span(found.humidity, "quantity", "measure:humidity", None, number),
        engine(" humidity lets go of its water at ", "air"),
        Span(found.dew.text, "quantity", "derived:dew point", None, number),
        engine(".", "air"),
    ]
    if found.surface is not None and found.wet is not None:
        spans += [
            engine(" The surface was at ", "air"),
            Span(found.surface, "quantity", "measure:surface", None, number),
            engine(_WET[found.wet], "air"),
        ]
    out = [Paragraph(tuple(spans))]
    if moisture:
        spans = [
            engine("Wood left for weeks in such air would come to about ", "air"),
            Span(found.wood.text, "quantity", "derived:wood in such air", None, number),
            engine("; that is no yardstick for one day.", "air"),
        ]
        out.append(Paragraph(tuple(spans)))
    return out


def older_sentence(seen: Sequence[Seen], danger: bool) -> Paragraph | None:
    """The figure for older houses beside today's, when the year of the house was typed."""
    for one in seen:
        for judged in one.judged:
            if judged.older is not None:
                tail = ", and the danger is the same." if danger else ", and this house may have been built by it."
                spans = (
                    engine("Today's figure is meant; the one for older houses is ", "older"),
                    Span(usual(judged.older), "criterion", judged.older.id),
                    engine(tail, "older"),
                )
                return Paragraph(spans)
    return None


def close_call(seen: Sequence[Seen]) -> Paragraph | None:
    """Why a value is neither short nor over: the published figures differ, or the tool cannot tell."""
    for one in seen:
        for judged in one.judged:
            if judged.verdict == "too close" and judged.criterion is not None and not judged.measure.spec.context:
                spans = (
                    engine("Against the usual ", "close"),
                    Span(usual_text(judged), "criterion", judged.criterion.id),
                    engine(", that is too close to call.", "close"),
                )
                return Paragraph(sentence_case(spans))
    return None
