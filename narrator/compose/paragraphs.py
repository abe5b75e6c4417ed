"""The three texts of a finding: observation, implication, recommendation, each with its trace."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from narrator.assess.model import Finding, Seen, undated
from narrator.compose import closing, facts, figures
from narrator.compose.choose import chosen
from narrator.compose.english import capital_first, lower_first, number_word
from narrator.compose.facts import Told
from narrator.compose.spans import EMPTY, Paragraph, Span, engine, join, join_once
from narrator.compose.template import Value, render
from narrator.compose.unworded import own_words, plain_observation, the_one
from narrator.errors import NarratorError
from narrator.source.model import Entry, Variant


class Texts(NamedTuple):
    """The composed texts of a finding. `flags` says what fell back."""

    title: str
    observation: Paragraph
    implication: Paragraph
    recommendation: Paragraph
    flags: tuple[str, ...] = ()


def compose_texts(
    finding: Finding, control: Sequence[Seen], told: Told, in_story: bool = False, said: set[str] | None = None
) -> Texts:
    """The texts of a finding; what cannot be made faithfully falls back to title, places, figures and own words.

    `in_story`: it is also told together with others, so an entry may say less here. `said`: plain sentences that the
    report has already; it takes those of this finding.
    """
    said = set() if said is None else said
    if finding.entry is None:
        return _own(finding, told, said)
    try:
        return _from_entry(finding, finding.entry, control, told, in_story, said)
    except NarratorError as error:
        flag = "fallback: " + "; ".join(fault.message for fault in error.faults)
        plain = plain_observation(finding, finding.entry, told)
        return Texts(
            _title(finding, finding.entry),
            join_once([plain, *_closing(finding.seen, set(), told)], said),
            EMPTY,
            _do(finding),
            (flag,),
        )


def _from_entry(
    finding: Finding, entry: Entry, control: Sequence[Seen], told: Told, in_story: bool, report: set[str]
) -> Texts:
    lead, rest = _lead(finding.seen)
    observation = _observation(finding, entry, lead, told)
    printed = {span.ref.removeprefix("measure:") for span in observation.spans if span.ref.startswith("measure:")}
    printed |= {span.ref for span in observation.spans if span.ref == "derived:age"}
    printed |= {"count" for span in observation.spans if span.kind == "count" and span.ref.startswith("line ")}
    # Readings are compared with the dry part first, before any published figure is counted against.
    said = [closing.with_basis(observation if "count" in printed else closing.with_count(observation, lead), lead)]
    said += [
        figures.control_sentence(item, one, told) for one in control for item in one.judged if item.measure.control
    ]
    older = figures.older_sentence(finding.seen, bool(entry.danger))
    said += [older] if older is not None else []
    said += [*_closing(lead, printed, told), *_elsewhere(rest, told)]
    if finding.outcome == "too close":
        close = figures.close_call(finding.seen)
        if close is not None and not any(span.kind == "criterion" for span in observation.spans):
            said.append(close)
    title = _title(finding, entry)
    if finding.first is not None:
        return Texts(title, join_once(said, report), EMPTY, _do(finding) if finding.do else _pointer(finding))
    implication = _field("implication", entry.implication, entry, finding, told, in_story)
    recommendation = (
        _do(finding) if finding.do else _field("recommendation", entry.recommendation, entry, finding, told, in_story)
    )
    return Texts(title, join_once(said, report), implication, recommendation)


def _lead(seen: Sequence[Seen]) -> tuple[Sequence[Seen], Sequence[Seen]]:
    """The instances one sentence can speak for, worst first, and the rest, which keep their own figures."""
    signatures: dict[tuple[tuple[str, str, bool], ...], list[Seen]] = {}
    for one in seen:
        key = tuple(
            (item.measure.spec.name, facts.series_text(item.measure.points) or item.text, item.measure.control)
            for item in one.judged
        )
        signatures.setdefault(key, []).append(one)
    if len(signatures) == 1:
        return seen, ()
    order = sorted(signatures.items(), key=lambda item: (_weight(item[1][0]), item[1][0].instance.line.number))
    lead = order[0][1]
    return lead, [one for one in seen if one not in lead]


def _weight(one: Seen) -> int:
    """Worst first: a value that fails, one that is too close, one without a verdict, no value."""
    if any(verdict in ("short", "over") for verdict in one.verdicts):
        return 0
    if "too close" in one.verdicts:
        return 1
    return 2 if one.judged else 3


def values_for(lead: Sequence[Seen], every: Sequence[Seen], told: Told) -> Mapping[str, Value]:
    """Typed values for an entry's templates: those of the leading instances, and who told us."""
    values: dict[str, Value] = {"place": facts.place_value(lead, told)}
    first = lead[0]
    for one in lead:
        for judged in one.judged:
            if not judged.measure.control and not undated(judged):
                values.setdefault(judged.measure.spec.name, facts.measure_value(judged, one))
    count = count_of(lead)
    if count is not None:
        word = number_word(count)
        values["count"] = Value((Span(word, "count", facts.line_ref(first), None, first.instance.line.number),))
    source = next((one.instance.source for one in every if one.instance.source), None)
    if source:
        values["source"] = Value(
            (Span(the_one(source), "source", facts.line_ref(first), None, first.instance.line.number),)
        )
    return values


