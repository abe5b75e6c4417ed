"""Which system of the house a described, tested or unseen thing belongs to."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from narrator.resolve.vocabulary import Vocabulary
from narrator.resolve.words import understand


class Systems(NamedTuple):
    """Systems in printed order, by name, and the parts and descriptions each claims.

    Several may claim one part (a guard stands on a deck and on stairs): a heading chooses, else the last of them has it.
    """

    order: tuple[str, ...]
    titles: Mapping[str, str]
    names: Mapping[str, str]
    parts: Mapping[str, tuple[str, ...]]
    described: Mapping[str, tuple[str, ...]]


def systems_from(systems: Mapping[str, Any], descriptions: Mapping[str, Any]) -> Systems:
    """From `systems.yaml` and `descriptions.yaml`."""
    titles = {item["id"]: item["title"] for item in systems["systems"]}
    titles[systems["other"]["id"]] = systems["other"]["title"]
    names: dict[str, str] = {}
    for item in systems["systems"]:
        for name in (item["id"], item["title"], *item["names"]):
            names.setdefault(" ".join(str(name).lower().split()), item["id"])
    return Systems(
        order=tuple(titles),
        titles=titles,
        names=names,
        parts=_claimants(systems["claims"]),
        described=_claimants(descriptions["descriptions"]),
    )


def _claimants(claims: Mapping[str, Any]) -> dict[str, tuple[str, ...]]:
    """Each name with the systems that claim it, in the order of the list."""
    out: dict[str, tuple[str, ...]] = {}
    for system, names in claims.items():
        for name in names:
            key = str(name).lower()
            out[key] = (*out.get(key, ()), system)
    return out


def system_of(text: str, systems: Systems, vocabulary: Vocabulary, heading: str | None) -> str:
    """The system that claims a thing, the heading's if it is one of several; else the heading's; else `other`."""
    plain = " ".join(text.lower().split())
    named = [systems.names[plain]] if plain in systems.names else []
    exact = [*named, *systems.described.get(plain, ())]
    tokens = understand(text, vocabulary).tokens
    claimed = [system for token in tokens for system in reversed(systems.parts.get(token.canon, ()))]
    if heading is not None and heading in (*exact, *claimed):
        return heading
    first = (*exact, *claimed)[:1]
    return first[0] if first else heading or "other"
