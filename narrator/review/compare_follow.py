"""One change in a finding is told once: what page one and the trade sheets say otherwise because of it stands under it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrator.review.kinds import WEIGHT, Change

_REGROUPS = frozenset({"dropped", "added", "merged", "split", "grade"})
_TOLD = re.compile(r"(?i)^numbers? [\d, toand]+ told together")
_COUNTS = re.compile(
    r"(?i)\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d+)\b.*\b(?:things?|repairs?|matters?)\b|"
    r"\bsee numbers? "
)


def grouped(noted: Sequence[tuple[Change, str]]) -> list[tuple[Change, tuple[int, ...]]]:
    """Each change that stands for itself, with those that follow from it, and the places of all of them in `noted`."""
    heads: dict[int, list[int]] = {}
    head_of: dict[int, int] = {}
    regrouped = [at for at, (change, where) in enumerate(noted) if change.kind in _REGROUPS and not _dependent(where)]
    of_owner: dict[int, list[int]] = {}
    for at, (change, where) in enumerate(noted):
        if not _dependent(where) and change.owner is not None:
            of_owner.setdefault(change.owner, []).append(at)
    for at, (change, where) in enumerate(noted):
        if _dependent(where):
            cause = _cause(change, where, noted, of_owner, regrouped)
        else:
            cause = _said_before(at, change, noted, of_owner) if where == "finding" else None
        head_of[at] = at if cause is None else head_of.get(cause, cause)
        heads.setdefault(head_of[at], []).append(at)
    out = []
    for at, members in heads.items():
        change = noted[at][0]
        follows = tuple(noted[each][0] for each in members if each != at)
        out.append((change._replace(follows=follows), tuple(members)))
    return out


def _dependent(where: str) -> bool:
    return where not in ("finding", "other")


def _cause(
    change: Change,
    where: str,
    noted: Sequence[tuple[Change, str]],
    of_owner: dict[int, list[int]],
    regrouped: list[int],
) -> int | None:
    """The change of a finding that this one follows from."""
    own = of_owner.get(change.owner, []) if change.owner is not None else []
    whole = not change.before or not change.after
    for at in sorted(own, key=lambda each: WEIGHT[noted[each][0].kind]):
        cause = noted[at][0]
        if whole and (cause.kind in _REGROUPS or cause.kind in ("trade", "place")):
            return at
        if not whole and ((cause.kind == "grade" and change.kind == "trade") or _same(cause, change)):
            return at
    if change.owner is not None or not regrouped:
        return None
    if where == "story" and change.kind == "number" and _TOLD.search(change.before):
        return regrouped[0]
    if where == "story" or where.startswith("whole "):
        named = [at for at in regrouped if _names(noted[at][0], change)]
        return named[0] if named else regrouped[0] if where in ("whole opening", "whole sheet") else None
    if where == "glossary":
        return regrouped[0] if whole else None
    counts = _COUNTS.search(change.before) or _COUNTS.search(change.after)
    return regrouped[0] if counts and change.kind in _COUNTED else None


_FIGURES = frozenset({"measure", "criterion", "number"})
_COUNTED = frozenset({"number", "measure", "criterion", "word", "reworded", "omitted", "added-text", "recommendation"})


def _names(cause: Change, change: Change) -> bool:
    """Whether a text names a finding that came or went, in one report and not in the other."""
    title = (cause.before if cause.kind in ("dropped", "merged") else cause.after).lower()
    return bool(title) and (title in change.before.lower()) != (title in change.after.lower())


def _said_before(
    at: int, change: Change, noted: Sequence[tuple[Change, str]], of_owner: dict[int, list[int]]
) -> int | None:
    """The same words changed alike further up in the finding, such as in the line under its title."""
    if change.owner is None or not any(word.state != "same" for word in change.words):
        return None
    earlier = (each for each in of_owner.get(change.owner, ()) if each < at)
    return next((each for each in earlier if _same(noted[each][0], change)), None)


def _same(cause: Change, change: Change) -> bool:
    """Whether two changes are of one kind and the same words left and came: one may say more around them."""
    if cause.kind != change.kind and not {cause.kind, change.kind} <= _FIGURES:
        return False
    if not {*change.also} <= {*cause.also, cause.kind}:
        return False  # it says more than its cause
    lost, gained = (_moved(cause, state) & _moved(change, state) for state in ("removed", "added"))
    alike = all(bool(_moved(cause, state)) == bool(_moved(change, state)) for state in ("removed", "added"))
    return (
        bool(lost and gained) if alike and _moved(cause, "removed") and _moved(cause, "added") else bool(lost or gained)
    )


def _moved(change: Change, state: str) -> set[str]:
    return {
        word.strip(".,;:()“”\"'").lower() for part in change.words if part.state == state for word in part.text.split()
    }
