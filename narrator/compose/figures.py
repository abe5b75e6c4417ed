"""Plain sentences for figures: values, readings that were not had, a dry part, the air, other published figures."""

from __future__ import annotations

from collections.abc import Sequence

from narrator.assess.airs import air_of
from narrator.assess.model import Judged, Seen
from narrator.compose.english import join_list, number_word
from narrator.compose.facts import Told, line_ref, measure_value, place_value, series_text, usual_in, usual_text
from narrator.compose.spans import Paragraph, Span, engine, sentence_case
from narrator.read.model import Point

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
            spans += [
                engine(" (", "reasons"),
                Span(join_list(names), "quantity", ref, None, number),
                engine(")", "reasons"),
            ]
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
        *_band_spans(judged, number),
        engine(".", "share"),
    )
    return Paragraph(sentence_case(spans))


def _band_spans(judged: Judged, line: int) -> list[Span]:
    """`, and one is at 25 % or more`: the count that reaches a further published figure."""
    out: list[Span] = []
    for item in judged.derived:
        if " at " not in item.name or not item.value:
            continue
        figure = item.name.rsplit(" at ", 1)[1]
        verb = "is" if item.value == 1 else "are"
        out += [engine(", and ", "share"), Span(item.text, "quantity", f"derived:{item.name}", None, line)]
        out += [engine(f" {verb} at ", "share"), Span(figure, "criterion", judged.measure.spec.bands[0])]
    return out


_MANY = 5  # readings from which a reader loses the overview


def spread_sentence(judged: Judged, seen: Seen) -> Paragraph | None:
    """`They run from 11 to 33 %, with 21 % in the middle.` for a survey of many readings."""
    values = [point.value for point in judged.measure.points if point.value is not None]
    found = {item.name.rsplit(" ", 1)[-1]: item for item in judged.derived}
    if len(values) < _MANY or judged.measure.control or judged.measure.spec.kind != "moisture" or "median" not in found:
        return None
    low, high, middle = found["lowest"], found["highest"], found["median"]
    number, name = seen.instance.line.number, judged.measure.spec.name
    if low.value == high.value:
        return None
    return Paragraph(
        (
            engine("The figures run from ", "spread"),
            Span(low.text.removesuffix(" %"), "quantity", f"derived:{name} lowest", None, number),
            engine(" to ", "spread"),
            Span(high.text, "quantity", f"derived:{name} highest", None, number),
            engine(", with ", "spread"),
            Span(middle.text, "quantity", f"derived:{name} median", None, number),
            engine(" in the middle.", "spread"),
        )
    )


# What a published scale calls a crack of each grade (row ids crack-grade-0-negligible and on).
_SCALE = ("negligible", "very slight", "slight", "moderate", "severe", "very severe")


def scale_sentence(judged: Judged, seen: Seen) -> Paragraph | None:
    """What a published scale calls a crack of this width; width alone decides nothing."""
    quantity = judged.measure.quantity
    if (
        judged.measure.spec.scale != "crack"
        or quantity is None
        or judged.measure.control
        or quantity.bound in ("<", ">")
    ):
        return None
    from narrator.measure.calculations.structure import crack_grade
    from narrator.measure.units import convert

    grade = crack_grade(convert(quantity.high, quantity.unit, "millimeter"))
    return Paragraph(
        (
            engine("By width alone, a scale that engineers use for walls calls this ", "scale"),
            Span(
                _SCALE[grade], "quantity", f"derived:{judged.measure.spec.name} grade", None, seen.instance.line.number
            ),
            engine(".", "scale"),
        )
    )


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


def date_sentence(judged: Judged, seen: Seen, age_said: bool = False) -> Paragraph:
    """`The year of make is 2005, which is 21 years before this visit.`"""
    number = seen.instance.line.number
    spans = [
        engine("The year of make is ", "age"),
        Span(judged.text, "date", f"measure:{judged.measure.spec.name}", None, number),
    ]
    age = next((item for item in judged.derived if item.name == "age"), None)
    if age is not None and not age_said:
        spans += [
            engine(", which is ", "age"),
            Span(age.text, "quantity", f"derived:{age.name}", None, number),
            engine(" before this visit", "age"),
        ]
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
                    Span(usual_in(judged.older, judged.unit), "criterion", judged.older.id),
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
