"""Places typed short, and parts that belong to another room than the heading's."""

from pathlib import Path

import pytest
import yaml

from narrator.compose.place import combine, find_known, is_known, phrase, places_from, rooms_of, written_out

LIBRARY = Path(__file__).parents[2] / "library"
PLACES = places_from(yaml.safe_load((LIBRARY / "places.yaml").read_text(encoding="utf-8")))


@pytest.mark.parametrize(
    ("typed", "full", "said"),
    [
        ("LR", "living room", "in the living room"),
        ("kit", "kitchen", "in the kitchen"),
        ("DR, left of window", "dining room, left of window", "in the dining room, left of the window"),
        ("br 2", "bedroom 2", "in bedroom 2"),
        ("BR2", "bedroom 2", "in bedroom 2"),
        ("BA#1", "bath #1", "in bath #1"),
        ("MBR", "main bedroom", "in the main bedroom"),
        ("mbath", "main bath", "in the main bath"),
        ("2nd flr hall ba", "2nd floor hall bath", "in the 2nd floor hall bath"),
        ("n side", "north side", "on the north side"),
        ("N slope", "north slope", "on the north slope"),
        ("s. slope", "south slope", "on the south slope"),
        ("attic, NE corner", "attic, northeast corner", "in the attic, at the northeast corner"),
        ("n and s walls", "north and south walls", "on the north and south walls"),
        ("n & s walls", "north & south walls", "on the north & south walls"),
        ("front lt corner", "front left corner", "at the front left corner"),
        ("lt of entry window", "left of entry window", "left of the entry window"),
        ("by chim", "by chimney", "by the chimney"),
        ("LR; DR", "living room; dining room", ""),
    ],
)
def test_a_short_place_is_written_out(typed: str, full: str, said: str) -> None:
    assert written_out(typed, PLACES) == full
    assert written_out(full, PLACES) == full
    assert not said or phrase(full, PLACES) == said


@pytest.mark.parametrize(
    "typed",
    # A letter or a short form is a place only where it makes one: with, a drawing, a door, a unit, a name.
    [
        "door w glass",
        "door w window",
        "left of dr",
        "panel E",
        "unit 4 E",
        "",
        "by Tom's shed",
        "bed of gravel",
        "x",
        "N",
    ],
)
def test_what_is_no_short_place_stays_as_typed(typed: str) -> None:
    assert written_out(typed, PLACES) == typed


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("no gfci hall ba", "hall ba"),
        ("window cracked br 2", "br 2"),
        ("shingles curling s slope", "s slope"),
        ("shingles curling south slope", "south slope"),
        ("handrail loose lt side", "lt side"),
        ("kickout missing lt of garage", "lt of garage"),
        ("brick cracked", ""),
        ("door w glass cracked", ""),
    ],
)
def test_a_short_place_is_found_inside_a_line(text: str, place: str) -> None:
    found = find_known(text, PLACES)
    assert (text[found[0] : found[1]] if found else "") == place


@pytest.mark.parametrize(
    ("heading", "where", "whole"),
    [
        ("Hall bath", "kitchen sink", "kitchen sink"),
        ("Hall bath", "left of kitchen sink", "left of kitchen sink"),
        ("Hall bath", "bath sink", "Hall bath, bath sink"),
        ("Hall bath", "sink", "Hall bath, sink"),
        ("Hall bath", "kitchen ceiling", "kitchen ceiling"),
        # What lies between two rooms, above another, or inside the first, stays under its heading.
        ("Hall bath", "above kitchen ceiling", "Hall bath, above kitchen ceiling"),
        ("Kitchen", "garage wall", "Kitchen, garage wall"),
        ("Kitchen", "dining room door", "Kitchen, dining room door"),
        ("Bedroom 2", "closet shelf", "Bedroom 2, closet shelf"),
        ("Main bedroom", "bath sink", "Main bedroom, bath sink"),
        ("Basement", "laundry sink", "Basement, laundry sink"),
    ],
)
def test_a_part_of_another_room_stands_alone(heading: str, where: str, whole: str) -> None:
    assert combine(heading, where, PLACES) == whole


def test_rooms_of_one_kind_have_one_name() -> None:
    assert rooms_of("powder room", PLACES) == rooms_of("Hall bath, left of sink", PLACES) == {"bath"}
    assert rooms_of("kitchen sink", PLACES) == {"kitchen"}
    assert rooms_of("rear wall", PLACES) == frozenset()


def test_a_page_of_place_words_is_no_place() -> None:
    assert not is_known("hall " * 20_000, PLACES)
