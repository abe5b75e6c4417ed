"""Stories: what we saw together, what we think and on which signs, one other source, what would settle it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from narrator.assess.connect import Cluster
from narrator.assess.model import Finding
from narrator.compose.english import lower_first, number_word
from narrator.compose.facts import Told
from narrator.compose.place import join_places, phrase
from narrator.compose.spans import Paragraph, Span, engine, first_end, sentence_case, trace

if TYPE_CHECKING:
    from narrator.report import Connection

_FILE = "library/stories.yaml"


def stories(clusters: Sequence[Cluster], titles: Mapping[str, str], told: Told) -> list[Connection]:
    """One connection for each cluster. `titles`: finding id -> printed title."""
    out: list[Connection] = []
    used: set[str] = set()
    for cluster in clusters:
        again = cluster.topic["id"] in used
        used.add(cluster.topic["id"])
        made = _paragraph(cluster, titles, told, again)
        out.append(
            {
                "findings": [finding.id for finding in cluster.findings],
                "place": cluster.place or None,
                "text": made.text,
                "trace": trace("text", made),
            }
        )
    return out


def _paragraph(cluster: Cluster, titles: Mapping[str, str], told: Told, again: bool) -> Paragraph:
    topic = cluster.topic
    count = len(cluster.findings)
    places = {one.instance.place for finding in cluster.findings for one in finding.seen}
    spans: list[Span] = [
        Span(number_word(count), "count", "story"),
        engine(" findings lie together, " if len(places) == 1 else " findings lie close together, ", "story"),
        Span(phrase(cluster.place, told.places), "place", "story"),
        engine(": ", "story"),
    ]
    for at, finding in enumerate(cluster.findings):
        if at:
            spans.append(engine(", and " if at == count - 1 else ", ", "story"))
        file = finding.entry.title[-1].file or finding.entry.file if finding.entry else None
        spans.append(Span(lower_first(titles[finding.id]), "text", f"{finding.code}:title", file, None))
        spans += [engine(" (number ", "story"), Span(str(finding.number), "number", finding.id)]
        spans += [*_nearby(finding, cluster, told), engine(")", "story")]
    if again:  # within the sentence that names the findings, so that a third story of a topic repeats nothing
        said = _said(topic, "again")
        spans += [engine("; ", "story"), said._replace(text=lower_first(said.text.removesuffix(".")))]
        return Paragraph(sentence_case([*spans, engine(", and that too is an opinion from signs.", "story")]))
    spans.append(engine(". ", "story"))
    spans += [
        _said(topic, "opinion"),
        engine(" That is an opinion from these signs; ", "story"),
        _said(topic, "untraced"),
    ]
    for key in ("other", "settle", "first"):
        spans += [engine(". " if key == "other" else " ", "story"), _said(topic, key)]
    return Paragraph(sentence_case(spans))


def _nearby(finding: Finding, cluster: Cluster, told: Told) -> list[Span]:
    """Where exactly, when it is not the place that opens the story: `, below the entry window`."""
    places = dict.fromkeys(one.instance.place for one in finding.seen if one.instance.place)
    if cluster.place in places:
        return []
    spots = [place for place in places if place in cluster.spots]
    if not spots:
        return []
    line = next(one.instance.line.number for one in finding.seen if one.instance.place == spots[0])
    said = join_places([phrase(place, told.places) for place in spots])
    return [engine(", ", "story"), Span(said, "place", f"line {line}", None, line)]


def pointed(observation: Paragraph, first: int | None, own: int) -> Paragraph:
    """The observation of a finding that is told together with others, with where that stands, in its first sentence."""
    end = first_end(observation.spans) if first is not None else None
    if end is None:
        return observation
    number, stop = end
    closing = observation.spans[number]
    head = closing.text[:stop]
    bracketed = head.endswith(")") or (not head and observation.spans[number - 1].text.endswith(")"))
    before = list(observation.spans[:number])
    if bracketed and not head:
        before[-1] = before[-1]._replace(text=before[-1].text[:-1])
    lead = "; " if bracketed else " ("
    pointer = [engine(f"{lead}told together above)", "story")]
    if first != own:
        pointer = [
            engine(f"{lead}told together before number ", "story"),
            Span(str(first), "number", "story"),
            engine(")", "story"),
        ]
    spans = [
        closing._replace(text=head[:-1] if bracketed and head else head),
        *pointer,
        closing._replace(text=closing.text[stop:]),
    ]
    return Paragraph((*before, *spans, *observation.spans[number + 1 :]))


def _said(topic: Mapping[str, Any], key: str) -> Span:
    return Span(str(topic[key]), "text", f"stories:{topic['id']}:{key}", _FILE, None)
