"""Checks of a library: names that do not find their own entry."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, NEAR_ROOF, broken, place

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "fine": (
        DECAYED,
        "soft trim]",
        "no soft trim]",
        "3:52",
        "'no soft trim', typed by itself, is read as a thing that went fine.",
    ),
    "other-line": (
        NEAR_ROOF,
        "siding roof gap]",
        "'ok: siding roof gap']",
        "3:83",
        "'ok: siding roof gap', typed by itself, is read as status, not as a finding.",
    ),
    "other-code": (
        DECAYED,
        "soft trim]",
        "soft trim; siding tight to roof]",
        "3:52",
        "'soft trim; siding tight to roof', typed by itself, is read as finding and finding",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)
