"""Conversions against the pint package: its default registry within float precision, and exactly with fractions."""

from __future__ import annotations

import math
import random
from fractions import Fraction

import pint
import pytest

from narrator.measure.units import UNITS, convert

SEED = 20260304
VALUES = 1000

# Ids that pint spells otherwise, and those that it does not have (a gauge, a year of making, a bare count...).
PINT_NAMES = {
    "mil": "thou",
    "r-value": "delta_degF*foot**2*hour/Btu",
}
NOT_IN_PINT = {"awg", "date", "decibel", "count"}


def pint_name(unit: str) -> str:
    return PINT_NAMES.get(unit, unit)


DEFAULT: pint.UnitRegistry[float] = pint.UnitRegistry()
EXACT: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)


def convertible() -> list[tuple[str, str]]:
    """All pairs of units that both this table and pint convert."""
    pairs = []
    for one in UNITS.values():
        for other in UNITS.values():
            if one.id == other.id or one.base != other.base or {one.id, other.id} & NOT_IN_PINT:
                continue
            if DEFAULT(pint_name(one.id)).dimensionality == DEFAULT(pint_name(other.id)).dimensionality:
                pairs.append((one.id, other.id))
    return pairs


def cases() -> list[tuple[Fraction, str, str]]:
    """A thousand values: every pair of units at least once, figures as a tape or a gauge gives them."""
    chosen = random.Random(SEED)
    pairs = convertible()
    drawn = pairs + [chosen.choice(pairs) for _ in range(VALUES - len(pairs))]
    figures = []
    for one, other in drawn[:VALUES]:
        sixteenths = Fraction(chosen.randint(1, 9600), 16)
        hundredths = Fraction(chosen.randint(1, 200000), 100)
        figures.append((chosen.choice((sixteenths, hundredths)), one, other))
    return figures


def test_enough_pairs() -> None:
    pairs = convertible()
    assert 150 <= len(pairs) <= VALUES
    assert {"inch", "foot", "degF", "delta_degF", "psi", "foot**2", "inch/foot"} <= {one for one, _ in pairs}


def test_every_other_unit_is_known_to_pint() -> None:
    for unit in UNITS.keys() - NOT_IN_PINT:
        DEFAULT(pint_name(unit))


def test_a_thousand_values_against_the_default_registry() -> None:
    for value, one, other in cases():
        expected = DEFAULT.Quantity(float(value), pint_name(one)).to(pint_name(other)).magnitude
        ours = float(convert(value, one, other))
        assert math.isclose(ours, expected, rel_tol=1e-9, abs_tol=1e-9), (value, one, other)


def test_a_thousand_values_exactly() -> None:
    for value, one, other in cases():
        expected = EXACT.Quantity(value, pint_name(one)).to(pint_name(other)).magnitude
        assert isinstance(expected, (Fraction, int)), (one, other)
        assert convert(value, one, other) == expected, (value, one, other)


@pytest.mark.parametrize(("rise", "degrees"), [(0, 0.0), (2, 9.46), (3, 14.04), (6, 26.57), (12, 45.0)])
def test_slopes_in_degrees(rise: int, degrees: float) -> None:
    """Degrees of common pitches, arithmetic: degrees = atan(rise / 12)."""
    assert float(convert(Fraction(rise), "inch/foot", "degree")) == pytest.approx(degrees, abs=0.005)
    assert float(convert(Fraction(str(degrees)), "degree", "inch/foot")) == pytest.approx(rise, abs=0.01)
