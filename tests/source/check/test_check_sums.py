"""Checks of a library: sums and choices that an entry names, margins and linked findings of a raise."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import NEAR_ROOF, broken, place

_GAP = "gap: {kind: length, criterion: siding-above-roof, label: gap}"
_RAISE = "{gap: short}, to"

# What is broken: piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "no-such-sum": (
        _GAP,
        _GAP + "\n  side: {kind: area, context: true, worked: {by: areas, width: gap}}",
        "14:46",
        "'areas' is not known here. Did you mean 'area'?",
    ),
    "role-missing": (
        _GAP,
        _GAP + "\n  side: {kind: area, context: true, worked: {by: area, width: gap}}",
        "14:37",
        "'area' needs 'height': the name of a measure of this entry.",
    ),
    "role-of-another": (
        _GAP,
        _GAP + "\n  side: {kind: area, context: true, worked: {by: area, width: gap, height: gap, depth: gap}}",
        "14:81",
        "'area' has no 'depth'.",
    ),
    "no-such-measure": (
        _GAP,
        _GAP + "\n  side: {kind: area, context: true, worked: {by: area, width: gap, height: gapp}}",
        "14:68",
        "'gapp' is not a measure of this entry. Did you mean 'gap'?",
    ),
    "wrong-kind": (
        _GAP,
        _GAP + "\n  side: {kind: area, context: true, worked: {by: vent-ratio, vents: gap, floor: gap}}",
        "14:62",
        "'gap' measures length; 'vent-ratio' needs area here.",
    ),
    "gives-another-kind": (
        _GAP,
        _GAP + "\n  side: {kind: age, context: true, worked: {by: area, width: gap, height: gap}}",
        "14:36",
        "'area' gives area, and 'side' measures age.",
    ),
    "no-such-choice": (
        _GAP,
        "gap: {kind: length, against: {by: wires, gauge: gap}, label: gap}",
        "13:33",
        "'wires' is not known here. Did you mean 'wire'?",
    ),
    "no-such-band": (
        _GAP,
        "gap: {kind: length, criterion: siding-above-roof, bands: [nothing-here], label: gap}",
        "13:61",
        "'nothing-here' is not the id of a criterion.",
    ),
    "margin-no-figure": (_RAISE, "{gap: {short by: much}}, to", "15:6", "'much' is not a margin"),
    "margin-wrong-side": (_RAISE, "{gap: {over by: 1 in}}, to", "15:13", "'gap' is never over."),
    "margin-wrong-unit": (_RAISE, "{gap: {short by: 1 psi}}, to", "15:13", "A margin of 'gap' is a length"),
    "linked-nothing": (
        _RAISE,
        "{linked: walls.trim.decay}, to",
        "15:13",
        "'walls.trim.decay' is not an entry's code. Did you mean 'walls.trim.decayed'?",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_sum_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, NEAR_ROOF, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{NEAR_ROOF}:{at}" in found, "\n".join(fault.show() for fault in faults)
