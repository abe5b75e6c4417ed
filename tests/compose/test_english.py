"""Lists, dates, hours, articles and plurals."""

from datetime import date

import pytest

from narrator.compose.english import (
    DATES,
    article,
    capital_first,
    clock,
    join_list,
    long_date,
    number_word,
    plural,
    short_date,
    weekday_date,
)

DAY = date(2026, 3, 14)


@pytest.mark.parametrize(
    ("items", "comma", "text"),
    [
        ([], "", ""),
        (["a"], "", "a"),
        (["a", "b"], "", "a and b"),
        (["a", "b"], ",", "a, and b"),
        (["a", "b", "c"], "", "a, b and c"),
        (["a", "b", "c"], ",", "a, b, and c"),
    ],
)
def test_lists(items: list[str], comma: str, text: str) -> None:
    assert join_list(items, comma) == text


def test_dates() -> None:
    assert long_date(DAY) == "14 March 2026"
    assert short_date(DAY) == "14 March"
    assert weekday_date(DAY) == "Saturday, 14 March 2026"


@pytest.mark.parametrize(
    ("hour", "text"),
    [
        ("17:00", "5 p.m."),
        ("17:30", "5:30 p.m."),
        ("12:00", "noon"),
        ("00:00", "midnight"),
        ("24:00", "midnight"),
        ("00:30", "12:30 a.m."),
        ("12:05", "12:05 p.m."),
        ("08:00", "8 a.m."),
        ("23:59", "11:59 p.m."),
    ],
)
def test_hours_are_house_style(hour: str, text: str) -> None:
    assert clock(hour) == text


@pytest.mark.parametrize(
    ("noun", "word"),
    [
        ("outlet", "an"),
        ("hour", "an"),
        ("unit", "a"),
        ("uninsulated wall", "an"),
        ("HVAC duct", "an"),
        ("GFCI", "a"),
        ("8-foot post", "an"),
        ("11-inch tread", "an"),
        ("18-inch gap", "an"),
        ("80-gallon tank", "an"),
        ("110 volt line", "a"),
        ("1/4 inch gap", "a"),
        ("one-way valve", "a"),
        ("S-trap", "an"),
        ("P-trap", "a"),
        ("LED lamp", "an"),
        ("UL mark", "a"),
        ("A frame", "an"),
        ("", "a"),
        ("“outlet”", "an"),
    ],
)
def test_articles(noun: str, word: str) -> None:
    assert article(noun) == word


@pytest.mark.parametrize(
    ("one", "many"),
    [
        ("sash", "sashes"),
        ("battery", "batteries"),
        ("valley", "valleys"),
        ("roof", "roofs"),
        ("shelf", "shelves"),
        ("bookshelf", "bookshelves"),
        ("foot", "feet"),
        ("footing", "footings"),
        ("soffit", "soffits"),
        ("length of pipe", "lengths of pipe"),
        ("GFCI", "GFCIs"),
        ("half bath", "half baths"),
        ("truss", "trusses"),
        ("stairs", "stairs"),
        ("tradesman", "tradesmen"),
        ("", ""),
        ("Shelf", "Shelves"),
        ("S-trap", "S-traps"),
    ],
)
def test_plurals(one: str, many: str) -> None:
    assert plural(one) == many


@pytest.mark.parametrize(
    ("text", "large"),
    [
        ("at the front", "At the front"),
        ("“soft trim”", "“Soft trim”"),
        ("1/4 inch", "1/4 inch"),
        ("", ""),
        ("é", "É"),
    ],
)
def test_first_letter(text: str, large: str) -> None:
    assert capital_first(text) == large


def test_number_words() -> None:
    assert [number_word(n) for n in (0, 1, 12, 13, 1500, -2)] == [
        "zero",
        "one",
        "twelve",
        "13",
        "1,500",
        "-2",
    ]


def test_dates_in_the_forms_that_a_firm_can_choose() -> None:
    assert [long_date(DAY, form) for form in DATES] == ["14 March 2026", "March 14, 2026", "2026-03-14"]
    assert [short_date(DAY, form) for form in DATES] == ["14 March", "March 14", "2026-03-14"]
    assert weekday_date(DAY, DATES[1]) == "Saturday, March 14, 2026"
