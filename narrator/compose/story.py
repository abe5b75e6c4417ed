"""Stories: what we saw together, what we think and on which signs, one other source, what would settle it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from narrator.assess.connect import Cluster
from narrator.compose.english import lower_first, number_word
from narrator.compose.facts import Told
from narrator.compose.place import phrase
from narrator.compose.spans import Paragraph, Span, engine, sentence_case, trace

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
        spans += [engine(" (number ", "story"), Span(str(finding.number), "number", finding.id), engine(")", "story")]
    spans.append(engine(". ", "story"))
    if again:
        spans += [_said(topic, "again"), engine(" That too is an opinion from signs.", "story")]
        return Paragraph(sentence_case(spans))
    spans += [
        _said(topic, "opinion"),
        engine(" That is an opinion from these signs; ", "story"),
        _said(topic, "untraced"),
    ]
    for key in ("other", "settle", "first"):
        spans += [engine(". " if key == "other" else " ", "story"), _said(topic, key)]
    return Paragraph(sentence_case(spans))


def _said(topic: Mapping[str, Any], key: str) -> Span:
    return Span(str(topic[key]), "text", f"stories:{topic['id']}:{key}", _FILE, None)
