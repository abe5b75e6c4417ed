"""Values worked out from typed ones, and published figures chosen by them.

An entry says `worked: {by: area, width: width, height: height}` for a measure that follows from others, or
`against: {by: wire, gauge: wire}` where the published figure depends on another measure. The two tables below are all
that an entry can name; the sums themselves stand in `narrator.measure.calculations`. A value that was typed is never
worked out again.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from itertools import product
from typing import NamedTuple

from narrator.measure.quantity import Quantity
from narrator.measure.units import convert
from narrator.resolve.model import Instance, Measure
from narrator.resolve.vocabulary import plain_words
from narrator.source.model import Entry, MeasureSpec

Typed = frozenset[str]  # the words of the line, which may name a material


class Role(NamedTuple):
    """One typed measure that a sum needs: its kind, and the unit the sum is made in."""

    kind: str
    unit: str


class Method(NamedTuple):
    """A sum: its roles in order, the kind and unit of what it gives (low and high), and the function.

    The function takes the role values in order and the words of the line, and raises ValueError where there is no answer.
    """

    roles: Mapping[str, Role]
    kind: str
    unit: str
    work: Callable[[Sequence[Fraction], Typed], tuple[Fraction, Fraction]]


class Choice(NamedTuple):
    """A choice of the published figure: its roles, every row it can name, and the function, which may raise ValueError."""

    roles: Mapping[str, Role]
    rows: tuple[str, ...]
    choose: Callable[[Sequence[Fraction], Typed], str]


def worked_measures(instance: Instance, entry: Entry) -> tuple[tuple[Measure, ...], tuple[str, ...]]:
    """The measures of an entry that follow from the typed ones, and what to say where a sum has no answer."""
    specs = [spec for spec in entry.measures if spec.worked]
    if not specs or not instance.measures:
        return (), ()
    from narrator.assess.methods import METHODS  # only where an entry asks for a sum

    out: list[Measure] = []
    said: list[str] = []
    have = {item.spec.name: item for item in instance.measures if item.quantity is not None and not item.control}
    typed = {item.spec.name for item in instance.measures}
    for spec in specs:
        if spec.name in typed:
            continue
        named = dict(spec.worked)
        method = METHODS.get(named["by"])
        if method is None:
            continue
        sources = [have.get(named.get(role, "")) for role in method.roles]
        if any(source is None for source in sources):
            continue
        known = [source for source in sources if source is not None]
        try:
            quantity = _worked(method, known, _typed(instance))
        except ValueError as error:
            said.append(f"The {spec.label} could not be worked out: {error}.")
            continue
        if quantity is not None:
            source = ", ".join(item.spec.name for item in known)
            out.append(Measure(spec, quantity, (), quantity.unit, False, known[0].line, source))
    return tuple(out), tuple(said)


def chosen_row(spec: MeasureSpec, instance: Instance) -> tuple[str | None, str]:
    """The id of the published figure for a measure, and what to say where none fits; (None, '') when nothing tells."""
    from narrator.assess.methods import CHOICES

    named = dict(spec.against)
    choice = CHOICES.get(named["by"])
    if choice is None:
        return None, ""
    have = {item.spec.name: item.quantity for item in instance.measures if item.quantity is not None}
    values: list[Fraction] = []
    for role, needed in choice.roles.items():
        quantity = have.get(named.get(role, ""))
        if quantity is None:
            return None, ""
        try:
            values.append(convert(quantity.high, quantity.unit, needed.unit))
        except ValueError:
            return None, ""
    try:
        return choice.choose(values, _typed(instance)), ""
    except ValueError as error:
        return None, f"No published figure was chosen for the {spec.label}: {error}."


def _typed(instance: Instance) -> Typed:
    return frozenset(plain_words(instance.line.text))


# A metric reader gets metric answers.
_METRIC = {"foot**2": "meter**2", "inch": "millimeter", "foot": "meter", "delta_degF": "delta_degC"}
_IS_METRIC = frozenset({"millimeter", "centimeter", "meter", "degC"})


def _worked(method: Method, sources: Sequence[Measure], typed: Typed) -> Quantity | None:
    """The answer over all ends of ranges; None for a value that was only bounded (`<`, `>`)."""
    quantities = [source.quantity for source in sources if source.quantity is not None]
    if any(item.bound in ("<", ">") or item.of is not None for item in quantities):
        return None
    ends = [
        tuple(convert(end, item.unit, role.unit) for end in dict.fromkeys((item.low, item.high)))
        for item, role in zip(quantities, method.roles.values(), strict=True)
    ]
    answers = [method.work(values, typed) for values in product(*ends)]
    low, high = min(answer[0] for answer in answers), max(answer[1] for answer in answers)
    unit = method.unit
    if unit in _METRIC and all(item.unit in _IS_METRIC for item in quantities):
        low, high = convert(low, unit, _METRIC[unit]), convert(high, unit, _METRIC[unit])
        unit = _METRIC[unit]
    bound = "~" if any(item.bound == "~" for item in quantities) else ""
    return Quantity(low, high, unit, bound)
