"""Checks of a library: names of things that are not there, measures without a pass mark."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, NEAR_ROOF, broken, place

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "trade": (
        NEAR_ROOF,
        "lead: siding,",
        "lead: sidng,",
        "5:9",
        "'sidng' is not a trade of trades.yaml. Did you mean 'siding'?",
    ),
    "with": (
        NEAR_ROOF,
        "with: [carpenter]",
        "with: [carpentr]",
        "5:30",
        "'carpentr' is not a trade of trades.yaml. Did you mean 'carpenter'?",
    ),
    "with-leads": (
        NEAR_ROOF,
        "with: [carpenter]",
        "with: [siding]",
        "5:23",
        "'siding' leads already",
    ),
    "with-twice": (
        NEAR_ROOF,
        "with: [carpenter]",
        "with: [carpenter, carpenter]",
        "5:41",
        "'carpenter' stands twice in this list",
    ),
    "ask": (
        NEAR_ROOF,
        "ask: [seller]",
        "ask: [selle]",
        "6:7",
        "'selle' is not one of those to ask in trades.yaml. Did you mean 'seller'?",
    ),
    "limits": (
        NEAR_ROOF,
        "limits: [behind-cladding]",
        "limits: [behind-claddin]",
        "33:10",
        "'behind-claddin' is not a limit of limits.yaml. Did you mean 'behind-cladding'?",
    ),
    "element": (
        NEAR_ROOF,
        "element: B2011",
        "element: B2012",
        "4:1",
        "'B2012' is not an element of elements.yaml (level 3 or 4). Did you mean 'B201",
    ),
    "leads-to": (
        NEAR_ROOF,
        "leads_to: [walls.trim.decayed]",
        "leads_to: [walls.trim.decaye]",
        "32:12",
        "'walls.trim.decaye' is not another entry's code. Did you mean 'walls.trim.decayed'?",
    ),
    "leads-to-itself": (
        NEAR_ROOF,
        "leads_to: [walls.trim.decayed]",
        "leads_to: [walls.siding.near-roof]",
        "32:12",
        "'walls.siding.near-roof' is not another entry's code.",
    ),
    "replaced-by": (
        NEAR_ROOF,
        "since: '1.0'",
        "since: '1.0'\nreplaced_by: walls.trim.decay",
        "36:1",
        "'walls.trim.decay' is not another entry's code. Did you mean 'walls.trim.decayed'?",
    ),
    "criterion": (
        NEAR_ROOF,
        "criterion: siding-above-roof",
        "criterion: siding-above-rof",
        "13:23",
        "'siding-above-rof' is not the id of a criterion. Did you mean 'siding-above-roof",
    ),
    "criterion-role": (
        NEAR_ROOF,
        "criterion: siding-above-roof",
        "criterion: siding-age",
        "13:23",
        "'siding-age' has the role 'typical'; here only a 'limit' can stand.",
    ),
    "criterion-older": (
        NEAR_ROOF,
        "criterion: siding-above-roof",
        "criterion: siding-above-roof-older",
        "13:23",
        "is a figure for older houses, which never judges",
    ),
    "criterion-unit": (
        NEAR_ROOF,
        "kind: length",
        "kind: percent",
        "13:24",
        "'siding-above-roof' is in inch, which is no percent",
    ),
    "criterion-and-open": (
        NEAR_ROOF,
        "label: gap}",
        "label: gap, open: nobody says}",
        "13:65",
        "'gap' has a criterion, so nothing is open",
    ),
    "no-criterion": (
        DECAYED,
        "observation:\n",
        "measures:\n  depth: {kind: length}\nobservation:\n",
        "11:3",
        "'depth' has no criterion. Name one, or say why not",
    ),
    "typical": (
        DECAYED,
        "observation:\n",
        "measures:\n  years: {kind: age, typical: siding-aged}\nobservation:\n",
        "11:22",
        "'siding-aged' is not the id of a criterion. Did you mean 'siding-age'?",
    ),
    "typical-role": (
        DECAYED,
        "observation:\n",
        "measures:\n  depth: {kind: length, typical: siding-above-roof}\nobservation:\n",
        "11:25",
        "'siding-above-roof' has the role 'limit'; here only a 'typical' can stand.",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)