def count_of(seen: Sequence[Seen]) -> int | None:
    """The count over these instances, if each line has one; a count on a line is that of all its places."""
    counts = {one.instance.line: one.instance.count for one in seen}
    found = [count for count in counts.values() if count is not None]
    return sum(found) if len(found) == len(counts) else None


def places_of(seen: Sequence[Seen]) -> int:
    """How many places were typed."""
    return len({one.instance.place for one in seen if one.instance.place})


_POINTERS = {
    "first-hand": ("Why it matters and what to do stand under number ", "."),
    "told": ("For what this does and what to do about it, see number ", "."),
    "inferred": ("Number ", " tells what this does and what to do about it."),
}


def _pointer(finding: Finding) -> Paragraph:
    """Where a second group of a code finds the rest of its text."""
    before, after = _POINTERS[finding.basis_kind]
    return Paragraph((engine(before, "first"), Span(str(finding.first), "number", "first"), engine(after, "first")))


def _pick(variants: Sequence[Variant], seen: Sequence[Seen], in_story: bool = False) -> Variant | None:
    return chosen(variants, seen, places_of(seen), count_of(seen), in_story)


def _observation(finding: Finding, entry: Entry, lead: Sequence[Seen], told: Told) -> Paragraph:
    variant = _pick(entry.observation, lead)
    if finding.basis_kind != "first-hand" and not (variant and "basis" in variant.when):
        return plain_observation(finding, entry, told)
    if variant is None:
        return plain_observation(finding, entry, told)
    made = render(variant, values_for(lead, finding.seen, told), entry.file, ref_of(entry, "observation", variant))
    if not any(span.kind == "place" for span in made.spans):
        where = facts.place_value(lead, told)
        if where.spans:
            made = join([made, Paragraph((engine("This is ", "places"), *where.spans, engine(".", "places")))])
    return made


def ref_of(entry: Entry, field: str, variant: Variant) -> str:
    """The reference of a library text: code, field, variant."""
    return f"{entry.code}:{field}" + (f":{variant.name}" if variant.name else "")


def _field(
    field: str, variants: Sequence[Variant], entry: Entry, finding: Finding, told: Told, in_story: bool
) -> Paragraph:
    variant = _pick(variants, finding.seen, in_story)
    if variant is None:
        return EMPTY
    return render(variant, values_for(finding.seen, finding.seen, told), entry.file, ref_of(entry, field, variant))


def _title(finding: Finding, entry: Entry) -> str:
    variant = _pick(entry.title, finding.seen) or entry.title[-1]
    title = variant.text
    if "basis" in variant.when:
        return title
    if finding.basis_kind == "told":
        return f"Told to us: {lower_first(title)}"
    if finding.basis_kind == "inferred":
        return f"Not seen directly: {lower_first(title)}"
    return title


