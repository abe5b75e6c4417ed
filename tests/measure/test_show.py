"""Quantities as they are printed: typed ones in their own form, computed ones rounded."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from narrator.measure.quantity import Quantity
from narrator.measure.scan import parse_value
from narrator.measure.show import number_word, show, show_range, show_value

TYPED = {
    '1/4"': "1/4 inch", "1 in": "1 inch", "1-1/2 in": "1 1/2 inches", "7½ in": "7 1/2 inches", '2"': "2 inches",
    "0 in": "0 inches",
    "0.5 in": "0.5 inch", "12.5 in": "12.5 inches", "4/8 in": "1/2 inch", "1/32 in": "1/32 inch",
    "9/4 in": "2 1/4 inches",
    "5'10\"": "5 feet 10 inches", "5' 10 1/2\"": "5 feet 10 1/2 inches", "6' 1\"": "6 feet 1 inch",
    "1 ft 6 in": "1 foot 6 inches",
    "5 1/2 ft": "5 1/2 feet", "5.5 ft": "5.5 feet", "6'": "6 feet", "1 ft": "1 foot", "1/2 ft": "1/2 foot",
    "5'10\" to 6'2\"": "5 feet 10 inches to 6 feet 2 inches", "6'-8'": "6 to 8 feet",
    "6 in to 2 ft": "6 to 24 inches",
    "12 mm": "12 mm", "2.5 cm": "2.5 cm", "7 to 9-1/4 in": "7 to 9 1/4 inches", "1/4-1/2 in": "1/4 to 1/2 inch",
    "~4 in": "about 4 inches", "<1/16 in": "less than 1/16 inch", "> 2 in": "more than 2 inches",
    "~7-9 in": "about 7 to 9 inches",
    "11 of 14": "11 of 14", "made 2005": "2005", "mfg ~2005": "about 2005", "18 yr old": "18 years",
    "1 yr": "1 year", "6 mo": "6 months",
    "20%": "20 %", "20-24%": "20 to 24 %", "-2 %": "-2 %", "138F": "138 °F", "58 C": "58 °C", "30°": "30 degrees",
    "60 psi": "60 psi",
    "20A": "20 amps", "1 amp": "1 amp", "240V": "240 volts", "1200 sf": "1,200 square feet",
    "1 sq ft": "1 square foot", "40 gal": "40 gallons",
    "8/12": "8 in 12", "4/12 to 6/12": "4 to 6 in 12", '1/4" per ft': "1/4 inch per foot", "R-19": "R-19",
    "R-30 to R-38": "R-30 to R-38",
    "14 ga": "14 gauge", "50 cfm": "50 cubic feet per minute", "50 lb": "50 pounds", "9 ppm": "9 parts per million",
    "3 ton": "3 tons",
    "4": "4", "7 1/2": "7 1/2", "1,200": "1,200", "2005": "2005", "1/150": "1/150", "0.5 in wc": "0.5 inch of water",
}  # fmt: skip

COMPUTED = {
    (F(1, 4), "inch"): "1/4 inch", (F(300, 254), "inch"): "1 3/16 inches", (F(1, 32), "inch"): "1/16 inch",
    (F(1, 50), "inch"): "less than 1/16 inch",
    (F(0), "inch"): "0 inches", (F(35, 6), "foot"): "5 feet 10 inches", (F(1, 2), "foot"): "6 inches",
    (F(2, 1), "foot"): "2 feet",
    (F(599, 100), "foot"): "5 feet 11 7/8 inches", (F(5999, 1000), "foot"): "6 feet",
    (F(508, 10), "millimeter"): "51 mm", (F(5, 2), "millimeter"): "3 mm",
    (F(1, 10), "millimeter"): "0.1 mm", (F(4884, 100), "degC"): "49 °C", (F(120), "degF"): "120 °F",
    (F(25, 6), "percent"): "4.17 %",
    (F(1, 150), "dimensionless"): "1/150", (F(5, 2), "dimensionless"): "2.5", (F(5), "inch/foot"): "5 in 12",
    (F(1, 4), "inch/foot"): "1/4 inch per foot",
    (F(1234567), "foot**2"): "1,234,567 square feet", (F(57, 10), "foot**2"): "5.7 square feet",
    (F(10), "year"): "10 years", (F(1978), "date"): "1978",
    (F(49), "delta_degF*foot**2*hour/Btu"): "R-49", (F(3), ""): "3", (F(-1, 2), "inch"): "-1/2 inch",
}  # fmt: skip


@pytest.mark.parametrize("typed", TYPED)
def test_typed(typed: str) -> None:
    value = parse_value(typed)
    assert value is not None
    assert show(value) == TYPED[typed]


@pytest.mark.parametrize("typed", [typed for typed in TYPED if not typed.startswith(("made", "mfg"))])
def test_what_is_printed_reads_back(typed: str) -> None:
    value = parse_value(typed)
    assert value is not None
    again = parse_value(show(value))
    assert again is not None
    assert (again.low, again.high, again.unit, again.bound, again.of) == (
        value.low,
        value.high,
        value.unit,
        value.bound,
        value.of,
    )


@pytest.mark.parametrize(("value", "unit"), COMPUTED)
def test_computed(value: F, unit: str) -> None:
    assert show_value(value, unit) == COMPUTED[value, unit]


def test_halves_go_away_from_zero() -> None:
    assert [show_value(F(n, 2), "psi") for n in (3, 5, 7)] == ["2 psi", "3 psi", "4 psi"]
    assert show_value(F(3, 32), "inch") == "1/8 inch"


def test_ranges() -> None:
    assert show_range(F(34), F(38), "inch") == "34 to 38 inches"
    assert show_range(F(34), F(34), "inch") == "34 inches"
    assert show_range(F(3, 32), F(3, 32), "inch", exact=True) == "3/32 inch"
    assert show_range(F("0.019"), F("0.019"), "inch", exact=True) == "0.019 inch"


def test_a_quantity_without_text() -> None:
    assert show(Quantity(F(71, 10), F(71, 10), "inch", "~")) == "about 7 1/8 inches"


def test_number_words() -> None:
    assert [number_word(n) for n in (0, 1, 11, 12, 13, 1500)] == ["0", "one", "eleven", "twelve", "13", "1,500"]
