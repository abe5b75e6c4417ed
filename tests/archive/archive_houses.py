"""Archives for tests: invented inspections as inspectors type them, and libraries with one thing changed."""

from __future__ import annotations

import random
import shutil
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from generated import entries

LIBRARY = Path(__file__).parents[2] / "library"
_PLACES = ("front wall", "rear slope", "kitchen", "hall bath", "garage", "basement", "left of entry window", "rear deck", "")
_ENDS = ("", "", "photo {n}", "x3", "told by seller", '"odd mark nearby"', "trade plumber", "photos {n}-{m}")
_HEADS = ("utilities: water off", "weather: rain", "method: roof from the ground", "standard: ashi", "built: 1958")
_CLOSE = (
    "not inspected: crawl space - hatch painted shut", "partly: attic - from the hatch", "ok: soffit, fascia", "tested: GFCI | kitchen",
)  # fmt: skip


def lines(known: Sequence[tuple[str, dict[str, Any]]], chance: random.Random, findings: int) -> Iterator[str]:
    """Lines of findings: names of entries as they stand, with a word more or less, or by their code."""
    for code, entry in chance.sample(known, findings):
        name = chance.choice(entry["names"])
        way = chance.random()
        words = name.split()
        if way < 0.1:
            what = code
        elif way < 0.25 and len(words) > 2:
            what = " ".join(words[1:] + words[:1])
        elif way < 0.35:
            what = f"{name} badly"
        else:
            what = name
        case = chance.choice(entry["cases"])
        end = chance.choice(_ENDS).format(n=chance.randint(1, 40), m=chance.randint(41, 90))
        details = ", ".join(filter(None, (case.get("given", ""), end)))
        yield f"{what} | {chance.choice(_PLACES)} | {details}"


def checklists(
    count: int, findings: int, seed: int = 3, without: str = "", known: Sequence[tuple[str, dict[str, Any]]] | None = None
) -> Iterator[str]:
    """`count` invented checklists in the notation. None of their lines is made from the entry `without`."""
    chance = random.Random(seed)
    known = [each for each in known or entries() if each[0] != without]
    for number in range(count):
        head = [f"property: {number + 1} Test Row", "visited: 4 March 2026", "inspector: R. Vance"]
        head += ["review window: 8 days from 4 March 2026", chance.choice(_HEADS)]
        out = [*head, *lines(known, chance, findings), chance.choice(_CLOSE)]
        yield "\n".join(out) + "\n"


def archive(folder: Path, texts: Sequence[str]) -> Path:
    """A folder of inspections, some deeper than others."""
    for number, text in enumerate(texts):
        path = folder / f"20{number % 20:02}" / f"house-{number}" / "checklist.txt"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def changed_library(folder: Path, changes: Sequence[tuple[str, str, str]], gone: Sequence[str] = ()) -> Path:
    """A copy of the library with pieces of files replaced, and files taken out."""
    root = folder / "library"
    if not root.exists():
        shutil.copytree(LIBRARY, root)
    for file, old, text in changes:
        path = root / file
        whole = path.read_text(encoding="utf-8")
        assert old in whole, f"{old!r} does not stand in {file}"
        path.write_text(whole.replace(old, text, 1), encoding="utf-8")
    for file in gone:
        (root / file).unlink()
    return root
