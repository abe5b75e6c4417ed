"""Checks of a library: conditions that cannot hold and wordings that cannot be reached."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, NEAR_ROOF, broken, place

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "key": (
        NEAR_ROOF,
        "{gap: typed}",
        "{gapp: typed}",
        "22:12",
        "'gapp' is not a key of when. Did you mean 'gap'?",
    ),
    "value": (
        NEAR_ROOF,
        "{gap: typed}",
        "{gap: tiped}",
        "22:12",
        "'tiped' is not a value of 'gap'. It can be meets, short, too close, typed, none. Did you mean 'typed'?",
    ),
    "side": (
        NEAR_ROOF,
        "{gap: typed}",
        "{gap: over}",
        "22:12",
        "'siding-above-roof' is a least figure, so 'gap' is never 'over'.",
    ),
    "basis": (
        DECAYED,
        "{basis: told}",
        "{basis: telld}",
        "12:12",
        "'telld' is not a value of 'basis'.",
    ),
    "places": (
        DECAYED,
        "{count: many}",
        "{places: lots}",
        "16:12",
        "'lots' is not a value of 'places'. It can be none, one, many.",
    ),
    "count": (
        DECAYED,
        "{count: many}",
        "{count: several}",
        "16:12",
        "'several' is not a value of 'count'. It can be none, one, many.",
    ),
    "no-verdict": (
        DECAYED,
        "observation:\n",
        (
            "measures:\n  depth: {kind: length, open: none is published}\nobservation:\n"
            "  - {name: deep, when: {depth: short}, text: Soft.}\n"
        ),
        "13:25",
        "'depth' has no criterion, so it is never 'short'. It can be typed, none.",
    ),
    "raise-measure": (
        NEAR_ROOF,
        "when: {gap: short}, to",
        "when: {gapp: short}, to",
        "15:13",
        "'gapp' is not a measure of this entry. Did you mean 'gap'?",
    ),
    "raise-value": (
        NEAR_ROOF,
        "when: {gap: short}, to",
        "when: {gap: typed}, to",
        "15:13",
        "'typed' is not one verdict of 'gap'. It can be meets, short, too close.",
    ),
    "raise-list": (
        NEAR_ROOF,
        "when: {gap: short}, to",
        "when: {gap: [short]}, to",
        "15:13",
        "text or keys and values is needed here, not",
    ),
    "last-when": (
        DECAYED,
        "  - name: looked\n",
        "  - name: looked\n    when: {places: one}\n",
        "20:5",
        "The last wording of 'observation' must hold always",
    ),
    "hidden": (
        NEAR_ROOF,
        "  - name: looked\n",
        (
            "  - name: short\n    when: {gap: short}\n    text: |\n"
            "      {{ place }}, the siding almost meets it at {{ gap }}.\n  - name: looked\n"
        ),
        "25:5",
        "This wording is never reached: 'measured' above holds whenever it does.",
    ),
    "hidden-by-all": (
        DECAYED,
        "    when: {basis: told}\n",
        "",
        "14:5",
        "This wording is never reached: 'told' above holds whenever it does.",
    ),
    "unnamed": (
        DECAYED,
        "  - name: several\n    when",
        "  - when",
        "15:5",
        "Each of several wordings has a name",
    ),
    "named-twice": (
        DECAYED,
        "  - name: several\n",
        "  - name: told\n",
        "15:5",
        "'told' is the name of another wording here.",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)