def _closing(seen: Sequence[Seen], printed: set[str], told: Told) -> list[Paragraph]:
    """Facts of these instances that their wording did not print."""
    out: list[Paragraph] = []
    first = seen[0]
    air = figures.air_sentences(first, any(item.measure.spec.kind == "moisture" for item in first.judged))
    printed = printed | ({"air", "humidity", "surface"} if air else set())
    for judged in first.judged:
        name = judged.measure.spec.name
        if judged.measure.control:
            out.append(figures.control_sentence(judged, first, told))
            continue
        if facts.bare_share(judged):
            continue
        if name not in printed and (not judged.measure.points or any(point.value for point in judged.measure.points)):
            if judged.measure.quantity is not None and judged.measure.quantity.unit == "date":
                out.append(figures.date_sentence(judged, first, "derived:age" in printed))
            else:
                out.append(
                    figures.figure_sentence(
                        _label(judged.measure.spec.label, bool(judged.measure.points)), [(judged, first)], told
                    )
                )
        for made in (
            figures.spread_sentence(judged, first),
            figures.share_sentence(judged, first),
            figures.scale_sentence(judged, first),
        ):
            out.extend([made] if made is not None else [])
        out.extend(figures.reason_sentences(judged, first))
    out.extend(air)
    counted = closing.count_sentence(seen, told) if "count" not in printed and len(lines_of(seen)) > 1 else None
    bases = closing.basis_sentences(seen, told) if len({one.instance.basis for one in seen}) > 1 else []
    for made in (counted, closing.unit_sentence(seen), *bases, closing.words_sentence(seen, told)):
        if made is not None:
            out.append(made)
    out.extend(closing.act_sentences(seen))
    return out


def lines_of(seen: Sequence[Seen]) -> set[int]:
    """The checklist lines of these instances."""
    return {one.instance.line.number for one in seen}


def _label(label: str, many: bool) -> str:
    return label if not many or label.endswith("s") else f"{label} readings" if label != "reading" else "readings"


def _elsewhere(rest: Sequence[Seen], told: Told) -> list[Paragraph]:
    """The other places, each with its own figure."""
    out: list[Paragraph] = []
    names = list(
        dict.fromkeys(item.measure.spec.name for one in rest for item in one.judged if not item.measure.control)
    )
    for name in names:
        parts = [
            (item, one)
            for one in rest
            for item in one.judged
            if item.measure.spec.name == name and not item.measure.control
        ]
        dated = [
            pair for pair in parts if pair[0].measure.quantity is not None and pair[0].measure.quantity.unit == "date"
        ]
        plain = [pair for pair in parts if pair not in dated and (pair[0].text or not pair[0].measure.points)]
        out.extend(figures.date_sentence(*pair) for pair in dated)
        if plain:
            label = _label(plain[0][0].measure.spec.label, bool(plain[0][0].measure.points))
            out.append(_other_figures(label, plain, told))
        for item, one in parts:
            out.extend(figures.reason_sentences(item, one, facts.place_value([one], told).spans))
    bare = [one for one in rest if not one.judged]
    same = closing.same_sentence(bare, told) if bare else None
    if same is not None:
        out.append(same)
    counted = closing.count_sentence(rest, told)
    for made in (
        counted,
        closing.unit_sentence(rest),
        *closing.basis_sentences(rest, told),
        closing.words_sentence(rest, told),
    ):
        if made is not None:
            out.append(made)
    out.extend(closing.act_sentences(rest))
    return out


def _other_figures(label: str, parts: Sequence[tuple[object, Seen]], told: Told) -> Paragraph:
    """Figures of the other places, each with its place."""
    pairs = [(item, one) for item, one in parts]
    made = figures.figure_sentence(label, pairs, told)  # type: ignore[arg-type]
    if len(pairs) == 1:
        where = facts.place_value([pairs[0][1]], told)
        if where.spans:
            spans = [*list(made.spans[:-1]), engine(" ", "figures"), *where.spans, engine(".", "figures")]
            return Paragraph(tuple(spans))
    return made


def _do(finding: Finding) -> Paragraph:
    """The inspector's own recommendation, word for word."""
    if not finding.do:
        return EMPTY
    line = next(one.instance.line.number for one in finding.seen for item in one.instance.overrides if item.key == "do")
    text = finding.do if finding.do.endswith((".", "!", "?")) else finding.do + "."
    return Paragraph((Span(text, "words", f"line {line}", None, line),))


def _own(finding: Finding, told: Told, said: set[str]) -> Texts:
    """A finding that the library does not have: the inspector's title, places, figures and words."""
    title = finding.title
    lead_seen, rest = _lead(finding.seen)
    observation = join_once(
        [
            closing.with_basis(closing.with_count(own_words(finding, told), lead_seen), lead_seen),
            *_closing(lead_seen, set(), told),
            *_elsewhere(rest, told),
        ],
        said,
    )
    shown = {"told": f"Told to us: {lower_first(title)}", "inferred": f"Not seen directly: {lower_first(title)}"}
    return Texts(shown.get(finding.basis_kind, capital_first(title)), observation, EMPTY, _do(finding))
