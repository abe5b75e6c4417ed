"""Air and cold surfaces: saturation pressure, dew point, and whether a surface could be wet by condensation.

Temperatures are in degrees Celsius, relative humidity in percent, pressures in pascal.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

__all__ = [
    "NO",
    "TOO_CLOSE",
    "YES",
    "Surface",
    "dew_point",
    "saturation_pressure",
    "surface_condensation",
    "surface_humidity",
    "vapor_pressure",
]

YES, NO, TOO_CLOSE = "yes", "no", "too close"

# ln(p) = a[0]/T + a[1] + a[2]*T + a[3]*T**2 + a[4]*T**3 + a[5]*T**4 + a[6]*ln(T), T in kelvin, p in pascal: Hyland and
# Wexler 1983, ASHRAE Handbook of Fundamentals 2017, chapter 1, equations 5 (ice) and 6 (water).
_ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)
_KELVIN = 273.15
_TRIPLE_POINT = 0.01  # degrees Celsius: ice below, water above
_COLDEST, _HOTTEST = -100.0, 200.0  # the range of the equations
_SAME = 1e-9  # kelvin: nearer than this is equal


@dataclass(frozen=True, slots=True)
class Surface:
    """A surface in humid air.

    `dew_point` is that of the air; `margin` how much warmer than it the surface is, in kelvin; `humidity` that of the
    air at the surface, at most 100. `wet` is whether condensation could form: `yes`, `no`, or `too close` where the
    uncertainty of the readings leaves it open.
    """

    dew_point: float
    margin: float
    humidity: float
    wet: str


def saturation_pressure(celsius: float, *, over_ice: bool = True) -> float:
    """The vapor pressure of saturated air in pascal.

    Below 0.01 °C over ice; over water at all temperatures without `over_ice`. Formula: Hyland and Wexler. Source:
    ASHRAE Handbook of Fundamentals 2017, chapter 1, equations 5 and 6 (coefficients read in public code).

    Raises:
        ValueError: a temperature outside -100 to 200 °C.
    """
    if not _COLDEST <= celsius <= _HOTTEST:
        raise ValueError(f"the temperature must be between {_COLDEST:g} and {_HOTTEST:g} °C, not {celsius:g}")
    a = _ICE if over_ice and celsius <= _TRIPLE_POINT else _WATER
    t = celsius + _KELVIN
    return math.exp(a[0] / t + a[1] + t * (a[2] + t * (a[3] + t * (a[4] + t * a[5]))) + a[6] * math.log(t))


def vapor_pressure(celsius: float, humidity: float) -> float:
    """The vapor pressure of air in pascal. Formula: humidity/100 * saturation pressure (over ice below freezing).

    Raises:
        ValueError: a humidity that is not above 0 and at most 100, or a temperature out of range.
    """
    if not 0 < humidity <= 100:
        raise ValueError(f"a relative humidity must be above 0 and at most 100 percent, not {humidity:g}")
    return humidity / 100 * saturation_pressure(celsius)


def dew_point(celsius: float, humidity: float, *, over_ice: bool = True) -> float:
    """The temperature to which air must cool to be saturated, in degrees Celsius.

    Formula: the temperature whose saturation pressure is the vapor pressure, by bisection. Source: as
    `saturation_pressure`. Below freezing it is the frost point; without `over_ice` the dew point over water, which is
    lower and what weather services and most hand instruments show. Pressure and altitude do not matter.

    Raises:
        ValueError: a humidity or a temperature out of range, or air so dry that the answer is below -100 °C.
    """
    pressure = vapor_pressure(celsius, humidity)
    low, high = _COLDEST, celsius
    if pressure < saturation_pressure(low, over_ice=over_ice):
        raise ValueError(f"air of {humidity:g} percent at {celsius:g} °C is too dry for a dew point")
    for _ in range(60):
        middle = (low + high) / 2
        if saturation_pressure(middle, over_ice=over_ice) < pressure:
            low = middle
        else:
            high = middle
    return high


def surface_humidity(air: float, humidity: float, surface: float) -> float:
    """The relative humidity of room air where it touches a surface, in percent, at most 100.

    Formula: humidity * saturation pressure of the air / that of the surface. Source: arithmetic on the definition.

    Raises:
        ValueError: a humidity or a temperature out of range.
    """
    return min(100.0, 100 * vapor_pressure(air, humidity) / saturation_pressure(surface))


def surface_condensation(
    air: float, humidity: float, surface: float, *, surface_error: float = 0.0, humidity_error: float = 0.0
) -> Surface:
    """Whether a surface in air of that temperature and humidity could be wet by condensation.

    Formula: yes where the surface is at or below the dew point of the air. `surface_error` is the uncertainty of the
    surface reading in kelvin, `humidity_error` that of the humidity in percent: where they leave it open, the answer
    is `too close`. Source: textbook rule (surface temperature at or below the dew point). It holds for the air that
    touches the surface at that time; it does not say that a stain came from condensation.

    Raises:
        ValueError: a reading out of range, or an uncertainty below zero.
    """
    if not (surface_error >= 0 and humidity_error >= 0):
        raise ValueError("an uncertainty cannot be below zero")
    at_surface = surface_humidity(air, humidity, surface)
    dew = dew_point(air, humidity)
    least = surface - surface_error - dew_point(air, min(100.0, humidity + humidity_error))
    drier = humidity - humidity_error
    most = surface + surface_error - dew_point(air, drier) if drier > 0 else math.inf
    wet = YES if most <= _SAME else NO if least > _SAME else TOO_CLOSE
    return Surface(dew, surface - dew, at_surface, wet)
