"""Dimensions, plausible units, conversions that fail in plain words."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from narrator.measure.spelling import read_unit
from narrator.measure.units import KINDS, UNITS, compatible, convert, default_units, dimension, nearest_unit


@pytest.mark.parametrize(
    ("unit", "kind", "fits"),
    [
        ("inch", "length", True), ("pound", "length", False), ("percent", "moisture", True),
        ("percent", "humidity", True),
        ("percent", "slope", True), ("percent", "ratio", True), ("inch/foot", "slope", True),
        ("degree", "slope", True),
        ("degree", "temperature", False), ("degF", "temperature", True), ("year", "age", True),
        ("hour", "age", True), ("date", "age", False),
        ("inch", "slope", False), ("", "length", False), ("", "temperature", False), ("", "age", True),
        ("", "moisture", True),
        ("", "count", True), ("", "nothing", False), ("furlong", "length", False), ("r-value", "insulation", True),
    ],
)  # fmt: skip
def test_compatible(unit: str, kind: str, fits: bool) -> None:
    assert compatible(unit, kind) is fits


def test_kinds_and_defaults() -> None:
    for kind in KINDS:
        assert all(compatible(unit, kind) for unit in default_units(kind)), kind
    assert default_units("length") == ("inch", "foot", "millimeter")
    assert default_units("nothing") == ()


def test_exact_conversions() -> None:
    assert convert(F(1, 4), "inch", "millimeter") == F("6.35")
    assert convert(F(6), "inch", "foot") == F(1, 2)
    assert convert(F(212), "degF", "degC") == 100
    assert convert(F(9), "delta_degF", "delta_degC") == 5
    assert convert(F(5), "percent", "inch/foot") == F(3, 5)
    assert convert(F(1, 12), "dimensionless", "inch/foot") == 1
    assert convert(F(2), "year", "month") == 24
    assert convert(F(7), "inch", "inch") == 7


@pytest.mark.parametrize(
    ("unit", "to", "words"),
    [
        ("pound", "inch", "pounds cannot be said in inches: weight is not length"),
        ("degF", "delta_degF", "°F cannot be said in °F: they measure different things"),
        ("furlong", "inch", "'furlong' is not a unit"),
        ("degree", "percent", "an angle of 90 degrees has no slope"),
    ],
)
def test_what_does_not_convert(unit: str, to: str, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        convert(F(90), unit, to)


def test_every_unit_converts_to_its_like_and_back() -> None:
    for one in UNITS.values():
        for other in UNITS.values():
            if one.base == other.base:
                assert convert(convert(F(7, 3), one.id, other.id), other.id, one.id) == F(7, 3)


def test_every_spelling_is_read_as_its_unit() -> None:
    for unit in UNITS.values():
        for spelling in unit.spellings:
            typed = f"4 {spelling}"
            assert read_unit(typed, 1) == (unit.id, len(typed)), spelling
            assert read_unit(f"4 {spelling} gap", 1) == (unit.id, len(typed)), spelling


def test_dimension_and_nearest() -> None:
    assert dimension("foot**2") == "area"
    assert dimension("") == dimension("furlong") == ""
    assert nearest_unit("inchs") == nearest_unit("inche") == "inches"
    assert nearest_unit("galons") == "gallons"
    assert nearest_unit("xyzzy") is None
    assert nearest_unit("q") is None
