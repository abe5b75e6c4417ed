"""Checks of a library: consent, someone to call, words for every verdict, terms left to the glossary."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, NEAR_ROOF, broken, place

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "consent": (
        NEAR_ROOF,
        "With the seller's written permission, have",
        "Have",
        "30:1",
        'say "with the seller\'s written permission"',
    ),
    "consent-flag": (
        NEAR_ROOF,
        "intrusive: true\n",
        "",
        "29:1",
        "so the entry needs 'intrusive: true'.",
    ),
    "who-acts": (
        DECAYED,
        "Ask a carpenter to take it down.",
        "It must come down.",
        "24:1",
        "This could hurt someone: say whom to call, or who acts now.",
    ),
    "danger": (
        DECAYED,
        "danger: [fall]\n",
        "",
        "1:1",
        "'danger' is missing here.",
    ),
    "no-meets": (
        NEAR_ROOF,
        (
            "  - name: meets\n    when: {gap: meets}\n    text: |\n"
            "      {{ place }}, the siding stops {{ gap }} above the roof.\n"
        ),
        "",
        "16:1",
        "'gap' needs a wording for a value that meets its figure",
    ),
    "no-typed": (
        NEAR_ROOF,
        (
            "    when: {gap: typed}\n    text: |\n"
            "      {{ place }}, the siding stops {{ gap }} above the roof. A gap of {{ gap.usual }} is "
            "common."
        ),
        "    when: {places: many}\n    text: |\n      {{ place }}, the siding comes low.",
        "16:1",
        "'gap' needs a wording that prints the figure",
    ),
    "no-usual": (
        NEAR_ROOF,
        " A gap of {{ gap.usual }} is common.",
        "",
        "23:5",
        "No wording says what is usual: print {{ gap.usual }} beside the figure.",
    ),
    "not-printed": (
        NEAR_ROOF,
        "stops {{ gap }} above the roof. A gap of",
        "stops short. A gap of",
        "23:5",
        "This wording is for a typed 'gap' and does not print it.",
    ),
    "last-prints": (
        NEAR_ROOF,
        "siding comes down to the roof.",
        "siding stops {{ gap }} above it.",
        "26:5",
        "The last wording is for a line without 'gap'.",
    ),
    "explained-in-brackets": (
        DECAYED,
        "Soft wood lets go of its nails.",
        "Soft wood lets go of the flashing (a metal strip).",
        "23:28",
        "'flashing' is explained by glossary.yaml at its first use",
    ),
    "explained-in-words": (
        DECAYED,
        "Soft wood lets go of its nails.",
        "Soft wood lets go of the flashing, the metal strip that turns water away.",
        "23:28",
        "'flashing' is explained by glossary.yaml at its first use",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)
