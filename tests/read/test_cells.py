"""Signs inside a quotation do not count; cells, items and remarks are cut outside quotations only."""

from __future__ import annotations

import pytest

from narrator.read.cells import Piece, cells, first_sign, public_part, quotations, split, strip_line, trim, unquote


def quoted(text: str) -> list[str]:
    return [text[start:end] for start, end in quotations(text)]


def texts(pieces: tuple[Piece, ...]) -> list[str]:
    return [piece.text for piece in pieces]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('"it leaks, badly"', ['"it leaks, badly"']),
        ("“it leaks”", ["“it leaks”"]),
        ('“it leaks"', ['“it leaks"']),
        ('"it leaks”', ['"it leaks”']),
        ('gap 3/8", photo 3', []),
        ('gap 3/8", "wide, open"', ['"wide, open"']),
        ("5'10\", 6'2\"", []),
        ('because "old, worn"', ['"old, worn"']),
        ('do "call, today"', ['"call, today"']),
        ('hold back - "asked, twice"', ['"asked, twice"']),
        ('hold back – "asked, twice"', ['"asked, twice"']),
        ('seller said "it leaks, badly"', []),
        ('seller said: "it leaks, badly"', []),
        ('"never closed, photo 3', []),
        ('a | "b | c" | d', ['"b | c"']),
        ('"one", "two"', ['"one"', '"two"']),
        ('"', []),
        ('" | rear', []),
        ("” | rear", []),
        ('" | rear | "it leaks"', ['"it leaks"']),
        ('DO "x, y"', ['"x, y"']),
        ("Because “x, y”", ["“x, y”"]),
    ],
)
def test_where_a_quotation_opens_and_closes(text: str, expected: list[str]) -> None:
    assert quoted(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a | b | c", ["a", "b", "c"]),
        ("a|b|c", ["a", "b", "c"]),
        ("a\tb\tc", ["a", "b", "c"]),
        ("a\t\tc", ["a", "", "c"]),
        ("a || c", ["a", "", "c"]),
        ("a\t|\tb", ["a", "b"]),
        ('a | "b | c" | d', ["a", '"b | c"', "d"]),
        ('a | "b\tc" | d', ["a", '"b\tc"', "d"]),
        ('a | 3/8" | c', ["a", '3/8"', "c"]),
    ],
)
def test_cells_are_cut_at_bars_and_tabs_outside_quotations(text: str, expected: list[str]) -> None:
    assert texts(cells(Piece(text, 0))) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("gap 1/4 in, photo 3", ["gap 1/4 in", "photo 3"]),
        ("area 1,200 sq ft, photo 3", ["area 1,200 sq ft", "photo 3"]),
        ("1,234,567", ["1,234,567"]),
        ("3, 4", ["3", "4"]),
        ("19,22,38", ["19", "22", "38"]),
        ("12,34", ["12", "34"]),
        ("1,2345", ["1", "2345"]),
        ("a,200", ["a", "200"]),
        ('"one, two", three', ['"one, two"', "three"]),
        ("a,,b, ", ["a", "b"]),
        ('gap 3/8", photo 3', ['gap 3/8"', "photo 3"]),
    ],
)
def test_items_are_cut_at_commas_but_not_between_a_digit_and_exactly_three(text: str, expected: list[str]) -> None:
    assert texts(split(Piece(text, 0), ",")) == expected


@pytest.mark.parametrize(
    ("text", "public", "remark"),
    [
        ("loose -- tell Bob", "loose", True),
        ("loose — tell Bob", "loose", True),
        ("loose --", "loose", True),
        ("loose--tight", "loose--tight", False),
        ("loose—tight", "loose—tight", False),
        ("loose - tight", "loose - tight", False),
        ("loose – tight", "loose – tight", False),
        ('x | y | "he said -- no"', 'x | y | "he said -- no"', False),
        ('x | y | "he said — no" -- mine', 'x | y | "he said — no"', True),
        ('3/8" -- mine', '3/8"', True),
    ],
)
def test_two_hyphens_or_a_phone_dash_end_the_public_part(text: str, public: str, remark: bool) -> None:
    assert public_part(Piece(text, 0)) == (Piece(public, 0), remark)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("  no gfci  ", "no gfci"),
        ("- no gfci", "no gfci"),
        ("* no gfci", "no gfci"),
        ("• no gfci", "no gfci"),
        ("•\tno gfci", "no gfci"),
        ("– no gfci", "no gfci"),
        ("1. no gfci", "no gfci"),
        ("12. no gfci", "no gfci"),
        ("1.no gfci", "no gfci"),
        ("1) no gfci", "no gfci"),
        ("   -   no gfci", "no gfci"),
        ("no gfci | kitchen | |", "no gfci | kitchen"),
        ("no gfci\tkitchen\t\t\t", "no gfci\tkitchen"),
        ("-no gfci", "-no gfci"),
        ("1.5 in gap", "1.5 in gap"),
        ("-- mine", "-- mine"),
        ("\ufeffno gfci", "no gfci"),
        ("\u00a0no gfci\u200b", "no gfci"),
        ("\x0cno gfci", "no gfci"),
        ("\u2003no gfci\u3000", "no gfci"),
        ("| front", "| front"),
        ("|", "|"),
        ("", ""),
        (" \t \u00a0", ""),
    ],
)
def test_space_trailing_cells_and_a_list_mark_are_stripped_first(typed: str, expected: str) -> None:
    assert strip_line(typed).text == expected


def test_the_first_sign_outside_quotations_decides() -> None:
    assert first_sign(Piece("a = b | c", 0)) == ("=", 2)
    assert first_sign(Piece("a | b = c", 0)) == ("|", 2)
    assert first_sign(Piece("a\tb = c", 0)) == ("|", 1)
    assert first_sign(Piece('"a = b" | c', 0)) == ("|", 8)
    assert first_sign(Piece('"a = b | c"', 0)) == ("", -1)


def test_columns_count_in_the_line_as_typed() -> None:
    line = strip_line("  - no gfci |  kitchen | gap 3 in,  photo 3")
    what, where, details = cells(line)
    assert (what.start, where.start) == (4, 15)
    assert [item.start for item in split(details, ",")] == [25, 36]


def test_a_quotation_that_is_the_whole_text_is_its_words() -> None:
    assert unquote('"it leaks"') == "it leaks"
    assert unquote('"it" leaks') is None
    assert unquote("it leaks") is None
    assert trim("\u200b it leaks\u00a0") == "it leaks"


def test_a_line_of_ten_thousand_marks_is_quick() -> None:
    for text in ('"' * 10_000, ",“" * 5_000, '," ' * 3_000, "| " * 5_000, " " * 10_000 + "x"):
        assert quotations(text) is not None
        assert cells(Piece(text, 0))
