"""Places: phrases, what is known, what stands alone, and a place inside a longer line."""

import re
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from narrator.compose.place import class_of, combine, find_known, is_known, join_places, phrase, places_from

LIBRARY = Path(__file__).parents[2] / "library"
PLACES = places_from(yaml.safe_load((LIBRARY / "places.yaml").read_text(encoding="utf-8")))

PHRASES = [
    ("front", "at the front"),
    ("rear slope", "on the rear slope"),
    ("kitchen", "in the kitchen"),
    ("Kitchen", "in the kitchen"),
    ("KITCHEN", "in the kitchen"),
    ("bedroom 2", "in bedroom 2"),
    ("Bedroom 2", "in bedroom 2"),
    ("Hall bath", "in the hall bath"),
    ("2nd floor hall bath, left of tub", "in the 2nd floor hall bath, left of the tub"),
    ("second floor", "on the second floor"),
    ("upstairs", "upstairs"),
    ("bedroom upstairs", "in the bedroom upstairs"),
    ("left", "on the left"),
    ("N wall", "on the N wall"),
    ("front left corner", "at the front left corner"),
    ("left of sink", "left of the sink"),
    ("Left of sink", "left of the sink"),
    ("to left of sink", "to the left of the sink"),
    ("upper left of door", "on the upper left of the door"),
    ("wall left of door", "on the wall left of the door"),
    ("in front of furnace", "in front of the furnace"),
    ("between kitchen and den", "between the kitchen and the den"),
    ("across from panel", "across from the panel"),
    ("above panel B", "above panel B"),
    ("above it", "above it"),
    ("below grade at rear", "below grade at the rear"),
    ("by AC unit", "by the AC unit"),
    ("by AC", "by the AC"),
    ("by neighbor's fence", "by the neighbor's fence"),
    ("by Tom's shed", "by Tom's shed"),
    ("near Oak Street", "near Oak Street"),
    ("under stairs", "under the stairs"),
    ("at each window", "at each window"),
    ("front wall, left of entry window", "on the front wall, left of the entry window"),
    ("garage, left wall", "in the garage, on the left wall"),
    ("kitchen, wall by stove", "in the kitchen, on the wall by the stove"),
    ("attic, N end", "in the attic, at the N end"),
    ("second floor, hall bath", "on the second floor, in the hall bath"),
    ("hall bath, bedroom 2, upstairs", "in the hall bath and bedroom 2, upstairs"),
    ("kitchen, baths", "in the kitchen and the baths"),
    ("kitchen, baths, and garage", "in the kitchen, the baths and the garage"),
    ("kitchen & den", "in the kitchen and the den"),
    ("front, rear, left", "at the front and the rear, and on the left"),
    ("front and rear slopes", "on the front and rear slopes"),
    ("bedrooms 2 and 3", "in bedrooms 2 and 3"),
    ("top of stairs", "at the top of the stairs"),
    ("at top of stairs", "at the top of the stairs"),
    ("left side of house", "on the left side of the house"),
    ("in kitchen", "in the kitchen"),
    ("the kitchen", "in the kitchen"),
    ("all bedrooms", "in all bedrooms"),
    ("3 windows", "at 3 windows"),
    ("3 ft left of door", "3 ft left of the door"),
    ("6 in above floor", "6 in above the floor"),
    ("just above sink", "just above the sink"),
    ("inside panel", "inside the panel"),
    ("inside garage", "inside the garage"),
    ("outside wall near door", "on the outside wall near the door"),
    ("throughout basement", "throughout the basement"),
    ("at NE corner by AC unit", "at NE corner by the AC unit"),
    ("NE corner by AC unit", "at the NE corner by the AC unit"),
    ("Oak Street side", "on the Oak Street side"),
    ("stucco wall", "on the stucco wall"),
    ("kitchen/den", "in the kitchen/den"),
    ("J-box above panel", "at the J-box above the panel"),
    ("various locations", "at various locations"),
    ("ridge vent", "at the ridge vent"),
    ("", ""),
]


@pytest.mark.parametrize(("typed", "text"), PHRASES)
def test_phrase(typed: str, text: str) -> None:
    assert phrase(typed, PLACES) == text


@pytest.mark.parametrize("typed", [typed for typed, _ in PHRASES if "," not in typed])
def test_a_phrase_typed_as_it_prints_stays(typed: str) -> None:
    once = phrase(typed, PLACES)
    assert phrase(once, PLACES) == once


@pytest.mark.parametrize(
    ("typed", "known", "cls"),
    [
        ("Hall bath", True, "room"),
        ("Bedroom 2", True, "room"),
        ("jack and jill bath", True, "room"),
        ("2nd floor bath", True, "room"),
        ("north upstairs hall bath", False, "room"),
        ("garage", True, "space"),
        ("upstairs", True, "space"),
        ("pool house", True, "outbuilding"),
        ("rear", True, "side"),
        ("outside", True, "side"),
        ("rear deck", True, "outdoor"),
        ("left wall", True, "part"),
        ("gutter full", False, ""),
        ("furnace old", False, ""),
        ("detached gutter", False, ""),
        ("bedrooms 2 and 3", False, "room"),
        ("front and rear slopes", False, "part"),
        ("panel B", False, "part"),
        ("loose panel", False, ""),
        ("by hand", False, ""),
        ("under warranty", False, ""),
        ("by AC unit", False, ""),
        ("behind washer", False, "relation"),
        ("next to compressor", False, "relation"),
        ("under kitchen sink", False, "relation"),
        ("soft trim in kitchen", False, ""),
        ("the kitchen", False, "room"),
        ("in poor condition", False, ""),
        ("from hatch", False, ""),
        ("left of sink", False, "relation"),
        ("just above sink", False, "relation"),
        ("in kitchen", False, "room"),
        ("ceiling in kitchen", False, "room"),
        ("wall at rear", False, "part"),
        ("back of garage", False, "space"),
        ("top of stairs", False, "part"),
        ("garage, left wall", False, "space"),
        ("left wall, kitchen", False, "room"),
        ("no gfci", False, ""),
        ("", False, ""),
    ],
)
def test_known_and_class(typed: str, known: bool, cls: str) -> None:
    assert is_known(typed, PLACES) is known
    assert class_of(typed, PLACES) == cls


