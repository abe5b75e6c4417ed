"""Quantities in the shapes that inspectors type, and what must not be taken for one."""

from __future__ import annotations

from fractions import Fraction as F
from time import perf_counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrator.measure.quantity import Quantity
from narrator.measure.scan import parse_value, scan
from narrator.measure.show import show


def q(low: F | int, unit: str = "", high: F | int | None = None, bound: str = "", of: int | None = None) -> Quantity:
    """The expected quantity, its text left out."""
    return Quantity(F(low), F(low if high is None else high), unit, bound, None if of is None else F(of))


def bare(quantity: Quantity) -> Quantity:
    """The quantity without the text typed."""
    return Quantity(quantity.low, quantity.high, quantity.unit, quantity.bound, quantity.of)


def found(text: str) -> list[Quantity]:
    return [bare(one.quantity) for one in scan(text)]


ALONE = {
    # lengths
    "7 1/2": q(F(15, 2)), "7-1/2": q(F(15, 2)), "½": q(F(1, 2)), "7½": q(F(15, 2)), "7 ½": q(F(15, 2)),
    "1/4 in": q(F(1, 4), "inch"), '3/8"': q(F(3, 8), "inch"), "3/8”": q(F(3, 8), "inch"), "3/8″": q(F(3, 8), "inch"),
    "3/8''": q(F(3, 8), "inch"), "3⁄8 in.": q(F(3, 8), "inch"), "7-1/2in": q(F(15, 2), "inch"),
    "0.5 in": q(F(1, 2), "inch"), ".25\"": q(F(1, 4), "inch"), "9/4 in": q(F(9, 4), "inch"), "7/10 in": q(F(7, 10),
    "inch"),
    "5'10\"": q(F(35, 6), "foot"), "5' 10 1/2\"": q(F(47, 8), "foot"), "5 ft 10 in": q(F(35, 6), "foot"),
    "5’10”": q(F(35, 6), "foot"), "5′ 10″": q(F(35, 6), "foot"), "5'-10\"": q(F(35, 6), "foot"), "5'10": q(F(35, 6),
    "foot"),
    "5 feet 10 inches": q(F(35, 6), "foot"), "5ft10in": q(F(35, 6), "foot"), "6'": q(6, "foot"),
    "12 mm": q(12, "millimeter"),
    "12mm": q(12, "millimeter"), "2.5 cm": q(F(5, 2), "centimeter"), "2 m": q(2, "meter"), "6 mil": q(6, "mil"),
    "12\u00a0mm": q(12, "millimeter"),
    # slopes
    "8/12": q(8, "inch/foot"), "8 / 12": q(8, "inch/foot"), "8/12 pitch": q(8, "inch/foot"),
    "8:12": q(8, "inch/foot"),
    "4 in 12": q(4, "inch/foot"), "2 1/2 in 12": q(F(5, 2), "inch/foot"), '1/4" per ft': q(F(1, 4), "inch/foot"),
    "1/4 in/ft": q(F(1, 4), "inch/foot"), "-2 %": q(-2, "percent"), "−2%": q(-2, "percent"),
    "1:12": q(1, "inch/foot"),
    # bounds and ranges
    "~4": q(4, bound="~"), "abt 4": q(4, bound="~"), "approx. 4 in": q(4, "inch", bound="~"), "≈ 4": q(4, bound="~"),
    "<1/16": q(F(1, 16), bound="<"), ">2": q(2, bound=">"), "< 1/16 in": q(F(1, 16), "inch", bound="<"),
    "less than 1/16 in": q(F(1, 16), "inch", bound="<"), "more than 2 in": q(2, "inch", bound=">"),
    "7 to 9-1/4 in": q(7, "inch", F(37, 4)), "7-9 in": q(7, "inch", 9), "7–9 in": q(7, "inch", 9),
    "7-9-1/4 in": q(7, "inch", F(37, 4)), '7"-9"': q(7, "inch", 9), "7 in to 9 in": q(7, "inch", 9),
    "6'-8'": q(6, "foot", 8), "6 in to 2 ft": q(6, "inch", 24), "20-24%": q(20, "percent", 24),
    "9 to 7 in": q(7, "inch", 9),
    "~7-9 in": q(7, "inch", 9, "~"), "1/4-1/2 in": q(F(1, 4), "inch", F(1, 2)), "4/12 to 6/12": q(4, "inch/foot", 6),
    "7-9": q(7, high=9), "7 to 9-1/4": q(7, high=F(37, 4)),
    # counts and shares
    "11 of 14": q(11, of=14), "11 out of 14": q(11, of=14), "3": q(3), "1/150": q(F(1, 150)), "20%": q(20, "percent"),
    "20 percent": q(20, "percent"), "2 ea": q(2, "count"),
    # temperatures, ages, dates
    "138F": q(138, "degF"), "138 F": q(138, "degF"), "138°F": q(138, "degF"), "138 deg F": q(138, "degF"),
    "138f": q(138, "degF"),
    "58 C": q(58, "degC"), "120 degrees": q(120, "degree"), "30°": q(30, "degree"),
    "18 yr old": q(18, "year"), "18 yrs": q(18, "year"), "18y/o": q(18, "year"), "18 years old": q(18, "year"),
    "18-yr-old": q(18, "year"),
    "10 years": q(10, "year"), "6 mo": q(6, "month"), "made 2005": q(2005, "date"), "mfg 2005": q(2005, "date"),
    "2005 mfg": q(2005, "date"), "built 1998": q(1998, "date"), "dated 2005": q(2005, "date"),
    "made 3/2005": q(2005, "date"),
    "made in March 2005": q(2005, "date"), "mfd ~2005": q(2005, "date", bound="~"),
    # the rest of the house
    "1,200 sq ft": q(1200, "foot**2"), "1200 sf": q(1200, "foot**2"), "60 psi": q(60, "psi"),
    "240V": q(240, "volt"), "30A": q(30, "ampere"),
    "20 amp": q(20, "ampere"), "30a": q(30, "ampere"), "14 ga": q(14, "awg"), "14 awg": q(14, "awg"),
    "R-19": q(19, "r-value"), "R38": q(38, "r-value"),
    "r-30 to r-38": q(30, "r-value", 38), "5 gpm": q(5, "gallon/minute"), "50 cfm": q(50, "foot**3/minute"),
    "40-gal": q(40, "gallon"),
    "25 ohms": q(25, "ohm"), "3 ton": q(3, "refrigeration_ton"), "9 ppm": q(9, "ppm"),
    "4 pCi/L": q(4, "picocurie/liter"),
    "40,000 Btu/h": q(40000, "Btu/hour"), "0.5 in. w.c.": q(F(1, 2), "inch_H2O"), "50 lb": q(50, "pound"),
    "2 sec": q(2, "second"),
}  # fmt: skip

