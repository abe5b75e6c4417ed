"""Checks of a library: an entry's own cases, and what they reach."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, NEAR_ROOF, broken, place

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "says": (
        DECAYED,
        "says: [softened the board]",
        "says: [softened the boards]",
        "29:24",
        "The text does not say 'softened the boards'. It says: Trim has decayed",
    ),
    "never": (
        NEAR_ROOF,
        "never: [inch]",
        "never: [Siding]",
        "39:110",
        "The text says 'Siding': ...Siding nearly touches the roof",
    ),
    "result-is-finding": (
        NEAR_ROOF,
        "{given: gap 1 in, says",
        "{given: gap 1 in, result: true, says",
        "37:23",
        "This became a finding (gap 1 inch: short), not a result.",
    ),
    "finding-is-result": (
        NEAR_ROOF,
        "given: gap 3 in, result: true,",
        "given: gap 3 in, what: siding roof gap,",
        "38:5",
        "This became a result, not a finding; if that is right, add 'result: true'.",
    ),
    "contradiction": (
        NEAR_ROOF,
        "given: gap 3 in, result: true,",
        "given: gap 3 in,",
        "38:5",
        "The words say 'siding too close to roof', but the figure (3 inches) meets the published one.",
    ),
    "no-answer": (
        DECAYED,
        "{given: '', says",
        "{given: '', what: chimney leaning, says",
        "29:5",
        "The line 'chimney leaning | rear wall' stays unresolved",
    ),
    "other-entry": (
        DECAYED,
        "{given: '', says",
        "{given: '', what: siding tight to roof, says",
        "29:5",
        "The line was taken for walls.siding.near-roof",
    ),
    "unreached": (
        NEAR_ROOF,
        "  - {given: gap 1 in, says: [1 inch, 2 inches]}\n",
        "",
        "23:5",
        "The wording 'measured' of 'observation' is reached by no case.",
    ),
    "unreached-result": (
        NEAR_ROOF,
        "  - {given: gap 3 in, result: true, says: [3 inches]}\n",
        "",
        "19:5",
        "The wording 'meets' of 'observation' is reached by no case.",
    ),
    "unreached-raise": (
        NEAR_ROOF,
        "  - {given: gap 1 in, says: [1 inch, 2 inches]}\n",
        "",
        "15:5",
        "No case reaches this raise to 'find-out'.",
    ),
    "unreached-title": (
        DECAYED,
        "title: Trim has decayed",
        (
            "title:\n  - {name: felt, when: {basis: felt}, text: Trim feels soft}\n"
            "  - {name: seen, text: Trim has decayed}"
        ),
        "3:39",
        "The wording 'felt' of 'title' is reached by no case.",
    ),
    "fallback": (
        DECAYED,
        "    when: {count: many}\n    text: |\n      {{ place }}, rot",
        "    when: {count: many}\n    text: |\n      {{ source }}, rot",
        "30:5",
        "The draft could not use its wording: fallback: 'source'",
    ),
    "grade": (
        DECAYED,
        "Soft wood lets go of its nails.",
        (
            "Deteriorated cellulose inevitably relinquishes embedded ferrous fasteners. Precipitation "
            "accelerates disintegration considerably."
        ),
        "29:5",
        "The texts read at grade 13.1; the most is 9.",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)
