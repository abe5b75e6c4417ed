"""Grade and trades set by hand in a draft: by the rules that hold for those typed on a line."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.assess.model import RANK
from narrator.errors import did_you_mean

if TYPE_CHECKING:
    from narrator.edits.model import Edit
    from narrator.edits.slots import Slot
    from narrator.report import TradeRef


class Put(NamedTuple):
    """Whether it was done, and what should be looked at."""

    done: bool
    notes: tuple[str, ...] = ()


def trades_text(trades: Sequence[TradeRef]) -> str:
    """`stucco with roof and siding`: who leads, then who is beside."""
    leads = [each["id"] for each in trades if each["role"] == "lead"]
    beside = [each["id"] for each in trades if each["role"] != "lead"]
    return " with ".join(filter(None, (" and ".join(leads), " and ".join(beside))))


def put(slot: Slot, edit: Edit, text: str, trades: Sequence[Mapping[str, Any]]) -> Put:
    """Set the grade or the trades of the finding that the slot holds."""
    return _severity(slot, edit, text) if slot.field == "severity" else _trades(slot, edit, text, trades)


def _severity(slot: Slot, edit: Edit, wanted: str) -> Put:
    found = slot.holder
    if wanted not in RANK:
        return Put(False, (f"{slot.name}: '{wanted}' is not a grade ({', '.join(RANK)}).{did_you_mean(wanted, RANK)}",))
    was = found["severity"]
    lowered = was is not None and RANK[wanted] > RANK[was]
    if lowered and (found["danger"] or was == "act-now") and not edit.reason.strip():
        said = (
            f"'{wanted}' would grade down a matter that could hurt someone. Take it again with --because, or give the edit a `reason:`; "
            f"it stays '{was}' until then."
        )
        return Put(False, (f"{slot.name}: {said}",))
    if wanted != was:
        found["severity"] = wanted
        found["overrides"].append(
            {
                "key": "severity",
                "value": wanted,
                "was": was,
                "lines": list(found["lines"]),
                "reason": edit.reason or None,
            }
        )
        if edit.reason.strip():
            found["why"] = edit.reason.strip()
            found["why_at"] = None
    return Put(True)


def _trades(slot: Slot, edit: Edit, text: str, trades: Sequence[Mapping[str, Any]]) -> Put:
    found = slot.holder
    leads, _, beside = text.partition(" with ")
    known = {item["id"] for item in trades}
    refs: list[TradeRef] = [{"id": each, "role": "lead"} for each in re.split(r" and |, ", leads) if each]
    refs += [{"id": each, "role": "with"} for each in re.split(r" and |, ", beside) if each]
    unknown = [each["id"] for each in refs if each["id"] not in known]
    if unknown or not refs:
        near = did_you_mean(unknown[0], known) if unknown else ""
        said = f"'{unknown[0]}' is not a trade of the library.{near}" if unknown else "No trade is named."
        return Put(False, (f"{slot.name}: {said} The trades stay as they are.",))
    was = trades_text(found["trades"])
    if text != was:
        found["trades"] = refs
        found["overrides"].append(
            {
                "key": "trade",
                "value": text,
                "was": was or None,
                "lines": list(found["lines"]),
                "reason": edit.reason or None,
            }
        )
    return Put(True)
