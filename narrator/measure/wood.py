"""Moisture in wood: what it comes to in still air, oven-dry and wet basis, and named corrections of a pin meter.

Temperatures are in degrees Celsius, relative humidity and moisture content in percent. Moisture content is on the
oven-dry basis unless said. None of this judges a reading: equilibrium is what wood left for weeks in such air would
hold, and no yardstick for one day.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

__all__ = [
    "GARRAHAN_SPECIES",
    "METHODS",
    "Corrected",
    "correct_reading",
    "dry_basis",
    "equilibrium_moisture",
    "humidity_for_moisture",
    "moisture_content",
    "wet_basis",
]

# Coefficients c0 + c1*t + c2*t**2 with t in degrees Fahrenheit, for W, K, K1, K2: Simpson's fit as the Wood Handbook
# (USDA Forest Products Laboratory, chapter 4) gives it, read second hand.
_W = (330.0, 0.452, 0.00415)
_K = (0.791, 0.000463, -0.000000844)
_K1 = (6.34, 0.000775, -0.0000935)
_K2 = (1.09, 0.0284, -0.0000904)
_COLDEST_F, _HOTTEST_F = 0.0, 210.0

METHODS = ("garrahan", "per degree")
# Species constants a and b of the Garrahan equation. Others were not found; those of one meter do not fit another.
GARRAHAN_SPECIES: Mapping[str, tuple[float, float]] = MappingProxyType({"sitka spruce": (0.853, 0.398)})


@dataclass(frozen=True, slots=True)
class Corrected:
    """A corrected meter reading beside the `raw` one, with the `method`, the wood's temperature and the species.

    `species` is `''` where none was corrected for.
    """

    raw: float
    value: float
    method: str
    celsius: float
    species: str


def equilibrium_moisture(celsius: float, humidity: float) -> float:
    """The moisture content that wood comes to in air of that temperature and humidity, in percent.

    Formula: 1800/W * (K*h/(1 - K*h) + (K1*K*h + 2*K1*K2*K**2*h**2)/(1 + K1*K*h + K1*K2*K**2*h**2)), h = humidity/100,
    W, K, K1, K2 quadratic in the temperature. Source: Hailwood and Horrobin, two hydrates, fitted by Simpson; Wood
    Handbook chapter 4. An average of many woods, drying: wood that takes up water comes to about 0.85 of it (from
    memory), so a tenth of a percent means nothing.

    Raises:
        ValueError: a humidity outside 0 to 100, or a temperature outside 0 to 210 °F, where the fit is not known.
    """
    t = celsius * 9 / 5 + 32
    if not _COLDEST_F <= t <= _HOTTEST_F:
        raise ValueError(f"no equilibrium is known for wood at {celsius:g} °C")
    if not 0 <= humidity <= 100:
        raise ValueError(f"a relative humidity must be between 0 and 100 percent, not {humidity:g}")
    w, k, k1, k2 = (c[0] + c[1] * t + c[2] * t * t for c in (_W, _K, _K1, _K2))
    kh = k * humidity / 100
    first, second = k1 * kh, k1 * k2 * kh * kh
    return 1800 / w * (kh / (1 - kh) + (first + 2 * second) / (1 + first + second))


def humidity_for_moisture(celsius: float, moisture: float) -> float:
    """The relative humidity, in percent, in which wood would come to that moisture content.

    Formula: `equilibrium_moisture` turned round, by bisection. Source: as there.

    Raises:
        ValueError: a moisture that no humidity gives at that temperature, or a temperature out of range.
    """
    if not 0 <= moisture <= equilibrium_moisture(celsius, 100):
        raise ValueError(f"no humidity brings wood to {moisture:g} percent at {celsius:g} °C")
    low, high = 0.0, 100.0
    for _ in range(60):
        middle = (low + high) / 2
        if equilibrium_moisture(celsius, middle) < moisture:
            low = middle
        else:
            high = middle
    return high


def moisture_content(wet_mass: float, dry_mass: float) -> float:
    """Moisture content from two weighings in one unit. Formula: 100 * (wet - dry)/dry. Source: definition.

    Raises:
        ValueError: no dry mass, or less wet than dry.
    """
    if not 0 < dry_mass <= wet_mass:
        raise ValueError("the dry mass must be above zero, and the wet mass no less than the dry")
    return 100 * (wet_mass - dry_mass) / dry_mass


def wet_basis(moisture: float) -> float:
    """A moisture content on the wet basis, from one on the oven-dry basis. Formula: 100*m/(100 + m).

    Raises:
        ValueError: a moisture below zero.
    """
    if not moisture >= 0:
        raise ValueError(f"a moisture content cannot be {moisture:g} percent")
    return 100 * moisture / (100 + moisture)


def dry_basis(moisture: float) -> float:
    """A moisture content on the oven-dry basis, from one on the wet basis. Formula: 100*m/(100 - m).

    Raises:
        ValueError: a moisture below zero, or 100 and more.
    """
    if not 0 <= moisture < 100:
        raise ValueError(f"a moisture content on the wet basis cannot be {moisture:g} percent")
    return 100 * moisture / (100 - moisture)


def correct_reading(
    raw: float,
    celsius: float,
    method: str,
    *,
    species: str = "",
    per_degree: float | None = None,
    reference: float = 20.0,
) -> Corrected:
    """A pin meter's reading corrected by a named method, beside the raw one. Never without a method named.

    - `garrahan`: ((raw + 0.567 - 0.0260*T + 0.000051*T**2)/(0.881 * 1.0056**T) - b)/a, T the temperature of the wood, a
      and b of the `species` (1 and 0 without one), for a meter on the Douglas-fir scale without compensation of its
      own. Source: usually credited to Pfaff and Garrahan 1986 (credit from memory; equation read second hand). It
      corrects 16 to 42 percent less than the chart of James 1988.
    - `per degree`: raw - per_degree * (T - reference). Source: the meter's manual, which gives the figure (0.1 to 0.15
      per degree Celsius from 20 °C in those read).

    Raises:
        ValueError: another method or species, a rate that is missing or does not belong, or figures that cannot be.
    """
    if not 0 < raw < 100:
        raise ValueError(f"a meter reading cannot be {raw:g} percent")
    if not -40 <= celsius <= 100:
        raise ValueError(f"no correction is known for wood at {celsius:g} °C")
    if method == "garrahan":
        if per_degree is not None:
            raise ValueError("the Garrahan correction takes no rate per degree")
        value = _garrahan(raw, celsius, species.strip().lower())
    elif method == "per degree":
        if species:
            raise ValueError("a rate per degree does not correct for a species")
        if per_degree is None or not 0 < per_degree < 1:
            raise ValueError("a rate per degree is needed, as the meter's manual gives it")
        value = raw - per_degree * (celsius - reference)
    else:
        raise ValueError(f"'{method}' is not a correction that is known here: {', '.join(METHODS)}")
    return Corrected(raw, value, method, celsius, species.strip().lower())


def _garrahan(raw: float, celsius: float, species: str) -> float:
    if species and species not in GARRAHAN_SPECIES:
        raise ValueError(f"no constants are known for {species}: use the table of the meter's maker")
    a, b = GARRAHAN_SPECIES.get(species, (1.0, 0.0))
    scaled = (raw + 0.567 - 0.0260 * celsius + 0.000051 * celsius**2) / (0.881 * math.pow(1.0056, celsius))
    return (scaled - b) / a
