"""Details: every shape of item that the notation has, and the rest kept as the inspector's own words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrator.read.cells import Piece
from narrator.read.items import leading_numbers, off_photos, photo_numbers, read_items
from narrator.read.model import Item
from narrator.read.series import read_series


def items(text: str) -> tuple[Item, ...]:
    return read_items((Piece(text, 0),))


def only(text: str) -> Item:
    (item,) = items(text)
    return item


@pytest.mark.parametrize(
    ("text", "label", "low", "high", "unit", "bound"),
    [
        ("gap 1/4 in", "gap", "1/4", "1/4", "inch", ""),
        ('depth 3/8"', "depth", "3/8", "3/8", "inch", ""),
        ("gap 12 mm", "gap", "12", "12", "millimeter", ""),
        ("1/4 in", "", "1/4", "1/4", "inch", ""),
        ("7 1/2 in", "", "15/2", "15/2", "inch", ""),
        ("7-1/2 in", "", "15/2", "15/2", "inch", ""),
        ("½ in", "", "1/2", "1/2", "inch", ""),
        ("7½ in", "", "15/2", "15/2", "inch", ""),
        ('½"', "", "1/2", "1/2", "inch", ""),
        ("5'10\"", "", "35/6", "35/6", "foot", ""),
        ("5’10”", "", "35/6", "35/6", "foot", ""),
        ("~4 in", "", "4", "4", "inch", "~"),
        ("about 4 in", "", "4", "4", "inch", "~"),
        ("<1/16 in", "", "1/16", "1/16", "inch", "<"),
        (">3 ft", "", "3", "3", "foot", ">"),
        ("riser 7 to 9-1/4 in", "riser", "7", "37/4", "inch", ""),
        ("7-9 in", "", "7", "9", "inch", ""),
        ("138F", "", "138", "138", "degF", ""),
        ("138 F", "", "138", "138", "degF", ""),
        ("138 °F", "", "138", "138", "degF", ""),
        ("age 18 yr", "age", "18", "18", "year", ""),
        ("made 2005", "", "2005", "2005", "date", ""),
        ("22 %", "", "22", "22", "percent", ""),
        ("moisture 22%", "moisture", "22", "22", "percent", ""),
        ("1,200 sq ft", "", "1200", "1200", "foot**2", ""),
        ("80 psi", "", "80", "80", "psi", ""),
        ("34 inches high", "high", "34", "34", "inch", ""),
        ("gap: 1/4 in", "gap", "1/4", "1/4", "inch", ""),
    ],
)
def test_a_measure_has_a_name_a_value_and_a_unit(
    text: str, label: str, low: str, high: str, unit: str, bound: str
) -> None:
    item = only(text)
    assert item.kind == "value"
    assert item.label == label
    assert item.quantity is not None
    assert (item.quantity.low, item.quantity.high) == (Fraction(low), Fraction(high))
    assert (item.quantity.unit, item.quantity.bound) == (unit, bound)


def test_a_share_counts_n_of_m() -> None:
    item = only("11 of 14")
    assert item.quantity is not None
    assert (item.quantity.low, item.quantity.of) == (11, 14)


def test_a_slope_is_rise_over_run() -> None:
    item = only("slope 8/12")
    assert item.quantity is not None
    assert item.quantity.dimension == "slope"


@pytest.mark.parametrize(
    ("text", "points", "unit", "control"),
    [
        (
            "19 22 38 OL no-hold",
            [(None, 19, None), (None, 22, None), (None, 38, None), (None, None, "OL"), (None, None, "no-hold")],
            "",
            False,
        ),
        ("190 178 165 mm", [(None, 190, None), (None, 178, None), (None, 165, None)], "millimeter", False),
        ("18 22 33 %", [(None, 18, None), (None, 22, None), (None, 33, None)], "percent", False),
        ("18% 22% 33%", [(None, 18, None), (None, 22, None), (None, 33, None)], "percent", False),
        ("A1 11, A7-A8 no-hold", [("A1", 11, None), ("A7", None, "no-hold"), ("A8", None, "no-hold")], "", False),
        ("A1 11, A7-8 no-hold", [("A1", 11, None), ("A7", None, "no-hold"), ("A8", None, "no-hold")], "", False),
        ("A1 11 A2 OL", [("A1", 11, None), ("A2", None, "OL")], "", False),
        ("A1: 11, A2: 14", [("A1", 11, None), ("A2", 14, None)], "", False),
        ("control 11 12 10", [(None, 11, None), (None, 12, None), (None, 10, None)], "", True),
        ("11 12 10 control", [(None, 11, None), (None, 12, None), (None, 10, None)], "", True),
        ("control 11", [(None, 11, None)], "", True),
        ("control 11 12, 10", [(None, 11, None), (None, 12, None), (None, 10, None)], "", True),
        ("18 no hold", [(None, 18, None), (None, None, "no-hold")], "", False),
        (
            "18 void blocked too short",
            [(None, 18, None), (None, None, "void"), (None, None, "blocked"), (None, None, "too short")],
            "",
            False,
        ),
        ("ol", [(None, None, "OL")], "", False),
        ("7 1/4 7 1/2 7-3/8 in", [(None, "29/4", None), (None, "15/2", None), (None, "59/8", None)], "inch", False),
        ("12 in 14 in", [(None, 12, None), (None, 14, None)], "inch", False),
        ("moisture 18 22", [(None, 18, None), (None, 22, None)], "", False),
    ],
)
def test_a_series_has_points_reasons_names_and_a_unit_after_the_last(
    text: str, points: list[tuple[str | None, object, str | None]], unit: str, control: bool
) -> None:
    item = only(text)
    assert item.kind == "series"
    found = [(point.name, point.value and point.value.low, point.reason) for point in item.points]
    assert found == [(name, None if value is None else Fraction(str(value)), reason) for name, value, reason in points]
    assert (item.unit, item.control) == (unit, control)


@pytest.mark.parametrize(
    "text",
    [
        "18",
        "gap 1/4 in",
        "18 yr",
        "vent blocked",
        "7 to 9 in",
        "3 outlets",
        "A1",
        "A1 A2 11",
        "control",
        "11 of 14",
        "12 in 3 ft",
        "blocked by boxes",
        "",
    ],
)
def test_what_is_no_series(text: str) -> None:
    assert read_series(text) is None


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("photos 12-14, 17", (12, 13, 14, 17)),
        ("photo 9", (9,)),
        ("photos 3, 4", (3, 4)),
        ("Photos 3 & 5", (3, 5)),
        ("photos 3 and 5", (3, 5)),
        ("photos 3 5", (3, 5)),
        ("photos 12–14", (12, 13, 14)),
        ("photos 12 to 14", (12, 13, 14)),
        ("photo #12", (12,)),
        ("pics 3, 4-5", (3, 4, 5)),
        ("photos 101,102,103", (101, 102, 103)),
        ("photos 20,212", (20, 212)),
    ],
)
def test_bare_numbers_and_ranges_after_photos_belong_to_them(text: str, numbers: tuple[int, ...]) -> None:
    item = only(text)
    assert (item.kind, item.numbers) == ("photos", numbers)


def test_photos_end_where_another_item_begins() -> None:
    found = items("photos 12-14, 17, gap 1/4 in, x3")
    assert [item.kind for item in found] == ["photos", "value", "count"]
    assert found[0].numbers == (12, 13, 14, 17)
    assert [item.kind for item in items("photo 3, 3/8 in")] == ["photos", "value"]
    assert [item.kind for item in items("photo 3, 11 of 14")] == ["photos", "value"]
    assert [item.kind for item in items("gap 1/4 in, 5")] == ["value", "value"]


def test_sketch_photos_stand_apart() -> None:
    found = items("photo 4, sketch photo 60, 61")
    assert [(item.kind, item.numbers) for item in found] == [("photos", (4,)), ("sketch", (60, 61))]


@pytest.mark.parametrize("text", ["photos 14-12", "photos of the north wall", "photos 1-9999", "photo eyes too high"])
def test_what_is_no_list_of_photos_stays_words(text: str) -> None:
    assert only(text).kind == "words"


@pytest.mark.parametrize(("text", "count"), [("x3", 3), ("X3", 3), ("x 3", 3), ("3x", 3), ("×3", 3)])
def test_a_count(text: str, count: int) -> None:
    item = only(text)
    assert (item.kind, item.numbers) == ("count", (count,))


@pytest.mark.parametrize("text", ["2x4", "x", "x3 outlets", "4x4 in"])
def test_what_is_no_count(text: str) -> None:
    assert only(text).kind != "count"


@pytest.mark.parametrize(
    ("text", "key", "value"),
    [
        ("seen", "seen", ""),
        ("Measured", "measured", ""),
        ("tested", "tested", ""),
        ("smelled", "smelled", ""),
        ("heard", "heard", ""),
        ("felt", "felt", ""),
        ("read", "read", ""),
        ("read label", "read", "label"),
        ("read off the data plate", "read", "data plate"),
        ("told by seller", "told", "seller"),
        ("told by the seller's agent", "told", "the seller's agent"),
        ("inferred", "inferred", ""),
    ],
)
def test_how_it_is_known(text: str, key: str, value: str) -> None:
    item = only(text)
    assert (item.kind, item.key, item.value) == ("basis", key, value)


@pytest.mark.parametrize(
    ("text", "verb", "who", "time"),
    [
        ("warned occupant 14:10", "warned", "occupant", "14:10"),
        ("told occupant", "told", "occupant", None),
        ("notified agent", "notified", "agent", None),
        ("warned occupant at 2:10 pm", "warned", "occupant", "2:10 pm"),
        ("told seller 2pm", "told", "seller", "2pm"),
        ("notified listing agent noon", "notified", "listing agent", "noon"),
        ("warned tenant unit 3", "warned", "tenant unit 3", None),
        ("told agent 25:99", "told", "agent 25:99", None),
        ("called gas company 14:10", "called", "gas company", "14:10"),
    ],
)
def test_an_act_is_no_source(text: str, verb: str, who: str, time: str | None) -> None:
    item = only(text)
    assert (item.kind, item.key, item.value, item.time) == ("act", verb, who, time)


@pytest.mark.parametrize("text", ["advised repair", "called for by the label", "told", "warned", "told by"])
def test_what_is_no_act(text: str) -> None:
    assert only(text).kind == "words"


@pytest.mark.parametrize(
    ("text", "key", "value"),
    [
        ("act-now", "severity", "act-now"),
        ("Find-out", "severity", "find-out"),
        ("act now", "severity", "act-now"),
        ("plan", "severity", "plan"),
        ("upkeep", "severity", "upkeep"),
        ('because "it is old, and worn"', "because", "it is old, and worn"),
        ("because “it is old”", "because", "it is old"),
        ("trade plumber + engineer", "trade", "plumber + engineer"),
        ('do "call the city, first"', "do", "call the city, first"),
        ("hold back - seller asked", "hold back", "seller asked"),
        ("hold back – seller asked", "hold back", "seller asked"),
        ('hold back - "seller asked, twice"', "hold back", "seller asked, twice"),
        ("hold back", "hold back", ""),
        ("Hold  Back - seller asked", "hold back", "seller asked"),
    ],
)
def test_an_override(text: str, key: str, value: str) -> None:
    item = only(text)
    assert (item.kind, item.key, item.value) == ("override", key, value)


@pytest.mark.parametrize("text", ["because it is old", "do call them", "act-out", "find now", "plans"])
def test_what_is_no_override(text: str) -> None:
    assert only(text).kind == "words"


@pytest.mark.parametrize("text", ["furnace 2", "panel B", "Furnace 2", "Panel b", "panel #2", "subpanel 1", "unit 4"])
def test_a_unit(text: str) -> None:
    assert (only(text).kind, only(text).value) == ("unit", text)


@pytest.mark.parametrize(
    ("text", "inside"),
    [
        ('"it leaks, badly"', "it leaks, badly"),
        ("“it leaks, badly”", "it leaks, badly"),
        ('"gap 1/4 in, photo 3"', "gap 1/4 in, photo 3"),
    ],
)
def test_words_in_quotes_are_one_item_verbatim(text: str, inside: str) -> None:
    assert (only(text).kind, only(text).value) == ("quote", inside)


def test_an_unclosed_quotation_is_a_plain_character() -> None:
    found = items('"it leaks, photo 3')
    assert [(item.kind, item.text) for item in found] == [("words", '"it leaks'), ("photos", "photo 3")]


@pytest.mark.parametrize(
    "text", ["near the old tree", "{{ place }}", "<b>bold</b>", "👍", "café", "2 3/4 by 6", "$500", "555-1234", '""']
)
def test_anything_else_is_kept_as_own_words(text: str) -> None:
    assert (only(text).kind, only(text).text) == ("words", text)


def test_a_dash_in_an_empty_cell_is_no_detail() -> None:
    assert items("-") == ()
    assert [item.text for item in items("photo 3, –, x2")] == ["photo 3", "x2"]


def test_items_carry_their_column() -> None:
    assert [item.column for item in items("gap 1/4 in, photo 3, x2")] == [1, 13, 22]


@pytest.mark.parametrize(
    ("text", "rest", "numbers"),
    [
        ("no gfci photo 3", "no gfci", (3,)),
        ("no gfci, see photos 3-5", "no gfci", (3, 4, 5)),
        ("no gfci (photo 3)", "no gfci", (3,)),
        ("rear wall. pic 7", "rear wall", (7,)),
    ],
)
def test_photo_numbers_at_the_end_of_a_cell_come_off_it(text: str, rest: str, numbers: tuple[int, ...]) -> None:
    words, item = off_photos(text)
    assert words == rest
    assert item is not None
    assert item.numbers == numbers


@pytest.mark.parametrize(
    "text", ["no gfci", "photo 3", "photo eyes high 14", 'said "see photo 3"', "photo 3 shows a crack"]
)
def test_a_cell_without_photos_stays(text: str) -> None:
    assert off_photos(text) == (text, None)


def test_photo_numbers_that_open_a_caption() -> None:
    assert leading_numbers("1-4, 7 front of house") == ((1, 2, 3, 4, 7), "front of house")
    assert leading_numbers("front of house") == ((), "front of house")
    assert photo_numbers("4-1") == ()
