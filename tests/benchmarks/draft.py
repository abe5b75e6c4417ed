"""Whole-process time of `narrator draft` on a 60-line checklist, as a ratio to a floor process, measured in turn in one run.

The floor imports click, yaml and jinja2's sandbox, and compiles and renders from source, once, the very templates that the
draft used. Run: python tests/benchmarks/draft.py [--rounds N]. Prints the three ratios and exits 1 when one is over its bound.

- draft / floor: at most 1.5, with a library of 100 entries
- 700 entries / 100 entries: at most 1.1 (600 of them synthetic)
- with a firm's folder / without: at most 1.2, the example firm over the product's own library
"""

from __future__ import annotations

import argparse
import json
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
RATIO, GROWTH, FIRM = 1.5, 1.1, 1.2

FLOOR = """
import json, sys
import click, yaml
from jinja2.sandbox import ImmutableSandboxedEnvironment
environment = ImmutableSandboxedEnvironment()
values = json.load(open(sys.argv[2], encoding='utf-8'))
for text in json.load(open(sys.argv[1], encoding="utf-8")):
    environment.from_string(text).render(values)
"""

PLACES = ("front wall", "rear slope", "kitchen", "hall bath", "garage", "left of entry window", "basement", "second floor")


def make_library(folder: Path, wanted: int) -> list[str]:
    """A copy of the library with 100 of its entries, and synthetic ones up to `wanted`; returns the real entries' names."""
    shutil.copytree(ROOT / "library", folder, dirs_exist_ok=True)
    files = sorted((folder / "entries").rglob("*.yaml"))
    step = len(files) / 100
    kept = {files[int(index * step)] for index in range(100)}
    for file in files:
        if file not in kept:
            file.unlink()
    names = [first_name(file) for file in sorted(kept)]
    source = sorted(kept)[0].read_text(encoding="utf-8")
    for number in range(wanted - 100):
        target = folder / "entries" / "other" / f"thing{number % 20}" / f"state-{number}.yaml"
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(synthetic(source, number), encoding="utf-8")
    codes = {".".join(file.relative_to(folder / "entries").with_suffix("").parts) for file in (folder / "entries").rglob("*.yaml")}
    for file in (folder / "entries").rglob("*.yaml"):
        drop_links(file, codes)
    return names


def drop_links(file: Path, codes: set[str]) -> None:
    """Take out links to entries that are not in this library."""
    lines = file.read_text(encoding="utf-8").splitlines()
    file.write_text("\n".join(line for line in lines if not line.startswith("leads_to:")) + "\n", encoding="utf-8")


def first_name(file: Path) -> str:
    """The first name of an entry that stands on its line alone."""
    import yaml

    return str(yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)["names"][0])


def synthetic(source: str, number: int) -> str:
    """An entry of the real length with names of its own that share condition words with real ones."""
    import yaml

    data = yaml.load(source, Loader=yaml.BaseLoader)
    words = ("loose", "cracked", "missing", "rusted", "stained", "leaking")
    names = [f"widget{number} {part} {words[(number + at) % 6]}" for at, part in enumerate(("pipe", "window", "gutter", "outlet", "deck"))]
    body = source.split("names:", 1)
    rest = body[1].split("\nelement:", 1)[1]
    title = f"Thing number {number}".replace("number", "kind")
    head = f"format: narrator.entry/1\ntitle: '{title}'\nnames: [{', '.join(names)}]\nelement:{rest}"
    assert data
    return head


def checklist(names: list[str]) -> str:
    """Sixty invented lines: headers, headings, findings, results."""
    lines = ["property: 14 Larch Hollow Road", "visited: 4 March 2026", "inspector: R. Vance", "client: D. Ortiz"]
    lines += ["review window: 10 days from 4 March 2026, ends 17:00", "roof covering = asphalt shingle | main roof"]
    lines += ["ok: soffit, fascia | rear", "tested: GFCI | kitchen, baths | 11 of 12 tripped", "not inspected: crawl space - hatch shut"]
    at = 0
    while len(lines) < 60:
        lines.append(f"{names[at % len(names)]} | {PLACES[at % len(PLACES)]} | photos {at + 1}, {at + 2}")
        at += 2
    return "\n".join(lines) + "\n"


