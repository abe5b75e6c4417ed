"""Checks of a library: the shared lists among themselves, and the criteria."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import broken, place

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "two-groups": (
        "words.yaml",
        "decayed: [rotted,",
        "decayed: [Shaky, rotted,",
        "16:13",
        "'Shaky' stands also in 'loose' (line 14). A word is in one group only.",
    ),
    "twice-in-group": (
        "words.yaml",
        "decayed: [rotted,",
        "decayed: [rotted, rotted,",
        "16:21",
        "'rotted' stands twice in this group.",
    ),
    "claim-system": (
        "systems.yaml",
        "  walls: [siding",
        "  wall: [siding",
        "6:3",
        "'wall' is not the id of a system above. Did you mean 'walls'?",
    ),
    "claim-part": (
        "systems.yaml",
        "[siding, trim, roof]",
        "[siding, trims, roof]",
        "6:19",
        "'trims' is not a group of parts in words.yaml. Did you mean 'trim'?",
    ),
    "claim-twice": (
        "systems.yaml",
        "[siding, trim, roof]",
        "[siding, trim, roof, trim]",
        "6:31",
        "'trim' stands also on line",
    ),
    "description-system": (
        "descriptions.yaml",
        "  walls:",
        "  wals:",
        "3:3",
        "'wals' is not a system of systems.yaml. Did you mean 'walls'?",
    ),
    "story-among": (
        "stories.yaml",
        "among: [walls]",
        "among: [walls, wals]",
        "4:20",
        "'wals' is not a system, a component or an entry's code. Did you mean 'walls'?",
    ),
    "story-sign": (
        "stories.yaml",
        "signs: [[walls]]",
        "signs: [[walls], [walls.trim, walls.trm]]",
        "5:35",
        "'walls.trm' is not a system, a component or an entry's code. Did you mean 'walls.trim'?",
    ),
    "trade-twice": (
        "trades.yaml",
        "{id: owner, label",
        "{id: carpenter, label",
        "5:6",
        "'carpenter' stands also on line 4.",
    ),
    "window": (
        "windows.yaml",
        "count: calendar",
        "count: business\n    holidays: [fridays]",
        "3:3",
        "holidays cannot be 'fridays'",
    ),
    "criterion-twice": (
        "criteria/walls.yaml",
        "id: siding-age",
        "id: siding-above-roof",
        "26:3",
        "'siding-above-roof' stands also in library/criteria/walls.yaml, line 3.",
    ),
    "criterion-unreadable": (
        "criteria/walls.yaml",
        "unit: year",
        "unit: yeer",
        "26:3",
        "'yeer' is not a unit",
    ),
    "existing": (
        "criteria/walls.yaml",
        "existing: siding-above-roof-older",
        "existing: siding-above-roof-old",
        "12:3",
        "'siding-above-roof-old' is not the id of a criterion.",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)
