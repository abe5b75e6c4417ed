"""Words that a client must not read: never written by the library, and said in a review note when typed."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrator.assess.model import Finding
from narrator.read.model import Checklist
from narrator.resolve.model import Remark

# The never-words of the voice. `check` refuses them in the library; in typed words they raise a note.
NEVER = (
    "safe", "safely", "sound", "adequate", "adequately", "normal", "fine", "good condition", "no problem", "fully", "all of", "will last",
    "we confirm", "we will", "we recommend re-inspection", "negotiate", "credit", "walk away", "violation", "violations", "up to code",
    "code violation", "guarantee", "guaranteed", "guarantees", "possible", "suspicious for", "cannot be ruled out", "approximately",
    "at the time of inspection", "noted", "observed to be", "appears to be", "satisfactory", "evaluate further", "not to code",
    "meets code", "required by code", "illegal", "warranty", "certify", "certified", "perfect", "disaster", "mold", "asbestos", "termites",
)  # fmt: skip
_PATTERN = re.compile(
    r"\b(?:" + "|".join(re.escape(word) for word in sorted(NEVER, key=len, reverse=True)) + r")\b", re.IGNORECASE
)
# In plain site words these are ordinary ("fine crack", "sound of water"): only the library is held to them.
ORDINARY_WHEN_TYPED = frozenset({"sound", "fine", "normal", "noted", "possible", "credit", "all of", "fully"})


def never_words(text: str) -> tuple[str, ...]:
    """The never-words in a text, as written, in order."""
    return tuple(match.group(0) for match in _PATTERN.finditer(text))


# What published standards put outside an inspection, or teaching advises against, by the rule of
# `practice/report-writing.yaml`: the library never says it, and typed words are noted where a standard was chosen.
CLAIMS = {
    "finding-cost": ("dollars", "dollar", "usd", "bucks"),
    "language-balanced": ("only minor", "nothing serious", "disaster", "perfect"),
    "language-no-blame": (
        "shoddy", "careless", "carelessly", "sloppy", "negligent", "negligence", "incompetent", "botched", "at fault", "hack job",
    ),
    "overclaim-safe": ("safe", "safely", "no danger", "not dangerous"),
    "overclaim-guarantee": ("guarantee", "guaranteed", "guarantees", "certify", "certified", "will last"),
    "overclaim-life": ("years left", "remaining life", "end of its life soon", "about to fail", "will fail"),
    "overclaim-adequacy": ("adequate", "adequately", "inadequate", "undersized", "oversized", "strong enough", "big enough"),
    "code-no-violation-words": ("violation", "violations", "illegal", "not to code", "up to code", "meets code"),
}  # fmt: skip
_CLAIMS = {
    rule: re.compile(r"\b(?:" + "|".join(map(re.escape, sorted(words, key=len, reverse=True))) + r")\b", re.IGNORECASE)
    for rule, words in CLAIMS.items()
}


def claims(text: str) -> tuple[tuple[str, str], ...]:
    """(rule, word as written) of each claim in a text that a standard or teaching puts outside a report."""
    return tuple((rule, match.group(0)) for rule, found in _CLAIMS.items() for match in found.finditer(text))


def typed_words(checklist: Checklist, findings: Sequence[Finding]) -> list[Remark]:
    """A note for each line whose own words, which print verbatim, hold a word that the firm does not say."""
    out: list[Remark] = []
    texts: list[tuple[int, str]] = [(line.number, line.value) for line in checklist.lines if line.kind == "note"]
    texts += [(line.number, line.reason) for line in checklist.lines if line.kind == "status" and line.reason]
    for finding in findings:
        for one in finding.seen:
            texts += [(one.instance.line.number, words) for words in one.instance.words]
            texts += [
                (one.instance.line.number, item.value)
                for item in one.instance.overrides
                if item.key in ("do", "because")
            ]
    for number, text in dict.fromkeys(texts):
        found = [word for word in never_words(text) if word.lower() not in ORDINARY_WHEN_TYPED]
        if found:
            said = f"Your words print as typed: '{text}'. A client should not read '{found[0]}'."
            out.append(Remark("wording", (number,), said))
    return out
