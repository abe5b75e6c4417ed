"""A library in parts: each with a digest, so that two libraries differ in exactly the parts whose digests do.

The names of parts follow what a draft asks of the index (`source/index.py`, `Index.asked`); shared lists that most drafts use
in part only (trades, limits, glossary) are cut finer here, and `archive/trace.py` says which of their parts a draft used.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from hashlib import blake2b
from typing import Any

from narrator.source import index as store
from narrator.source.index import Index

FINE = frozenset({"trades", "limits", "glossary"})
_NOT_PRINTED = frozenset({"fingerprint", "edits", "own"})  # of a firm: what it changes is in the parts that it changes
"""Shared lists that are told apart by item."""


def digest(value: Any) -> str:
    """A short digest of plain data."""
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False, sort_keys=True)
    return blake2b(text.encode("utf-8", "surrogatepass"), digest_size=8).hexdigest()


def parts_of(index: Index) -> dict[str, str]:
    """Every part of a library, with its digest.

    `full:CODE` all of an entry; `shape:CODE` its measures and what it leads to, which drafts of other entries ask for too;
    `named:CODE` its title, names and what they explain; `word:WORD` every name that shares a canonical word, with what
    likeness reads of its entry.
    """
    if "made:parts" not in index.cache:
        index.cache["made:parts"] = dict([*_entries(index), *_names(index), *_words(index), *_lists(index)])
    found: dict[str, str] = index.cache["made:parts"]
    return found


def mark_of(index: Index) -> str:
    """What tells this library, with the firm that may lie over it, from every other."""
    return f"{index.fingerprint} {store.document(index, 'firm').get('fingerprint', '')}"


def changed(before: Mapping[str, str], after: Mapping[str, str]) -> frozenset[str]:
    """Names of parts that only one library has, or that differ."""
    return frozenset(key for key in before.keys() | after.keys() if before.get(key) != after.get(key))


def glossary_changes(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[str, ...]:
    """Spellings, in small letters, of the trade words that only one glossary has, or that it explains otherwise."""
    out: set[str] = set()
    for term in before.keys() | after.keys():
        if before.get(term) != after.get(term):
            for item in (before.get(term), after.get(term)):
                out |= {term.lower(), *(str(form).lower() for form in item["forms"])} if item else set()
    return tuple(sorted(out))


def _entries(index: Index) -> Iterator[tuple[str, str]]:
    components: dict[str, list[str]] = {}
    for code, text, known in index.connection.execute("SELECT code, json, known FROM entry ORDER BY code"):
        entry = json.loads(text)
        yield f"full:{code}", digest([store.without_lines(entry), known])
        yield f"shape:{code}", digest([entry["measures"], entry["leads_to"]])
        yield f"named:{code}", digest([entry["names"], [variant[:3] for variant in entry["title"]], known])
        components.setdefault(code.rpartition(".")[0], []).append(code)
    for component, codes in components.items():
        yield f"component:{component}", digest(codes)
    yield "codes", digest(sorted(code for found in components.values() for code in found))


def _names(index: Index) -> Iterator[tuple[str, str]]:
    """Who answers a name exactly, and which names share a word, with what likeness reads of their entries."""
    read = {
        code: (known, json.loads(text)["measures"])
        for code, text, known in index.connection.execute("SELECT code, json, known FROM entry")
    }
    names: dict[int, str] = {}
    exact: dict[str, set[str]] = {}
    for number, code, key, text in index.connection.execute("SELECT id, code, key, json FROM name ORDER BY id"):
        names[number] = digest([code, key, text, *read[code]])
        exact.setdefault(key, set()).add(code)
    for key, codes in exact.items():
        yield f"name:{key}", digest(sorted(codes))
    shared: dict[str, list[Any]] = {}
    for word, number, weight in index.connection.execute("SELECT word, id, weight FROM posting ORDER BY word, id"):
        shared.setdefault(word, []).append([names[number], weight])
    for word, found in shared.items():
        yield f"word:{word}", digest(found)


def _words(index: Index) -> Iterator[tuple[str, str]]:
    for word, text, inside in index.connection.execute("SELECT word, json, inside FROM form"):
        yield f"form:{word}", digest([text, inside])
    for key, words in index.connection.execute("SELECT key, words FROM slip"):
        yield f"slip:{key}", digest(words)


def _lists(index: Index) -> Iterator[tuple[str, str]]:
    for name, text in index.connection.execute("SELECT name, json FROM document"):
        if name == "firm":
            kept = {key: value for key, value in json.loads(text).items() if key not in _NOT_PRINTED}
            yield "list:firm", digest(kept)
        elif name not in FINE:
            yield f"list:{name}", digest(text)
    for name, text in index.connection.execute("SELECT id, json FROM criterion"):
        yield f"criterion:{name}", digest(text)
    trades = store.document(index, "trades")
    for item in trades["trades"]:
        yield f"trade:{item['id']}", digest(item)
    yield "trades:order", digest([item["id"] for item in trades["trades"]])
    names = {
        str(name).lower(): item["id"]
        for item in trades["trades"]
        for name in (item["id"], item["label"], *item["names"])
    }
    yield from ((f"trade name:{name}", digest(found)) for name, found in names.items())
    limits = store.document(index, "limits")
    for name, item in limits["limits"].items():
        yield f"limit:{name}", digest(item)
    yield from _computed(limits.get("computed", {}))


def _computed(rules: Mapping[str, Mapping[str, Any]]) -> Iterator[tuple[str, str]]:
    """The rules of limits by the header they read; rules of one group hold each other off, so they count together."""
    for header in sorted({rule["header"] for rule in rules.values()}):
        groups = {rule.get("group") for rule in rules.values() if rule["header"] == header} - {None}
        about = [
            [name, rule] for name, rule in rules.items() if rule["header"] == header or rule.get("group") in groups
        ]
        yield f"header:{header}", digest(json.dumps(about, ensure_ascii=False))
    yield "headers:order", digest(list(dict.fromkeys(rule["header"] for rule in rules.values())))
