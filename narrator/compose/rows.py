"""Descriptions, results and statuses as sentences; captions and notes."""

from __future__ import annotations

from collections.abc import Sequence

from narrator.assess.model import Seen
from narrator.compose import closing, facts, figures
from narrator.compose.choose import chosen
from narrator.compose.english import capital_first, lower_first
from narrator.compose.facts import Told
from narrator.compose.paragraphs import count_of, places_of, ref_of, values_for
from narrator.compose.place import phrase, written_out
from narrator.compose.template import render
from narrator.compose.unworded import the_one
from narrator.read.model import Line

UNSEEN = {"not inspected": "We did not inspect", "partly": "We saw only part of"}


def where_of(line: Line, told: Told) -> str:
    """The place of a line as a phrase, from its own cell or its heading; '' when there is none.

    A heading that names a system (`Roof`, `Kitchen`) is the section's own title and is not said again.
    """
    place = line.where or ("" if line.heading_both else line.heading_place or "")
    parts = [phrase(part.strip(), told.places) for part in place.split(";") if part.strip()]
    return " and ".join(parts)


def description_text(line: Line, told: Told) -> str:
    """`Roof covering: asphalt shingle, on the main roof.`"""
    where = where_of(line, told) if line.where else ""
    return f"{capital_first(line.key)}: {line.value}" + (f", {where}" if where else "") + "."


def thing_of(line: Line, told: Told) -> str:
    """What was looked at, and where."""
    where = where_of(line, told)
    what = written_out(line.what, told.places)
    return f"{what}, {where}" if where else what


def result_text(line: Line, kind: str, told: Told) -> str:
    """An `ok`, a `tested` that went fine, or a line with only fine words: what was typed, never more."""
    where = where_of(line, told)
    said = [item.text for item in line.items if item.kind in ("words", "value", "series", "unit")]
    quoted = [f"“{item.value}”" for item in line.items if item.kind == "quote"]
    rest = ", ".join([*said, *quoted, *([line.reason] if line.reason else [])])
    thing = capital_first(thing_of(line, told))
    if kind == "tested":
        return f"{thing}: {rest}, when tested." if rest else f"{thing}: tested; nothing to report that day."
    if kind == "ok":
        return f"{thing}: nothing to report that day{'; ' + rest if rest else ''}."
    return f"In the inspector's words: “{line.what}”{', ' + where if where else ''}{'; ' + rest if rest else ''}."


def status_text(line: Line, told: Told) -> str:
    """`We did not inspect the crawl space. The reason: hatch painted shut.`"""
    where = where_of(line, told) if line.where else ""
    what = written_out(line.what, told.places)
    thing = what if what[:1].isupper() and what[1:2].isupper() else what[:1].lower() + what[1:]
    article = (
        "" if thing.lower().startswith(("the ", "all ", "any ", "both ", "some ", "part ")) or not thing else "the "
    )
    place = f" {where}" if where else ""
    if line.key == "not present":
        return f"Not present: {thing}{place}{'; ' + line.reason if line.reason else ''}."
    lead = f"{UNSEEN[line.key]} {article}{thing}{place}"
    if line.key == "partly":
        return f"{lead}: {line.reason}." if line.reason else f"{lead}."
    return f"{lead}. The reason: {line.reason}." if line.reason else f"{lead}. No reason was written down."


def photos_of(line: Line) -> list[int]:
    """Photo numbers of a line, in order, once each."""
    found = [number for item in line.items if item.kind in ("photos", "sketch") for number in item.numbers]
    return list(dict.fromkeys([*line.photos, *found]))


def words_of(line: Line) -> list[str]:
    """Own words among the details of a line."""
    return [item.value if item.kind == "quote" else item.text for item in line.items if item.kind in ("words", "quote")]


def met_text(one: Seen, told: Told) -> str:
    """A measure that meets its criterion, as a result: the entry's `meets` wording, or the plain figures."""
    entry = one.instance.entry
    control = [item for item in one.judged if item.measure.control]
    if control:
        return figures.control_sentence(control[0], one, told, whole=True).text
    if entry is not None:
        variant = chosen(entry.observation, [one], places_of([one]), count_of([one]))
        if variant is not None and "meets" in variant.when.values():
            made = render(variant, values_for([one], [one], told), entry.file, ref_of(entry, "observation", variant))
            return with_extras(made.text, one, told, _unprinted(made.text, one, told))
    shown = "; ".join(f"{item.measure.spec.label} {item.text}" for item in one.judged)
    where = facts.place_value([one], told)
    place = "".join(span.text for span in where.spans)
    return with_extras(capital_first(f"{place + ', ' if place else ''}{shown}."), one, told)


def with_extras(text: str, one: Seen, told: Told, figures_left: Sequence[str] = ()) -> str:
    """The result as one sentence with what belongs to it, so that two results never share a sentence."""
    more = [item if item[:1] in "“" else lower_first(item) for item in (*figures_left, *_extras(one, told))]
    return "; ".join(item.removesuffix(".") for item in (text, *more)) + "." if more else text


def _unprinted(text: str, one: Seen, told: Told) -> list[str]:
    """Figures that the wording has no place for: it prints one of each name."""
    left = [
        item
        for item in one.judged
        if facts.measure_value(item, one).spans[0].text not in text and not facts.bare_share(item)
    ]
    labels = dict.fromkeys(item.measure.spec.label for item in left if not item.measure.control)
    parted = ([item for item in left if item.measure.spec.label == label] for label in labels)
    return [
        figures.figure_sentence(part[0].measure.spec.label, [(item, one) for item in part], told).text
        for part in parted
    ]


def _extras(one: Seen, told: Told) -> list[str]:
    """Points without a reading, who told us, which of several, how many, own words and acts."""
    made = [item for each in one.judged if not each.measure.control for item in figures.reason_sentences(each, one)]
    rest = [closing.unit_sentence([one]), closing.count_sentence([one], told), closing.words_sentence([one], told)]
    made += [*(item for item in rest if item is not None), *closing.act_sentences([one])]
    heard = one.instance.basis == "told"
    source = (
        [f"We know this only from {the_one(one.instance.source) if one.instance.source else 'what we were told'}."]
        if heard
        else []
    )
    return [*source, *(item.text for item in made)]
