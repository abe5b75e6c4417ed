"""Grades: set lower or higher than the library's without a reason; an urgent matter that nobody was told of."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.publish.labels import SEVERITIES
from narrator.review.grounds import Grounds, capital, name, prose
from narrator.review.matter import Matter, of_finding
from narrator.review.pieces import Found
from narrator.review.plainly import level

_ACT = re.compile(
    r"\b(?:We|we|The inspector|I) (?:have )?(?:also )?(?:told|warned|notified|called|informed|alerted|phoned|left a note)\b"
)


def check(grounds: Grounds) -> Iterator[Matter]:
    """Grades without a word or a reason, and urgent findings without notice."""
    for found in grounds.reading.findings:
        if found.grade is None:
            said = (
                f"“{level(found.severity)}” is no grade"
                if found.severity and level(found.severity) != "not graded"
                else "no grade"
            )
            yield of_finding(
                "grade",
                found,
                f"{capital(name(found))}: {said}.",
                f"One of: {', '.join(grounds.labels.severities.values())}.",
            )
        else:
            yield from _overridden(grounds, found)
        if found.grade == "act-now" and not _noticed(grounds, found):
            text = f"{capital(name(found))} could hurt someone, and nothing says who was told."
            yield of_finding(
                "notice",
                found,
                text,
                "Warn the people there, and write whom and when, such as: warned occupant 14:10.",
            )


def _noticed(grounds: Grounds, found: Found) -> bool:
    value = grounds.values.get(found.number or 0)
    acts = value is not None and any(each["acts"] for each in value["instances"])
    return acts or bool(_ACT.search(prose(found)))


def _overridden(grounds: Grounds, found: Found) -> Iterator[Matter]:
    right = "Give the reason, or take the library’s grade."
    value = grounds.values.get(found.number or 0)
    entry = grounds.entry(found)
    if value is not None:
        for each in value["overrides"]:
            if each["key"] == "severity" and not each["reason"]:
                was = grounds.labels.severities.get(each["was"] or "", "no grade")
                text = f"The grade of {name(found)} was set by hand from “{was}” to “{level(found.severity)}”, without a reason."
                if entry is not None or each["was"]:
                    yield of_finding("grade", found, text, right)
        if any(each["key"] == "severity" for each in value["overrides"]):
            return
    if entry is None or not grounds.same_library or found.grade is None:
        return
    raised = {entry.severity, *(rule.to for rule in entry.raises)}
    own_reason = level(entry.why) not in prose(found) and not any(
        level(rule.why) in prose(found) for rule in entry.raises
    )
    if found.grade not in raised and not own_reason:
        library = f"the library says “{SEVERITIES[entry.severity]}”, and the printed reason is the library’s"
        text = f"The grade of {name(found)} is “{level(found.severity)}”; {library}."
        yield of_finding("grade", found, text, right)
    elif found.grade in raised and len(raised) > 1:
        reasons = {entry.severity: entry.why, **{rule.to: rule.why for rule in entry.raises}}
        other = [
            grade
            for grade, why in reasons.items()
            if level(why) in prose(found) and level(why) != level(reasons[found.grade])
        ]
        if other and level(reasons[found.grade]) not in prose(found):
            text = f"The grade of {name(found)} is “{level(found.severity)}”; the printed reason is that of “{SEVERITIES[other[0]]}”."
            yield of_finding("grade", found, text, right)
