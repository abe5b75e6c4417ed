"""Grouping: findings told together share code, outcome and kind of basis; each keeps its instances."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import NamedTuple

from narrator.assess.grade import could_hurt, graded, holds
from narrator.assess.judge import Tools, judge_instance
from narrator.assess.model import FIRST_HAND, RANK, Finding, Judgement, Seen, undated
from narrator.assess.sides import fate_of, has_reading, only_unheld, other_side, unheld_side
from narrator.measure.units import convert
from narrator.read.model import Line
from narrator.resolve.model import Instance, Loose, Near, Remark
from narrator.source import index as store
from narrator.source.index import Index


class Means(NamedTuple):
    """What the headers say that a judgement needs: year of the visit, the instruments' uncertainties, trades by name, systems in
    printed order, the system that a thing which the library does not have belongs to, and whether the inspector is named.
    """

    visited_year: int | None
    tools: Tools
    trade_names: Mapping[str, str]
    systems: tuple[str, ...]
    home: Callable[[Line], str]
    built: bool = False
    named: bool = True


def assess(instances: Sequence[Instance], index: Index, means: Means) -> Judgement:
    """Judge every instance and gather findings in printed order, numbered from 1."""
    notes: list[Remark] = []
    loose: list[Loose] = []
    met: list[Seen] = []
    young: list[Seen] = []
    held: list[Instance] = []
    groups: dict[tuple[str, str, str], list[Seen]] = {}
    judge = partial(judge_instance, index=index, visited_year=means.visited_year, tools=means.tools, built=means.built)
    for instance in instances:
        seen = judge(instance)
        notes.extend(Remark("measure", (instance.line.number,), text) for text in seen.notes)
        back = next((item for item in instance.overrides if item.key == "hold back"), None)
        if back is not None and not _may_hold(seen, back.value, means.named):
            notes.append(
                Remark(
                    "held-back",
                    (instance.line.number,),
                    "A matter that could hurt someone is held back only by a named inspector with a reason; it stays in.",
                )
            )
        elif back is not None:
            held.append(instance)
            said = f"'{instance.line.what}' is held back from the report" + (
                f": {back.value}." if back.value else "; no reason was typed."
            )
            notes.append(Remark("withheld", (instance.line.number,), said))
            continue
        fate = fate_of(seen)
        if only_unheld(seen) and not instance.says_wrong:
            unheld = unheld_side(seen, index, judge)
            if unheld is None and not has_reading(seen):
                loose.append(_unsettled(seen, NO_READING))
                continue
            seen, fate = (unheld, "fails") if unheld is not None else (seen, fate)
            instance = seen.instance
        elif fate == "meets":
            other = other_side(seen, index, judge)
            seen, fate = (other, "fails") if other is not None else (seen, fate)
            instance = seen.instance
        if fate == "contradiction":
            loose.append(_unsettled(seen, _contradiction(seen)))
        elif fate == "meets":
            met.append(seen)
        elif _young(seen, index):
            young.append(seen)
        elif not instance.says_wrong and seen.judged and all(undated(item) for item in seen.judged):
            loose.append(_unsettled(seen, NO_AGE))
        elif _unjudged(seen):
            loose.append(_unsettled(seen, NO_VERDICT))
        else:
            key = (instance.match.code, _outcome(seen), _basis_kind(instance.basis))
            groups.setdefault(key, []).append(seen)
    there = _codes_by_place(groups)
    findings = [_finding(key, tuple(seen), means, notes, there) for key, seen in groups.items()]
    findings.sort(key=lambda item: _order(item, means.systems))
    return Judgement(_numbered(findings), tuple(met), tuple(young), tuple(_once(loose)), tuple(held), tuple(notes))


def _may_hold(seen: Seen, reason: str, named: bool) -> bool:
    """Whether a line may be held back: what could hurt someone, only with a reason and by a named person."""
    instance = seen.instance
    typed = [item.value for item in instance.overrides if item.key == "severity"]
    raised = [
        rule.to
        for rule in (instance.entry.raises if instance.entry else ())
        if holds(rule.when, seen, lambda _: frozenset())
    ]
    urgent = "act-now" if "act-now" in (*typed, *raised) else None
    return bool(reason and named) or not could_hurt(instance.entry, urgent)


NO_READING = "The pins held nowhere, so there is no reading; type what was found."
NO_AGE = "A year of make gives an age only with the date of the visit after it; type 'visited: ...', or what is wrong."


NO_VERDICT = "No published figure says whether this is wrong. Say what is wrong with it, or what there is with '='."
# Readings that only compare, and ages, are told as they are; anything else under a plain name needs a figure to be wrong by.
_TOLD_ANYWAY = frozenset({"moisture", "humidity", "percent", "age", "date", "temperature", "count"})


def _unjudged(seen: Seen) -> bool:
    """The plain name of a thing and its figure, where nothing judges the figure: no word says that anything is wrong."""
    instance = seen.instance
    told = [item for item in seen.judged if not item.measure.control]
    return (
        not instance.says_wrong
        and (instance.match.how == "likeness" or (instance.match.how == "name" and _by_another(instance)))
        and bool(told)
        and not any(item.verdict for item in told)
        and not any(item.measure.spec.kind in _TOLD_ANYWAY for item in told)
    )


def _by_another(instance: Instance) -> bool:
    """Whether the published figure depends on a measure that was not typed, as the size of a wire."""
    return instance.entry is not None and any(spec.against for spec in instance.entry.measures)


def _contradiction(seen: Seen) -> str:
    """Why a line whose words and figure disagree stays open."""
    shown = ", ".join(item.text for item in seen.judged if item.verdict == "meets")
    return (
        f"The words say '{seen.instance.line.what}', but the figure ({shown}) meets the published one. Which is right?"
    )


def _unsettled(seen: Seen, reason: str) -> Loose:
    """A line that found its entry and cannot be told as it stands."""
    instance = seen.instance
    near = (Near(instance.match.code, instance.title, instance.match.score),)
    return Loose(instance.line, instance.line.text, reason, near)


def _young(seen: Seen, index: Index) -> bool:
    """An age below the typical life is a description, not a finding."""
    for item in seen.judged:
        spec = item.measure.spec
        if spec.kind != "age" or not spec.typical or seen.verdicts:
            continue
        row = store.criterion(index, spec.typical)
        age = next((found.value for found in item.derived if found.name == "age"), None)
        if age is None and item.measure.quantity is not None and item.measure.quantity.unit != "date":
            age = convert(item.measure.quantity.high, item.measure.quantity.unit, "year")
        if row is not None and age is not None and age < max(row.value) and not seen.instance.says_wrong:
            return True
    return False


def _outcome(seen: Seen) -> str:
    verdicts = seen.verdicts
    near = "too close" in verdicts and not any(verdict in ("short", "over") for verdict in verdicts)
    return "too close" if near else "fails"


def _basis_kind(basis: str) -> str:
    return "first-hand" if basis in FIRST_HAND else basis


def _once(loose: Sequence[Loose]) -> list[Loose]:
    """One loose line for all its places."""
    out: dict[tuple[int, str], Loose] = {}
    for item in loose:
        out.setdefault((item.line.number, item.line.what), item)
    return list(out.values())


def _codes_by_place(groups: Mapping[tuple[str, str, str], Sequence[Seen]]) -> dict[str, frozenset[str]]:
    """The codes of the conditions at each typed place."""
    out: dict[str, set[str]] = {}
    for (code, _, _), seen in groups.items():
        for one in seen:
            if one.instance.place:
                out.setdefault(one.instance.place.casefold(), set()).add(code)
    return {place: frozenset(codes) for place, codes in out.items()}


def _finding(
    key: tuple[str, str, str],
    seen: tuple[Seen, ...],
    means: Means,
    notes: list[Remark],
    there: Mapping[str, frozenset[str]],
) -> Finding:
    code, outcome, kind = key
    first = seen[0].instance
    entry = first.entry
    name = code + ("~too-close" if outcome == "too close" else "") + ("" if kind == "first-hand" else f"~{kind}")
    found = graded(
        seen,
        entry,
        means.trade_names,
        lambda one: there.get((one.instance.place or "").casefold(), frozenset()),
        means.named,
    )
    notes.extend(found.notes)
    return Finding(
        id=name,
        code=code,
        entry=entry,
        title=first.title,
        outcome=outcome,
        basis_kind=kind,
        seen=seen,
        severity=found.severity,
        why=found.why,
        why_from=found.why_from,
        trades=found.trades,
        overrides=found.overrides,
        do=found.do,
        system=code.split(".", 1)[0] if entry else means.home(first.line),
    )


def _order(finding: Finding, systems: Sequence[str]) -> tuple[int, int, int, str]:
    """Section, then grade, then the first line typed."""
    system = finding.system
    place = systems.index(system) if system in systems else len(systems)
    return place, RANK.get(finding.severity or "find-out", 1), finding.lines[0], finding.id


def _numbered(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Numbers as people say them, and for a second group of a code the number of the first."""
    out: list[Finding] = []
    by_code: dict[str, int] = {}
    for number, finding in enumerate(findings, 1):
        out.append(replace(finding, number=number, first=by_code.get(finding.code)))
        by_code.setdefault(finding.code, number)
    return tuple(out)
