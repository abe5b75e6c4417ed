"""Draft or issued, and what is not settled yet."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from narrator.review.grounds import Grounds, capital, line_of, name
from narrator.review.matter import Matter, of_finding
from narrator.review.plainly import level

_LEFT = {
    "unresolved": "lines still to settle",
    "contradiction": "lines that speak against each other",
    "fallback": "paragraphs that could not be worded",
    "likeness": "lines read by likeness",
}


def check(grounds: Grounds) -> Iterator[Matter]:
    """Lines still to settle, notes left open, and a draft that no longer says so."""
    for piece in grounds.pieces("settle"):
        for passage in piece.passages:
            yield Matter(
                "unsettled",
                line_of(passage, piece),
                None,
                f"A line still to settle stands in the report: {level(passage.text)[:150]}",
                "Settle it in the checklist, and draft again.",
            )
    head = grounds.pieces("head")[:1]
    title = level(head[0].title) if head else ""
    says = title.lower().startswith("draft")
    issued = any(re.match(r"Issued \S.* by \S", level(each.text)) for piece in head for each in piece.passages)
    right = "Let the draft say so until it is issued, or print who issued it and when."
    if grounds.report is not None:
        if grounds.report["state"] == "issued" and not grounds.report["issue"]:
            yield Matter("draft", 1, None, "The report says that it was issued, and not by whom or when.", right)
        left = Counter(note["kind"] for note in grounds.report["review_notes"] if note["kind"] in _LEFT)
        for kind, many in sorted(left.items()):
            lines = sorted(
                {line for note in grounds.report["review_notes"] if note["kind"] == kind for line in note["lines"]}
            )
            yield Matter(
                "unsettled",
                0,
                None,
                f"Review notes left: {many} × {_LEFT[kind]} (checklist lines {', '.join(map(str, lines))}).",
                "Settle them in the checklist, and draft again.",
            )
        for value in grounds.values.values():
            for flag in value["flags"]:
                found = grounds.by_number[value["number"]]
                yield of_finding(
                    "unsettled",
                    found,
                    f"{capital(name(found))} could not be worded: {flag}",
                    "Word it by hand, or settle the line.",
                )
    elif not says and not issued:
        text = (
            "The title no longer says that this is a draft, and nothing says who issued it."
            if grounds.reading.draft
            else "Nothing says that this is a draft, and nothing says who issued it."
        )
        yield Matter("draft", 1, None, text, right)
    elif says and not grounds.reading.draft:
        yield Matter("draft", 1, None, "The end of the page no longer says that this is a draft.", right)
    if says and issued:
        yield Matter("draft", 1, None, "The report calls itself a draft and says who issued it.", right)
