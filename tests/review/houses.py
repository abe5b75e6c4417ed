"""Invented inspections over the library's own names and cases, with fixed seeds: what a review of a clean draft is tried on."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from random import Random

import yaml

ENTRIES = Path(__file__).parents[2] / "library" / "entries"
PLACES = (
    "front wall", "rear, right of patio door", "kitchen, left of sink", "hall bath", "garage, right wall", "basement, rear left corner",
    "upstairs hall", "right side", "front left corner", "bedroom 3", "attic, above the porch", "front slope", "crawl space, north end",
    "laundry", "east wall", "den", "", "primary bath; half bath", "deck, left rail",
)  # fmt: skip
STREETS = ("Quillfeather Lane", "Bramblewick Road", "Old Tannery Street", "Marlpit Court")
PEOPLE = ("Ines Marlow", "Tobias Fenwright", "Priya Castellan", "Owen Drake")
TOWNS = ("Saltmarsh Ferry", "Upper Dunmere")
REST = """review window: {days} days from {day} April 2026, told by your agent
agreement: signed {day} April 2026
built: {built}
weather: dry, 61F
method: roof from a ladder at the eaves, walls from the ground
roof covering = asphalt shingle | main roof
partly: attic - from the hatch, front half
not inspected: pool house - locked
ok: doorbell | front
tested: ceiling fans | living room | ran on all speeds
not present: sump pump
note: The owner kept two cats indoors.
"""


@cache
def cases() -> tuple[tuple[str, str], ...]:
    """A name of each entry, as typed, and the details of a case that makes a finding."""
    out = []
    for file in sorted(ENTRIES.rglob("*.yaml")):
        data = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        given = [case["given"] for case in data["cases"] if case.get("result") != "true"]
        out.append((data["names"][0], max(given, key=len, default="")))
    return tuple(out)


def checklist(seed: int) -> str:
    """An inspection of 12 to 22 lines about findings."""
    draw = Random(9100 + seed)
    head = [
        f"property: {draw.randint(2, 900)} {draw.choice(STREETS)}, {draw.choice(TOWNS)}",
        f"visited: {draw.randint(2, 28)} April 2026",
        "inspector: L. Osgood, license 4471",
        f"client: {draw.choice(PEOPLE)}",
        REST.format(days=draw.randint(5, 20), day=draw.randint(2, 28), built=draw.randint(1920, 2018)).rstrip("\n"),
    ]
    lines = []
    for at, (name, given) in enumerate(draw.sample(cases(), draw.randint(12, 22))):
        details = ", ".join(
            filter(
                None,
                (
                    given,
                    f"photo {at * 4 + 1}" if draw.random() < 0.8 else "",
                    "warned occupant 11:20" if draw.random() < 0.5 else "",
                ),
            )
        )
        lines.append(f"{name} | {draw.choice(PLACES)} | {details}")
    return "\n".join([*head, *lines]) + "\n"
