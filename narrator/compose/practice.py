"""A draft held against the standard of practice that was chosen: summary, coverage and what the report still owes.

Only a report with a standard comes here; any other is left as it was composed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from narrator.assess.standard import not_known, standard_of
from narrator.compose.coverage import Coverage, coverage, said_in
from narrator.compose.duties import Held, duty_notes
from narrator.compose.place import Places
from narrator.compose.report import DANGERS
from narrator.compose.summary import summary
from narrator.resolve.vocabulary import Vocabulary
from narrator.source import index as store
from narrator.source.index import WRITING, Index

if TYPE_CHECKING:
    from narrator.report import Report, ReviewNote

MOST_MISSING = 5


def by_standard(
    report: Report,
    typed: str,
    headers: Mapping[str, Sequence[tuple[str, int]]],
    index: Index,
    sentences: Mapping[str, str],
    vocabulary: Vocabulary,
    places: Places,
) -> Report:
    """The report under a standard, by the name typed in `headers` or the firm's. `sentences`: notices by standard."""
    known = store.document(index, "standards")
    name = standard_of(typed, known)
    if name is None:
        note: ReviewNote = {"kind": "standard", "lines": _at(headers, "standard")[:1], "text": not_known(typed, known)}
        return {**report, "standard": typed, "review_notes": _sorted([*report["review_notes"], note])}
    practice = store.document(index, f"practice/{name}")
    said = said_in(report, vocabulary)
    covered = coverage(practice, said, report["conditions"].get("method", ""), _at(headers, "method"))
    made: Report = {
        **report,
        "standard": typed,
        "coverage": {"standard": name, "reported": covered.reported, "missing": covered.missing},
    }
    labels = {item["id"]: item["label"] for item in store.document(index, "trades")["trades"]}
    notice = next((text.strip() for key, text in sentences.items() if text and standard_of(key, known) == name), None)
    page = summary(made, practice, notice or None, places, labels, DANGERS)
    if page is not None:
        made["summary"] = page
        # The law's sentence stands on the summary page, and not once more among the terms.
        made["terms"] = [term for term in report["terms"] if term["text"] != notice]
    rules = store.document(index, f"practice/{WRITING}").get("rules", {})
    owed: list[ReviewNote] = [
        {"kind": "duty", "lines": list(at), "text": text}
        for at, text in duty_notes(Held(made, practice, said, covered), rules)
    ]
    made["review_notes"] = _sorted([*report["review_notes"], *owed, *_covered(practice, covered)])
    return made


def _at(headers: Mapping[str, Sequence[tuple[str, int]]], key: str) -> list[int]:
    return [number for value, number in headers.get(key, ()) if value]


def _covered(practice: Mapping[str, Any], covered: Coverage) -> list[ReviewNote]:
    missing, whole = len(covered.missing), len(covered.missing) + len(covered.reported)
    if not missing:
        return []
    shown = "; ".join(row["what"] for row in covered.missing[:MOST_MISSING])
    more = f"; and {missing - MOST_MISSING} more" if missing > MOST_MISSING else ""
    part = "" if practice["complete"] else " (only part of this standard is in the library)"
    text = f"{practice['title']}{part}: the lines say nothing of {missing} of its {whole} items: {shown}{more}."
    return [{"kind": "coverage", "lines": [], "text": text}]


def _sorted(notes: list[ReviewNote]) -> list[ReviewNote]:
    return sorted(notes, key=lambda note: (note["lines"][:1] or [0], note["kind"], note["text"]))