WITHIN = {
    "gap 1/4 in": [q(F(1, 4), "inch")],
    "gap 4.": [q(4)],
    "WH 18 yr old, 138F at tap": [q(18, "year"), q(138, "degF")],
    "11 of 14 tripped": [q(11, of=14)],
    "19 22 38 OL no-hold": [q(19), q(22), q(38)],
    "190 178 165 mm": [q(190), q(178), q(165, "millimeter")],
    "A1 11, A7-A8 no-hold": [q(11)],
    "1/4 in x3": [q(F(1, 4), "inch")],
    "3 in kitchen": [q(3)],
    "3 in the hall": [q(3)],
    "3 in deep": [q(3, "inch")],
    "riser 7 3/4, tread 9-1/2\"": [q(F(31, 4)), q(F(19, 2), "inch")],
    "20A brkr on 14 ga wire": [q(20, "ampere"), q(14, "awg")],
    "60 psi, 2 in. main": [q(60, "psi"), q(2, "inch")],
    "gap 1/4\"; 3/8\" at left": [q(F(1, 4), "inch"), q(F(3, 8), "inch")],
    "made 2005, 12 yrs": [q(2005, "date"), q(12, "year")],
    "2x6 at 16 in": [q(16, "inch")],
    "3/4/2026 depth 2 in": [q(2, "inch")],
    "at 14:10 read 38 %": [q(38, "percent")],
    "7 - 9 outlets": [q(7), q(9)],
    "crack 1/8 in wide x 4 ft long": [q(F(1, 8), "inch"), q(4, "foot")],
    "guard 34in high, balusters 5\" apart": [q(34, "inch"), q(5, "inch")],
    "2 in. from sink": [q(2, "inch")],
    "3/16\" - 1/4\" wide": [q(F(3, 16), "inch", F(1, 4))],
    "roof 5 on 12": [q(5, "inch/foot")],
    "2/3 of 40 sq ft": [q(F(2, 3)), q(40, "foot**2")],
}  # fmt: skip

