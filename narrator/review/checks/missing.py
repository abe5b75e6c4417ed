"""A finding without anything to do, without a trade, without text."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.review.grounds import Grounds, capital, name, prose, unquoted
from narrator.review.matter import Matter, of_finding
from narrator.review.plainly import level, sentences
from narrator.source.model import Entry

_WORD = re.compile(r"[a-z]{3,}")
_ASKED = re.compile(
    r"^(?:Ask|Have|Get|Call|Keep|Clear|Fit|Add|Replace|Let|Find|Look|Test|Turn|Close|Open|Move|Cut|Seal|Put|Do|Set|Tell|Leave|Use|Watch|"
    r"Before|Until|If|First|Nobody|Price|Plan)\b|\bshould\b|\bneeds? to\b|"
    r"\b(?:contractor|electrician|plumber|roofer|carpenter|engineer|technician|mason|repairer) can\b",
)


def check(grounds: Grounds) -> Iterator[Matter]:
    """What a client needs and the finding does not say."""
    for found in grounds.reading.findings:
        text = prose(found)
        if not text:
            yield of_finding(
                "missing",
                found,
                f"{capital(name(found))} has no text.",
                "Say what was seen, why it matters and what to do.",
            )
            continue
        if not level(found.title):
            yield of_finding("missing", found, f"Number {found.number} has no title.", "Give it a plain title.")
        if not found.trades:
            yield of_finding(
                "action",
                found,
                f"{capital(name(found))} names no trade.",
                "Say who answers, such as: trade plumber.",
            )
        value = grounds.values.get(found.number or 0)
        entry = grounds.entry(found)
        empty = value is not None and not value["recommendation"].strip()
        if empty or (value is None and not _acted(unquoted(text), entry)):
            yield of_finding(
                "action",
                found,
                f"{capital(name(found))} does not say what to do.",
                "Add one action: who, what to look at, what to get in writing.",
            )
        if value is not None and (not value["observation"].strip()):
            yield of_finding(
                "missing",
                found,
                f"{capital(name(found))} does not say what was seen.",
                "Say what was seen, where and with which figure.",
            )


def _acted(text: str, entry: Entry | None) -> bool:
    """Whether the text asks for something: in the words of its entry, or in any."""
    if entry is not None and entry.recommendation:
        words = set(_WORD.findall(text.lower()))
        for variant in entry.recommendation:
            wanted = set(_WORD.findall(level(re.sub(r"\{\{.*?\}\}", "", variant.text)).lower()))
            if wanted and len(wanted & words) >= 0.6 * len(wanted):
                return True
        said = level(" ".join(each.text for each in (*entry.observation, *entry.implication))) + " " + level(entry.why)
        own = set(_WORD.findall(said.lower()))
        return any(_ASKED.search(each) for each in sentences(text) if not _within(each, own))
    return any(_ASKED.search(each) for each in sentences(text))


def _within(sentence: str, own: set[str]) -> bool:
    """Whether a sentence is one that tells, in the entry's own words: not one that asks."""
    words = set(_WORD.findall(sentence.lower()))
    return len(words & own) >= 0.75 * len(words)
