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
    regrouped = [at for at, (change, where) in enumerate(noted) if change.kind in _REGROUPS and not _dependent(where)]
    of_owner: dict[int, list[int]] = {}
    for at, (change, where) in enumerate(noted):
        if not _dependent(where) and change.owner is not None:
            of_owner.setdefault(change.owner, []).append(at)
    for at, (change, where) in enumerate(noted):
        head = _cause(change, where, noted, of_owner, regrouped) if _dependent(where) else None
        heads.setdefault(at if head is None else head, []).append(at)
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
        if cause.kind in _REGROUPS or (whole and cause.kind in ("trade", "place")):
            return at
        if (
            (cause.kind == change.kind or {cause.kind, change.kind} <= _FIGURES)
            and not whole
            and _same_words(cause, change)
        ):
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


def _same_words(cause: Change, change: Change) -> bool:
    """Whether the same words left and came."""

    def moved(each: Change, state: str) -> set[str]:
        return {
            word.strip(".,;:()“”\"'").lower()
            for part in each.words
            if part.state == state
            for word in part.text.split()
        }

    return bool(moved(cause, "removed") & moved(change, "removed")) or bool(
        moved(cause, "added") & moved(change, "added")
    )
