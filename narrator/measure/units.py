"""What the units mean: dimension, conversion, units plausible for a kind of measure, names for messages."""

from __future__ import annotations

import math
from fractions import Fraction

from narrator.measure.table import UNITS, Unit

__all__ = ["KINDS", "UNITS", "Unit", "compatible", "convert", "default_units", "dimension", "nearest_unit"]

# The units that a kind of measure plausibly means when none was typed. Two or more: the reader must be asked.
_DEFAULTS: dict[str, tuple[str, ...]] = {
    "length": ("inch", "foot", "millimeter"),
    "area": ("foot**2", "inch**2", "meter**2"),
    "volume": ("gallon", "foot**3", "liter"),
    "slope": ("inch/foot", "percent", "degree"),
    "angle": ("degree",),
    "temperature": ("degF", "degC"),
    "moisture": ("percent",),
    "percent": ("percent",),
    "humidity": ("percent",),
    "pressure": ("psi", "kilopascal", "inch_H2O"),
    "flow": ("gallon/minute", "foot**3/minute", "liter/minute"),
    "voltage": ("volt",),
    "current": ("ampere",),
    "resistance": ("ohm",),
    "power": ("watt", "kilowatt", "Btu/hour"),
    "age": ("year",),
    "date": ("date",),
    "count": ("count",),
    "time": ("second", "minute", "hour", "day"),
    "ratio": ("dimensionless",),
    "speed": ("foot/minute", "mile/hour"),
    "concentration": ("ppm", "picocurie/liter"),
    "weight": ("pound", "kilogram"),
    "insulation": ("r-value",),
    "energy": ("kilowatt*hour", "Btu"),
    "gauge": ("awg",),
    "sound": ("decibel",),
}

# Kinds that a dimension may stand for beside its own.
_ALSO: dict[str, frozenset[str]] = {
    "percent": frozenset({"moisture", "humidity", "slope", "ratio"}),
    "angle": frozenset({"slope"}),
    "age": frozenset({"time"}),
    "time": frozenset({"age"}),
    "volume per power": frozenset({"ratio"}),
}

KINDS: frozenset[str] = frozenset(_DEFAULTS)


def dimension(unit: str) -> str:
    """The dimension of a unit id, `''` for no unit or one that the table does not have."""
    known = UNITS.get(unit)
    return known.dimension if known is not None else ""


def default_units(kind: str) -> tuple[str, ...]:
    """Unit ids plausible for `kind` when none was typed, likeliest first; empty for an unknown kind."""
    return _DEFAULTS.get(kind, ())


def compatible(unit: str, kind: str) -> bool:
    """Whether a figure in `unit` can be a measure of `kind`.

    No unit (`''`) is compatible only where one unit alone is plausible: a bare `18` is an age of 18 years or
    18 % moisture, but not a length.
    """
    if not unit:
        return len(default_units(kind)) == 1
    known = dimension(unit)
    return bool(known) and (known == kind or kind in _ALSO.get(known, frozenset()))


def _unit(unit: str) -> Unit:
    known = UNITS.get(unit)
    if known is None:
        raise ValueError(f"'{unit}' is not a unit that this table has")
    return known


def _name(unit: Unit) -> str:
    return unit.many or unit.id


def convert(value: Fraction, unit: str, to: str) -> Fraction:
    """`value` in `unit`, said in the unit `to`. Exact, except between degrees and a slope.

    An angle becomes a slope, or the other way, by rise = run * tan(angle), rounded to 1/10000 of the target
    unit. Temperatures move their zero; `delta_` units do not.

    Raises:
        ValueError: an unknown unit, different dimensions, or an angle of 90 degrees or more as a slope.
    """
    source, target = _unit(unit), _unit(to)
    if source is target:
        return value
    if source.base == target.base:
        return (value * source.factor + source.offset - target.offset) / target.factor
    if source.base == "degree" and target.base == "one":
        if abs(value) >= 90:
            raise ValueError(f"an angle of {float(value):g} degrees has no slope")
        return _rounded(Fraction(math.tan(math.radians(value))) / target.factor)
    if source.base == "one" and target.base == "degree":
        return _rounded(Fraction(math.degrees(math.atan(value * source.factor))))
    same = source.dimension == target.dimension
    kinds = "they measure different things" if same else f"{source.dimension} is not {target.dimension}"
    raise ValueError(f"{_name(source)} cannot be said in {_name(target)}: {kinds}")


def _rounded(value: Fraction) -> Fraction:
    return Fraction(round(value * 10000), 10000)


def nearest_unit(text: str) -> str | None:
    """The printed name of the unit that `text` most resembles, for a message; `None` when nothing is near."""
    from difflib import get_close_matches

    names: dict[str, Unit] = {}
    for unit in UNITS.values():
        for spelling in filter(None, (*unit.spellings, unit.one, unit.many)):
            names.setdefault(spelling.casefold(), unit)
    word = text.strip().casefold()
    if len(word) < 2:
        return _name(names[word]) if word in names else None
    near = get_close_matches(word, [name for name in names if len(name) > 1], n=1, cutoff=0.7)
    return _name(names[near[0]]) if near else None
