"""What a measured line costs beside an unmeasured one, warm, in one process. Run: python tests/benchmarks/measured.py

Two checklists of the same entries and places, drafted in turn; one has a figure on every line. Prints the ratio of medians and
exits 1 when it is over 2. Also the cost per finding at 10,000 findings against 100 (at most 1.1).
"""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path

import yaml

from narrator.pipeline import draft_text
from narrator.source.store import open_library

ROOT = Path(__file__).resolve().parents[2]
RATIO, GROWTH = 2.0, 1.1
PLACES = ("front wall", "rear slope", "kitchen", "hall bath", "garage", "basement", "second floor")


def measured_lines() -> list[tuple[str, str]]:
    """(name with a condition, a figure that fails) of entries that hold a measure against a criterion."""
    out = []
    for file in sorted((ROOT / "library" / "entries").rglob("*.yaml")):
        data = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        measured = any("criterion" in spec and spec.get("context") != "true" for spec in data.get("measures", {}).values())
        failing = next((case["given"] for case in data["cases"] if case["given"] and not case.get("result")), "")
        if measured and failing and "," not in failing:
            out.append((".".join(file.relative_to(ROOT / "library" / "entries").with_suffix("").parts), failing))
    return out


def text(lines: list[tuple[str, str]], count: int, figures: bool) -> str:
    """A checklist of so many findings."""
    made = []
    for at in range(count):
        code, given = lines[at % len(lines)]
        made.append(f"{code} | {PLACES[at % len(PLACES)]} {at // len(PLACES)}" + (f" | {given}" if figures else ""))
    return "\n".join(made)


def main() -> int:
    """Print both ratios."""
    index = open_library()
    lines = measured_lines()
    plain, full = text(lines, 60, False), text(lines, 60, True)
    times: dict[str, list[float]] = {"plain": [], "full": []}
    for _ in range(25):
        for key, checklist in (("plain", plain), ("full", full)):
            start = time.perf_counter()
            draft_text(checklist, "x", index)
            times[key].append(time.perf_counter() - start)
    ratio = statistics.median(times["full"][3:]) / statistics.median(times["plain"][3:])
    cost = {}
    for count in (100, 10_000):
        start = time.perf_counter()
        for _ in range(10_000 // count // 10 or 1):
            draft_text(text(lines, count, False), "x", index)
        cost[count] = (time.perf_counter() - start) / (count * (10_000 // count // 10 or 1))
    growth = cost[10_000] / cost[100]
    print(f"measured / unmeasured line: {ratio:.2f} (at most {RATIO})")
    print(f"cost of a finding at 10,000 / at 100: {growth:.2f} (at most {GROWTH})")
    return 0 if ratio <= RATIO and growth <= GROWTH else 1


if __name__ == "__main__":
    sys.exit(main())
