"""The sums and choices that an entry can name: what each needs, what it gives, and the calculation behind it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from narrator.assess.worked import Choice, Method, Role, Typed
from narrator.measure.calculations import (
    chimney,
    combustion,
    decks,
    drainage,
    dryer,
    electrical,
    heating,
    insulation,
    openings,
    slopes,
    structure,
    stucco,
    ventilation,
)

__all__ = ["CHOICES", "METHODS"]

_INCH = Role("length", "inch")
_FOOT = Role("length", "foot")
_PITCH = Role("slope", "inch/foot")
_ELBOW_FEET = Fraction(5)  # the most an elbow counts for: mitered, 90 degrees (row dryer-elbow-deduction-mitered-90)


def _one(value: Fraction) -> tuple[Fraction, Fraction]:
    return value, value


# What is typed for an insulation, most telling first, and the materials it can mean: the widest figures are taken.
_INSULATION: tuple[tuple[frozenset[str], frozenset[str], tuple[str, ...]], ...] = (
    (frozenset({"cellulose"}), frozenset(), ("blown cellulose",)),
    (frozenset({"fiberglass", "glass"}), frozenset({"batt", "batts"}), ("fiberglass batt",)),
    (frozenset({"fiberglass", "glass"}), frozenset({"blown", "loose"}), ("blown fiberglass",)),
    (frozenset({"fiberglass"}), frozenset(), ("blown fiberglass", "fiberglass batt")),
    (frozenset({"mineral", "rock", "rockwool"}), frozenset({"batt", "batts"}), ("mineral wool batt",)),
    (frozenset({"mineral", "rock", "rockwool"}), frozenset(), ("blown mineral wool", "mineral wool batt")),
    (frozenset({"vermiculite"}), frozenset(), ("vermiculite",)),
)


def _r_value(values: Sequence[Fraction], typed: Typed) -> tuple[Fraction, Fraction]:
    """The material is the one that the line names."""
    for words, form, materials in _INSULATION:
        if words & typed and (not form or form & typed):
            found = [insulation.r_from_depth(values[0], name) for name in materials]
            return min(low for low, _ in found), max(high for _, high in found)
    raise ValueError("the line names no insulation beside the depth, such as 'cellulose' or 'fiberglass batts'")


def _split(values: Sequence[Fraction], _: Typed) -> tuple[Fraction, Fraction]:
    found = heating.cooling_difference(values[0], values[1])
    if "no-effect" in found.cautions:
        raise ValueError("the air that comes out is no cooler than the air that goes in")
    return _one(found.degrees_f)


def _above_roof(values: Sequence[Fraction], _: Typed) -> tuple[Fraction, Fraction]:
    """How far a chimney's top stands above the roof within ten feet of it: its height less the roof's rise there, nothing at least."""
    height, ridge, pitch = values
    rise = chimney.chimney_height(ridge, pitch, Fraction(0), Fraction(0)).roof_rise_in
    return _one(max(height - rise, Fraction(0)))


def _room_per_input(values: Sequence[Fraction], _: Typed) -> tuple[Fraction, Fraction]:
    return _one(combustion.room_volume(values[0], values[1], values[2]) / values[3])


METHODS: dict[str, Method] = {
    "area": Method(
        {"width": _INCH, "height": _INCH}, "area", "foot**2", lambda v, _: _one(openings.clear_area(v[0], v[1]))
    ),
    "longer-to-shorter": Method(
        {"width": _FOOT, "height": _FOOT}, "ratio", "dimensionless", lambda v, _: _one(stucco.panel(v[0], v[1]).ratio)
    ),
    "longer-side": Method(
        {"width": _FOOT, "height": _FOOT}, "length", "foot", lambda v, _: _one(stucco.panel(v[0], v[1]).longest_ft)
    ),
    "slope": Method(
        {"fall": _INCH, "run": _INCH}, "slope", "percent", lambda v, _: _one(slopes.slope_percent(v[0], v[1]))
    ),
    "pipe-slope": Method(
        {"fall": _INCH, "run": _FOOT}, "slope", "inch/foot", lambda v, _: _one(drainage.drain_slope(v[0], v[1]))
    ),
    "part": Method(
        {"part": _INCH, "whole": _INCH}, "ratio", "dimensionless", lambda v, _: _one(structure.part_of(v[0], v[1]))
    ),
    "drop-in-twenty-feet": Method(
        {"drop": _INCH, "run": _FOOT},
        "length",
        "inch",
        lambda v, _: _one(structure.floor_slope(v[0], v[1]).over_20_ft_in),
    ),
    "duct-length": Method(
        {"straight": _FOOT, "elbows": Role("count", "count")},
        "length",
        "foot",
        lambda v, _: _one(dryer.equivalent_length(v[0], [(int(v[1]), _ELBOW_FEET)])),
    ),
    "cooling-split": Method(
        {"return": Role("temperature", "degF"), "supply": Role("temperature", "degF")},
        "temperature",
        "delta_degF",
        _split,
    ),
    "r-value": Method({"depth": _INCH}, "insulation", "r-value", _r_value),
    "cricket-height": Method(
        {"width": _INCH, "slope": _PITCH}, "length", "inch", lambda v, _: _one(chimney.cricket_height(v[0], v[1]))
    ),
    "above-nearby-roof": Method({"height": _INCH, "ridge": _FOOT, "slope": _PITCH}, "length", "inch", _above_roof),
    "voltage-drop": Method(
        {"before": Role("voltage", "volt"), "under": Role("voltage", "volt")},
        "percent",
        "percent",
        lambda v, _: _one(electrical.voltage_drop_percent(v[0], v[1])),
    ),
    "vent-ratio": Method(
        {"vents": Role("area", "foot**2"), "floor": Role("area", "foot**2")},
        "ratio",
        "dimensionless",
        lambda v, _: _one(ventilation.vent_ratio(v[0], v[1])),
    ),
    "room-per-input": Method(
        {"length": _FOOT, "width": _FOOT, "height": _FOOT, "input": Role("power", "Btu/hour")},
        "ratio",
        "foot**3*hour/Btu",
        _room_per_input,
    ),
}


def _wire(values: Sequence[Fraction], typed: Typed) -> str:
    metal = "aluminum" if typed & {"aluminum", "aluminium", "alum"} else "copper"
    return electrical.conductor_criterion(int(values[0]), metal)


def _ledger(values: Sequence[Fraction], typed: Typed) -> str:
    lag, bolt = bool(typed & {"lag", "lags", "screw", "screws"}), bool(typed & {"bolt", "bolts", "bolted"})
    if lag == bolt:
        raise ValueError("the line does not say whether these are lag screws or bolts")
    return decks.ledger_spacing_criterion(values[0], "lag" if lag else "bolt")


def _pane_of_hearth(values: Sequence[Fraction], _: Typed) -> str:
    return chimney.hearth_criteria(values[0])[0]


_SPANS = (6, 8, 10, 12, 14, 16, 18)
_TRAPS = ("1-1-4-inch", "1-1-2-inch", "2-inch", "3-inch", "4-inch")

CHOICES: dict[str, Choice] = {
    "wire": Choice(
        {"gauge": Role("gauge", "awg")},
        (
            *(f"breaker-copper-{size}-awg" for size in (14, 12, 10)),
            *(f"breaker-copper-{size}-awg-60c" for size in (8, 6)),
            *(f"breaker-aluminum-{size}-awg" for size in (12, 10)),
        ),
        _wire,
    ),
    "joist-span": Choice(
        {"span": _FOOT},
        tuple(f"deck-ledger-{kind}-spacing-{span}ft" for kind in ("lag", "bolt") for span in _SPANS),
        _ledger,
    ),
    "drain-size": Choice(
        {"diameter": _INCH},
        ("drain-slope-small", "drain-slope-medium"),
        lambda v, _: drainage.drain_slope_criterion(v[0]),
    ),
    "trap-size": Choice(
        {"diameter": _INCH},
        tuple(f"trap-arm-length-irc-{size}" for size in _TRAPS),
        lambda v, _: drainage.trap_arm_criterion(v[0]),
    ),
    "fireplace-opening": Choice(
        {"opening": Role("area", "foot**2")},
        ("hearth-extension-front-small", "hearth-extension-front-large"),
        _pane_of_hearth,
    ),
    "roof-slope": Choice(
        {"slope": _PITCH},
        ("service-drop-above-roof", "service-drop-above-steep-roof"),
        lambda v, _: electrical.service_drop_criterion(v[0], Fraction(240)),
    ),
}
