"""How a change is told: one plain sentence, from its kind and the words that left and came."""

from __future__ import annotations

from collections.abc import Iterable

from narrator.review.meaning import Meaning

_GONE = {
    "omitted": "A sentence was left out.",
    "limit": "A sentence about what was not seen was left out.",
    "term": "A part of the terms was left out.",
    "deadline": "A sentence about the deadline was left out.",
    "stance": "A sentence that says how it is known was left out.",
    "act": "An act or a warning was left out.",
    "recommendation": "What to do was left out.",
    "measure": "A sentence with a measured figure was left out.",
    "criterion": "A sentence with a published figure was left out.",
    "header": "A line about the house, the people or the day was left out.",
    "version": "The line that names the version was left out.",
}
_CAME = {
    "added-text": "A sentence was added.",
    "limit": "A sentence about what was not seen was added.",
    "term": "A sentence was added to the terms.",
    "deadline": "A sentence with a figure was added beside the deadline.",
    "act": "An act was added.",
    "claim": "A sentence was added that claims more than a look can show.",
    "recommendation": "Something to do was added.",
    "measure": "A sentence with a figure was added.",
    "criterion": "A sentence with a published figure was added.",
    "header": "A line about the house, the people or the day was added.",
    "version": "The line that names the version is another.",
}
PICTURE = "A picture, and the words that say what it shows, was left out."
_PLAIN = {
    "spelling": "Spelling, signs or capital letters are another.",
    "limit": "The sentence no longer says what was not seen.",
    "act": "The sentence no longer says the act or the warning.",
    "stance": "The sentence no longer says how it is known.",
}


def gone(kind: str) -> str:
    """A whole sentence that left."""
    return _GONE.get(kind, _GONE["omitted"])


def came(kind: str) -> str:
    """A whole sentence that is new."""
    return _CAME.get(kind, _CAME["added-text"])


def altered(meaning: Meaning) -> str:
    """What became of the words of a sentence."""
    lost, gained = _quoted(meaning.lost), _quoted(meaning.gained)
    if meaning.kind == "reworded":
        return "The sentence was put in other words."
    if meaning.kind == "claim":
        return f"{gained} was put in; it claims more than a look can show."
    if lost and gained:
        return f"{lost} became {gained}."
    if lost:
        return f"{lost} was left out."
    if gained:
        return f"{gained} was put in."
    return _PLAIN.get(meaning.kind, "The wording is another.")


def became(what: str, before: str, after: str, note: str = "") -> str:
    """A field of a finding that is another now."""
    return f"{what}: {_or_none(before)} became {_or_none(after)}{note}."


def _or_none(text: str) -> str:
    return f"“{text}”" if text else "nothing"


def _quoted(words: Iterable[str]) -> str:
    text = " ".join(words)
    for sign in ("% ", "' "):
        text = text.replace(f" {sign.strip()} ", sign)
    return f"“{text}”" if text else ""
