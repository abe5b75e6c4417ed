"""Dew point, saturation pressure and condensation against air.yaml beside this file and the psychrolib package.

The file says for each block its source and how it is known: computed points (psychrolib), printed saturation pressures
that were read in that library's own tests, and cases of surfaces. The 80 percent of surface humidity as a design
criterion (ASHRAE160) is known by memory only; the test uses it as a mere comparison.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import psychrolib
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from narrator.measure.air import dew_point, saturation_pressure, surface_condensation, vapor_pressure

FACTS: dict[str, Any] = yaml.safe_load((Path(__file__).parent / "air.yaml").read_text("utf-8"))
DEW_TOLERANCE = 0.05  # kelvin
PSI = 6894.757293168

psychrolib.SetUnitSystem(psychrolib.SI)


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


@pytest.mark.parametrize("row", FACTS["points_f"], ids=lambda row: f"{row['air_f']} F {row['humidity']}")
def test_points_in_fahrenheit(row: dict[str, Any]) -> None:
    """Source PSYCHROLIB, computed; dew points over water by the Magnus form, which holds to 0.1 °F."""
    air = celsius(row["air_f"])
    assert dew_point(air, row["humidity"]) == pytest.approx(celsius(row["dew_f"]), abs=DEW_TOLERANCE)
    assert vapor_pressure(air, row["humidity"]) == pytest.approx(row["vapor_pa"], abs=0.06)
    if row["air_f"] >= 32:  # below, the Magnus figure takes the humidity over water too
        over_water = dew_point(air, row["humidity"], over_ice=False)
        assert over_water == pytest.approx(celsius(row["over_water_f"]), abs=0.1 * 5 / 9)


@pytest.mark.parametrize("row", FACTS["points_c"], ids=lambda row: f"{row['air_c']} C {row['humidity']}")
def test_points_in_celsius(row: dict[str, Any]) -> None:
    """Source PSYCHROLIB, computed."""
    assert dew_point(row["air_c"], row["humidity"]) == pytest.approx(row["dew_c"], abs=DEW_TOLERANCE)
    assert vapor_pressure(row["air_c"], row["humidity"]) == pytest.approx(row["vapor_pa"], abs=0.06)


def test_altitude_does_not_matter() -> None:
    """Source PSYCHROLIB, computed at five heights."""
    for row in FACTS["altitudes"]:
        ours = dew_point(celsius(row["air_f"]), row["humidity"])
        assert ours == pytest.approx(celsius(row["dew_f"]), abs=DEW_TOLERANCE)


@pytest.mark.parametrize("row", FACTS["saturation"], ids=lambda row: f"{row['unit']} {row['pressure']}")
def test_saturation_pressure(row: dict[str, Any]) -> None:
    """Source ASHRAE-T3, read second hand."""
    degrees = row["celsius"] if "celsius" in row else celsius(row["degrees_f"])
    pressure = row["pressure"] * (PSI if row["unit"] == "psi" else 1)
    assert saturation_pressure(degrees) == pytest.approx(pressure, rel=row["tolerance"])


def test_magnus_form() -> None:
    """Source MAGNUS, read second hand: another fit over water, near to ours where houses are."""
    m = FACTS["magnus"]
    for degrees in range(0, 51, 5):
        magnus = 1000 * m["e0_kpa"] * math.exp(m["a"] * degrees / (m["b_c"] + degrees))
        assert saturation_pressure(degrees, over_ice=False) == pytest.approx(magnus, rel=0.0025)


def test_printed_dew_points() -> None:
    for row in FACTS["dew_points"]:
        ours = dew_point(celsius(row["air_f"]), row["humidity"])
        assert ours == pytest.approx(celsius(row["dew_f"]), abs=row["tolerance"] * 5 / 9)


def check_surface(row: dict[str, Any], degrees: Any, kelvin: float) -> None:
    ours = surface_condensation(degrees(row["air"]), row["humidity"], degrees(row["surface"]))
    assert ours.wet == ("yes" if row["wet"] else "no")
    assert ours.dew_point == pytest.approx(degrees(row["dew"]), abs=DEW_TOLERANCE)
    assert ours.margin == pytest.approx(row["margin"] * kelvin, abs=DEW_TOLERANCE)
    assert ours.humidity == pytest.approx(row["at_surface"], abs=0.06)
    assert (ours.humidity >= 80) is row["eighty"]


@pytest.mark.parametrize("row", FACTS["surfaces_f"], ids=lambda row: f"{row['air']} {row['humidity']} {row['surface']}")
def test_surfaces_in_fahrenheit(row: dict[str, Any]) -> None:
    """Source PSYCHROLIB, computed; the rule from TF-COND and RLC, read."""
    check_surface(row, celsius, 5 / 9)


@pytest.mark.parametrize("row", FACTS["surfaces_c"], ids=lambda row: f"{row['air']} {row['humidity']} {row['surface']}")
def test_surfaces_in_celsius(row: dict[str, Any]) -> None:
    """Source PSYCHROLIB, computed; the rule from TF-COND and RLC, read."""
    check_surface(row, float, 1.0)


@given(st.floats(-40, 60), st.floats(1, 100))
def test_dew_point_against_psychrolib(air: float, humidity: float) -> None:
    theirs = psychrolib.GetTDewPointFromRelHum(air, humidity / 100)
    assert dew_point(air, humidity) == pytest.approx(theirs, abs=DEW_TOLERANCE)


@given(st.floats(-90, 150))
def test_saturation_pressure_against_psychrolib(degrees: float) -> None:
    assert saturation_pressure(degrees) == pytest.approx(psychrolib.GetSatVapPres(degrees), rel=1e-9)


def test_every_source_is_named() -> None:
    named = {row["source"] for key in ("saturation", "dew_points") for row in FACTS[key]} | {FACTS["magnus"]["source"]}
    assert all(FACTS["sources"][name]["title"] for name in named)
