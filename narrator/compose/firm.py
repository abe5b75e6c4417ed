"""What a firm brings to a report: who it is, its contract text, and a word to the inspector where a banned phrase would print."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from narrator.firm import Firm, Person, same_name

if TYPE_CHECKING:
    from narrator.report import Report, ReviewNote, Term

STATUTORY = "statutory"


def firm_value(firm: Firm, who: Person | None) -> dict[str, Any]:
    """The report's `firm`. `inspector` is None where nobody of the roster was typed."""
    return {
        "name": firm.name,
        "fingerprint": firm.fingerprint,
        "contact": dict(firm.contact),
        "inspector": who._asdict() if who else None,
        "units": firm.units,
        "dates": firm.dates,
        "deadline": firm.deadline,
        "grades": dict(firm.grades),
        "needs": list(firm.needs),
    }


def firm_terms(firm: Firm, standard: str | None, builtin: Sequence[Term]) -> list[Term]:
    """The terms printed at the end: what the standard's law has said first, then the firm's own, else the library's."""
    own: list[Term] = [{"id": name, "text": text} for name, text in firm.terms.items()]
    terms = own or builtin
    by_law = [text for name, text in firm.statutory.items() if standard and same_name(name, standard)]
    law: list[Term] = [{"id": STATUTORY, "text": text} for text in by_law[:1]]
    return [*law, *terms]


def forbidden(report: Report, phrases: Sequence[str]) -> Iterator[ReviewNote]:
    """A note for each printed text with a phrase that the firm bans, with the lines behind it."""
    if not phrases:
        return
    pattern = banned(phrases)
    for what, text, lines in _texts(report):
        found = pattern.search(text)
        if found:
            said = f"{what} says '{' '.join(found.group(0).split())}', which the firm bans: '{text[:80]}{'...' if len(text) > 80 else ''}'"
            yield {"kind": "wording", "lines": lines, "text": said}


def banned(phrases: Sequence[str]) -> re.Pattern[str]:
    """The firm's banned phrases as one pattern: whole words, whatever the case, any white space between."""
    parts = [
        r"\s+".join(re.escape(word) for word in phrase.split()) for phrase in sorted(phrases, key=len, reverse=True)
    ]
    return re.compile(rf"(?<!\w)(?:{'|'.join(parts)})(?!\w)", re.IGNORECASE)


def _texts(report: Report) -> Iterator[tuple[str, str, list[int]]]:
    for section in report["sections"]:
        for finding in section["findings"]:
            said = [finding["title"], finding["why"], finding["observation"], finding["implication"]]
            said += [finding["recommendation"], *(limit["text"] for limit in finding["limits"])]
            yield from ((f"Number {finding['number']}", text, finding["lines"]) for text in said)
        for part in (section["descriptions"], section["results"], section["statuses"]):
            yield from (("A line", item["text"], item["lines"]) for item in part)
    yield from (("A note", note["text"], note["lines"]) for note in report["notes"])
    yield from (("A caption", photo["text"], photo["lines"]) for photo in report["photos"])
