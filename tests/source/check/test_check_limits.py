"""Checks of a library: one limit sentence a finding, none twice, none a blanket, systems that there are; calls and cautions."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, NEAR_ROOF, broken, change, place, tiny

from narrator.source.check.run import check_library

LIMIT = "  behind-cladding: {text: We did not see inside the wall.}\n"
COMPUTED = (
    "computed:\n  roof-far:\n    header: method\n    of: [roof]\n    says: [ground]\n"
    "    text: We saw the roof from a distance.\n    systems: [walls]\n    page: true\n"
)
# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "own-and-listed": (
        NEAR_ROOF,
        "Rain on the roof splashes up and wets the ends of the boards.",
        "Rain on the roof splashes up. We could not see the wood behind it.",
        "28:1",
        "The entry has a limit already",
    ),
    "two-of-its-own": (
        DECAYED,
        "Soft wood lets go of its nails.",
        "We could not see its back. We did not reach the top.",
        "22:1",
        "The entry has a limit already; take this second one out: 'We did not reach the top.'",
    ),
    "blanket": (
        DECAYED,
        "Soft wood lets go of its nails.",
        "Soft wood lets go of its nails, but this is not limited to one board.",
        "23:47",
        "'not limited to' limits everything",
    ),
    "blanket-in-limit": (
        "limits.yaml",
        "We did not see inside the wall.",
        "This list may not be complete.",
        "3:37",
        "'may not be complete' limits everything",
    ),
    "blanket-in-terms": (
        "terms.yaml",
        "This is a report of what could be seen on the day.",
        "The visit is not exhaustive.",
        "3:24",
        "'not exhaustive' limits everything",
    ),
    "repeat": (
        "limits.yaml",
        LIMIT,
        LIMIT + LIMIT.replace("behind-cladding", "inside-wall"),
        "4:17",
        "The same sentence stands at limits.behind-cladding.text.",
    ),
    "system": (
        "limits.yaml",
        LIMIT,
        LIMIT + COMPUTED.replace("[walls]", "[wals]"),
        "10:15",
        "'wals' is not a system of systems.yaml. Did you mean 'walls'?",
    ),
    "two-sentences": (
        "limits.yaml",
        LIMIT,
        LIMIT + COMPUTED.replace("from a distance.", "from afar. It was far."),
        "9:5",
        "A limit is one sentence",
    ),
    "else-alone": (
        "limits.yaml",
        LIMIT,
        LIMIT.replace(".}", ", else: We saw in.}").replace("wall,", "wall.,"),
        "3:3",
        "'unless'",
    ),
    "no-caution": (
        DECAYED,
        "Keep people from under it. Ask",
        "Ask",
        "24:1",
        "say what nobody should touch or use",
    ),
    "no-call": (
        NEAR_ROOF,
        "severity: plan",
        "severity: find-out",
        "7:1",
        "give 'call'",
    ),
    "call-is-no-sentence": (
        NEAR_ROOF,
        "course: correct\n",
        "course: correct\ncall: Whether it is wet.\n",
        "11:1",
        "'call' goes on after the word 'Ask'",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)


def test_two_limits_on_one_entry_are_one_too_many(tmp_path: Path) -> None:
    root = tiny(tmp_path)
    change(root, "limits.yaml", LIMIT, LIMIT + "  under-roof: {text: We did not see under the roof.}\n")
    change(root, NEAR_ROOF, "limits: [behind-cladding]", "limits: [behind-cladding, under-roof]")
    assert [place(fault) for fault in check_library(root).faults] == [f"{NEAR_ROOF}:33:1"]


def test_a_computed_limit_and_a_call_may_stand(tmp_path: Path) -> None:
    root = tiny(tmp_path)
    change(root, "limits.yaml", LIMIT, LIMIT + COMPUTED)
    change(root, NEAR_ROOF, "course: correct\n", "course: correct\ncall: whether the ends are wet\n")
    assert [fault.show() for fault in check_library(root).faults] == []