def seconds(command: list[str], environment: dict[str, str]) -> float:
    """The time of one whole process."""
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=environment)
    return time.perf_counter() - start


def templates_of(library: Path, text: str, environment: dict[str, str]) -> list[str]:
    """The texts that a draft of this checklist renders, once each, as the floor will compile them."""
    code = (
        "import json,sys; import narrator.compose.template as t; seen=[]; old=t.render\n"
        "def spy(variant, *rest):\n seen.append(variant.text); return old(variant, *rest)\n"
        "t.render=spy; import narrator.compose.paragraphs as p; p.render=spy; import narrator.compose.rows as r; r.render=spy\n"
        "from pathlib import Path; from narrator.source.store import open_library; from narrator.pipeline import draft_text\n"
        "draft_text(open(sys.argv[2],encoding='utf-8').read(),'x',open_library(Path(sys.argv[1])))\n"
        "print(json.dumps(list(dict.fromkeys(seen))))"
    )
    out = subprocess.run([sys.executable, "-c", code, str(library), text], check=True, capture_output=True, env=environment)
    return [str(item) for item in json.loads(out.stdout)]


def command() -> list[str]:
    """The installed command, as a user calls it."""
    script = Path(sys.executable).with_name("narrator")
    return [sys.executable, str(script)] if script.is_file() else [sys.executable, "-m", "narrator"]


def main() -> int:
    """Measure in turn and print ratios of medians."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--rounds", type=int, default=15)
    rounds = parser.parse_args().rounds
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        environment = {**os.environ, "NARRATOR_CACHE": str(folder / "cache"), "PYTHONHASHSEED": "0", "PYTHONDONTWRITEBYTECODE": ""}
        small, large = folder / "small", folder / "large"
        names = make_library(small, 100)
        make_library(large, 700)
        text = folder / "checklist.txt"
        text.write_text(checklist(names), encoding="utf-8")
        out = folder / "draft.md"
        narrator = [*command(), "draft", str(text), "-o", str(out), "--library"]
        used = templates_of(small, str(text), environment)
        (folder / "templates.json").write_text(json.dumps(used), encoding="utf-8")
        (folder / "floor.py").write_text(FLOOR, encoding="utf-8")
        names_used = {word for one in used for word in re.findall(r"{{ ?(\w+)", one)}
        values = {word: {"usual": "2 inches", "count": "six"} for word in sorted(names_used)}
        (folder / "values.json").write_text(json.dumps(values), encoding="utf-8")
        floor = [sys.executable, str(folder / "floor.py"), str(folder / "templates.json"), str(folder / "values.json")]
        commands = {"floor": floor, "small": [*narrator, str(small)], "large": [*narrator, str(large)]}
        house, firm = str(ROOT / "examples/stucco-house/checklist.txt"), str(ROOT / "examples/firms/tarn-and-thistle")
        own = [*command(), "draft", house, "-o", str(out)]
        commands |= {"plain": [*own, "--no-firm"], "firm": [*own, "--firm", firm]}
        for words in commands.values():
            seconds(words, environment)  # warm: byte code and index
        times: dict[str, list[float]] = {key: [] for key in commands}
        for _ in range(rounds):
            for key, words in commands.items():
                times[key].append(seconds(words, environment))
        middle = {key: statistics.median(found) for key, found in times.items()}
        ratio, growth = middle["small"] / middle["floor"], middle["large"] / middle["small"]
        print(f"{len(used)} templates; floor {middle['floor'] * 1000:.0f} ms, draft {middle['small'] * 1000:.0f} ms")
        print(f"draft / floor: {ratio:.2f} (at most {RATIO})")
        print(f"700 entries / 100 entries: {growth:.2f} (at most {GROWTH})")
        with_firm = middle["firm"] / middle["plain"]
        print(f"with a firm / without: {with_firm:.2f} (at most {FIRM})")
        return 0 if ratio <= RATIO and growth <= GROWTH and with_firm <= FIRM else 1


if __name__ == "__main__":
    sys.exit(main())
