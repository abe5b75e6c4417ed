"""Checklists generated over the whole library, the same ones every time: invented houses, real wording."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

ENTRIES = Path(__file__).parents[1] / "library" / "entries"
_PLACES = (
    "front wall", "rear slope", "kitchen", "hall bath", "garage", "left of entry window", "basement", "second floor",
    "bedroom 2", "rear deck", "attic", "right side; left side", "",
)  # fmt: skip
_MORE = ("", "", "", "photo {n}", "x3", "told by seller", '"odd mark nearby"', "heard", "photos {n}-{m}")


def entries() -> list[tuple[str, dict[str, Any]]]:
    """Every entry file by code, as plain text values."""
    out = []
    for path in sorted(ENTRIES.rglob("*.yaml")):
        code = path.relative_to(ENTRIES).with_suffix("").as_posix().replace("/", ".")
        out.append((code, yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)))
    return out


def checklists(count: int = 30, findings: int = 40, seed: int = 7) -> Iterator[str]:
    """`count` checklists of some `findings` conditions each, in the notation."""
    chance = random.Random(seed)
    known = entries()
    for number in range(count):
        lines = [
            f"property: {number + 1} Test Row",
            "visited: 4 March 2026",
            "inspector: R. Vance",
            f"built: {chance.choice((1923, 1958, 1975, 2004))}",
            "review window: 8 days from 4 March 2026",
        ]
        for code, entry in chance.sample(known, findings):
            case = chance.choice(entry["cases"])
            for place in chance.sample(_PLACES, chance.choice((1, 1, 2))):
                more = chance.choice(_MORE).format(n=chance.randint(1, 40), m=chance.randint(41, 90))
                details = ", ".join(filter(None, (case.get("given", ""), more)))
                lines.append(f"{code} | {place} | {details}")
        lines.append(
            chance.choice(
                ("not inspected: crawl space - hatch painted shut", "partly: attic - from the hatch", "ok: soffit")
            )
        )
        yield "\n".join(lines) + "\n"