NEVER = [
    "", "no figure", "A1", "B2", "2x4", "2x6", "2 x 4", "3 x 5", "20 x 24 in", '20" x 24"', "2×4", "3-way", "2nd",
    "1st", "3rd floor", "4th",
    "1/0", "0/4", "7 1/0", "3/4/2026", "2026-03-04", "3-4-26", "4 March 2026", "March 4, 2026", "Mar 4", "14:10",
    "2:10 pm", "5 p.m.", "9 am",
    "555-123-4567", "(555) 123-4567", "123-4567", "1/2/3", "1.2.3", "11/14 tripped", "15/20A", "120/240V", "$1,200",
    "€50", "#12", "12/2 NM",
    "14-2 wire", "W2-B", "R410A", "R-410A", "x3", "UF4B", "3-in-1", "2 in-line fans", "2 in x 4 in", "1990s",
    "the 80's", "a@b2.com",
    "https://x.org/4", "12 ± 2", "+-2", "≤4",
    ">=4", "20+", "007", "H2O", "CO2", "4K", "5e3", "٣", "²", "m²", "10.0.0.1", "'05",
]  # fmt: skip


@pytest.mark.parametrize("text", ALONE)
def test_a_quantity_alone(text: str) -> None:
    value = parse_value(f"  {text} ")
    assert value is not None
    assert bare(value) == ALONE[text]
    assert value.text == text


@pytest.mark.parametrize("text", ALONE)
def test_the_same_quantity_in_a_line(text: str) -> None:
    assert found(f"the crack, {text}, left side") == [ALONE[text]]


@pytest.mark.parametrize("text", WITHIN)
def test_quantities_in_a_line(text: str) -> None:
    assert found(text) == WITHIN[text]


@pytest.mark.parametrize("text", NEVER)
def test_no_quantity(text: str) -> None:
    assert scan(text) == ()
    assert parse_value(text) is None


@pytest.mark.parametrize("text", ["1/4 in gap", "gap 1/4 in", "3 4", "1/4 in, 3/8 in"])
def test_more_than_a_value_is_no_value(text: str) -> None:
    assert parse_value(text) is None


def test_spans_and_text() -> None:
    line = "Gap abt ¼ in at left, 5’10” up"
    first, second = scan(line)
    assert line[first.start : first.end] == first.quantity.text == "abt ¼ in"
    assert line[second.start : second.end] == second.quantity.text == "5’10”"


def test_dimension() -> None:
    assert [one.quantity.dimension for one in scan("4 in, 18 yr old, 38 %, made 2005, 7")] == [
        "length",
        "age",
        "percent",
        "date",
        "",
    ]


PIECES = st.sampled_from(
    [
        "0",
        "1",
        "2",
        "3",
        "7",
        "9",
        "10",
        "12",
        "14",
        "2005",
        "1/2",
        "3/4",
        "½",
        ".",
        ",",
        "-",
        "–",
        "/",
        ":",
        "'",
        '"',
        "’",
        "”",
        "in",
        "ft",
        "inch",
        "feet",
        "of",
        "to",
        "x",
        "×",
        "%",
        "F",
        "C",
        "A",
        "V",
        "m",
        "°",
        "deg",
        "psi",
        "yr",
        "old",
        "R-",
        "made",
        "~",
        "<",
        ">",
        "abt",
        "less",
        "than",
        "(",
        ")",
        "a",
        "b",
        "pitch",
        "per",
        "sq",
        "±",
        "#",
        "$",
        "@",
        "&",
        "th",
        "pm",
        "at",
        "March",
        "8/12",
        "5'10\"",
        "1,200",
        "=",
        "\t",
        ";",
        "?",
    ]
)
SLOPPY = st.lists(st.one_of(PIECES, st.just(" ")), max_size=14).map("".join)


@settings(max_examples=1000, deadline=None)
@given(st.one_of(SLOPPY, st.text(max_size=60)))
def test_never_raises_and_spans_read_back(text: str) -> None:
    last = 0
    for one in scan(text):
        assert last <= one.start < one.end <= len(text)
        last = one.end
        typed = text[one.start : one.end]
        assert typed == one.quantity.text
        assert parse_value(typed) == one.quantity
        assert one.quantity.low <= one.quantity.high
        assert show(one.quantity)


@pytest.mark.parametrize(
    "piece", ["a", "1", "1 ", "1-", "1/2 ", "a1@", "7 to ", "$1,", "5'", "March ", "~", "1 in 12 ", "- "]
)
def test_a_very_long_line_takes_no_time(piece: str) -> None:
    started = perf_counter()
    scan(piece * 20_000)
    assert perf_counter() - started < 10
