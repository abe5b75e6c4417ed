"""Dates and lists against CLDR for British English, dates for American English too, as the Babel package prints it.

The full date has a comma after the weekday in the CLDR release that Babel 2.18 carries; other releases may
print none, and then this test says so. Hours are not CLDR: the house writes `5 p.m.` (test_english.py).
"""

from datetime import date, timedelta

import pytest
from babel.dates import format_date
from babel.lists import format_list

from narrator.compose.english import DATES, join_list, long_date, weekday_date

DAYS = [date(2024, 2, 25) + timedelta(days=23 * step) for step in range(40)]


@pytest.mark.parametrize("day", DAYS, ids=str)
def test_dates(day: date) -> None:
    assert long_date(day) == format_date(day, "long", locale="en_GB")
    assert weekday_date(day) == format_date(day, "full", locale="en_GB")
    assert long_date(day, DATES[1]) == format_date(day, "long", locale="en_US")
    assert weekday_date(day, DATES[1]) == format_date(day, "full", locale="en_US")


@pytest.mark.parametrize("count", range(1, 7))
def test_lists(count: int) -> None:
    items = [f"item {index}" for index in range(count)]
    assert join_list(items) == format_list(items, locale="en_GB")
