"""Lines as a tired inspector types them: short headings, figures with a dimension word, fine lines, runs of figures."""

from __future__ import annotations

import pytest
from drafting import at, draft, instance, instances, kinds

from narrator.resolve.vocabulary import plain_words


def codes(text: str) -> list[str]:
    return [found["finding"]["code"] for found in instances(text)]


@pytest.mark.parametrize(
    ("heading", "system", "place"),
    [
        ("kit:", "kitchen", "kitchen"),
        ("LR:", None, "living room"),
        ("DR", None, "dining room"),
        ("FR:", None, "family room"),
        ("MBR", None, "main bedroom"),
        ("mbath", None, "main bath"),
        ("br 2", None, "bedroom 2"),
        ("n side", None, "north side"),
        ("htg", "heating", None),
        ("plbg:", "plumbing", None),
        ("elec", "electrical", None),
        ("ext", "walls", "exterior"),
        ("bsmt", "structure", "basement"),
        ("Crawl", "structure", "crawl space"),
        ("gar", "garage", "garage"),
    ],
)
def test_a_short_heading_is_a_heading_and_keeps_its_text(heading: str, system: str | None, place: str | None) -> None:
    ((name, part),) = at(draft(heading), 1)
    assert name == "headings"
    assert (part["system"], part["place"]) == (system, place)
    assert part["text"] == heading.rstrip(":")


def test_a_short_place_prints_written_out() -> None:
    found = instance("outlet dead | LR")
    assert found["place"] == "living room"
    assert "in the living room" in found["finding"]["observation"]
    assert instance("outlet dead kit")["place"] == "kitchen"
    assert instance("kit:\noutlet dead")["place"] == "kitchen"
    ((_, status),) = at(draft("not inspected: bsmt - locked"), 1)
    assert "the basement" in status["text"]


def test_the_number_of_a_room_is_no_figure_and_no_room_is_lost() -> None:
    assert instance("no gfci bedroom 2")["place"] == "bedroom 2"
    assert [found["place"] for found in instances("smoke missing br 2, br 3")] == ["bedroom 2", "bedroom 3"]
    assert [found["place"] for found in instances("no gfci kitchen, hall bath")] == ["kitchen", "hall bath"]
    assert instance("no gfci, bath 2, left of sink")["place"] == "bath 2, left of sink"


# An entry whose title names a room answers at no other room.


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("leak under sink | hall bath", "bath.sink.leaking-below"),
        ("Hall bath\nleak under sink", "bath.sink.leaking-below"),
        ("leak under sink | powder room", "bath.sink.leaking-below"),
        ("Kitchen\nleak under sink", "kitchen.sink.leaking-below"),
        ("kit:\nleak under sink", "kitchen.sink.leaking-below"),
        ("Hall bath\nkitchen sink leaking", "kitchen.sink.leaking-below"),
        ("Main bedroom\nbath fan noisy", "bath.fan.noisy"),
        ("vanity cabinet wet", "bath.sink.leaking-below"),
    ],
)
def test_an_entry_of_one_room_answers_there(text: str, code: str) -> None:
    assert codes(text) == [code]


@pytest.mark.parametrize(
    "text",
    ["cabinets loose | laundry room", "faucet loose | hall bath", "no exhaust fan | laundry",
     "leak under sink | wet bar"],
)  # fmt: skip
def test_an_entry_of_one_room_answers_nowhere_else(text: str) -> None:
    assert kinds(draft(text), 1) == {"unresolved"}


@pytest.mark.parametrize(
    "text",
    [
        "burn marks",
        "prior repairs | living room",
        "hollow",
        "nail pops | living room",
        "soot | LR",
        "patched",
        "opener dead",
    ],
)
def test_a_condition_without_a_thing_is_no_guess(text: str) -> None:
    assert kinds(draft(text), 1) == {"unresolved"}


def test_a_heading_may_name_the_thing_of_its_lines() -> None:
    assert codes("Crawl\nvents blocked") == ["structure.crawl.vents-blocked"]
    assert kinds(draft("vents blocked"), 1) == {"unresolved"}
    # What a thing stands beside is not what the line is about.
    assert kinds(draft("moisture | left of entry window | 14 16 22"), 1) == {"unresolved"}


# Dimension words.


@pytest.mark.parametrize(
    ("text", "code", "measure", "value"),
    [
        ('deck guard 34" high', "decks.guard.low", "height", 34),
        ("guard 34 in high", "decks.guard.low", "height", 34),
        ('guard high 34"', "decks.guard.low", "height", 34),
        ('deck guard | rear | 34" high', "decks.guard.low", "height", 34),
        ("riser 8 1/4 high", "stairs.riser.high", "height", 8.25),
        ("tread 9 in deep", "stairs.tread.shallow", "depth", 9),
        ("baluster opening 5 in wide", "decks.guard.openings", "gap", 5),
        ("gap 5 in wide at balusters", "decks.guard.openings", "gap", 5),
        ('balusters 5" apart', "decks.guard.openings", "gap", 5),
        ("egress window 18 in wide", "openings.window.egress-narrow", "width", 18),
        ("bedroom window sill high 46 in", "openings.window.egress-sill-high", "height", 46),
        ("crack 1/2 in wide foundation", "structure.foundation.cracked", "width", 0.5),
        ("dryer duct 40 ft long", "laundry.dryer.duct-long", "length", 40),
    ],
)
def test_a_dimension_word_beside_a_figure_names_it(text: str, code: str, measure: str, value: float) -> None:
    found = instance(text)
    assert found["finding"]["code"] == code
    assert [(item["name"], float(item["value"])) for item in found["measures"]] == [(measure, value)]
    assert not found["words"]


