"""Limits worked out from what was typed in the headers, told once, never against a typed line.

What limits an inspection in which weather, and what a kind of meter senses: common practice, no source.
"""

from __future__ import annotations

from typing import Any

import pytest
from drafting import draft


def limits(text: str) -> dict[str, str]:
    """The text of every computed limit of a checklist, by id, where it is said in full."""
    report = draft(text)
    statuses = ("partly", "not inspected")
    out = {item["id"]: item["text"] for item in report["unseen"] if item["kind"] not in statuses}
    for section in report["sections"]:
        out |= {item["id"]: item["text"] for item in section["limits"] if item["at"] is None}
    return out


@pytest.mark.parametrize(
    ("typed", "off"),
    [
        ("water, gas and power on", set()),
        ("all on", set()),
        ("water and gas off, power on", {"water-off", "gas-off"}),
        ("water off gas on", {"water-off"}),
        ("gas off at the meter", {"gas-off"}),
        ("all off", {"water-off", "gas-off", "power-off"}),
        ("all on except gas", {"gas-off"}),
        ("all off except water", {"gas-off", "power-off"}),
        ("water not on", {"water-off"}),
        ("no power", {"power-off"}),
        ("pool pump off", {"something-off"}),
    ],
)
def test_each_utility_that_was_off_limits_what_it_serves(typed: str, off: set[str]) -> None:
    assert set(limits(f"utilities: {typed}")) == off


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ("roof walked", set()),
        ("roof from the ground with binoculars", {"roof-from-ground"}),
        ("roof from a ladder at the eaves and with binoculars, walls from the ground", {"roof-from-ladder", "walls-from-ground"}),
        ("roof not walked, seen from the ground", {"roof-not-walked"}),
        ("drone for the roof", {"roof-from-drone"}),
        ("attic from the hatch, crawl space entered", {"attic-from-hatch"}),
        ("crawl space from the hatch", {"crawl-from-hatch"}),
    ],
)  # fmt: skip
def test_the_way_of_looking_limits_what_was_seen(typed: str, named: set[str]) -> None:
    assert set(limits(f"method: {typed}")) == named


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ("rain before: none for a week", {"dry-before"}),
        ("rain before: dry for ten days", {"dry-before"}),
        ("rain before: last rain 5 days ago", {"dry-before"}),
        ("rain before: two days of rain, dry that morning", set()),
        ("rain before: showers yesterday", set()),
        ("weather: clear, snow on the roof", {"snow-on-roof"}),
        ("weather: 4 inches of snow", {"snow-on-ground"}),
        ("weather: light snow", {"snow-typed"}),
        ("weather: no snow on roof", set()),
        ("weather: frost at dawn, 30F", {"frost"}),
        ("weather: clear, 40F\nair conditioner = split system", {"cool-day"}),
        ("weather: clear, 4C\nair conditioner = split system", {"cool-day"}),
        ("weather: clear, 40F", set()),  # nobody typed that there is any cooling
        ("weather: clear, 95F\nair conditioner = split system", set()),  # warm enough to run it
        ("weather: clear, 40F\ntested: cooling | | ran", set()),  # it was tried all the same
        ("occupied: yes", {"lived-in"}),
        ("occupied: no", {"not-lived-in"}),
        ("occupied: vacant, stored goods in garage", {"stored-goods", "not-lived-in"}),
        ("moisture meter: pin\nstucco moisture | rear | 19 %", {"meter-pin"}),
        ("moisture meter: pinless\nstucco moisture | rear | 19 %", {"meter-pinless"}),
        ("moisture meter: pin", set()),  # it read nothing
    ],
)
def test_weather_people_and_the_meter(typed: str, named: set[str]) -> None:
    assert set(limits(typed)) == named


def test_nothing_typed_limits_nothing() -> None:
    assert limits("toilet loose | hall bath") == {}


@pytest.mark.parametrize("typed", ["tested: faucets | kitchen | ran", "hot water 138F | kitchen", "faucet leaking | kitchen"])
def test_a_thing_that_was_tried_is_not_said_to_be_untried(typed: str) -> None:
    said = limits(f"utilities: water off\n{typed}")["water-off"]
    assert "nobody could try" not in said
    assert "part of the visit" in said
    assert "nobody could try" in limits("utilities: water off\ntested: GFCI | kitchen | 2 of 2 tripped")["water-off"]


def test_a_status_that_says_it_already_stands_alone() -> None:
    assert "crawl-from-hatch" not in limits("method: crawl space from the hatch\nnot inspected: crawl space - locked")
    report = draft("method: roof from the ground\npartly: roof - north slope hidden\nshingles curling | rear slope")
    assert [item["kind"] for item in report["unseen"]] == ["partly"]
    (roof,) = report["sections"]
    assert [item["id"] for item in roof["limits"]] == ["roof-from-ground"]


def test_a_limit_is_said_in_full_once_and_pointed_to() -> None:
    report = draft(
        "rain before: none for a week\nshingles curling | rear slope\nstucco cracked | rear\nroof deck stained | attic"
    )
    told = [(section["system"], item["at"]) for section in report["sections"] for item in section["limits"]]
    assert sorted(told, key=str) == [("attic", "roof"), ("roof", None), ("walls", "roof")]


def test_a_limit_without_a_section_to_stand_in_is_not_lost() -> None:
    report = draft("rain before: none for a week\nno gfci | kitchen")
    assert [item["id"] for item in report["unseen"]] == ["dry-before"]


def test_each_has_an_id_lines_and_a_trace_over_its_whole_text() -> None:
    report = draft(
        "utilities: water off\nrain before: dry for a week\nnot inspected: crawl space - locked\npartly: attic - from hatch\n"
        "not inspected: crawl space - locked\nshingles curling | rear slope\ntoilet loose | hall bath"
    )
    full: list[dict[str, Any]] = [*report["unseen"]]
    full += [item for section in report["sections"] for item in section["limits"] if item["at"] is None]
    assert len({item["id"] for item in full}) == len(full) == 5
    for item in full:
        assert item["lines"]
        assert [(span["start"], span["end"]) for span in item["trace"]] == [(0, len(item["text"]))]


def test_an_id_stays_when_other_lines_come_before_it() -> None:
    line = "not inspected: crawl space - locked"
    first = draft(line)["unseen"][0]["id"]
    assert draft(f"toilet loose | hall bath\n{line}")["unseen"][0]["id"] == first == "not-inspected-crawl-space"


def test_typed_words_change_a_limit_that_they_speak_against() -> None:
    def said(details: str) -> str:
        (section,) = draft(f"stucco moisture | rear | 24 %{details}")["sections"]
        return str(section["findings"][0]["limits"][0]["text"])

    assert said("") == "We did not see inside the wall."
    assert said(', "drilled two holes below the sill"') == "We saw inside the wall only where it was open."


@pytest.mark.parametrize("outcome", ["11 of 14 opened", "all 14 of 14 opened", "11 of 14 opened; sash 3 stuck"])
def test_a_sample_says_how_many_of_how_many(outcome: str) -> None:
    (section,) = draft(f"tested: windows | every room | {outcome}")["sections"]
    said = [item["text"] for item in section["results"]] + [item["observation"] for item in section["findings"]]
    assert any("of 14 opened" in each for each in said)


def test_a_partial_view_says_what_was_seen_as_typed() -> None:
    report = draft("partly: attic - from the hatch, front third - rest under boards; 11 of 14 bays")
    assert report["unseen"][0]["text"] == (
        "We saw only part of the attic: from the hatch, front third - rest under boards; 11 of 14 bays."
    )
