"""Typed values of a finding as plain data for the report."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from narrator.assess.airs import air_of
from narrator.assess.model import Derived, Judged, Seen
from narrator.compose.closing import act_text
from narrator.compose.facts import series_text
from narrator.measure.show import show
from narrator.measure.verdict import Criterion

if TYPE_CHECKING:
    from narrator.report import ActValue, CriterionRef, Instance


def number(value: Any) -> float:
    """A fraction as a JSON number: whole where it is whole."""
    return int(value) if value == int(value) else round(float(value), 6)


def criterion_ref(criterion: Criterion | None) -> CriterionRef | None:
    """The published figure a value was held against."""
    if criterion is None:
        return None
    values = [number(item) for item in criterion.value]
    return {
        "id": criterion.id,
        "value": values[0] if len(values) == 1 else values,
        "unit": criterion.unit,
        "comparison": criterion.limit or criterion.comparison
        if criterion.comparison == "ratio"
        else criterion.comparison,
        "source": criterion.source,
    }


def measures(seen: Seen) -> list[dict[str, Any]]:
    """Typed measures, then those worked out from them."""
    out: list[dict[str, Any]] = []
    for judged in seen.judged:
        held = judged.measure.spec.hold == "variation" and bool(judged.measure.points)
        out.append(_measure(judged, held))
        out.extend(
            _derived(item, judged if held and item.name.endswith("variation") else None) for item in judged.derived
        )
    air = air_of(seen)
    if air is not None:
        out.extend(_derived(item, None) for item in (air.dew, air.wood))
    return out


def _measure(judged: Judged, held: bool) -> dict[str, Any]:
    """`held`: not the series itself but a value worked out from it stands against the criterion."""
    spec, quantity = judged.measure.spec, judged.measure.quantity
    made: dict[str, Any] = {
        "name": spec.name + (" control" if judged.measure.control else ""),
        "value": number(quantity.high if judged.verdict == "over" and quantity.is_range else quantity.low)
        if quantity
        else None,
        "unit": judged.measure.unit or (quantity.unit if quantity else ""),
        "text": series_text(judged.measure.points) if judged.measure.points else judged.text,
        "from": judged.measure.source or None,
        "points": [
            {
                "name": point.name,
                "value": number(point.value.low) if point.value is not None else None,
                "reason": point.reason,
                "text": show(point.value) if point.value is not None else None,
            }
            for point in judged.measure.points
        ],
        "criterion": None if held else criterion_ref(judged.criterion),
        "verdict": None if held else judged.verdict,
    }
    if quantity is not None and quantity.is_range:
        made["low"], made["high"] = number(quantity.low), number(quantity.high)
    if quantity is not None and quantity.of is not None:
        made["of"] = number(quantity.of)
    if quantity is not None and quantity.bound:
        made["bound"] = quantity.bound
    return made


def _derived(item: Derived, judged: Judged | None) -> dict[str, Any]:
    return {
        "name": item.name,
        "value": number(item.value),
        "unit": item.unit,
        "text": item.text,
        "from": item.source,
        "points": [],
        "criterion": criterion_ref(judged.criterion) if judged else None,
        "verdict": judged.verdict if judged else None,
    }


def instances(seen: Sequence[Seen]) -> list[Instance]:
    """The instances of a finding."""
    return [_instance(one) for one in seen]


def _instance(one: Seen) -> Instance:
    made = one.instance
    acts: list[ActValue] = [
        {"what": act.key, "who": act.value or None, "time": act.time, "text": act_text(act) + "."} for act in made.acts
    ]
    return {
        "place": made.place,
        "lines": [made.line.number],
        "basis": made.basis,
        "source": made.source,
        "measures": measures(one),
        "count": made.count,
        "photos": list(made.photos),
        "sketches": list(made.sketches),
        "words": list(made.words),
        "acts": acts,
        "unit": made.unit,
        "matched": {"how": made.match.how, "score": made.match.score, "typed": made.line.what},
    }