def test_a_dimension_that_meets_is_a_result_and_never_a_contradiction() -> None:
    ((name, part),) = at(draft('handrail 36" high'), 1)
    assert name == "results" and "36 inches" in part["text"]


@pytest.mark.parametrize(
    "text",
    [
        "guard 34 high",  # no unit
        "window 20 wide x 24 high",
        'stair tread 9" wide',  # the entry measures a depth
        "panel working space 30 in wide",
        "soil 4 in high on siding",  # no clearance of 4 inches
    ],
)
def test_a_dimension_of_another_kind_is_never_bound(text: str) -> None:
    assert kinds(draft(text), 1) == {"unresolved"}


def test_a_verdict_stays_one() -> None:
    assert codes("guard too low 34 in") == ["decks.guard.low"]
    assert codes("riser too high 8 1/4 in") == ["stairs.riser.high"]
    assert codes("water pressure over 80 high") == ["plumbing.pressure.high"]


# Fine lines.


@pytest.mark.parametrize(
    "text",
    [
        "smoke alarms all worked",
        "all outlets work",
        "both worked",
        "everything works in kitchen",
        "nothing wrong with deck",
        "nothing loose at deck",
        "nothing to report at roof",
        "no issues at panel",
    ],
)
def test_what_all_went_fine_is_a_result_in_own_words(text: str) -> None:
    ((name, part),) = at(draft(text), 1)
    assert name == "results"
    assert f"“{text}”" in part["text"] and part["code"] is None


@pytest.mark.parametrize(
    "text",
    [
        "not all worked",
        "not all outlets work",
        "not everything works",
        "none worked",
        "nothing works",
        "nothing works in kitchen",
        "burners: nothing lights",
        "hardly works",
        "all worked but one",
        "almost all worked",
        "gfcis all worked except garage",
        "everything ok except disposal",
        "all work by owner",
        "all work done without permit",
        "all windows open",
        "all burners work, oven does not heat",
    ],
)
def test_what_did_not_all_go_fine_is_never_a_result(text: str) -> None:
    assert "results" not in kinds(draft(text), 1)


def test_an_outcome_in_the_place_cell_of_a_status_is_no_place() -> None:
    assert codes("tested: GFCI outlets | 3 of 12 did not trip") == ["electrical.gfci.does-not-trip"]
    assert "results" not in kinds(draft("tested: outlets | 3 of 12 did not trip"), 1)
    ((name, part),) = at(draft("tested: oven | all worked"), 1)
    assert name == "results" and part["place"] is None and "all worked" in part["text"]
    ((name, part),) = at(draft("tested: GFCI | kitchen, baths | all tripped"), 1)
    assert name == "results" and part["place"] == "kitchen, baths"


def test_a_negated_working_stays_a_defect() -> None:
    for text in ("smoke alarms not all worked", "smoke alarms none worked", "smoke alarms didnt all work"):
        assert codes(text) == ["alarms.smoke.not-working"]


# Every figure and word of a line is told.


def test_a_run_of_risers_is_one_series() -> None:
    found = instance("riser hts 7 1/2, 7 3/4, 8 1/4, 7 1/2")
    assert found["finding"]["code"] == "stairs.riser.uneven"
    assert [point["value"] for point in found["measures"][0]["points"]] == [7.5, 7.75, 8.25, 7.5]
    assert not found["words"]


def test_a_result_prints_each_of_its_figures() -> None:
    ((name, part),) = at(draft("riser height | stairs | 7 1/4 in, 7 1/2 in"), 1)
    assert name == "results"
    assert "7 1/4" in part["text"] and "7 1/2" in part["text"]


def test_as_many_figures_as_points_are_one_each() -> None:
    found = instance("stucco moisture A1-A3 14, B1-B3 22 24 19")
    points = [(point["name"], point["value"]) for point in found["measures"][0]["points"]]
    assert points == [("A1", 14), ("A2", 14), ("A3", 14), ("B1", 22), ("B2", 24), ("B3", 19)]


def test_the_details_of_a_young_age_are_printed() -> None:
    text = "visited: 2025-03-04\nwater heater 6 yrs old | garage | rust on jacket, told owner, x2"
    ((name, part),) = at(draft(text), 2)
    assert name == "descriptions"
    assert part["text"].startswith("Water heater 6 yrs old, in the garage")
    for said in ("“rust on jacket”", "owner", "two"):
        assert said in part["text"]


def test_the_same_words_always_read_the_same() -> None:
    assert plain_words("Guard 34 in. HIGH") == plain_words("Guard 34 in. HIGH")
    text = "LR:\nsmoke alarms all worked\nno gfci, br 2\n" * 3
    assert draft(text) == draft(text)
