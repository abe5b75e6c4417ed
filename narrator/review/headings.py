"""Which part of a report a heading opens, also after a hand has retouched it."""

from __future__ import annotations

import re
from difflib import SequenceMatcher
from typing import NamedTuple

from narrator.publish.after import TO_SETTLE
from narrator.publish.body import LOOKED_AT, NOT_SEEN
from narrator.publish.labels import NOT_GRADED, SEVERITIES
from narrator.publish.order import OPENING
from narrator.publish.text import DOT
from narrator.review.pieces import Raw
from narrator.review.plainly import level

KNOWN = {
    **{text: {"unseen": "not-seen"}.get(kind, kind) for kind, text in OPENING.items()},
    "Summary": "summary",
    "The day of the visit": "day",
    LOOKED_AT: "looked",
    NOT_SEEN: "unseen-here",
    "Charts": "charts",
    "Photos": "photos",
    "In the inspector’s words": "notes",
    "What nobody has seen, line by line": "unseen",
    "Words used here": "glossary",
    "Terms": "terms",
    TO_SETTLE: "settle",
}
"""Role of the piece that each fixed heading opens."""

INSIDE = frozenset({"story", "looked", "unseen-here"})
"""Roles that stand inside a system."""

_BY_WORDS = {level(text).lower(): role for text, role in KNOWN.items()}
_ALIKE = 0.84
_SHEET = re.compile(r"(?i)notes for a price\b[:\s–-]*(.*)")
_STORY = re.compile(r"(?i)numbers? [\d ,toand]+,? told together\b")
_TITLE = re.compile(r"(?i)(?:draft\W+)?what we found\b")
_NUMBERED = re.compile(r"(?:(?:number|no\.?|nr\.?|#)\s*)?([0-9]{1,9})\s*([·•.):–—-]|\s)\s*(.*)$", re.IGNORECASE)
_LONGEST = 40
_GRADES = {level(label).lower(): key for key, label in SEVERITIES.items()}


class Opened(NamedTuple):
    """What a heading begins: a role; `sure` where the words are those of a fixed heading."""

    role: str
    sure: bool


def opened(text: str, near: bool = True) -> Opened | None:
    """The part of the report that a heading opens, or None for a system's or an unknown one."""
    words = level(text).lower().strip(" :.")
    if words in _BY_WORDS:
        return Opened(_BY_WORDS[words], True)
    if _SHEET.match(words):
        return Opened("sheet", True)
    if _STORY.match(words):
        return Opened("story", True)
    if _TITLE.match(words):
        return Opened("head", True)
    if near and len(words) > 4:
        for known, role in _BY_WORDS.items():
            if abs(len(known) - len(words)) < 12 and SequenceMatcher(None, known, words).ratio() >= _ALIKE:
                return Opened(role, False)
    return None


def grade_of(severity: str) -> str | None:
    """The contract's key for a printed grade, or None."""
    word = level(severity).lower().split(":")[0].strip(" .!*")
    if word in _GRADES or len(word) > _LONGEST:
        return _GRADES.get(word)
    for label, key in _GRADES.items():
        if SequenceMatcher(None, label, word).ratio() >= 0.8:
            return key
    return None


def is_meta(text: str) -> bool:
    """Whether a text is the line under a finding's title."""
    return is_graded(text) or DOT in text or len(re.findall(r"\s·\s", text)) > 1


def is_graded(text: str) -> bool:
    """Whether a line begins with a grade, as the one under a title does."""
    first = re.split(r"\s·\s", text)[0]
    return grade_of(first) is not None or level(first).lower() == NOT_GRADED


def finding_heading(raw: Raw, following: Raw | None) -> tuple[int | None, str] | None:
    """Number and title, if a block is the heading of a finding."""
    if raw.kind not in ("heading", "text") or raw.text.startswith("Chart ·"):
        return None
    after = following.text if following is not None and following.kind == "text" else ""
    told = bool(after) and is_meta(after)
    ours = raw.kind == "heading" and DOT in raw.text
    match = _NUMBERED.match(raw.text)
    if match and (match[2] == "·" or told) and (ours or told or (raw.kind == "heading" and raw.level in (0, 3))):
        return int(match[1]), match[3].strip()
    if (
        raw.kind == "heading"
        and raw.level in (0, 3)
        and " · " in after
        and is_graded(after)
        and opened(raw.text) is None
    ):
        return None, raw.text
    return None
