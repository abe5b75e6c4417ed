"""Heating and cooling: the temperature difference across a coil, with what makes it say little."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

__all__ = ["CoilDifference", "cooling_difference", "heating_difference"]

# Outdoor temperatures in degrees Fahrenheit below which standards of practice do not ask for cooling to be run: a
# national association's (65, read) and the Texas rules (60, from memory); above which a heat pump is not run in heat
# (70, Texas rules, from memory).
_COOLING_BELOW = ((65, "outdoors-below-65"), (60, "outdoors-below-60"))
_HEAT_PUMP_ABOVE = 70
_ABSOLUTE_ZERO = Fraction("-459.67")


@dataclass(frozen=True, slots=True)
class CoilDifference:
    """The difference across a coil in degrees Fahrenheit, and the ids of what speaks against relying on it.

    `cautions` may hold `outdoors-unknown`, `outdoors-below-65`, `outdoors-below-60`, `outdoors-above-70` and
    `no-effect` (the air leaves no cooler, or no warmer, than it came).
    """

    degrees_f: Fraction
    cautions: tuple[str, ...]


def cooling_difference(return_f: Fraction, supply_f: Fraction, outdoor_f: Fraction | None = None) -> CoilDifference:
    """Return air minus supply air of a cooling system, in degrees Fahrenheit.

    Formula: return - supply. Source: trade practice (15 to 20, or 16 to 22); it screens a system that has run long
    enough, and humidity and airflow move it. `outdoor_f` below 65 (60 in Texas): standards of practice do not ask
    for cooling to be run, which may harm the compressor.

    Raises:
        ValueError: a temperature below absolute zero.
    """
    cautions: list[str] = []
    if outdoor_f is None:
        cautions.append("outdoors-unknown")
    else:
        cautions.extend(name for below, name in _COOLING_BELOW if outdoor_f < below)
    return _difference(return_f, supply_f, outdoor_f, cautions)


def heating_difference(
    return_f: Fraction, supply_f: Fraction, outdoor_f: Fraction | None = None, *, heat_pump: bool = False
) -> CoilDifference:
    """Supply air minus return air of a heating system, in degrees Fahrenheit.

    Formula: supply - return. Source: arithmetic; the range that counts is on the furnace's label. A heat pump is not
    run in heat above 70 outdoors (Texas rules, from memory).

    Raises:
        ValueError: a temperature below absolute zero.
    """
    cautions: list[str] = []
    if heat_pump and outdoor_f is None:
        cautions.append("outdoors-unknown")
    if heat_pump and outdoor_f is not None and outdoor_f > _HEAT_PUMP_ABOVE:
        cautions.append("outdoors-above-70")
    return _difference(supply_f, return_f, outdoor_f, cautions)


def _difference(warm: Fraction, cool: Fraction, outdoor: Fraction | None, cautions: list[str]) -> CoilDifference:
    for value in (warm, cool, outdoor):
        if value is not None and not value >= _ABSOLUTE_ZERO:
            raise ValueError("no air is colder than absolute zero")
    if warm <= cool:
        cautions.append("no-effect")
    return CoilDifference(warm - cool, tuple(cautions))
