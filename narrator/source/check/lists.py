"""The shared lists among themselves: words that stand twice, names of nothing, rules that cannot be read."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from narrator.assess.counting import rules_from
from narrator.assess.methods import CHOICES
from narrator.errors import Fault, did_you_mean
from narrator.resolve.vocabulary import name_key
from narrator.source.check.stock import Stock
from narrator.source.positions import Key, Located

GROUPED = ("parts", "conditions", "functions", "negated")


def list_faults(stock: Stock) -> list[Fault]:
    """Faults inside and between the shared lists and the criteria."""
    lists = stock.files.lists
    systems = [item["id"] for item in lists["systems"].value["systems"]]
    out = _words(lists["words"])
    out += _claims(lists["systems"], systems, lists["words"])
    for name in lists["descriptions"].value["descriptions"]:
        if name not in systems:
            message = f"'{name}' is not a system of systems.yaml.{did_you_mean(name, systems)}"
            out.append(lists["descriptions"].fault(("descriptions", name), message))
    topics = lists["stories"].value["topics"]
    known = sorted({".".join(code.split(".")[:length]) for code in stock.codes for length in (1, 2, 3)})
    out += _once(lists["stories"], [(("topics", number, "id"), topic["id"]) for number, topic in enumerate(topics)])
    for number, topic in enumerate(topics):
        out += _codes(lists["stories"], ("topics", number, "among"), topic["among"], known)
        for kind, names in enumerate(topic["signs"]):
            out += _codes(lists["stories"], ("topics", number, "signs", kind), names, known)
    for key in ("systems", "trades", "ask"):
        located = lists["systems" if key == "systems" else "trades"]
        out += _once(located, [((key, number, "id"), item["id"]) for number, item in enumerate(located.value[key])])
    out += _windows(lists["windows"])
    out += _existing(stock)
    return out


def _codes(located: Located, key: Key, names: list[str], known: list[str]) -> list[Fault]:
    """A fault for each name that is no entry, component or system with entries."""
    return [
        located.fault(
            (*key, number), f"'{name}' is not a system, a component or an entry's code.{did_you_mean(name, known)}"
        )
        for number, name in enumerate(names)
        if name not in known
    ]


def _once(located: Located, items: Iterable[tuple[Key, str]]) -> list[Fault]:
    first: dict[str, Key] = {}
    out: list[Fault] = []
    for key, name in items:
        if name in first:
            out.append(located.fault(key, f"'{name}' stands also on line {located.pos(first[name]).line}. Keep one."))
        first.setdefault(name, key)
    return out


def _words(located: Located) -> list[Fault]:
    """A word belongs to one group of its section: with two, the first in the alphabet would win unseen."""
    out: list[Fault] = []
    for section in GROUPED:
        first: dict[str, tuple[str, Key]] = {}
        for group, forms in located.value[section].items():
            for number, form in enumerate(forms):
                key: Key = (section, group, number)
                word = name_key(str(form))
                other, at = first.setdefault(word, (group, key))
                if other != group:
                    where = f"in '{other}' (line {located.pos(at).line})"
                    out.append(located.fault(key, f"'{form}' stands also {where}. A word is in one group only."))
                elif form in forms[:number]:
                    out.append(located.fault(key, f"'{form}' stands twice in this group. Keep one."))
    return out


def _claims(located: Located, systems: list[str], words: Located) -> list[Fault]:
    """Each claim names a system and parts of the word list, and a system claims a part once."""
    out: list[Fault] = []
    parts = words.value["parts"]
    claims: Mapping[str, list[str]] = located.value.get("claims", {})
    for system, names in claims.items():
        if system not in systems:
            message = f"'{system}' is not the id of a system above.{did_you_mean(system, systems)}"
            out.append(located.fault(("claims", system), message))
        out += _once(located, [(("claims", system, number), name) for number, name in enumerate(names)])
        for number, name in enumerate(names):
            key: Key = ("claims", system, number)
            if name not in parts:
                message = f"'{name}' is not a group of parts in words.yaml.{did_you_mean(name, parts)}"
                out.append(located.fault(key, message))
    return out


def _windows(located: Located) -> list[Fault]:
    """Every rule for counting days can be read."""
    out: list[Fault] = []
    for name, row in located.value["rules"].items():
        try:
            rules_from({"rules": {name: row}})
        except (ValueError, KeyError, TypeError) as error:
            out.append(located.fault(("rules", name), f"{error}"))
    return out


def _existing(stock: Stock) -> list[Fault]:
    """The row for older houses that a criterion names stands beside it."""
    out: list[Fault] = []
    for name, row in stock.criteria.items():
        if row.existing and row.existing not in stock.criteria_at:
            located, key = stock.criteria_at[name]
            message = f"'{row.existing}' is not the id of a criterion.{did_you_mean(row.existing, stock.criteria_at)}"
            out.append(located.fault((*key[:-1], "existing"), message))
    return out


def unused(stock: Stock) -> list[Fault]:
    """Criteria that no entry uses and no other row points to: not wrong, only worth knowing."""
    used = {row.existing for row in stock.criteria.values()}
    for entry in stock.entries.values():
        for spec in entry.measures:
            used |= {spec.criterion or "", spec.typical or "", *spec.bands}
            choice = CHOICES.get(dict(spec.against).get("by", ""))
            used |= set(choice.rows) if choice else set()
    found = [(name, at) for name, at in stock.criteria_at.items() if name not in used]
    return sorted(located.fault(key, f"No entry uses '{name}'.") for name, (located, key) in found)
