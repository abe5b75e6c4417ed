"""Readings of the air beside a finding: the dew point, whether a surface could be wet, what wood would come to."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from narrator.assess.model import Derived, Judged, Seen
from narrator.measure.quantity import Quantity
from narrator.measure.show import show, show_value
from narrator.measure.units import convert

# What hand instruments can tell apart, used where nothing else is known: common practice, no source.
SURFACE_ERROR_K = 1.0
HUMIDITY_ERROR = 3.0


class Air(NamedTuple):
    """What the typed readings of the air come to. `wet`: yes, no or too close; None without a surface reading."""

    air: str
    humidity: str
    surface: str | None
    dew: Derived
    wood: Derived
    wet: str | None


def air_of(seen: Seen) -> Air | None:
    """The air of an instance, if its temperature and humidity were both typed and can be."""
    air, humidity, surface = (_typed(seen.judged, name) for name in ("air", "humidity", "surface"))
    if air is None or humidity is None:
        return None
    from narrator.measure.air import dew_point, surface_condensation  # only when readings of the air were typed
    from narrator.measure.wood import equilibrium_moisture

    celsius, share = _celsius(air), float(humidity.low)
    try:
        dew = dew_point(celsius, share)
        wood = equilibrium_moisture(celsius, share)
        wet = None
        if surface is not None:
            found = surface_condensation(
                celsius, share, _celsius(surface), surface_error=SURFACE_ERROR_K, humidity_error=HUMIDITY_ERROR
            )
            wet = found.wet
    except ValueError:
        return None
    value = convert(Fraction(dew).limit_denominator(100), "degC", air.unit)
    held = Fraction(round(wood))
    return Air(
        show(air),
        show(humidity),
        show(surface) if surface is not None else None,
        Derived("dew point", value, air.unit, show_value(value, air.unit), "air"),
        Derived("wood in such air", held, "percent", show_value(held, "percent"), "air"),
        wet,
    )


def _typed(judged: Sequence[Judged], name: str) -> Quantity | None:
    return next(
        (item.measure.quantity for item in judged if item.measure.spec.name == name and not item.measure.points), None
    )


def _celsius(quantity: Quantity) -> float:
    return float(convert(quantity.low, quantity.unit, "degC"))
