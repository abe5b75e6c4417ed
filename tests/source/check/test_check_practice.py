"""Checks of a library: the standards of practice, and the rules of writing that entries are held to."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import NEAR_ROOF, change, place, tiny

from narrator.source.check.run import check_library

STANDARD = """\
format: narrator.practice/1
id: tiny
title: A tiny standard
names: [tiny one]
edition: '1'
jurisdiction: nowhere
source: [invented for this test]
known_by: read
complete: true
systems:
  - id: walls
    title: Walls
    clause: '1'
    systems: [walls]
    items:
      - {id: trim, clause: '1.1', must: inspect, when: if-present, what: Trim, known_by: read, parts: [trim]}
"""
WRITING = """\
format: narrator.writing/1
rules:
  one: {kind: duty, held: draft, standards: [tiny], source: invented, known_by: read}
"""

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "system": ("tiny.yaml", "systems: [walls]", "systems: [wals]", "14:15", "'wals' is not a system of systems.yaml."),
    "part": ("tiny.yaml", "[trim]", "[trims]", "16:104", "'trims' is not a group of parts in words.yaml. Did you mean"),
    "nothing": ("tiny.yaml", ", parts: [trim]", "", "16:9", "Nothing can answer this item."),
    "described": ("tiny.yaml", "parts: [trim]", "described: [gnomes]", "16:108", "'gnomes' is not a name of descriptions"),
    "id": ("tiny.yaml", "id: tiny", "id: small", "2:1", "'small' stands in the file 'tiny.yaml'. They must agree."),
    "known-by": ("tiny.yaml", "known_by: read\ncomplete", "known_by: hearsay\ncomplete", "8:1", "not one of: read, memory"),
    "when": ("tiny.yaml", "if-present", "sometimes", "16:50", "'sometimes' is not one of: always, if-present."),
    "standard": ("report-writing.yaml", "[tiny]", "[tinny]", "3:46", "'tinny' is not a standard of this folder. Did you mean"),
    "no-why": ("report-writing.yaml", "held: draft", "held: none", "3:3", "'why' is missing here."),
}  # fmt: skip


def library(folder: Path) -> Path:
    """The tiny library with a standard of practice."""
    root = tiny(folder)
    (root / "practice").mkdir()
    (root / "practice/tiny.yaml").write_text(STANDARD, encoding="utf-8")
    (root / "practice/report-writing.yaml").write_text(WRITING, encoding="utf-8")
    return root


def test_a_whole_standard_is_quiet(tmp_path: Path) -> None:
    assert check_library(library(tmp_path)).faults == ()


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_standard_is_told_with_its_place(name: str, tmp_path: Path) -> None:
    file, old, new, at, piece = BROKEN[name]
    root = library(tmp_path)
    change(root, f"practice/{file}", old, new)
    told = [(place(fault), fault.message) for fault in check_library(root).faults]
    assert [(where, piece in message) for where, message in told] == [(f"practice/{file}:{at}", True)], told


def test_a_name_leads_to_one_standard(tmp_path: Path) -> None:
    root = library(tmp_path)
    (root / "practice/second.yaml").write_text(STANDARD.replace("id: tiny", "id: second"), encoding="utf-8")
    assert ["names 'second' too" in fault.message for fault in check_library(root).faults] == [True]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("The rot is caused by rain.", "gives a cause as a fact"),
        ("Rot is often caused by rain.", ""),
        ("The board seems soft.", "needs a limit, or someone who looks further"),
        ("A board is undersized.", "'undersized' is a word that the report never says"),
        ("A careless hand left it so.", "'careless' is a word that the report never says"),
    ],
)
def test_entries_are_held_to_the_rules_of_writing(words: str, said: str, tmp_path: Path) -> None:
    root = library(tmp_path)
    path = root / NEAR_ROOF
    text = path.read_text(encoding="utf-8").replace("limits: [behind-cladding]\n", "")
    start = text.index("implication:")
    path.write_text(f"{text[:start]}implication: {words}\n{text[text.index('recommendation:') :]}", encoding="utf-8")
    told = [fault.message for fault in check_library(root).faults if "case" not in fault.key]
    assert any(said in message for message in told) if said else told == [], told
