"""What an entry owes its reader: consent, someone to call, words for a value that meets its figure, plain terms."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from narrator.errors import Fault
from narrator.source.check.stock import Stock, fault_at
from narrator.source.check.texts import printed, sentences, variants_of
from narrator.source.model import TEXT_FIELDS, Entry, MeasureSpec, Variant
from narrator.source.positions import Located

CONSENT = "written permission"
# A term counts as explained where its sentence has this share of its gloss's own words, and at least so many of them.
EXPLAINED, LEAST_WORDS = 0.7, 3
_PLAIN = frozenset(
    ("a", "an", "the", "that", "of", "in", "on", "at", "to", "for", "by", "with", "from", "and", "or", "is", "it",
     "its", "out", "up", "over", "under", "into", "back", "who", "when", "too")
)  # fmt: skip
_DOERS = ("er", "or", "ian")
MOST_CALL = 18
# Words that hold someone back from harm. Which matters call for them is by the grade.
_CAUTION = re.compile(
    r"\b(?:do not|should not|keep|stay|until|before anyone|before you|leave|nobody|no one|never|away|let no|turn (?:it )?off|stop using"
    r"|no fire|unplug|outside|out of|wait|put nothing|use (?:no|the other|another))\b",
    re.IGNORECASE,
)


def duty_faults(stock: Stock) -> list[Fault]:
    """Faults of duty over all well-formed entries."""
    out: list[Fault] = []
    people = _people(stock.files.lists["trades"].value)
    glossary = _glossary(stock.files.lists["glossary"].value["terms"])
    for code, entry in stock.entries.items():
        located = stock.located(code)
        out += _consent(located, entry)
        if entry.severity == "act-now":
            out += _unsaid(located, entry, people, _WHO_ACTS)
            out += _unsaid(located, entry, _CAUTION, _WHAT_NOT)
        if entry.danger and entry.severity != "act-now" and "owner" not in (entry.lead, *entry.beside):
            out += _unsaid(located, entry, people, _WHO_ACTS)
        out += _call(located, entry)
        for spec in entry.measures:
            if spec.criterion is not None and not spec.context and not spec.worked:
                out += _judged(located, entry, spec)
        out += _explained(located, entry, glossary)
    return out


def _consent(located: Located, entry: Entry) -> list[Fault]:
    out: list[Fault] = []
    asked = False
    for key, variant in variants_of(located, "recommendation", entry.recommendation):
        says = CONSENT in variant.text
        asked = asked or says
        if entry.intrusive and not says:
            message = f"The work opens the house before it is the client's: say \"with the seller's {CONSENT}\"."
            out.append(located.fault(key, message))
    if asked and not entry.intrusive:
        out.append(located.fault(("recommendation",), f"It asks for {CONSENT}, so the entry needs 'intrusive: true'."))
    return out


def _people(trades: Mapping[str, Any]) -> re.Pattern[str]:
    """Words for someone who can act: a trade, one of those to ask, or a call."""
    words = {"call", "ring", "contractor", "seller", "fire department", "utility", "permit office", "locksmith"}
    for item in trades["trades"]:
        if item["id"] != "owner":
            words |= {item["label"], *(name for name in item["names"] if " " in name or name.endswith(_DOERS))}
    return re.compile(r"\b(?:" + "|".join(re.escape(word) for word in sorted(words)) + r")\b", re.IGNORECASE)


_WHO_ACTS = "This could hurt someone: say whom to call, or who acts now."
# What nobody should touch or do until it is mended stands in every wording of what to do.
_WHAT_NOT = "This could hurt someone: say what nobody should touch or use, and until when."


def _unsaid(located: Located, entry: Entry, pattern: re.Pattern[str], message: str) -> list[Fault]:
    """A fault at each wording of what to do in which the pattern is not found."""
    return [
        located.fault(key, message)
        for key, variant in variants_of(located, "recommendation", entry.recommendation)
        if not pattern.search(variant.text)
    ]


def _call(located: Located, entry: Entry) -> list[Fault]:
    """What to find out before the client decides is found out by a call, and the call has words."""
    if entry.severity == "find-out" and not entry.call:
        message = (
            "The client calls about this before deciding: give 'call', what to ask for in a few words after 'Ask'."
        )
        return [located.fault(("severity",), message)]
    if entry.call and (len(entry.call.split()) > MOST_CALL or entry.call[-1] in ".!?" or not entry.call[0].islower()):
        message = f"'call' goes on after the word 'Ask': up to {MOST_CALL} words, small first letter, no full stop."
        return [located.fault(("call",), message)]
    return []


def _judged(located: Located, entry: Entry, spec: MeasureSpec) -> list[Fault]:
    """A measure with a criterion has words for a value that meets it, one that does not, and none at all."""
    key = ("observation",)
    met = [item for item in entry.observation if _options(item, spec.name) == {"meets"}]
    failed = [item for item in entry.observation if _options(item, spec.name) & {"typed", "short", "over"}]
    out: list[Fault] = []
    if not met:
        message = f"'{spec.name}' needs a wording for a value that meets its figure: when: {{{spec.name}: meets}}"
        out.append(located.fault(key, message))
    if not failed:
        message = f"'{spec.name}' needs a wording that prints the figure: when: {{{spec.name}: typed}}"
        out.append(located.fault(key, message))
    for item in met + failed:
        if spec.name not in printed(item):
            message = f"This wording is for a typed '{spec.name}' and does not print it."
            out.append(located.fault(_key(entry, item), message))
    if failed and not any(f"{spec.name}.usual" in printed(item) for item in failed):
        message = f"No wording says what is usual: print {{{{ {spec.name}.usual }}}} beside the figure."
        out.append(located.fault(_key(entry, failed[0]), message))
    if spec.name in printed(entry.observation[-1]):
        message = f"The last wording is for a line without '{spec.name}'."
        out.append(located.fault(_key(entry, entry.observation[-1]), message))
    return out


def _key(entry: Entry, variant: Variant) -> tuple[str | int, ...]:
    return ("observation", entry.observation.index(variant), "text")


def _options(variant: Variant, name: str) -> set[str]:
    wanted = variant.when.get(name)
    return set(wanted if isinstance(wanted, list) else [wanted] if wanted else [])


Terms = list[tuple[str, re.Pattern[str], frozenset[str]]]


def _glossary(terms: Mapping[str, Any]) -> Terms:
    """Each term with a pattern of its spellings and the telling words of its gloss."""
    out: Terms = []
    for term, item in terms.items():
        forms = sorted({term, *(str(form) for form in item["forms"])}, key=lambda form: (-len(form), form))
        pattern = re.compile(r"\b(?:" + "|".join(re.escape(form) for form in forms) + r")\b(\s*\()?", re.IGNORECASE)
        out.append((term, pattern, _telling(item["gloss"])))
    return out


def _telling(text: str) -> frozenset[str]:
    return frozenset(word for word in re.findall(r"[a-z]+", text.lower()) if word not in _PLAIN)


def _explained(located: Located, entry: Entry, glossary: Terms) -> list[Fault]:
    """A term of the glossary is explained there and nowhere else."""
    out: list[Fault] = []
    for field in TEXT_FIELDS:
        for key, variant in variants_of(located, field, getattr(entry, field)):
            for sentence in sentences(variant.text):
                for term, pattern, telling in glossary:
                    match = pattern.search(sentence)
                    if match is None:
                        continue
                    shared = telling & _telling(sentence[: match.start()] + sentence[match.end() :])
                    again = len(shared) >= LEAST_WORDS and len(shared) >= EXPLAINED * len(telling)
                    if match.group(1) or again:
                        message = f"'{term}' is explained by glossary.yaml at its first use; do not explain it here."
                        out.append(fault_at(located, key, match.group(0).rstrip(" ("), message))
    return out
