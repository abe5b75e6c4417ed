"""Checks of a library: names that say too little or answer for two entries."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, broken, place

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "same-name": (
        DECAYED,
        "[trim rotted,",
        "[siding tight-to roof, trim rotted,",
        "3:9",
        "'siding tight-to roof' is a name of walls.siding.near-roof (line 3) already.",
    ),
    "twice": (
        DECAYED,
        "[trim rotted,",
        "[rot in trim board, rot in  Trim Board, trim rotted,",
        "3:28",
        "'rot in  Trim Board' is a name of this entry (line 3) already.",
    ),
    "code": (
        DECAYED,
        "[trim rotted,",
        "[walls.siding.near-roof, trim rotted,",
        "3:9",
        "'walls.siding.near-roof' is the code of walls.siding.near-roof",
    ),
    "no-condition": (
        DECAYED,
        "soft trim]",
        "corner trim]",
        "3:52",
        "'corner trim' has no word that says what is wrong",
    ),
    "no-part": (
        DECAYED,
        "soft trim]",
        "rotted corner]",
        "3:52",
        "'rotted corner' has no word that names the part",
    ),
    "doubt": (
        DECAYED,
        "soft trim]",
        "possible soft trim]",
        "3:52",
        "'possible soft trim' has a word of doubt",
    ),
    "same-words": (
        DECAYED,
        "soft trim]",
        "clapboards touching the roof]",
        "3:52",
        (
            "'clapboards touching the roof' says the same words as 'siding too close to roof' of "
            "walls.siding.near-roof (line 3)"
        ),
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)
