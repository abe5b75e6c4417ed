"""What a firm may not do: grade a danger down, drop its warning marks, or drop a sentence about what was not seen."""

from __future__ import annotations

from collections.abc import Iterable

from narrator.assess.model import RANK
from narrator.errors import Fault
from narrator.source.firm.edits import Edit
from narrator.source.positions import Located

# Lists that a firm may only add to: their weights and thresholds decide what a line means.
ONLY_ADDED = ("words",)


def bound_faults(base: Located, merged: Located) -> list[Fault]:
    """Faults of an edited entry against its base."""
    old, new = base.value, merged.value
    out: list[Fault] = []
    grades = (old["severity"], new["severity"])
    lost = [word for word in old.get("danger", []) if word not in new.get("danger", [])]
    if old.get("danger"):
        danger = ", ".join(old["danger"])
        if all(grade in RANK for grade in grades) and RANK[grades[1]] > RANK[grades[0]]:
            message = f"This entry has a danger ({danger}); it is never graded down. The base says '{grades[0]}'."
            out.append(merged.fault(("severity",), message))
        if lost:
            message = f"A danger is never taken away; the base has: {danger}."
            out.append(merged.fault(("danger",), message))
        rules = new.get("raise", [])
        for rule in old.get("raise", []):
            if not any(
                one.get("when") == rule["when"] and RANK.get(one.get("to"), 9) <= RANK[rule["to"]] for one in rules
            ):
                message = f"The raise to '{rule['to']}' stays: this entry has a danger ({danger})."
                out.append(merged.fault(("raise",), message))
    limits = new.get("limits", [])
    gone = [name for name in old.get("limits", []) if name not in limits]
    if gone:
        message = f"What was not seen is always said: '{gone[0]}' stays. To add a limit write 'limits+:'."
        out.append(merged.fault(("limits",), message))
    if old.get("intrusive") and not new.get("intrusive"):
        message = "The work opens the house before it is the client's; 'intrusive' stays true."
        out.append(merged.fault(("intrusive",), message))
    return out


def list_bounds(edits: Iterable[Edit]) -> list[Fault]:
    """Faults of edits of the shared lists."""
    out: list[Fault] = []
    for edit in edits:
        if edit.target in ONLY_ADDED and edit.sign != "+":
            message = (
                f"In {edit.target}.yaml a firm only adds: write '{edit.key[-1]}+:'. The rest decides what a line means."
            )
            out.append(edit.located.fault(edit.spot, message))
        if edit.target == "limits" and edit.sign == "-":
            out.append(
                edit.located.fault(edit.spot, "What was not seen is always said; a limit can be reworded, not dropped.")
            )
    return out
