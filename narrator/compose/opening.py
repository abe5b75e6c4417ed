"""Page one: what could hurt someone, the deadline, what to find out by trade, what nobody has seen, counts of the rest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.compose.english import join_list, number_word
from narrator.compose.place import Places, join_places, phrase, unsaid

if TYPE_CHECKING:
    from narrator.report import Finding, OpeningPart, ReviewWindow, Unseen

CONSENT = "written permission"
SAY = (
    "Say: “I may buy this house. Can you look at this before I have to decide, and put what you find and its price in "
    "writing?”"
)
LATE = "If an answer will not come in time, ask your agent or lawyer what your contract lets you do."
NO_DATE = "We have no date from your contract. Ask your agent or lawyer today whether it sets a day to answer by, and which one."


class Words(NamedTuple):
    """What page one is worded with: labels of trades, words for dangers, what to ask for by finding id, known places."""

    labels: Mapping[str, str]
    dangers: Mapping[str, str]
    calls: Mapping[str, str]
    places: Places


def opening(
    findings: Sequence[Finding], window: ReviewWindow | None, unseen: Sequence[Unseen], words: Words
) -> list[OpeningPart]:
    """The parts of page one, in order; a part with nothing to say is left out."""
    parts: list[OpeningPart] = []
    urgent = [item for item in findings if item["severity"] == "act-now"]
    if urgent:
        one = len(urgent) == 1
        text = (
            "One thing could hurt someone. Read it first, and tell the people who live there."
            if one
            else f"{number_word(len(urgent)).capitalize()} things could hurt someone. Read them first, and tell the people who live there."
        )
        items = [_item(item, [_place(item, words.places), _danger(item, words)]) for item in urgent]
        parts.append({"kind": "danger", "text": text, "findings": [item["id"] for item in urgent], "items": items})
    if window is not None:
        parts.append({"kind": "deadline", "text": window["text"], "findings": []})
    asked = [item for item in findings if item["severity"] in ("find-out", None)]
    if asked:
        items = [
            _item(item, [_place(item, words.places), _call(item, words)], _lead(item, words.labels))
            for item in _by_trade(asked)
        ]
        parts.append(
            {
                "kind": "find-out",
                "text": _calls(asked, window),
                "findings": [str(item["finding"]) for item in items],
                "items": items,
            }
        )
    if unseen:
        text = "Nobody has seen these parts. We have no opinion on them, good or bad."
        if any(item["kind"] not in ("not inspected", "partly") for item in unseen):
            text = "Here is what was not seen, or not whole, and what could not be tried. We have no opinion on it, good or bad."
        listed = [{"number": None, "finding": None, "text": item["text"]} for item in unseen]
        parts.append({"kind": "unseen", "text": text, "findings": [], "items": listed})
    late = [*([NO_DATE] if window is None else []), *([LATE] if asked or urgent else [])]
    if late:
        parts.append({"kind": "in-time", "text": " ".join(late), "findings": []})
    rest = [item for item in findings if item["severity"] in ("plan", "upkeep")]
    parts.append({"kind": "counts", "text": _counts(findings, rest), "findings": [item["id"] for item in rest]})
    parts.append(
        {"kind": "not-whole", "text": "This page is not the whole report. Please read it all.", "findings": []}
    )
    return parts


def _calls(asked: Sequence[Finding], window: ReviewWindow | None) -> str:
    """What every call opens with, and whose leave comes first where one of them opens the house."""
    when = "Before your deadline" if window is not None else "Before you decide"
    opens = any(CONSENT in item["recommendation"] for item in asked)
    leave = f" Get the seller's {CONSENT} before anyone opens, lifts or takes apart a thing." if opens else ""
    return f"{when}, call these trades. {SAY}{leave}"


def _call(finding: Finding, words: Words) -> str:
    """What this call is about, where the library says it and the inspector typed nothing else to do."""
    asked = words.calls.get(finding["id"], "")
    return f"Ask {asked}" if asked else ""


def _item(finding: Finding, tails: Sequence[str], trade: str = "") -> dict[str, Any]:
    text = ", ".join([finding["title"], tails[0]]) if tails[0] else finding["title"]
    text += "".join(f". {tail}" for tail in tails[1:] if tail)
    made: dict[str, Any] = {"number": finding["number"], "finding": finding["id"], "text": f"{text}."}
    if trade:
        made["trade"] = trade
    return made


def _danger(finding: Finding, words: Words) -> str:
    """What it could do, and whom to call first."""
    named = join_list([words.dangers.get(word, word) for word in finding["danger"]])
    lead = next((trade["id"] for trade in finding["trades"] if trade["role"] == "lead"), None)
    call = f"Call first: {words.labels.get(lead, lead)}" if lead and lead != "owner" else ""
    return ". ".join(part for part in (f"Danger: {named}" if named else "", call) if part)


def _place(finding: Finding, places: Places) -> str:
    """Where, in a few words: two places, and how many more."""
    found = [rest for place in finding["places"] if (rest := unsaid(place, finding["title"], places))]
    if len(found) <= 2:
        return join_places([phrase(place, places) for place in found])
    shown = "; ".join(phrase(place, places) for place in found[:2])
    return f"{shown}; and {number_word(len(found) - 2)} more {'place' if len(found) == 3 else 'places'}"


def _lead(finding: Finding, labels: Mapping[str, str]) -> str:
    lead = next((trade["id"] for trade in finding["trades"] if trade["role"] == "lead"), None)
    return labels.get(lead, lead) if lead else "no trade named"


def _by_trade(findings: Sequence[Finding]) -> list[Finding]:
    """Grouped by leading trade, in the order the trades first come up."""
    trades: dict[str, list[Finding]] = {}
    for item in findings:
        lead = next((trade["id"] for trade in item["trades"] if trade["role"] == "lead"), "")
        trades.setdefault(lead, []).append(item)
    return [item for group in trades.values() for item in group]


def _counts(findings: Sequence[Finding], rest: Sequence[Finding]) -> str:
    plan = sum(1 for item in rest if item["severity"] == "plan")
    upkeep = len(rest) - plan
    if not findings:
        return "We wrote down no finding on the parts that we looked at that day."
    if not rest:
        return "There is nothing further in the list."
    parts = []
    if plan:
        parts.append(f"{number_word(plan)} {'repair' if plan == 1 else 'repairs'} to plan")
    if upkeep:
        parts.append(f"{number_word(upkeep)} {'matter' if upkeep == 1 else 'matters'} of upkeep")
    lead = "The report also lists" if len(rest) < len(findings) else "The report lists"
    return f"{lead} {join_list(parts)}."
