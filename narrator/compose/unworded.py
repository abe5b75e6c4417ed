"""Observations without a wording of the library: told, inferred, the inspector's own, and what could not be worded."""

from __future__ import annotations

from narrator.assess.model import Finding
from narrator.compose import facts
from narrator.compose.english import join_list, lower_first
from narrator.compose.facts import Told
from narrator.compose.spans import Paragraph, Span, engine, sentence_case
from narrator.source.model import Entry


def plain_observation(finding: Finding, entry: Entry, told: Told) -> Paragraph:
    """What was told, inferred or could not be worded, by title and place alone."""
    variant = entry.title[-1]
    title = Span(lower_first(variant.text), "text", f"{entry.code}:title", variant.file or entry.file, variant.line)
    where = facts.place_value(finding.seen, told).spans
    rest = facts.place_value(finding.seen, told, variant.text).spans
    place = (engine(", ", "space"), *rest) if rest else ()
    if finding.basis_kind == "told":
        spans = (
            engine("We know this only from ", "told"),
            *_sources(finding),
            engine(": ", "told"),
            title,
            *place,
            engine(".", "told"),
        )
    elif finding.basis_kind == "inferred":
        lead_in = engine("This is an opinion and not a thing that we saw: ", "inferred")
        spans = (lead_in, title, *place, engine(".", "inferred"))
    else:
        lead = (*where, engine(": ", "plain")) if where else ()
        spans = (*lead, title, engine(".", "plain"))
    return Paragraph(sentence_case(spans))


def _sources(finding: Finding) -> tuple[Span, ...]:
    """Everyone who told us, once each; `what we were told` when nobody is named."""
    named: dict[str, int] = {}
    for one in finding.seen:
        if one.instance.source:
            named.setdefault(the_one(one.instance.source), one.instance.line.number)
    if not named:
        return (engine("what we were told", "told"),)
    number = next(iter(named.values()))
    return (Span(join_list(list(named)), "source", f"line {number}", None, number),)


def the_one(source: str) -> str:
    """Who told us, with an article where a plain word was typed."""
    return source if not source.islower() or source.startswith(("the ", "a ", "an ", "our ")) else f"the {source}"


def own_words(finding: Finding, told: Told) -> Paragraph:
    """What the inspector wrote of a finding that the library does not have."""
    first = finding.seen[0]
    number = first.instance.line.number
    title = finding.title
    quoted = (engine("“", "own"), Span(title, "words", facts.line_ref(first), None, number), engine("”", "own"))
    where = facts.place_value(finding.seen, told).spans
    lead = (*where, engine(", the", "own")) if where else (engine("The", "own"),)
    spans = (*lead, engine(" inspector wrote: ", "own"), *quoted, engine(".", "own"))
    tail = (engine(", ", "own"), *where) if where else ()
    if finding.basis_kind == "told":
        lead_in = (engine("We know this only from ", "told"), *_sources(finding), engine(": ", "told"))
        spans = (*lead_in, *quoted, *tail, engine(".", "told"))
    elif finding.basis_kind == "inferred":
        lead_in = (engine("This is an opinion and not a thing that we saw: ", "inferred"),)
        spans = (*lead_in, *quoted, *tail, engine(".", "inferred"))
    return Paragraph(sentence_case(spans))
