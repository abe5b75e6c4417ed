"""Which system of the house a described, tested or unseen thing belongs to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from narrator.resolve.words import Vocabulary, understand


@dataclass(frozen=True, slots=True)
class Systems:
    """Systems in printed order, by name, and the parts and descriptions each claims."""

    order: tuple[str, ...]
    titles: Mapping[str, str]
    names: Mapping[str, str]
    parts: Mapping[str, str]
    described: Mapping[str, str]


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
        parts={part: system for system, parts in systems["claims"].items() for part in parts},
        described={
            str(name).lower(): system for system, found in descriptions["descriptions"].items() for name in found
        },
    )


def system_of(text: str, systems: Systems, vocabulary: Vocabulary, heading: str | None) -> str:
    """The system that claims a thing; else the heading's; else `other`."""
    plain = " ".join(text.lower().split())
    for table in (systems.names, systems.described):
        if plain in table:
            return table[plain]
    tokens = understand(text, vocabulary).tokens
    claimed = [systems.parts[token.canon] for token in tokens if token.canon in systems.parts]
    if heading in claimed:
        return heading or "other"
    if claimed:
        return claimed[0]
    return heading or "other"
