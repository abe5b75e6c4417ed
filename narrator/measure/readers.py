"""Figures in the reader's units, metric or US, whatever was typed.

Rounded as the trade rounds when printed (`show`): whole millimetres, degrees and kilopascals, sixteenths of an inch. Lengths are told
in mm up to 3 m and in metres from there on; a steep slope in degrees, a gentle one in percent. What has no everyday
unit in the other system (wire gauges, R-values, Btu) stays as typed.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from narrator.measure.quantity import Quantity
from narrator.measure.units import convert

_METRIC = {
    "inch**2": "centimeter**2",
    "foot**2": "meter**2",
    "yard**2": "meter**2",
    "foot**3": "meter**3",
    "yard**3": "meter**3",
    "gallon": "liter",
    "degF": "degC",
    "delta_degF": "delta_degC",
    "psi": "kilopascal",
    "inch_H2O": "pascal",
    "gallon/minute": "liter/minute",
    "foot**3/minute": "liter/second",
    "foot/minute": "meter/second",
    "foot/second": "meter/second",
    "mile/hour": "kilometer/hour",
    "pound": "kilogram",
    "ounce": "kilogram",
    "picocurie/liter": "becquerel/meter**3",
}
_US = {
    "meter**2": "foot**2",
    "meter**3": "foot**3",
    "liter": "gallon",
    "degC": "degF",
    "delta_degC": "delta_degF",
    "kilopascal": "psi",
    "bar": "psi",
    "pascal": "inch_H2O",
    "liter/minute": "gallon/minute",
    "kilogram": "pound",
    "becquerel/meter**3": "picocurie/liter",
}
_FEET_LENGTHS = frozenset({"inch", "foot", "yard"})
_METER_LENGTHS = frozenset({"millimeter", "centimeter", "meter"})
LONGEST_MM = 3000
STEEP = 2  # inches per foot: from there on people speak of degrees


def readers_unit(largest: Fraction, unit: str, system: str) -> str:
    """The unit in which a reader of `metric` or `us` figures expects this one; its own when it is that already."""
    if system == "metric":
        if unit in _FEET_LENGTHS:
            return "millimeter" if abs(convert(largest, unit, "millimeter")) <= LONGEST_MM else "meter"
        if unit == "inch/foot":
            return "degree" if abs(largest) >= STEEP else "percent"
        return _METRIC.get(unit, unit)
    if system == "us":
        if unit in _METER_LENGTHS:
            return "inch" if abs(convert(largest, unit, "inch")) < 72 else "foot"
        return _US.get(unit, unit)
    return unit


def in_unit(q: Quantity, unit: str) -> Quantity:
    """The quantity said in another unit, with its bound; raises ValueError where they do not convert."""
    if q.of is not None or q.unit == unit or not q.unit:
        return q
    low, high = (_rounded(convert(value, q.unit, unit), unit) for value in (q.low, q.high))
    return replace(q, low=min(low, high), high=max(low, high), unit=unit, text="")


# Units whose decimals nobody reads from ten on; the other units are rounded when printed.
_COARSE = frozenset(
    {"liter", "liter/minute", "liter/second", "kilogram", "meter**2", "meter**3", "centimeter**2", "kilopascal"}
)


def _rounded(value: Fraction, unit: str) -> Fraction:
    if unit == "degree" or (unit in _COARSE and abs(value) >= 10):
        return Fraction(round(value))
    return value
