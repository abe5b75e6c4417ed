"""Page one: its order, its calls, and what it says of a house with nothing to say."""

from __future__ import annotations

import re
from typing import Any

import pytest
from drafting import draft

from narrator.assess.wording import never_words

ORDER = ["danger", "deadline", "find-out", "unseen", "in-time", "counts", "not-whole"]
FULL = (
    "review window: 10 days from 4 March 2026\nleaves in gutter | rear\nnot inspected: crawl space - locked\n"
    "stucco tight to roof | front | gap 1/4 in\ngas smell | meter\ntoilet loose | hall bath"
)


def part(report: dict[str, Any], kind: str) -> dict[str, Any]:
    """The only part of a kind."""
    (found,) = [each for each in report["opening"] if each["kind"] == kind]
    return found


def test_the_order() -> None:
    assert [each["kind"] for each in draft(FULL)["opening"]] == ORDER


def test_without_a_date_the_client_is_told_to_ask() -> None:
    report = draft("toilet loose | hall bath")
    assert [each["kind"] for each in report["opening"]] == ["in-time", "counts", "not-whole"]
    assert "Ask your agent or lawyer" in part(report, "in-time")["text"]
    assert "no date" not in " ".join(each["text"] for each in draft(FULL)["opening"])


def test_a_call_says_what_to_ask() -> None:
    found = part(draft("stucco tight to roof | front | gap 1/4 in"), "find-out")
    assert "Say: “" in found["text"] and "written permission" in found["text"]
    (item,) = found["items"]
    assert item["trade"] == "stucco contractor"
    assert item["text"].endswith("Ask how the metal and wood look at that edge, if the seller lets you open it.")


def test_what_the_inspector_typed_to_do_takes_the_place_of_the_librarys_call() -> None:
    (item,) = part(draft('stucco tight to roof | front | do "call the builder first"'), "find-out")["items"]
    assert "Ask " not in item["text"]


def test_leave_is_asked_only_where_something_is_opened() -> None:
    assert "written permission" not in part(draft("furnace won't start | basement"), "find-out")["text"]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("Attic, above hall bath", "Told to us: the bath fan empties into the attic, above the hall bath"),
        ("Attic", "Told to us: the bath fan empties into the attic"),
    ],
)
def test_a_title_that_names_the_place_does_not_say_it_again(line: str, said: str) -> None:
    report = draft(f"bath fan vents into attic | {line} | told by seller, find-out")
    assert part(report, "find-out")["items"][0]["text"].startswith(said)
    observation = report["sections"][0]["findings"][0]["observation"]
    assert len(re.findall("attic", observation.split(".")[0])) == 1


def test_a_clean_house_gets_a_short_honest_page() -> None:
    report = draft("visited: 4 March 2026\nok: shingles | rear slope\ntested: furnace | | warm air")
    said = " ".join(each["text"] for each in report["opening"])
    assert [each["kind"] for each in report["opening"]] == ["in-time", "counts", "not-whole"]
    assert "no finding on the parts that we looked at" in said
    assert len(said.split()) < 60


@pytest.mark.parametrize("text", [FULL, "ok: shingles", "toilet loose | hall bath", "utilities: all off\nroof worn"])
def test_no_assurance_and_no_advice_to_buy(text: str) -> None:
    said = " ".join(
        piece
        for each in draft(text)["opening"]
        for piece in (each["text"], *(item["text"] for item in each.get("items", [])))
    )
    assert not never_words(said)
    assert not re.search(
        r"\b(?:should buy|good house|worth|walk away|safe|sound|guarantee\w*|good news|only minor)\b", said, re.I
    )
