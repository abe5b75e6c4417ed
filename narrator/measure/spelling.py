"""Reading the unit typed after a figure."""

from __future__ import annotations

import re

from narrator.measure.table import UNITS

__all__ = ["read_unit"]

_SPELLED = {word: unit.id for unit in UNITS.values() for word in unit.spellings}
_SINGLE = {word: name for word, name in _SPELLED.items() if len(word) == 1 and "A" <= word <= "z"}
_SINGLE |= {"F": "degF", "C": "degC"}
_LONGEST = max(map(len, _SPELLED))
_BREAKS = " .-"

# Spelling without its breaks -> unit id; and where a break may stand in it, counted in characters before it.
_IDS: dict[str, str] = {}
_SPLITS: dict[str, set[int]] = {}
for _word, _name in _SPELLED.items():
    if _word not in _SINGLE:
        _parts = _word.casefold().split(" ")
        _IDS["".join(_parts)] = _name
        _places = {sum(map(len, _parts[:count])) for count in range(1, len(_parts))}
        _SPLITS.setdefault("".join(_parts), set()).update(_places)

_LEAD = re.compile(r" {1,2}|- ?(?=[a-z])| - ?(?=[a-z])|", re.IGNORECASE)
_PER_FOOT = re.compile(
    r"(?: {0,2}|-)(?:inches|inch|ins|in|\"|'')\.? ?(?:/|per|a) ?(?:1 ?)?(?:ft|foot|lf|')(?!\w)\.?",
    re.IGNORECASE,
)
# A word after `3 in` that makes `in` a preposition.
_PLACE = re.compile(
    r" (?:the|a|an|each|every|all|both|this|that|my|our|their|use|total|row|series|parallel|kitchen|baths?"
    r"|bathrooms?|beds?|bedrooms?|br|garage|attic|basement|bsmt|hall|hallway|laundry|living|dining|master|primary"
    r"|crawl|crawlspace|closets?|units?|rooms?|den|office|family|house|home|yard|panel|main|sub|subpanel|foyer"
    r"|entry|mud|utility|front|rear|back)(?!\w)",
    re.IGNORECASE,
)


def read_unit(line: str, at: int) -> tuple[str, int] | None:
    """The id of the unit at `at` (a space or hyphen before it allowed) and where it ends, or `None`.

    `in` before a room or an article is the preposition, and no unit: `3 in kitchen`. One-letter units stand
    beside the figure in either case (`30a`), after a space only as they are properly written (`30 A`).
    """
    if at >= len(line):
        return None
    per = _PER_FOOT.match(line, at)
    if per is not None:
        return "inch/foot", per.end()
    lead = _LEAD.match(line, at)
    found = _longest(line, lead.end()) if lead is not None else None
    if found is not None:
        key, end = found
        if key != "in" or line[end - 1] == "." or _PLACE.match(line, end) is None:
            return _IDS[key], end
    return _single(line, at)


def _longest(line: str, start: int) -> tuple[str, int] | None:
    """The longest spelling that stands at `start`, without its breaks, and where it ends."""
    best: tuple[str, int] | None = None
    key = ""
    breaks: set[int] = set()
    at = start
    while at < len(line) and len(key) < _LONGEST:
        if line[at] in _BREAKS and key:
            breaks.add(len(key))
            at += 1
            if line[at - 1] == "." and line[at : at + 1] in ("-", " "):
                at += 1
            if line[at : at + 1] in _BREAKS:
                break
        key += line[at].casefold()
        at += 1
        if key in _IDS and breaks <= _SPLITS[key] and _ends(line, at):
            best = key, _with_stop(line, at, len(key), bool(breaks))
    return best


def _ends(line: str, end: int) -> bool:
    """Whether a unit may end here: no letter or digit follows a letter, no `s` follows a mark (the 80's)."""
    follow = line[end : end + 1]
    if line[end - 1].isalnum():
        return not (follow.isalnum() or follow == "_")
    return follow.casefold() != "s" or line[end + 1 : end + 2].isalnum()


def _with_stop(line: str, end: int, length: int, broken: bool) -> int:
    """The end with the full stop of an abbreviation: not after a whole word or a mark, nor before a digit."""
    if line[end : end + 1] != "." or not line[end - 1].isalnum() or line[end + 1 : end + 2].isdigit():
        return end
    return end if length > 5 and not broken else end + 1


def _single(line: str, at: int) -> tuple[str, int] | None:
    spaced = line[at : at + 1] == " "
    place = at + spaced
    letter = line[place : place + 1]
    after = line[place + 1 : place + 2]
    if after.isalnum() or after == "_" or not letter.isascii():
        return None
    name = _SINGLE.get(letter) if spaced else _SINGLE.get(letter) or _SINGLE.get(letter.swapcase())
    return (name, place + 1) if name is not None else None
