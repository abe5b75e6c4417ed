"""How observations open: no two of a section alike, with every place still said, and each story pointed to."""

from __future__ import annotations

from typing import Any

import pytest
from drafting import draft

from narrator.compose.opens import SAME, opened, opening_words
from narrator.compose.spans import Paragraph, Span, engine


def findings(text: str) -> list[dict[str, Any]]:
    return [finding for section in draft(text)["sections"] for finding in section["findings"]]


def sentence(place: str, rest: str) -> Paragraph:
    return Paragraph((Span(place, "place", "line 1", None, 1), Span(rest, "text", "walls.x.y:observation")))


def test_a_second_and_a_third_at_one_place_open_in_other_ways() -> None:
    taken: set[str] = set()
    texts = [
        opened(sentence("At the front wall, by the door", f", the {thing} is soft. More."), taken).text
        for thing in ("trim", "siding", "sill")
    ]
    assert texts == [
        "At the front wall, by the door, the trim is soft. More.",
        "Also at the front wall, by the door, the siding is soft. More.",
        "The sill is soft at the front wall, by the door. More.",
    ]


def test_what_opens_alike_without_a_place_gets_a_word_before_it() -> None:
    taken: set[str] = set()
    same = Paragraph((engine("We know this only from the seller: damp.", "told"),))
    texts = [opened(same, taken).text for _ in range(3)]
    assert len({opening_words(Paragraph((engine(text, ""),))) for text in texts}) == 3


def test_typed_words_are_never_changed() -> None:
    taken: set[str] = set()
    same = Paragraph((Span("Damp Here", "words", "line 1", None, 1), engine(" is what was written.", "own")))
    assert all("Damp Here" in opened(same, taken).text for _ in range(4))


WALL = """Walls
stucco tight to roof | front, left of entry window | gap 1/4 in
no kickout flashing | front, left of entry window
flashing rusted | front, left of entry window
trim decayed | front, left of entry window | felt
stucco moisture | front, left of entry window | A1 24, A2 26, A3 30
stucco hollow | front, left of entry window | heard, x2
caulk failed | front, left of entry window
paint peeling | front, left of entry window
own: bird nest in the wall | front, left of entry window
own: bird nest in the soffit | front, left of entry window"""


def test_no_two_findings_of_a_section_open_with_the_same_four_words() -> None:
    sections = [section["findings"] for section in draft(WALL)["sections"]]
    assert max(map(len, sections)) >= 8
    for found in sections:
        opens = [" ".join(one["observation"].lower().split()[:SAME]) for one in found]
        assert len(set(opens)) == len(opens), opens
        assert all("left of the entry window" in one["observation"] for one in found)


def test_each_finding_of_a_story_says_where_it_is_told() -> None:
    report = draft(WALL)
    (story, *_) = report["connections"]
    by_id = {one["id"]: one for section in report["sections"] for one in section["findings"]}
    first, *others = [by_id[name] for name in story["findings"]]
    assert "(told together above)" in first["observation"]
    pointer = f"told together before number {first['number']})"
    assert all(pointer in one["observation"] for one in others)
    hollow = by_id["walls.stucco.hollow"]
    assert f"(two of them; {pointer}" in hollow["observation"]


@pytest.mark.parametrize("place", ["front, below entry window", "entry window"])
def test_a_story_says_where_a_finding_lies_that_is_only_near(place: str) -> None:
    report = draft(f"stucco tight to roof | front, left of entry window\nflashing rusted | {place}")
    ((story),) = report["connections"]
    assert "below the entry window" in story["text"] or "at the entry window" in story["text"].lower()


def test_the_trace_covers_every_character() -> None:
    for finding in findings(WALL):
        spans = [span for span in finding["trace"] if span["field"] == "observation"]
        assert [span["start"] for span in spans] == [0, *(span["end"] for span in spans[:-1])]
        assert spans[-1]["end"] == len(finding["observation"])
