"""Comparing two reports of 200 findings as a ratio to difflib over their words, measured in turn in one run.

The comparison reads both Markdown files and compares them; difflib compares the lists of their words. The second report is the
first with edits of every kind spread over it. Run: python tests/benchmarks/compare.py [--rounds N]. Prints the ratio of medians
and exits 1 when it is over 3.
"""

from __future__ import annotations

import argparse
import random
import statistics
import sys
import time
from collections.abc import Callable
from difflib import SequenceMatcher
from pathlib import Path

from narrator.commands.common import labels_of
from narrator.pipeline import draft_text
from narrator.publish import publish
from narrator.review import plainly, wordwise
from narrator.review.compare import compare
from narrator.review.reading import read_text
from narrator.source.store import open_library

ROOT = Path(__file__).resolve().parents[2]
RATIO, FINDINGS = 3.0, 200
PLACES = ("front wall", "rear slope", "kitchen", "hall bath", "garage", "basement", "second floor")


def checklist() -> str:
    """200 findings of as many entries."""
    folder = ROOT / "library" / "entries"
    codes = [".".join(file.relative_to(folder).with_suffix("").parts) for file in sorted(folder.rglob("*.yaml"))][:FINDINGS]
    lines = [f"{code} | {PLACES[at % len(PLACES)]} | photo {at}" for at, code in enumerate(codes)]
    return "property: 14 Larch Hollow Road\nvisited: 4 March 2026\n" + "\n".join(lines) + "\n"


def edited(text: str) -> str:
    """A hand edit in every tenth paragraph, a finding gone, one moved."""
    draw = random.Random(7)
    out = []
    for at, line in enumerate(text.split("\n")):
        words = line.split(" ")
        if len(words) > 12 and at % 10 == 0:
            word = draw.randrange(1, len(words) - 1)
            words[word] = draw.choice(["not", "left", "7", "gently", words[word][::-1]])
        out.append(" ".join(words))
    blocks = "\n".join(out).split("\n### ")
    gone = blocks.pop(40)
    blocks.insert(90, blocks.pop(60))
    assert gone
    return "\n### ".join(blocks)


def seconds(work: Callable[[], object]) -> float:
    """The time of one turn, with nothing kept from the turn before."""
    for kept in (plainly.level, plainly.sentences, wordwise.tokens, wordwise.bag):
        kept.cache_clear()
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main() -> int:
    """Measure in turn and print the ratio of medians."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--rounds", type=int, default=9)
    rounds = parser.parse_args().rounds
    index = open_library()
    labels = labels_of(index)
    first = publish(draft_text(checklist(), "x", index), "md", labels)
    second = edited(first)
    found = compare(read_text(first, "a", labels, "md"), read_text(second, "b", labels, "md"))
    assert found.before.findings == FINDINGS
    works: dict[str, Callable[[], object]] = {
        "difflib": lambda: SequenceMatcher(None, first.split(), second.split()).get_opcodes(),
        "compare": lambda: compare(read_text(first, "a", labels, "md"), read_text(second, "b", labels, "md")),
    }
    times: dict[str, list[float]] = {key: [] for key in works}
    for _ in range(rounds):
        for key, work in works.items():
            times[key].append(seconds(work))
    middle = {key: statistics.median(each) for key, each in times.items()}
    ratio = middle["compare"] / middle["difflib"]
    print(f"{len(first.split())} words, {len(found.changes)} changes")
    print(f"difflib {middle['difflib'] * 1000:.0f} ms, compare {middle['compare'] * 1000:.0f} ms")
    print(f"compare / difflib: {ratio:.2f} (at most {RATIO})")
    return 0 if ratio <= RATIO else 1


if __name__ == "__main__":
    sys.exit(main())
