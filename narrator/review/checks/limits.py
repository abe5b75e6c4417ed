"""Limits and terms: what could not be seen is said beside what it limits, and the contract's text stands at the end."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.review.grounds import Grounds, capital, line_of, name, prose
from narrator.review.matter import Matter, of_finding
from narrator.review.plainly import level, sentences
from narrator.source import index as store

_POINTER = re.compile(r"not seen here:? as at number (\d{1,9})", re.IGNORECASE)
_LIMIT = re.compile(r"\bWe (?:did not|could not|only saw|saw only|read only|took|have not)\b")
_STATUS = re.compile(r"We (?:did not inspect|saw only part of)\b")
_UNSEEN = "Nobody has seen these parts."


def check(grounds: Grounds) -> Iterator[Matter]:
    """Limits that are missing, and terms."""
    yield from _pointers(grounds)
    if grounds.same_library:
        yield from _entries(grounds)
    yield from _statuses(grounds)
    yield from _terms(grounds)


def _texts(grounds: Grounds) -> dict[str, str]:
    limits = store.document(grounds.index, "limits")["limits"]
    return {name: level(each["text"]) for name, each in limits.items()}


def _pointers(grounds: Grounds) -> Iterator[Matter]:
    for found in grounds.reading.findings:
        for number in _POINTER.findall(prose(found)):
            told = grounds.by_number.get(int(number))
            if told is None:
                text = (
                    f"{capital(name(found))} points to number {number} for what was not seen; there is no such finding."
                )
            elif not _LIMIT.search(_POINTER.sub("", prose(told))):
                text = f"{capital(name(found))} points to number {number} for what was not seen; that finding says no such thing."
            else:
                continue
            yield of_finding(
                "limit",
                found,
                text,
                "Say in the finding itself what nobody saw, or point to the one that says it.",
            )


def _entries(grounds: Grounds) -> Iterator[Matter]:
    texts = _texts(grounds)
    for found in grounds.reading.findings:
        entry, text = grounds.entry(found), prose(found)
        if entry is None:
            continue
        pointed = " ".join(
            prose(grounds.by_number[int(each)]) for each in _POINTER.findall(text) if int(each) in grounds.by_number
        )
        for limit in (texts[each] for each in entry.limits if each in texts):
            if limit not in text and limit not in pointed:
                yield of_finding(
                    "limit",
                    found,
                    f"The wording of {name(found)} carries a limit that is not in the text: “{limit}”",
                    "Put the sentence back, unless someone has seen that part.",
                )


def _statuses(grounds: Grounds) -> Iterator[Matter]:
    """What nobody has seen: on page one and in the section of its system, in the same words."""
    first, body = _said(grounds, "not-seen"), _said(grounds, "unseen-here")
    for one, other, where, lacking in (
        (body, first, "its section", "on the first page"),
        (first, body, "the first page", "in any section"),
    ):
        for text, line in one.items():
            if _STATUS.match(text) and text not in other and not any(text in each or each in text for each in other):
                yield Matter(
                    "limit",
                    line,
                    None,
                    f"“{text}” stands in {where}, and not {lacking}.",
                    "Say what nobody has seen in both places, in the same words.",
                )


def _said(grounds: Grounds, role: str) -> dict[str, int]:
    out: dict[str, int] = {}
    for piece in grounds.pieces(role, "unseen") if role == "not-seen" else grounds.pieces(role):
        for passage in piece.passages:
            text = level(passage.text)
            if role == "not-seen":
                out[text] = line_of(passage, piece)
                continue
            held = ""
            for sentence in sentences(text):
                if _STATUS.match(sentence) and held:
                    out[held] = line_of(passage, piece)
                    held = ""
                held = f"{held} {sentence}".strip()
            if held:
                out[held] = line_of(passage, piece)
    return out


def _terms(grounds: Grounds) -> Iterator[Matter]:
    said = [(level(each.text), line_of(each, piece)) for piece in grounds.pieces("terms") for each in piece.passages]
    if not said:
        yield Matter(
            "term", 0, None, "The report has no terms.", "Put the firm’s contract text at the end, word for word."
        )
        return
    firm = grounds.report["firm"] if grounds.report else None
    own = store.document(grounds.index, "firm").get("terms", {})
    if not grounds.same_library or (firm and not own):
        return
    # A firm's terms are stored with a line for each paragraph; the library's are one paragraph each.
    base = [" ".join(text.split()) for text in store.document(grounds.index, "terms")["terms"].values()]
    texts = [part for text in own.values() for part in text.split("\n") if part.strip()] if own else base
    for paragraph in texts:
        term = level(paragraph)
        if all(term != each for each, _ in said):
            near = [each for each, _ in said if each[:20] == term[:20] or each[-20:] == term[-20:]]
            how = "was altered" if near else "is missing"
            yield Matter("term", said[0][1], None, f"A term {how}: “{term[:70]}…”", "Print the terms word for word.")
