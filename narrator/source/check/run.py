"""All checks of a library, in order: form, then what stands between the files, wording, names, cases."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from narrator.errors import Fault, NarratorError
from narrator.source.check.answers import answer_faults
from narrator.source.check.cases import case_faults
from narrator.source.check.duties import duty_faults
from narrator.source.check.files import file_faults
from narrator.source.check.likes import like_faults
from narrator.source.check.limits import limit_faults
from narrator.source.check.lists import list_faults, unused
from narrator.source.check.names import name_faults
from narrator.source.check.practice import practice_faults
from narrator.source.check.references import reference_faults
from narrator.source.check.stock import Stock, stock_of
from narrator.source.check.sums import sum_faults
from narrator.source.check.whens import when_faults
from narrator.source.check.wording import wording_faults
from narrator.source.library import Files, read_files

# Each looks at the whole library and says everything that it finds wrong.
CHECKS: tuple[Callable[[Stock], list[Fault]], ...] = (
    list_faults,
    practice_faults,
    reference_faults,
    sum_faults,
    when_faults,
    name_faults,
    wording_faults,
    duty_faults,
    limit_faults,
    like_faults,
    case_faults,
    answer_faults,
)


@dataclass(frozen=True, slots=True)
class Checked:
    """What came of a check: faults and notices sorted by place, and how much was looked at."""

    faults: tuple[Fault, ...]
    notices: tuple[Fault, ...]
    entries: int
    names: int
    cases: int
    criteria: int


def check_library(root: Path) -> Checked:
    """Every fault of a library folder. Raises NarratorError only when there is no such folder."""
    try:
        files = read_files(root)
    except NarratorError as error:
        if not root.is_dir():
            raise
        return Checked(error.faults, (), 0, 0, 0, 0)
    faults = file_faults(files)
    wrong = {fault.pos.path for fault in faults}
    broken = frozenset(code for code, located in files.entries.items() if located.path in wrong)
    shared = [*files.lists.values(), *files.criteria.values(), *files.practice.values()]
    if any(located.path in wrong for located in shared):
        return _counted(files, faults, [])  # nothing can be held against lists that are not well formed
    stock, more = stock_of(files, broken)
    faults += more
    for check in CHECKS:
        faults += check(stock)
    return _counted(files, faults, unused(stock))


def _counted(files: Files, faults: list[Fault], notices: list[Fault]) -> Checked:
    values = [located.value for located in files.entries.values()]
    return Checked(
        faults=tuple(sorted(set(faults))),
        notices=tuple(notices),
        entries=len(values),
        names=sum(len(value["names"]) for value in values if isinstance(value.get("names"), list)),
        cases=sum(len(value["cases"]) for value in values if isinstance(value.get("cases"), list)),
        criteria=sum(len(located.value.get("criteria") or []) for located in files.criteria.values()),
    )
