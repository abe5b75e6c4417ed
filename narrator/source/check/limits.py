"""Limits: one sentence beside a finding, none twice, none a blanket; computed ones name systems that there are."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.errors import Fault, did_you_mean
from narrator.source.check.stock import Stock, fault_at
from narrator.source.check.texts import entry_texts, list_texts, sentences, variants_of
from narrator.source.model import Entry
from narrator.source.positions import Key, Located

# Words that limit everything and so say nothing. The first group is by the voice; none is taken from a contract.
BLANKETS = (
    "not limited to", "may not be complete", "might not be complete", "to the extent", "as far as possible",
    "hidden defects", "latent defects", "other defects", "further defects", "may exist", "might exist", "cannot be ruled out",
    "no responsibility", "no liability", "not responsible", "not liable", "at the time of", "visual inspection only",
    "not exhaustive", "among other things", "beyond the scope", "non-invasive", "noninvasive",
)  # fmt: skip
_BLANKET = re.compile(r"\b(?:" + "|".join(re.escape(words) for words in BLANKETS) + r")\b", re.IGNORECASE)
_UNSEEN = re.compile(
    r"\b(?:we|nobody) (?:did not|could not|cannot|can not|have not|has not) (?:see|seen|look|looked|reach|inspect|try|test)\b",
    re.IGNORECASE,
)


def limit_faults(stock: Stock) -> list[Fault]:
    """Faults of limits over all entries and shared lists."""
    out: list[Fault] = []
    for code, entry in stock.entries.items():
        located = stock.located(code)
        out += _several(located, entry)
        for place, at, text in entry_texts(stock, code):
            out += _blanket(place, at, text)
    for located, at, text in list_texts(stock):
        out += _blanket(located, at, text)
    terms = stock.files.lists["terms"]
    for name, text in terms.value["terms"].items():
        out += _blanket(terms, ("terms", name), str(text))
    return [*out, *_lists(stock)]


def _several(located: Located, entry: Entry) -> list[Fault]:
    """An entry has one limit sentence: its limit of limits.yaml (the schema lets it name one), or one in its own text."""
    own = _own(located, entry)
    spare = own if entry.limits else own[1:]
    return [
        located.fault(key, f"The entry has a limit already; take this second one out: '{sentence[:50]}'")
        for key, sentence in spare
    ]


def _own(located: Located, entry: Entry) -> list[tuple[Key, str]]:
    """Limit sentences in the entry's own wordings, one for each field at most: wordings never print together."""
    out: list[tuple[Key, str]] = []
    for field in ("observation", "implication", "recommendation"):
        most: list[tuple[Key, str]] = []
        for key, variant in variants_of(located, field, getattr(entry, field)):
            found = [(key, sentence) for sentence in sentences(variant.text) if _UNSEEN.search(sentence)]
            most = found if len(found) > len(most) else most
        out += most
    return out


def _blanket(located: Located, key: Key, text: str) -> list[Fault]:
    return [
        fault_at(
            located, key, found, f"'{found}' limits everything and so says nothing. Name the part that was not seen."
        )
        for found in _BLANKET.findall(text)
    ]


def _texts(stock: Stock) -> Iterator[tuple[Key, str]]:
    for group in ("limits", "computed"):
        for name, item in stock.files.lists["limits"].value.get(group, {}).items():
            for key in ("text", "else"):
                if key in item:
                    yield (group, name, key), " ".join(str(item[key]).split())


def _lists(stock: Stock) -> list[Fault]:
    """Repeats in limits.yaml, ids that stand in both of its parts, systems that are none."""
    located = stock.files.lists["limits"]
    first: dict[str, Key] = {}
    out: list[Fault] = []
    for key, text in _texts(stock):
        at = first.setdefault(text.lower(), key)
        if at != key:
            out.append(
                located.fault(key, f"The same sentence stands at {'.'.join(map(str, at))}. Say it under one name.")
            )
    systems = [item["id"] for item in stock.files.lists["systems"].value["systems"]]
    for name, rule in located.value.get("computed", {}).items():
        if name in located.value["limits"]:
            out.append(located.fault(("computed", name), f"'{name}' is a limit of an entry too; give it its own name."))
        for number, system in enumerate(rule["systems"]):
            if system not in systems:
                message = f"'{system}' is not a system of systems.yaml.{did_you_mean(system, systems)}"
                out.append(located.fault(("computed", name, "systems", number), message))
    return out
