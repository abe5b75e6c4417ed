"""The grade of a finding, its reason and who answers: the entry's, raised by numbers, then set by hand within bounds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from narrator.assess.model import RANK, Override, Seen
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


def could_hurt(entry: Entry | None, severity: str | None = None) -> bool:
    """Whether a matter could hurt someone: only a named person with a reason holds it back or grades it down."""
    return severity == "act-now" or (entry is not None and (bool(entry.danger) or entry.severity == "act-now"))


def graded(seen: Sequence[Seen], entry: Entry | None, trade_names: Mapping[str, str], named: bool = True) -> Graded:
    """Grade, reason and trades of a group of instances. `named`: the checklist says who the inspector is."""
    notes: list[Remark] = []
    overrides: list[Override] = []
    lines = tuple(sorted({item.instance.line.number for item in seen}))
    severity = entry.severity if entry else None
    why, why_from = (entry.why, "entry") if entry else ("", "line")
    for rule in entry.raises if entry else ():
        if any(holds(rule.when, item) for item in seen) and RANK[rule.to] < RANK[severity or "upkeep"]:
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


def holds(when: Mapping[str, object], seen: Seen) -> bool:
    """Whether every verdict that a `raise` names was reached."""
    for name, wanted in when.items():
        found = {item.verdict for item in seen.judged if item.measure.spec.name == name}
        if wanted not in found:
            return False
    return True


def _trades(text: str, names: Mapping[str, str]) -> tuple[list[str], list[str]]:
    chosen: list[str] = []
    unknown: list[str] = []
    for part in text.replace("&", "+").replace(" and ", "+").split("+"):
        word = " ".join(plain_words(part))
        if not word:
            continue
        found = names.get(word)
        if found is None:
            unknown.append(word)
        elif found not in chosen:
            chosen.append(found)
    return chosen, unknown
