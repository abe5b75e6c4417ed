"""Review windows: the notation, the arithmetic, the words."""

from datetime import date
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from narrator.assess.window import (
    Window,
    WindowFault,
    parse_clock,
    parse_date,
    parse_date_note,
    read_window,
    rules_from,
    sentence,
    spoken,
)

LIBRARY = Path(__file__).parents[2] / "library"
RULES = rules_from(yaml.safe_load((LIBRARY / "windows.yaml").read_text(encoding="utf-8")))
MARCH_4 = date(2026, 3, 4)
KINDS = {"text", "date", "count", "clock", "source"}


def window(text: str) -> Window:
    found = read_window(text, RULES)
    assert isinstance(found, Window), found
    return found


def fault(text: str) -> WindowFault:
    found = read_window(text, RULES)
    assert isinstance(found, WindowFault), found
    return found


@pytest.mark.parametrize(
    "text",
    [
        "4 March 2026",
        "March 4, 2026",
        "March 4 2026",
        "4 Mar 2026",
        "4th of March 2026",
        "2026-03-04",
        "3/4/2026",
        "3/4/26",
        "Wed 4 March 2026",
        "Wednesday, 4 March 2026",
        "wed, march 4th, 2026",
        " 4 march 2026 ",
    ],
)
def test_dates_are_read(text: str) -> None:
    assert parse_date(text) == MARCH_4


@pytest.mark.parametrize(
    "text",
    [
        "4 March",
        "March 4",
        "3/4",
        "31 February 2026",
        "13/4/2026",
        "Tue 4 March 2026",
        "tomorrow",
        "",
        "2026-3-4-5",
        "4 Marsh 2026",
        "4 March 2026 or so",
    ],
)
def test_no_date_is_guessed(text: str) -> None:
    note = parse_date_note(text)
    assert note.day is None
    assert note.problem


def test_a_date_in_figures_may_be_ambiguous() -> None:
    assert parse_date_note("3/4/2026").ambiguous
    assert not parse_date_note("3/14/2026").ambiguous
    assert not parse_date_note("4/4/2026").ambiguous
    assert not parse_date_note("2026-03-04").ambiguous


@pytest.mark.parametrize(
    ("text", "hour"),
    [
        ("17:00", "17:00"),
        ("5 pm", "17:00"),
        ("5pm", "17:00"),
        ("5:30pm", "17:30"),
        ("5 p.m.", "17:00"),
        ("5 P.M.", "17:00"),
        ("noon", "12:00"),
        ("12 noon", "12:00"),
        ("12 pm", "12:00"),
        ("12 am", "00:00"),
        ("8:00", "08:00"),
        ("23:59", "23:59"),
        ("25:00", None),
        ("13 pm", None),
        ("5", None),
        ("midnight", None),
        ("17:60", None),
        ("", None),
        ("5 past", None),
    ],
)
def test_hours(text: str, hour: str | None) -> None:
    assert parse_clock(text) == hour


def test_calendar_days_with_no_hour() -> None:
    found = window("10 days from 4 March 2026")
    assert (found.opens, found.closes, found.hour, found.days) == (MARCH_4, date(2026, 3, 14), None, 10)
    assert (found.business, found.rolls, found.counted, found.told_by) == (False, False, None, None)


def test_business_days_leave_out_federal_holidays() -> None:
    assert window("3 business days from 22 May 2026").closes == date(2026, 5, 28)
    assert window("1 business day from 2 July 2026").closes == date(2026, 7, 6)


def test_an_end_rolls_only_where_the_line_says_so() -> None:
    assert window("10 days from 4 March 2026").closes == date(2026, 3, 14)
    rolled = window("10 days from 4 March 2026, rolls")
    assert (rolled.closes, rolled.moved, rolled.last) == (date(2026, 3, 16), True, date(2026, 3, 14))


def test_an_hour_comes_from_the_line_or_from_a_typed_rule() -> None:
    assert window("10 days from 4 March 2026, ends 5 pm").hour == "17:00"
    assert window("10 days from 4 March 2026, counted tx-option").hour == "17:00"
    assert window("10 days from 4 March 2026, ends 18:00, counted tx-option").hour == "18:00"
    assert window("15 days from 6 June 2025, counted fl-inspection").hour == "17:00"
    assert window("15 days from 6 June 2025, ends 20:00, counted fl-inspection").hour == "20:00"


def test_a_typed_end_date_wins() -> None:
    found = window("10 days from 4 March 2026, ends 13 March 2026 17:00")
    assert (found.closes, found.hour, found.days, found.first) == (date(2026, 3, 13), "17:00", 10, None)
    assert found.notes
    saturday = window("ends 14 March 2026, counted ca-days")
    assert (saturday.closes, saturday.moved, saturday.hour) == (date(2026, 3, 14), False, "23:59")


def test_days_that_run_from_eight_to_eight() -> None:
    found = window("10 days from 3 June 2025 07:45, counted sc-business-8am")
    assert (found.first, found.last) == (date(2025, 6, 3), date(2025, 6, 16))
    assert (found.closes, found.hour) == (date(2025, 6, 17), "07:59")


def test_who_told() -> None:
    assert window("10 days from 4 March 2026, told by agent, rolls").told_by == "agent"
    assert window("ends 14 March 2026 17:00 told by the seller").told_by == "the seller"


def test_what_is_doubtful_is_noted() -> None:
    assert "month first" in window("10 days from 3/4/2026").notes[0]
    assert "5 a.m." in window("10 days from 4 March 2026, ends 5:00").notes[0]
    assert window("10 days from 4 March 2026, ends 17:00").notes == ()


