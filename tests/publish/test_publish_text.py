"""Texts as they print."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrator.compose.english import join_list as listing
from narrator.publish.md import escape
from narrator.publish.readback import plain
from narrator.publish.text import counted, day, inline, numbers, numbers_read, paragraphs, run, shown


@pytest.mark.parametrize(
    ("values", "text"),
    [
        ([], ""),
        ([3], "3"),
        ([9, 7, 3, 8, 7], "3, 7 to 9"),
        ([7, 8], "7, 8"),
        ([1, 2, 3, 5, 6, 7], "1 to 3, 5 to 7"),
        ([0], "0"),
    ],
)
def test_numbers_are_sorted_and_three_in_a_row_are_a_range(values: list[int], text: str) -> None:
    assert numbers(values) == text


@given(st.sets(st.integers(0, 10_000)))
def test_numbers_read_back(values: set[int]) -> None:
    assert numbers_read(numbers(values)) == sorted(values)


def test_a_range_typed_by_hand_cannot_fill_the_memory() -> None:
    assert numbers_read("photos 1 to 999999999") == [1, 999999999]
    assert numbers_read("photos 9 to 7, 3–5") == [9, 7, 3, 4, 5]


def test_small_words() -> None:
    assert counted("photo", [3]) == "photo\u00a03"
    assert counted("photo", []) == ""
    assert listing([]) == "" and listing(["a"]) == "a" and listing(["a", "b", "c"]) == "a, b and c"
    assert day("2026-03-04") == "4 March 2026"
    assert day("2026-13-04") == "2026-13-04" and day("4 March 2026") == "4 March 2026"
    assert run(["a", "", " b. ", "c?"]) == "a. b. c?"


def test_controls_are_made_visible() -> None:
    assert shown("a\x00b\x7f\u202ec") == "a␀b␡[U+202E]c"
    assert shown(" a \t b \r\n\n\u2028 c ") == "a b\nc"
    assert shown("👩‍🔧 שלום \ue000 n\u0303") == "👩‍🔧 שלום \ue000 n\u0303"
    assert inline("a\u00a0 b\u3000c\nd") == "a b c d"
    assert shown("5\u00a0p.m.") == "5\u00a0p.m." and shown("a ·\u00a0b") == "a · b"
    assert shown("a\ud800\ufffe\U0001ffff") == "a[U+D800][U+FFFE][U+1FFFF]"
    assert paragraphs(" \n ") == ()


@given(st.text())
def test_what_is_shown_stays_the_same_when_shown_again(text: str) -> None:
    assert shown(shown(text)) == shown(text)
    assert inline(inline(text)) == inline(text)


@given(st.text())
def test_escaped_markdown_reads_back(text: str) -> None:
    assert plain(escape(inline(text))) == inline(text)


@pytest.mark.parametrize(
    ("text", "escaped"),
    [
        (
            "At the wall (left), 1/4 inch: it's 7-9 % & more!",
            "At the wall (left), 1/4 inch: it's 7-9 % & more!",
        ),
        ("- no list", "\\- no list"),
        ("12. no list", "12\\. no list"),
        ("12.5 % is read", "12.5 % is read"),
        ("a|b", "a\\|b"),
        ("<b> &amp;", "&lt;b> &amp;amp;"),
        ("http://a.b and www.a.b", "http\\://a.b and www\\.a.b"),
    ],
)
def test_plain_prose_stays_plain_to_edit(text: str, escaped: str) -> None:
    assert escape(text) == escaped
