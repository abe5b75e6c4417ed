"""The grade of a finding, its reason and who answers: the entry's, raised by numbers, then set by hand within bounds."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from narrator.assess.model import RANK, Judged, Override, Seen
from narrator.measure.units import convert
from narrator.resolve.model import Remark
from narrator.resolve.vocabulary import plain_words
from narrator.source.model import Entry


class Graded(NamedTuple):
    """`why_from` says where the reason stands: entry, raise or line."""

    severity: str | None
    why: str
    why_from: str
    trades: tuple[tuple[str, str], ...]
    overrides: tuple[Override, ...]
    do: str | None
    notes: tuple[Remark, ...]


# What other conditions stand at the place of an instance, by code.
Beside = Callable[[Seen], frozenset[str]]


def could_hurt(entry: Entry | None, severity: str | None = None) -> bool:
    """Whether a matter could hurt someone: only a named person with a reason holds it back or grades it down."""
    return severity == "act-now" or (entry is not None and (bool(entry.danger) or entry.severity == "act-now"))


def graded(
    seen: Sequence[Seen], entry: Entry | None, trade_names: Mapping[str, str], beside: Beside, named: bool = True
) -> Graded:
    """Grade, reason and trades of a group of instances. `named`: the checklist says who the inspector is."""
    notes: list[Remark] = []
    overrides: list[Override] = []
    lines = tuple(sorted({item.instance.line.number for item in seen}))
    severity = entry.severity if entry else None
    why, why_from = (entry.why, "entry") if entry else ("", "line")
    for rule in entry.raises if entry else ():
        if any(holds(rule.when, item, beside) for item in seen) and RANK[rule.to] < RANK[severity or "upkeep"]:
            severity, why, why_from = rule.to, rule.why, "raise"
    said = {
        key: [(i.instance.line.number, o.value) for i in seen for o in i.instance.overrides if o.key == key]
        for key in ("severity", "because", "trade", "do")
    }
    because = said["because"][0][1] if said["because"] else None
    if said["severity"]:
        line, wanted = min(said["severity"], key=lambda item: RANK[item[1]])
        lowered = severity is not None and RANK[wanted] > RANK[severity]
        if lowered and could_hurt(entry, severity) and (because is None or not named):
            need = 'Add because "..." to do so' if because is None else "Type who does so (inspector: NAME)"
            text = f"'{wanted}' would grade down a matter that could hurt someone. {need}; it stays '{severity}'."
            notes.append(Remark("override", (line,), text))
        elif wanted != severity:
            overrides.append(Override("severity", wanted, severity, (line,), because))
            severity = wanted
            if because is None and entry is not None:
                notes.append(
                    Remark(
                        "override",
                        (line,),
                        f"The grade was set to '{wanted}' by hand, with no reason; the printed reason is the entry's.",
                    )
                )
    if because is not None:
        overrides.append(Override("because", because, why or None, (said["because"][0][0],), None))
        why, why_from = because, "line"
    trades = [(entry.lead, "lead"), *((name, "with") for name in entry.beside)] if entry else []
    if said["trade"]:
        line, wanted = said["trade"][0]
        chosen, unknown = _trades(wanted, trade_names)
        for word in unknown:
            notes.append(Remark("override", (line,), f"'{word}' is not a trade of the library; type one of its names."))
        if chosen:
            was = trades[0][0] if trades else None
            overrides.append(Override("trade", " + ".join(chosen), was, (line,), None))
            trades = [(name, "lead" if index == 0 else "with") for index, name in enumerate(chosen)]
    if entry is None and severity is None:
        notes.append(
            Remark(
                "grade",
                lines,
                f"'{seen[0].instance.title}' is not in the library and has no grade; type one (act-now, find-out, plan, upkeep).",
            )
        )
    do = said["do"][0][1] if said["do"] else None
    if do is not None:
        overrides.append(Override("do", do, None, (said["do"][0][0],), None))
    return Graded(severity, why, why_from, tuple(trades), tuple(overrides), do, tuple(notes))


def holds(when: Mapping[str, Any], seen: Seen, beside: Beside) -> bool:
    """Whether everything that a `raise` names is so: verdicts, how far past the figure, another finding at the place."""
    for name, wanted in when.items():
        if name == "linked":
            if wanted not in beside(seen):
                return False
            continue
        judged = [item for item in seen.judged if item.measure.spec.name == name]
        if isinstance(wanted, str):
            if wanted not in {item.verdict for item in judged}:
                return False
        elif not any(_past(item, *wanted) for item in judged):
            return False
    return True


def _past(judged: Judged, verdict: str, amount: str, unit: str) -> bool:
    """Whether a value lies past its published figure by that much or more; percent is a share of the figure.

    Where several figures are published, the one furthest out counts: the grade goes up only where all agree.
    """
    quantity, criterion = judged.measure.quantity, judged.criterion
    if judged.verdict != verdict or quantity is None or criterion is None:
        return False
    figures = [figure for each in (criterion.value, *criterion.spread) for figure in each]
    limit = max(figures) if verdict == "over" else min(figures)
    typed = quantity.high if verdict == "over" else quantity.low
    delta = quantity.unit in ("degF", "degC") and criterion.unit.startswith("delta_")
    step = f"delta_{unit}" if unit in ("degF", "degC") else unit
    base = f"delta_{criterion.unit}" if criterion.unit in ("degF", "degC") else criterion.unit
    try:
        value = convert(typed, f"delta_{quantity.unit}" if delta else quantity.unit, criterion.unit)
        gap = value - limit if verdict == "over" else limit - value
        if unit == "percent" and criterion.unit != "percent":
            return gap * 100 >= limit * Fraction(amount)
        return gap >= convert(Fraction(amount), step, base)
    except ValueError:  # a margin in a unit of another kind: `check` says so
        return False


def trade_words(text: str) -> list[str]:
    """The names in a typed `trade plumber + engineer`, as they are looked up."""
    parts = text.replace("&", "+").replace(" and ", "+").split("+")
    return [word for part in parts if (word := " ".join(plain_words(part)))]


def _trades(text: str, names: Mapping[str, str]) -> tuple[list[str], list[str]]:
    chosen: list[str] = []
    unknown: list[str] = []
    for word in trade_words(text):
        found = names.get(word)
        if found is None:
            unknown.append(word)
        elif found not in chosen:
            chosen.append(found)
    return chosen, unknown
