"""Humid air and wood: properties that hold for all figures, and answers that the readings leave open."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrator.measure.air import dew_point, saturation_pressure, surface_condensation, surface_humidity, vapor_pressure
from narrator.measure.wood import correct_reading, equilibrium_moisture, humidity_for_moisture

AIR = st.floats(-30, 50)
HUMIDITY = st.floats(1, 100)


@given(AIR, HUMIDITY)
def test_a_dew_point_is_never_above_the_air(air: float, humidity: float) -> None:
    dew = dew_point(air, humidity)
    assert dew <= air
    assert saturation_pressure(dew) == pytest.approx(vapor_pressure(air, humidity), rel=1e-3)


@given(AIR, HUMIDITY)
def test_over_water_a_dew_point_is_no_higher_than_the_frost_point(air: float, humidity: float) -> None:
    assert dew_point(air, humidity, over_ice=False) <= dew_point(air, humidity) + 0.002


def test_saturated_air_wets_what_is_no_warmer() -> None:
    for air in (-20, 0, 21.3):
        assert dew_point(air, 100) == pytest.approx(air, abs=1e-9)
        assert surface_condensation(air, 100, air).wet == "yes"


@given(AIR, HUMIDITY, AIR)
def test_a_wet_surface_has_saturated_air_on_it(air: float, humidity: float, surface: float) -> None:
    found = surface_condensation(air, humidity, surface)
    assert found.humidity == surface_humidity(air, humidity, surface) <= 100
    assert found.margin == pytest.approx(surface - found.dew_point)
    if abs(found.margin) > 0.01:
        assert (found.wet == "yes") == (found.humidity == 100)


@pytest.mark.parametrize(
    ("surface", "surface_error", "humidity_error", "wet"),
    [
        (9.0, 0.0, 0.0, "yes"),
        (9.5, 0.0, 0.0, "no"),
        (9.5, 0.5, 0.0, "too close"),
        (9.5, 0.0, 3.0, "too close"),
        (8.0, 1.0, 0.0, "yes"),
        (8.0, 1.0, 3.0, "too close"),
        (13.0, 1.0, 3.0, "no"),
        (13.0, 0.0, 60.0, "too close"),
    ],
)
def test_the_instruments_may_leave_it_open(
    surface: float, surface_error: float, humidity_error: float, wet: str
) -> None:
    """Air of 20 °C and 50 percent: dew point 9.27 °C (computed with psychrolib)."""
    found = surface_condensation(20, 50, surface, surface_error=surface_error, humidity_error=humidity_error)
    assert found.wet == wet
    assert found.dew_point == pytest.approx(9.27, abs=0.01)


@given(AIR, HUMIDITY, AIR, st.floats(0, 3), st.floats(0, 20))
def test_uncertainty_never_turns_an_answer_round(
    air: float, humidity: float, surface: float, surface_error: float, humidity_error: float
) -> None:
    sure = surface_condensation(air, humidity, surface)
    unsure = surface_condensation(air, humidity, surface, surface_error=surface_error, humidity_error=humidity_error)
    assert unsure.wet in (sure.wet, "too close")
    assert (unsure.dew_point, unsure.margin, unsure.humidity) == (sure.dew_point, sure.margin, sure.humidity)


@given(st.floats(-10, 60), st.floats(0, 99), st.floats(0.1, 1))
def test_damper_air_makes_damper_wood(celsius: float, humidity: float, more: float) -> None:
    assert equilibrium_moisture(celsius, humidity) < equilibrium_moisture(celsius, humidity + more)


@given(st.floats(-10, 60), st.floats(0, 100))
def test_humidity_and_moisture_turn_each_other_round(celsius: float, humidity: float) -> None:
    moisture = equilibrium_moisture(celsius, humidity)
    assert humidity_for_moisture(celsius, moisture) == pytest.approx(humidity, abs=1e-6)


def test_dry_air_leaves_wood_dry() -> None:
    assert equilibrium_moisture(20, 0) == 0
    assert humidity_for_moisture(20, 0) == pytest.approx(0, abs=1e-9)


@given(st.floats(5, 30), st.floats(-10, 19), st.floats(25, 50))
def test_cold_wood_reads_low_and_warm_wood_high(raw: float, cold: float, warm: float) -> None:
    for method, rate in (("garrahan", None), ("per degree", 0.1)):
        assert correct_reading(raw, cold, method, per_degree=rate).value > raw
        assert correct_reading(raw, warm, method, per_degree=rate).value < raw


def test_a_correction_stands_beside_the_raw_reading() -> None:
    found = correct_reading(15, 10, "garrahan", species=" Sitka Spruce ")
    assert (found.raw, found.method, found.celsius, found.species) == (15, "garrahan", 10, "sitka spruce")
    assert found.value == pytest.approx(18.8, abs=0.01)
    assert correct_reading(15, 25, "per degree", per_degree=0.1, reference=25).value == 15
