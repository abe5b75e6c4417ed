"""Findings as the report holds them: texts with trace, limits said once, terms explained once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.assess import model
from narrator.assess.limits import spoken_against
from narrator.assess.model import Seen
from narrator.compose.facts import Told
from narrator.compose.gloss import Glossary, explain
from narrator.compose.opens import opened
from narrator.compose.paragraphs import Texts, compose_texts
from narrator.compose.plain import instances
from narrator.compose.spans import Paragraph, trace
from narrator.compose.story import pointed

if TYPE_CHECKING:
    from narrator.report import Finding, LimitRef, Override


class Written(NamedTuple):
    """Findings in order, and the terms explained in them."""

    findings: tuple[Finding, ...]
    terms: tuple[str, ...]


def write_findings(
    findings: Sequence[model.Finding],
    met: Sequence[Seen],
    limits: Mapping[str, Any],
    glossary: Glossary,
    told: Told,
    stories: Mapping[int, int],
) -> Written:
    """Compose every finding in printed order. `stories`: number of a finding told together with others -> their first."""
    done: frozenset[str] = frozenset()
    opens: dict[str, set[str]] = {}
    said: set[str] = set()
    whys: dict[int, str] = {}
    said_at: dict[str, int] = {}
    out: list[Finding] = []
    for finding in findings:
        control = [
            one
            for one in met
            if one.instance.match.code == finding.code and any(item.measure.control for item in one.judged)
        ]
        story = stories.get(finding.number)
        texts = compose_texts(finding, control, told, story is not None, said)
        seen = opened(texts.observation, opens.setdefault(finding.system, set()))
        observation, done = explain(pointed(seen, story, finding.number), glossary, done)
        implication, done = explain(texts.implication, glossary, done)
        recommendation, done = explain(texts.recommendation, glossary, done)
        why_at = finding.first if whys.get(finding.first or 0) == finding.why else None
        whys[finding.number] = finding.why
        found = _limits(finding, limits, said_at)
        out.append(_plain(finding, texts, observation, implication, recommendation, found, why_at))
    return Written(tuple(out), tuple(sorted(done)))


def _limits(finding: model.Finding, limits: Mapping[str, Any], said_at: dict[str, int]) -> list[LimitRef]:
    """The entry's limits; one that stands at an earlier finding is pointed to. Typed words that speak against one change it."""
    typed = [text for one in finding.seen for text in (one.instance.line.text, *one.instance.words)]
    out: list[LimitRef] = []
    for name in finding.entry.limits if finding.entry else ():
        if name not in limits:
            continue
        text = limits[name]["else"] if spoken_against(typed, limits[name]) else limits[name]["text"]
        first = said_at.setdefault(text, finding.number)
        out.append({"id": name, "text": text, "at": None if first == finding.number else first})
    return out


def _plain(
    finding: model.Finding,
    texts: Texts,
    observation: Paragraph,
    implication: Paragraph,
    recommendation: Paragraph,
    limits: list[LimitRef],
    why_at: int | None,
) -> Finding:
    entry = finding.entry
    seen = instances(finding.seen)
    bases = list(dict.fromkeys(one["basis"] for one in seen))
    overrides: list[Override] = [
        {"key": item.key, "value": item.value, "was": item.was, "lines": list(item.lines), "reason": item.reason}
        for item in finding.overrides
    ]
    return {
        "id": finding.id,
        "number": finding.number,
        "code": finding.code,
        "title": texts.title,
        "severity": finding.severity,
        "why": finding.why,
        "why_at": why_at,
        "danger": list(entry.danger) if entry else [],
        "course": entry.course if entry else "open",
        "trades": [{"id": name, "role": role} for name, role in finding.trades],
        "ask": list(entry.ask) if entry else [],
        "outcome": finding.outcome,
        "basis": bases[0] if len(bases) == 1 else finding.basis_kind,
        "observation": observation.text,
        "implication": implication.text,
        "recommendation": recommendation.text,
        "limits": limits,
        "instances": seen,
        "places": list(dict.fromkeys(one["place"] for one in seen if one["place"])),
        "lines": list(finding.lines),
        "photos": sorted({photo for one in seen for photo in one["photos"]}),
        "trace": [
            *trace("observation", observation),
            *trace("implication", implication),
            *trace("recommendation", recommendation),
        ],
        "overrides": overrides,
        "flags": list(texts.flags),
    }
