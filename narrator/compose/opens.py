"""How observations open: no two of a section with the same words, so that a reader does not lose the place.

A second one at a place says `also`; for a third the place moves to the end of the sentence; what opens alike even then gets
a word before it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.compose.english import capital_first, lower_first
from narrator.compose.spans import Paragraph, Span, engine, first_end

SAME = 4  # words that two observations may not have in common at their start
_WORDS = re.compile(r"[\w'’/-]+")
_LEADS = ("Also, ", "Again, ", "Then ", "Further, ", "Besides, ", "Next, ")


def opening_words(paragraph: Paragraph) -> str:
    """The first words, in lower case, as they are compared."""
    return " ".join(_WORDS.findall(paragraph.text.lower())[:SAME])


def opened(observation: Paragraph, taken: set[str]) -> Paragraph:
    """The observation, or the same facts in another order where its opening is `taken`; takes what it opens with."""
    for option in _options(observation):
        words = opening_words(option)
        if words not in taken:
            taken.add(words)
            return option
    return observation


def _options(observation: Paragraph) -> Iterator[Paragraph]:
    yield observation
    if observation.spans and observation.spans[0].kind == "place":
        yield _led("Also ", observation)
    moved = _place_last(observation)
    if moved is not None:
        yield moved
    for base in filter(None, (observation, moved)):
        for lead in _LEADS:
            yield _led(lead, base)


def _led(lead: str, paragraph: Paragraph) -> Paragraph:
    first = paragraph.spans[0]
    said = first if first.kind == "words" else first._replace(text=lower_first(first.text))
    return Paragraph((engine(lead, "opens"), said, *paragraph.spans[1:]))


def _place_last(observation: Paragraph) -> Paragraph | None:
    """`At the front, the trim is soft.` as `The trim is soft at the front.`; None where the place does not open."""
    spans = list(observation.spans)
    at = next((number for number, span in enumerate(spans) if span.kind == "place"), None)
    if at is None or any(span.kind not in ("source", "engine") for span in spans[:at]) or at + 1 == len(spans):
        return None
    place, after = spans[at], spans[at + 1]
    if not after.text.startswith(", ") or after.kind not in ("text", "engine"):
        return None
    rest = [after._replace(text=after.text[2:]), *spans[at + 2 :]]
    end = first_end(rest)
    if end is None:
        return None
    number, stop = end
    head, tail = rest[number].text[:stop], rest[number].text[stop:]
    comma = "," if any("," in span.text for span in (*rest[:number], Span(head, "text"))) else ""
    before = spans[:at]
    if not before:
        rest[0] = rest[0]._replace(text=capital_first(rest[0].text))
        head = rest[number].text[:stop]
    closing = rest[number]
    return Paragraph(
        (
            *before,
            *rest[:number],
            closing._replace(text=head),
            engine(f"{comma} ", "opens"),
            place._replace(text=lower_first(place.text)),
            closing._replace(text=tail),
            *rest[number + 1 :],
        )
    )
