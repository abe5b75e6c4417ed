"""Time of `narrator impact` on an archive, as a ratio to drafting the whole archive, in one run; and whether both find the same.

An entry that one inspection in a hundred uses is changed. Run: python tests/benchmarks/impact.py [--count N] [--findings N].

- warm: the library's index, and what is kept of the archive (each inspection drafted once with the old library before; that
  time is printed beside, as it is paid once and then only for what is new in the folder)
- cold, and counted: reading every file of the archive, the parts of both libraries, asking lines again, drafting, comparing
- drafting them all: to know the changes every inspection is drafted with both libraries, and those that differ are compared;
  half of that time counts as drafting them all

impact / drafting them all once: at most 0.05 for a change of wording. A new name can move likeness anywhere: every distinct
line that shares a word with it is asked again, so its bound is wider (0.2). The changes must be equal, one for one.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from narrator.source.index import Index

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests"), str(ROOT / "tests" / "archive")]

CODE, FILE = "walls.trim.decayed", "entries/walls/trim/decayed.yaml"
CHANGES = {
    "wording": ("New trim alone leaves the water where it is. A", "Do not paint over it. A"),
    "a name more": ("names: [trim decayed", "names: [trim gone bad, trim decayed"),
}
RATIO = {"wording": 0.05, "a name more": 0.2}


def main() -> int:
    """Run it; 1 when a ratio is over its bound or the changes are not the same."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--count", type=int, default=10_000)
    parser.add_argument("--findings", type=int, default=8)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        os.environ["NARRATOR_CACHE"] = str(folder / "cache")
        return measure(folder, given.count, given.findings)


def measure(folder: Path, count: int, findings: int) -> int:
    """Build the archive, then each change: the impact, and everything drafted."""
    from houses import archive, checklists

    from narrator.archive.impact import contents_of, impact, silent
    from narrator.archive.kept import open_kept
    from narrator.source.store import open_library

    texts = [
        text + ("trim decayed | front wall\n" if number % 100 == 0 else "")
        for number, text in enumerate(checklists(count, findings, without=CODE))
    ]
    top = [str(archive(folder / "archive", texts))]
    old = open_library()
    kept = open_kept(top)
    start = time.perf_counter()
    impact(old, old, contents_of(top), kept, silent)
    print(f"{count} inspections of {findings} findings; drafted once and kept in {time.perf_counter() - start:.1f} s", flush=True)
    return max([one(folder, label, old, top) for label in CHANGES])


def one(folder: Path, label: str, old: Index, top: list[str]) -> int:
    """One change: the impact, then everything drafted."""
    from houses import changed_library

    from narrator.archive.impact import contents_of, impact, impact_of_all, silent
    from narrator.archive.kept import open_kept
    from narrator.source.store import open_library

    new = open_library(changed_library(folder / label.replace(" ", "-"), [(FILE, *CHANGES[label])]))
    for index in (old, new):
        index.cache.clear()
    start = time.perf_counter()
    few = impact(old, new, contents_of(top), open_kept(top), silent)
    took = time.perf_counter() - start
    start = time.perf_counter()
    everything = impact_of_all(old, new, contents_of(top), silent)
    once = (time.perf_counter() - start) / 2
    same = few.altered == everything.altered
    said = f"{len(few.altered)} altered of {few.drafted} drafted, {few.asked} lines asked again"
    print(f"{label}: {said}; {took:.2f} s; drafting them all once {once:.1f} s; {'equal' if same else 'NOT EQUAL'}")
    print(f"  impact / drafting them all: {took / once:.3f} (at most {RATIO[label]})", flush=True)
    return 0 if same and took / once <= RATIO[label] else 1


if __name__ == "__main__":
    sys.exit(main())
