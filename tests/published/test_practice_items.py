"""The items that published standards of practice ask for, row by row against `practice-items.csv`.

The rows were gathered from ASHI 2014 (the association's own pages; sections 5, 6, 8, 10 to 12 in paraphrases, clause
numbers partly from memory), InterNACHI's residential standard, 11 NCAC 08 .1106 to .1116, 22 TAC 535.228 to .232 (most
from memory) and five sections of WAC 308-408C. Items due only where a fault is seen are findings and not among them.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from drafting import LIBRARY, draft

from narrator.source import index as store

FIELDS = ("clause", "must", "when", "known_by")
with Path(__file__).with_name("practice-items.csv").open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))
STANDARDS = sorted({row["standard"] for row in ROWS})


@pytest.mark.parametrize("standard", STANDARDS)
def test_every_item_stands_in_the_library_as_read(standard: str) -> None:
    practice = store.document(LIBRARY, f"practice/{standard}")
    ours = {
        (system["id"], item["id"]): tuple(str(item[field]) for field in FIELDS)
        for system in practice["systems"]
        for item in system["items"]
    }
    read = {
        (row["system"], row["id"]): tuple(row[field] for field in FIELDS) for row in ROWS if row["standard"] == standard
    }
    assert ours == read
    assert practice["source"] and practice["edition"]


def test_the_library_has_these_standards_and_no_other() -> None:
    assert [item["id"] for item in store.document(LIBRARY, "standards")] == STANDARDS


@pytest.mark.parametrize("standard", STANDARDS)
def test_an_empty_visit_misses_every_item(standard: str) -> None:
    covered = draft(f"standard: {standard}\n")["coverage"]
    assert covered["reported"] == []
    assert [(row["system"], row["id"]) for row in covered["missing"]] == [
        (row["system"], row["id"]) for row in ROWS if row["standard"] == standard
    ]
