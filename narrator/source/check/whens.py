"""`when` is closed data: its keys and values are known, its verdicts can be reached, no wording hides another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from narrator.assess.methods import CHOICES
from narrator.assess.model import FIRST_HAND
from narrator.compose.choose import PLACES, STORY, VERDICTS
from narrator.errors import Fault, did_you_mean
from narrator.measure.criterion import Criterion
from narrator.measure.units import compatible
from narrator.read.model import BASES
from narrator.source.check.stock import Stock, listed
from narrator.source.model import TEXT_FIELDS, Entry, MeasureSpec, Variant
from narrator.source.positions import Key, Located

COUNTS = ("none", "one", "many")
JUDGED = ("meets", "short", "over", "too close")


def when_faults(stock: Stock) -> list[Fault]:
    """Faults of `when` in every wording and `raise`, and wordings that can never hold."""
    out: list[Fault] = []
    for code, entry in stock.entries.items():
        located = stock.located(code)
        for field in TEXT_FIELDS:
            variants: tuple[Variant, ...] = getattr(entry, field)
            several = isinstance(located.value[field], list)
            for number, variant in enumerate(variants if several else ()):
                out += _when(located, (field, number, "when"), variant.when, entry, stock)
            out += _order(located, field, variants) if several else []
        for number, rule in enumerate(entry.raises):
            out += _raise(located, ("raise", number, "when"), rule.when, entry, stock)
    return out


def _when(located: Located, key: Key, when: Mapping[str, Any], entry: Entry, stock: Stock) -> list[Fault]:
    out: list[Fault] = []
    closed = {"basis": (*BASES, "first-hand"), "places": PLACES, "count": COUNTS, "story": STORY}
    names = [spec.name for spec in entry.measures]
    for name, wanted in when.items():
        options = wanted if isinstance(wanted, list) else [wanted]
        spec = entry.measure(name)
        if name in closed:
            known = closed[name]
        elif spec is not None:
            known = reachable(spec, stock)
        else:
            keys = [*closed, *names]
            message = f"'{name}' is not a key of when.{did_you_mean(name, keys)} Known here: {listed(keys)}."
            out.append(located.fault((*key, name), message))
            continue
        for option in options:
            if option not in known:
                out.append(located.fault((*key, name), _wrong(name, str(option), known, spec, stock)))
    return out


def _row(spec: MeasureSpec, stock: Stock) -> Criterion | None:
    """The criterion of a measure; of those that a choice can name the first, as all point the same way."""
    if spec.against:
        choice = CHOICES.get(dict(spec.against)["by"])
        return stock.criteria.get(choice.rows[0]) if choice else None
    return stock.criteria.get(spec.criterion or "")


def reachable(spec: MeasureSpec, stock: Stock) -> tuple[str, ...]:
    """The values of `when` that a measure can have: a least figure can only be short, a greatest one only over."""
    row = _row(spec, stock)
    if row is None or row.role != "limit":
        return ("typed", "none")
    never = {"min": "over", "max": "short"}.get(row.direction)
    return tuple(value for value in VERDICTS if value != never)


def _wrong(name: str, option: str, known: tuple[str, ...], spec: MeasureSpec | None, stock: Stock) -> str:
    choices = f"It can be {', '.join(known)}.{did_you_mean(option, known)}"
    if spec is None or option not in VERDICTS:
        return f"'{option}' is not a value of '{name}'. {choices}"
    row = _row(spec, stock)
    if row is None:
        return f"'{name}' has no criterion, so it is never '{option}'. {choices}"
    side = "least" if row.direction == "min" else "greatest"
    return f"'{row.id}' is a {side} figure, so '{name}' is never '{option}'. {choices}"


def _raise(located: Located, key: Key, when: Mapping[str, Any], entry: Entry, stock: Stock) -> list[Fault]:
    """A raise names measures with one verdict each, or how far past the figure; `linked` names another entry."""
    out: list[Fault] = []
    for name, wanted in when.items():
        if name == "linked":
            if wanted not in stock.codes:
                message = f"'{wanted}' is not an entry's code.{did_you_mean(str(wanted), stock.codes)}"
                out.append(located.fault((*key, name), message))
            continue
        spec = entry.measure(name)
        if spec is None:
            names = [item.name for item in entry.measures]
            message = f"'{name}' is not a measure of this entry.{did_you_mean(name, names)}"
            out.append(located.fault((*key, name), message))
            continue
        known = tuple(value for value in reachable(spec, stock) if value in JUDGED)
        if isinstance(wanted, list):
            out += _margin(located, (*key, name), spec, wanted, known, stock)
        elif wanted not in known:
            said = f"It can be {', '.join(known)}" if known else f"'{name}' has no criterion, so it has no verdict"
            out.append(located.fault((*key, name), f"'{wanted}' is not one verdict of '{name}'. {said}."))
    return out


def _margin(
    located: Located, key: Key, spec: MeasureSpec, wanted: Sequence[str], known: Sequence[str], stock: Stock
) -> list[Fault]:
    """A margin goes past a figure that there is, in a unit that fits, or in percent of it."""
    verdict, _, unit = wanted
    row = _row(spec, stock)
    if verdict not in known or row is None:
        can = f"It can be {', '.join(known)}." if known else f"'{spec.name}' has no criterion."
        return [located.fault(key, f"'{spec.name}' is never {verdict}. {can}")]
    if unit != "percent" and not compatible(unit, spec.kind):
        return [located.fault(key, f"A margin of '{spec.name}' is a {spec.kind}, or a percentage of the figure.")]
    return []


def _order(located: Located, field: str, variants: tuple[Variant, ...]) -> list[Fault]:
    """The last wording always holds, and none stands behind one that holds whenever it does."""
    out: list[Fault] = []
    if variants[-1].when:
        message = f"The last wording of '{field}' must hold always: take its 'when' away, or add one without below it."
        out.append(located.fault((field, len(variants) - 1, "when"), message))
    names = [variant.name for variant in variants]
    for number, variant in enumerate(variants):
        if not variant.name:
            message = "Each of several wordings has a name, by which others refer to it."
            out.append(located.fault((field, number), message))
        elif variant.name in names[:number]:
            out.append(located.fault((field, number, "name"), f"'{variant.name}' is the name of another wording here."))
        hider = next((other for other in variants[:number] if implied(variant.when, other.when)), None)
        if hider is not None:
            message = f"This wording is never reached: '{hider.name or hider.text[:30]}' above holds whenever it does."
            out.append(located.fault((field, number), message))
    return out


def implied(when: Mapping[str, Any], other: Mapping[str, Any]) -> bool:
    """Whether `other` holds whenever `when` does."""
    return all(key in when and _values(key, when[key]) <= _values(key, other[key]) for key in other)


def _values(key: str, wanted: Any) -> frozenset[str]:
    options = set(wanted if isinstance(wanted, list) else [wanted])
    if "typed" in options:
        options |= set(JUDGED)
    if key == "basis" and "first-hand" in options:
        options |= set(FIRST_HAND)
    return frozenset(options)
