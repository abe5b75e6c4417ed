"""Sums and choices that an entry names: they exist, their roles are filled by measures of the right kind, bands are bands."""

from __future__ import annotations

from collections.abc import Mapping

from narrator.assess.methods import CHOICES, METHODS
from narrator.assess.worked import Choice, Method
from narrator.errors import Fault, did_you_mean
from narrator.measure.units import compatible
from narrator.source.check.stock import Stock, listed
from narrator.source.model import Entry, MeasureSpec
from narrator.source.positions import Key, Located


def sum_faults(stock: Stock) -> list[Fault]:
    """Faults of `worked`, `against` and `bands` over all well-formed entries."""
    out: list[Fault] = []
    for code, entry in stock.entries.items():
        located = stock.located(code)
        for spec in entry.measures:
            key: Key = ("measures", spec.name)
            out += _named(located, (*key, "worked"), dict(spec.worked), METHODS, entry) if spec.worked else []
            out += _named(located, (*key, "against"), dict(spec.against), CHOICES, entry) if spec.against else []
            out += _gives(located, (*key, "worked"), spec) if dict(spec.worked).get("by") in METHODS else []
            out += _bands(located, key, spec, stock)
    return out


def _named(
    located: Located,
    key: Key,
    given: Mapping[str, str],
    known: Mapping[str, Method] | Mapping[str, Choice],
    entry: Entry,
) -> list[Fault]:
    by = given["by"]
    if by not in known:
        return [
            located.fault(
                (*key, "by"),
                f"'{by}' is not known here.{did_you_mean(by, known)} There are: {listed(list(known), 30)}.",
            )
        ]
    roles = known[by].roles
    out = [
        located.fault((*key, role), f"'{by}' has no '{role}'.{did_you_mean(role, roles)} It needs {', '.join(roles)}.")
        for role in given
        if role != "by" and role not in roles
    ]
    for role, needed in roles.items():
        name = given.get(role)
        spec = entry.measure(name) if name else None
        if name is None:
            out.append(located.fault(key, f"'{by}' needs '{role}': the name of a measure of this entry."))
        elif spec is None:
            names = [item.name for item in entry.measures]
            out.append(
                located.fault((*key, role), f"'{name}' is not a measure of this entry.{did_you_mean(name, names)}")
            )
        elif spec.kind != needed.kind and not compatible(needed.unit, spec.kind):
            out.append(located.fault((*key, role), f"'{name}' measures {spec.kind}; '{by}' needs {needed.kind} here."))
    return out


def _gives(located: Located, key: Key, spec: MeasureSpec) -> list[Fault]:
    named = dict(spec.worked)["by"]
    method = METHODS[named]
    if method.kind == spec.kind or compatible(method.unit, spec.kind):
        return []
    return [located.fault(key, f"'{named}' gives {method.kind}, and '{spec.name}' measures {spec.kind}.")]


def _bands(located: Located, key: Key, spec: MeasureSpec, stock: Stock) -> list[Fault]:
    out: list[Fault] = []
    for number, name in enumerate(spec.bands):
        row = stock.criteria.get(name)
        if row is None:
            bands = sorted(other for other, one in stock.criteria.items() if one.role == "band")
            out.append(
                located.fault(
                    (*key, "bands", number), f"'{name}' is not the id of a criterion.{did_you_mean(name, bands)}"
                )
            )
        elif row.role != "band":
            out.append(
                located.fault(
                    (*key, "bands", number), f"'{name}' has the role '{row.role}'; here only a 'band' can stand."
                )
            )
    return out
