"""Checks of a library: form, by schema and by YAML."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, NEAR_ROOF, broken, change, place, tiny

from narrator.source.check.run import check_library

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "key": (
        DECAYED,
        "severity: act-now",
        "severty: act-now",
        "6:1",
        "'severty' is not a key here. Did you mean 'severity'?",
    ),
    "yaml": (
        DECAYED,
        "trade: {lead: carpenter}",
        "trade: {lead: carpenter",
        "6:9",
        "This is not YAML",
    ),
    "duplicate": (
        DECAYED,
        "severity: act-now",
        "severity: act-now\nseverity: plan",
        "7:1",
        "'severity' stands twice (first on line 6).",
    ),
    "missing": (
        "limits.yaml",
        "limits:\n",
        "limts:\n",
        "2:1",
        "is not a key here",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)


def test_every_fault_of_syntax_is_told_at_once(tmp_path: Path) -> None:
    root = tiny(tmp_path)
    change(root, DECAYED, "trade: {lead: carpenter}", "trade: {lead: carpenter")
    change(root, NEAR_ROOF, "severity: plan", "severity: plan\nseverity: plan")
    (root / "terms.yaml").unlink()
    found = [fault.pos.path for fault in check_library(root).faults]
    assert found == [f"library/{NEAR_ROOF}", f"library/{DECAYED}", "library/terms.yaml"]


def test_an_entry_that_is_not_well_formed_does_not_hide_faults_of_another(tmp_path: Path) -> None:
    root = tiny(tmp_path)
    change(root, DECAYED, "severity: act-now", "severity: at-once")
    change(root, NEAR_ROOF, "lead: siding,", "lead: sidng,")
    found = [place(fault) for fault in check_library(root).faults]
    assert found == [f"{NEAR_ROOF}:5:9", f"{DECAYED}:6:1"]


def test_a_path_that_gives_no_code_is_told(tmp_path: Path) -> None:
    root = tiny(tmp_path)
    (root / DECAYED).rename(root / "entries/walls/decayed.yaml")
    found = {fault.pos.path: fault.message for fault in check_library(root).faults}
    assert "it must be system/component/condition.yaml" in found["library/entries/walls/decayed.yaml"]


def test_a_folder_that_is_no_system_is_told(tmp_path: Path) -> None:
    root = tiny(tmp_path)
    (root / "entries/wals").mkdir()
    (root / "entries/walls/trim").rename(root / "entries/wals/trim")
    found = {place(fault): fault.message for fault in check_library(root).faults}
    assert "Did you mean 'walls'?" in found["entries/wals/trim/decayed.yaml:1:1"]


def test_the_tiny_library_has_no_faults(tmp_path: Path) -> None:
    found = check_library(tiny(tmp_path))
    assert found.faults == ()
    assert (found.entries, found.names, found.cases, found.criteria) == (2, 8, 6, 3)
    assert [fault.message for fault in found.notices] == ["No entry uses 'siding-age'."]
