"""Findings as judged: verdicts, grades, groups."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from narrator.measure.verdict import Criterion
from narrator.resolve.model import Instance, Loose, Measure, Remark
from narrator.source.model import Entry

FIRST_HAND = ("seen", "measured", "tested", "smelled", "heard", "felt", "read")
RANK = {"act-now": 0, "find-out": 1, "plan": 2, "upkeep": 3}


class Derived(NamedTuple):
    """A value worked out from a typed series: `name` says what, `source` from which measure."""

    name: str
    value: Fraction
    unit: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Judged:
    """A measure held against its criterion. `text` is what prints; `verdict` None when there is no pass mark.

    `older`: the figure for older or existing houses, printed beside when the year of the house is typed; it never judges.
    `unit`: the reader's unit, where the figure is not said as it was typed.
    """

    measure: Measure
    criterion: Criterion | None
    verdict: str | None
    text: str
    derived: tuple[Derived, ...] = ()
    older: Criterion | None = None
    unit: str = ""


def undated(judged: Judged) -> bool:
    """Whether a year of make stands alone: without the date of the visit it gives no age."""
    quantity = judged.measure.quantity
    return quantity is not None and quantity.unit == "date" and not judged.derived


class Seen(NamedTuple):
    """An instance with its judged measures; `notes` say which sum had no answer."""

    instance: Instance
    judged: tuple[Judged, ...]
    notes: tuple[str, ...] = ()

    @property
    def verdicts(self) -> tuple[str, ...]:
        """Verdicts that may decide: those of measures which do not only stand beside the condition."""
        return tuple(item.verdict for item in self.judged if item.verdict and not item.measure.spec.context)


class Override(NamedTuple):
    """What the inspector set by hand."""

    key: str
    value: str
    was: str | None
    lines: tuple[int, ...]
    reason: str | None


@dataclass(frozen=True, slots=True)
class Finding:
    """One condition told once: same code, same outcome, same kind of basis. `system`: the section it is told in."""

    id: str
    code: str
    entry: Entry | None
    title: str
    outcome: str
    basis_kind: str
    seen: tuple[Seen, ...]
    severity: str | None
    why: str
    why_from: str
    trades: tuple[tuple[str, str], ...]
    overrides: tuple[Override, ...]
    do: str | None
    system: str
    number: int = 0
    first: int | None = None

    @property
    def lines(self) -> tuple[int, ...]:
        """Checklist lines, in order."""
        return tuple(sorted({item.instance.line.number for item in self.seen}))


class Judgement(NamedTuple):
    """All findings and results, and what became loose because its words contradict its number."""

    findings: tuple[Finding, ...]
    met: tuple[Seen, ...]
    young: tuple[Seen, ...]
    loose: tuple[Loose, ...]
    withheld: tuple[Instance, ...]
    notes: tuple[Remark, ...]