@pytest.mark.parametrize(
    ("heading", "where", "place"),
    [
        ("garage", "left wall", "garage, left wall"),
        ("garage", "kitchen", "kitchen"),
        ("garage", "rear", "rear"),
        ("garage", "upstairs", "upstairs"),
        ("garage", "back of garage", "back of garage"),
        ("garage", "blue bedroom", "blue bedroom"),
        ("garage", "ledger in kitchen", "ledger in kitchen"),
        ("garage", "by AC unit", "garage, by AC unit"),
        ("garage", "wall at rear", "garage, wall at rear"),
        ("kitchen", "left of sink", "kitchen, left of sink"),
        ("attic", "above kitchen", "attic, above kitchen"),
        ("garage", "NE corner by AC unit", "garage, NE corner by AC unit"),
        ("kitchen", "peninsula", "kitchen, peninsula"),
        ("deck", "shed", "shed"),
        ("garage", "", "garage"),
        ("", "left wall", "left wall"),
    ],
)
def test_under_a_heading(heading: str, where: str, place: str) -> None:
    assert combine(heading, where, PLACES) == place


@pytest.mark.parametrize(
    ("line", "place"),
    [
        ("no gfci kitchen", "kitchen"),
        ("GFCI missing in the Hall Bath", "Hall Bath"),
        ("outlet loose bedroom 2", "bedroom 2"),
        ("bedroom 2 outlet loose", "bedroom 2"),
        ("kitchen 3 ft counter no outlet", "kitchen"),
        ("outlet bath 3 ft from tub no gfci", "bath"),
        ("outlets dead master bath upstairs", "master bath upstairs"),
        ("shingles curled main roof", "main roof"),
        ("stain below hall bath", "below hall bath"),
        ("crack rear of garage", "rear of garage"),
        ("stain on ceiling in kitchen", "kitchen"),
        ("furnace old basement", "basement"),
        ("left wall cracked", "left"),
        ("kitchen sink leaks", "kitchen"),
        ("crack above kitchen window", "kitchen"),
        ("no gfci outside", "outside"),
        ("bath fan vents to attic", "bath"),
        ("no gfci, left of sink", None),
        ("slopes toward house", None),
        ("garage door dented", None),
        ("deck boards rotted", None),
        ("door left open", None),
        ("rust inside panel", None),
        ("stucco tight", None),
        ("", None),
    ],
)
def test_a_place_inside_a_line(line: str, place: str | None) -> None:
    span = find_known(line, PLACES)
    assert (line[span[0] : span[1]] if span else None) == place


@pytest.mark.parametrize(
    ("phrases", "text"),
    [
        ([], ""),
        (["in the kitchen"], "in the kitchen"),
        (["in the kitchen", "in the hall bath"], "in the kitchen and the hall bath"),
        (["in the kitchen", "in bedroom 2", "in bedroom 3"], "in the kitchen, bedroom 2 and bedroom 3"),
        (["on the rear slope", "at the front"], "on the rear slope and at the front"),
        (["at the front", "at the front"], "at the front"),
        (["in the kitchen", "in the bath", "on the deck"], "in the kitchen and the bath, and on the deck"),
        (["on the wall by the door", "on the deck"], "on the wall by the door and on the deck"),
        (
            ["in the garage, on the left wall", "in the kitchen"],
            "in the garage, on the left wall, and in the kitchen",
        ),
        (
            ["in the garage, on the left wall", "upstairs", "at the rear"],
            "in the garage, on the left wall; upstairs; and at the rear",
        ),
    ],
)
def test_places_together(phrases: list[str], text: str) -> None:
    assert join_places(phrases) == text


SAMPLE = (
    "kitchen Hall bath bedroom 2 left of sink above NE corner by AC unit the and rear wall Oak, garage, in 3 "
    "ft front upstairs panel B outside inside right top throughout island & of at window"
)
WORDS = st.sampled_from(SAMPLE.split())


@given(st.lists(WORDS, max_size=9).map(" ".join))
def test_no_typed_word_is_lost(typed: str) -> None:
    words = set(re.findall(r"[\w']+", typed.lower())) - {"and"}
    assert words <= set(re.findall(r"[\w']+", phrase(typed, PLACES).lower()))


@given(st.text(max_size=40))
def test_any_text_is_taken(typed: str) -> None:
    phrase(typed, PLACES)
    class_of(typed, PLACES)
    span = find_known(typed, PLACES)
    assert span is None or 0 <= span[0] < span[1] <= len(typed)
