"""A status against a finding or a description: both stay, and a review note names both lines."""

from __future__ import annotations

from pathlib import Path

import pytest
from drafting import at, draft, notes

from narrator.commands import main


@pytest.mark.parametrize(
    ("status", "other"),
    [
        ("ok: gutter | rear", "gutter full | rear"),
        ("ok: shingles", "shingles curling"),
        ("ok: shingles | rear slope", "shingles curling | rear slope"),
        ("tested: GFCI | kitchen | 2 of 2 tripped", "no gfci | kitchen"),
        ("not inspected: attic - hatch shut", "roof deck stained | attic, above entry"),
        ("not inspected: attic - hatch shut", "WH 18 yr old | attic"),
        ("not inspected: crawl space - locked", "standing water | crawl space, north end"),
        ("not inspected: garage", "outlet loose | garage, left wall"),
        ("not inspected: roof - snow", "shingles curling | rear slope"),
        ("not present: dishwasher", "no high loop on dishwasher drain | kitchen"),
        ("not present: deck", "guard loose | rear deck"),
        ("not present: water heater", "water heater = gas | garage"),
        ("not present: fireplace", "fireplace = gas"),
        ("not present: crawl space", "crawl space = dirt floor"),
    ],
)
@pytest.mark.parametrize("swapped", [False, True])
def test_both_stay_and_are_named(status: str, other: str, swapped: bool) -> None:
    report = draft("\n".join([other, status] if swapped else [status, other]))
    (note,) = notes(report, "contradiction")
    assert note["lines"] == [1, 2]
    assert status in note["text"] and other in note["text"]
    assert at(report, 1) and at(report, 2)
    assert report["unresolved"] == []


@pytest.mark.parametrize(
    ("status", "other"),
    [
        ("ok: gutter | front", "gutter full | rear"),  # another place
        ("ok: shingles", "shingles curling | rear slope"),  # the one slope that is not
        ("Roof\nok: shingles", "shingles curling | rear slope"),
        ("ok: dishwasher", "no high loop on dishwasher drain | kitchen"),  # another part
        ("tested: furnace | | warm air at each register", "furnace 22 yr old"),  # an old one can run
        ("partly: attic - from the hatch", "roof deck stained | attic"),  # seen in the part that was seen
        ("not inspected: attic - hatch shut", "roof deck stained | attic | told by seller"),  # not seen by us
        ("not inspected: roof - snow", "gutter full | rear"),  # seen from the ground
        ("not inspected: furnace - locked", "furnace = gas"),  # a label or a paper may say so
        ("not present: fireplace", "water heater = gas | garage"),
    ],
)
def test_what_can_both_be_true_is_no_contradiction(status: str, other: str) -> None:
    assert notes(draft(f"{status}\n{other}"), "contradiction") == []


@pytest.mark.parametrize(("absent", "strict"), [("deck", 1), ("pool", 0)])
def test_strict_stops_at_one(absent: str, strict: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    notes = tmp_path / "notes.txt"
    notes.write_text(f"not present: {absent}\ndeck = boards | rear\n", encoding="utf-8")
    for words, code in (([], 0), (["--strict"], strict)):
        with pytest.raises(SystemExit) as stopped:
            main(["draft", str(notes), *words])
        assert stopped.value.code == code
        assert "boards" in capsys.readouterr().out
