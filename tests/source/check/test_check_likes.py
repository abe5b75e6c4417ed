"""Checks of a library: two entries that say the same."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, broken, place

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "sentence": (
        DECAYED,
        "Soft wood lets go of its nails.",
        "Rain on the roof splashes up and wets the ends of the boards.",
        "23:3",
        "stands also in walls.siding.near-roof (line 28)",
    ),
    "opening": (
        DECAYED,
        "{{ place }}, rot has softened the board.",
        "{{ place }}, the siding comes down in bits.",
        "20:5",
        "It opens like walls.siding.near-roof (line 26): 'the siding comes down ...'.",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)
