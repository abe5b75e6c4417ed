"""The standards of practice: what they name stands in the other lists, and each rule of writing names known standards.

Two rules of written findings are held here over the entries' own texts: a cause is told as what can be, and a hedge
stands only where the view was limited or someone is to look further.
"""

from __future__ import annotations

import re

from narrator.errors import Fault, did_you_mean
from narrator.source.check.stock import Stock, fault_at
from narrator.source.check.texts import sentences, variants_of
from narrator.source.index import WRITING
from narrator.source.model import TEXT_FIELDS, Entry
from narrator.source.positions import Key, Located

_CAUSE = re.compile(
    r"\b(?:(?:is|was|were|are) caused by|(?:is|was) due to|the cause (?:is|was)(?! known| found))\b", re.IGNORECASE
)
_OPINION = re.compile(r"\b(?:can|may|might|often|usually|we think|in our opinion)\b", re.IGNORECASE)
_HEDGE = re.compile(r"\b(?:appears?|seems?|seemingly|apparently)\b", re.IGNORECASE)
LOOKED_INTO = ("evaluate", "open")


def practice_faults(stock: Stock) -> list[Fault]:
    """Faults of every standard of practice, and of what the entries say against the rules of writing."""
    files = stock.files.practice
    standards = [name for name in files if name != WRITING]
    out: list[Fault] = []
    for name in standards:
        out += _standard(files[name], name, stock)
    out += _names(stock, standards)
    if WRITING in files:
        for rule, item in files[WRITING].value["rules"].items():
            key: Key = ("rules", rule, "standards")
            out += _known(files[WRITING], key, item.get("standards", []), standards, "a standard of this folder")
    for code, entry in stock.entries.items():
        out += _texts(stock.located(code), entry)
    return out


def _standard(located: Located, name: str, stock: Stock) -> list[Fault]:
    value, lists = located.value, stock.files.lists
    known = {
        "systems": [*(item["id"] for item in lists["systems"].value["systems"]), lists["systems"].value["other"]["id"]],
        "parts": list(lists["words"].value["parts"]),
        "described": [each for names in lists["descriptions"].value["descriptions"].values() for each in names],
    }
    what = {
        "systems": "a system of systems.yaml",
        "parts": "a group of parts in words.yaml",
        "described": "a name of descriptions.yaml",
    }
    out: list[Fault] = []
    if value["id"] != name:
        out.append(located.fault(("id",), f"'{value['id']}' stands in the file '{name}.yaml'. They must agree."))
    seen: dict[str, Key] = {}
    for number, system in enumerate(value["systems"]):
        at: Key = ("systems", number)
        out += _known(located, (*at, "systems"), system.get("systems", []), known["systems"], what["systems"])
        for place, item in enumerate(system["items"]):
            key = (*at, "items", place)
            first = seen.setdefault(f"{system['id']}/{item['id']}", (*key, "id"))
            if first != (*key, "id"):
                out.append(located.fault((*key, "id"), f"'{item['id']}' stands twice in this system. Keep one."))
            for field in ("parts", "described"):
                out += _known(located, (*key, field), item.get(field, []), known[field], what[field])
            if not any(item.get(field) for field in ("parts", "described", "words", "method")):
                message = "Nothing can answer this item. Name parts, described names, words or words of the method."
                out.append(located.fault(key, message))
    return out


def _known(located: Located, key: Key, names: list[str], known: list[str], what: str) -> list[Fault]:
    return [
        located.fault((*key, number), f"'{name}' is not {what}.{did_you_mean(name, known)}")
        for number, name in enumerate(names)
        if name not in known
    ]


def _names(stock: Stock, standards: list[str]) -> list[Fault]:
    """A name leads to one standard."""
    first: dict[str, str] = {}
    out: list[Fault] = []
    for name in standards:
        located = stock.files.practice[name]
        for number, word in enumerate(located.value["names"]):
            other = first.setdefault(word.lower(), name)
            if other != name:
                out.append(located.fault(("names", number), f"'{word}' names '{other}' too. A name leads to one."))
    return out


def _texts(located: Located, entry: Entry) -> list[Fault]:
    out: list[Fault] = []
    limited = bool(entry.limits) or entry.course in LOOKED_INTO
    for field in TEXT_FIELDS:
        for key, variant in variants_of(located, field, getattr(entry, field)):
            for sentence in sentences(variant.text):
                cause, hedge = _CAUSE.search(sentence), _HEDGE.search(sentence)
                if cause and not _OPINION.search(sentence):
                    message = (
                        f"'{cause[0]}' gives a cause as a fact. Say what can do this, or mark it as what we think."
                    )
                    out.append(fault_at(located, key, cause[0], message))
                if hedge and not limited:
                    message = f"'{hedge[0]}' needs a limit, or someone who looks further: say what was seen instead."
                    out.append(fault_at(located, key, hedge[0], message))
    return out
