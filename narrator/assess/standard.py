"""Which standard of practice a typed name means: an id or a name of the library, never a guess."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from narrator.errors import nearest

# Said around a standard's name and telling nothing: "the ASHI Standard of Practice" is ASHI's.
_AROUND = re.compile(r"\b(?:the|standards?|of|practice|sop|for|home|inspections?|rules?|state)\b")


def standard_of(typed: str, known: Sequence[Mapping[str, Any]]) -> str | None:
    """The id of the standard with this id, title or name; None for any other word."""
    wanted = _plain(typed)
    found = {item["id"] for item in known for name in _names(item) if wanted and _plain(name) == wanted}
    return found.pop() if len(found) == 1 else None


def not_known(typed: str, known: Sequence[Mapping[str, Any]]) -> str:
    """What a review note says of a name that leads to no standard: the nearest, and which there are."""
    names = {_plain(name): item["id"] for item in known for name in _names(item)}
    near = nearest(_plain(typed), names)
    meant = f" Did you mean '{names[near]}'?" if near else ""
    listed = ", ".join(item["id"] for item in known)
    return f"'{typed}' is not a standard of this library, so nothing was held against it.{meant} There are: {listed}."


def _names(item: Mapping[str, Any]) -> list[str]:
    return [item["id"], item["title"], *item["names"]]


def _plain(name: str) -> str:
    words = " ".join(re.findall(r"[a-z0-9]+", name.lower()))
    return " ".join(_AROUND.sub(" ", words).split())