@pytest.mark.parametrize(
    ("text", "column", "says"),
    [
        ("", 0, "10 days from 4 March 2026"),
        ("tomorrow", 0, "10 days from"),
        ("10 days from 4 March", 13, "no year"),
        ("10 days from 31 Feb 2026", 13, "no day of the calendar"),
        ("10 days from soon", 13, "not a date"),
        ("10 days from Tue 4 March 2026", 13, "a Wednesday"),
        ("10 days from 4 March 9999", 13, "no day of the calendar"),
        ("0 days from 4 March 2026", 0, "1 to 366"),
        ("10 days from 4 March 2026, counted tx-optoin", 35, "Did you mean 'tx-option'?"),
        ("10 days from 4 March 2026, counted zz", 35, "az-inspection"),
        ("10 days from 4 March 2026, counted tx-option, counted pa-days", 46, "two ways"),
        ("10 business days from 4 March 2026, counted tx-option", 3, "Keep one"),
        ("10 days from 4 March 2026, perhaps", 27, "`ends 17:00`"),
        ("10 days from 4 March 2026, ends 17:00, ends 18:00", 44, "twice"),
        ("10 days from 4 March 2026, ends 3 March 2026", 27, "before it starts"),
    ],
)
def test_faults(text: str, column: int, says: str) -> None:
    found = fault(text)
    assert found.column == column
    assert says in found.message


def test_the_paragraph_counts_in_the_open() -> None:
    assert spoken(sentence(window("10 days from 4 March 2026, ends 17:00"))) == (
        "You told us that your contract gives you 10 days from 4 March 2026. We counted calendar days and "
        "began with 5 March. The last day is then Saturday, 14 March 2026, at 5 p.m. We have not read your "
        "contract, and forms do not all count alike. Ask your agent or lawyer today to confirm the day and "
        "hour, and go by their answer."
    )


def test_the_paragraph_says_when_no_hour_is_known() -> None:
    assert "We do not know the hour" in spoken(sentence(window("10 days from 4 March 2026")))
    assert "We do not know the hour" not in spoken(sentence(window("10 days from 4 March 2026, ends noon")))


def test_the_paragraph_of_a_typed_end_counts_nothing() -> None:
    text = spoken(sentence(window("ends 14 March 2026 17:00")))
    assert text.startswith(
        "You told us that your contract gives you until Saturday, 14 March 2026, at 5 p.m. We have"
    )
    assert "counted" not in text


@pytest.mark.parametrize(
    ("who", "start"),
    [
        ("agent", "Your agent told us"),
        ("my agent", "Your agent told us"),
        ("buyer's agent", "Your agent told us"),
        ("seller", "The seller told us"),
        ("the seller", "The seller told us"),
        ("Anna Ruiz", "Anna Ruiz told us"),
        ("client", "You told us"),
        ("listing agent", "The listing agent told us"),
        ("your lawyer", "Your lawyer told us"),
    ],
)
def test_the_paragraph_names_who_told(who: str, start: str) -> None:
    pieces = sentence(window(f"10 days from 4 March 2026, told by {who}"))
    assert spoken(pieces).startswith(start)
    assert pieces[0][1] == "source"
    assert sentence(window("10 days from 4 March 2026"), who)[0] == pieces[0]


def test_the_paragraph_tells_of_a_move_and_of_the_rule() -> None:
    text = spoken(sentence(window("15 days from 6 June 2025, counted fl-inspection")))
    assert RULES["fl-inspection"].label in text
    assert "The last day would be Saturday, 21 June 2025. That is not a business day" in text
    assert "Monday, 23 June 2025, at 5 p.m. We have" in text
    business = spoken(sentence(window("3 business days from 31 December 2025")))
    assert "without Saturdays, Sundays and federal holidays, and began with 2 January 2026." in business


def test_each_figure_is_a_piece_of_its_own() -> None:
    pieces = sentence(window("10 days from 4 March 2026 10:00, ends 17:00"))
    assert {kind for _, kind in pieces} <= KINDS
    assert [text for text, kind in pieces if kind != "text"] == [
        "10",
        "4 March 2026",
        "10 a.m.",
        "5 March",
        "Saturday, 14 March 2026",
        "5 p.m.",
    ]
    assert not any(sign.isdigit() for text, kind in pieces if kind == "text" for sign in text)


def test_a_rule_with_an_unknown_value_is_refused() -> None:
    with pytest.raises(ValueError, match=r"x: count cannot be 'weekly'"):
        rules_from({"rules": {"x": {"label": "x", "count": "weekly"}}})
    with pytest.raises(ValueError, match="holidays cannot be 'easter'"):
        rules_from({"rules": {"x": {"label": "x", "holidays": ["easter"]}}})


def test_rules_are_read_from_text_too() -> None:
    row = {"label": "x", "ends": "null", "short": "5", "count": "short-business", "holidays": "federal"}
    rule = rules_from({"rules": {"x": row}})["x"]
    assert (rule.ends, rule.short) == (None, 5)


@given(st.integers(1, 366), st.dates(date(2000, 1, 1), date(2099, 12, 31)), st.booleans(), st.booleans())
def test_any_window_closes_after_it_opens(days: int, start: date, business: bool, rolls: bool) -> None:
    text = (
        f"{days} {'business ' if business else ''}days from {start.isoformat()}{', rolls' if rolls else ''}"
    )
    found = window(text)
    assert (found.closes - start).days >= days
    assert not (business or rolls) or found.closes.weekday() < 5
    assert spoken(sentence(found)).count(str(days))


@given(st.text(max_size=60))
def test_any_text_is_taken(text: str) -> None:
    read_window(text, RULES)
    read_window(f"10 days from 4 March 2026, {text}", RULES)
