"""Stories: findings that tend to cause each other, near each other, told in three stances."""

from __future__ import annotations

from typing import Any

import pytest

from narrator.pipeline import draft_text
from narrator.source.index import Index
from narrator.source.store import open_library


@pytest.fixture(scope="module")
def index() -> Index:
    return open_library()


def stories(index: Index, *lines: str) -> list[Any]:
    return list(draft_text("\n".join(lines), "x", index)["connections"])


GAP = "stucco tight to roof | front, left of entry window | gap 1/4 in"
RUST = "walls.flashing.corroded | front, left of entry window"


def test_two_signs_at_one_place_make_a_story(index: Index) -> None:
    (story,) = stories(index, GAP, RUST)
    assert set(story["findings"]) == {"walls.stucco.no-roof-gap", "walls.flashing.corroded"}
    for said in ("We think", "opinion", "did not trace", "another way in", "would settle it", "Find the source"):
        assert said in story["text"]


def test_near_is_the_same_part_of_the_house(index: Index) -> None:
    assert stories(index, GAP, "walls.flashing.corroded | front, above entry window")
    assert not stories(index, GAP, "walls.flashing.corroded | rear, above patio door")
    assert not stories(index, GAP, "walls.flashing.corroded | rear, left of entry window")


def test_one_sign_or_signs_that_were_only_told_make_none(index: Index) -> None:
    assert not stories(index, GAP)
    assert not stories(index, GAP, RUST + " | told by seller")


def test_every_piece_of_a_story_has_its_source(index: Index) -> None:
    (story,) = stories(index, GAP, RUST)
    assert sum(span["end"] - span["start"] for span in story["trace"]) == len(story["text"])


def test_ground_and_foundation_meet_on_one_side(index: Index) -> None:
    (story,) = stories(
        index, "site.grading.slopes-toward-house | left side", "structure.basement.damp-wall | basement, left wall"
    )
    assert "foundation" in story["text"]


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (("steel post rusted | basement", "sagging beam | basement"), "one part here has moved"),
        (("cracked pipe boot | rear slope", "roof deck stained | rear slope"), "rain has come through the roof"),
        (("roof deck stained | hall", "ceiling stained | hall"), "rain has come through the roof"),
        (("frost on roof deck | attic", "no attic ventilation | attic"), "damp air from the rooms"),
        (("damp basement wall | basement, left wall", "musty smell | basement, left wall"), "damp from the soil"),
        (("toilet loose | hall bath", "bathroom floor soft | hall bath"), "a fixture or a pipe"),
        (("flue disconnected | basement", "furnace backdrafting | basement"), "burned gas does not leave"),
    ],
)
def test_the_opinion_is_about_the_signs(index: Index, lines: tuple[str, ...], said: str) -> None:
    (story,) = stories(index, *lines)
    assert said in story["text"]


@pytest.mark.parametrize(
    "lines",
    [
        ("curling shingles | rear slope", "missing shingles | rear slope"),
        ("water heater leaking | garage", "relief valve leaking | garage", "water heater rusted | garage"),
        ("termite tubes | basement, left wall", "joist rotted | basement, left wall"),
        ("old ac | rear yard", "ac not cooling | rear yard"),
    ],
)
def test_linked_findings_without_a_sign_of_the_topic_make_no_story(index: Index, lines: tuple[str, ...]) -> None:
    assert not stories(index, *lines)


def test_a_finding_off_the_topic_does_not_undo_the_story(index: Index) -> None:
    """The gutter and the basement are told together, whatever the trim beside them shows."""
    water = ("no gutters | rear", "wet basement wall | rear")
    (story,) = stories(index, *water, "trim rotted | rear")
    assert set(story["findings"]) == {"roof.gutter.missing", "structure.basement.damp-wall"}
