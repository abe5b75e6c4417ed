"""Left and right, front and rear, and the points of the compass, between title, line of places and text of one finding."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.compose.place import join_places, phrase
from narrator.review.grounds import Grounds, line_of, name, own_words, prose, unquoted
from narrator.review.matter import Matter, of_finding
from narrator.review.pieces import Found
from narrator.review.plainly import level, sentences

SIDE = re.compile(
    r"\b(front|rear|back|left|right|north|south|east|west|northeast|northwest|southeast|southwest|ne|nw|se|sw)\b"
)
_AS_PLACE = re.compile(
    r"\b(?:(?:at|on|in|to|from) the (?:upper |lower |far )?(?:(?:front|rear|back|left|right|north|south|east|west)\b ?)+"
    r"(?!of the (?:range|oven|tank|panel|cabinet)|foot|edge of|end|time|way|size|spot|place|height|level)"
    r"|(?:left|right) of (?=the |a )|(?:front|rear|left|right|north|south|east|west) (?:side|wall|slope|elevation|gable) )"
)
_SAME = {"back": "rear", "ne": "northeast", "nw": "northwest", "se": "southeast", "sw": "southwest"}


def sides_in(text: str) -> set[str]:
    """The sides that a place names; `back` is `rear`."""
    return {_SAME.get(each, each) for each in SIDE.findall(text.lower())}


def check(grounds: Grounds) -> Iterator[Matter]:
    """Sides that stand in one part of a finding and not in another."""
    for found in grounds.reading.findings:
        yield from _finding(grounds, found)
    yield from _stories(grounds)


def _finding(grounds: Grounds, found: Found) -> Iterator[Matter]:
    text = level(prose(found)).lower()
    text = unquoted(
        " ".join(
            each
            for each in sentences(level(prose(found)))
            if not re.match(r"For comparison|Readings on a part believed dry", each)
        )
    ).lower()
    known = sides_in(level("; ".join(found.places)))
    title = sides_in(unquoted(level(found.title)))
    rest = text
    phrases = [level(phrase(each, grounds.places)).lower() for each in found.places]
    for each in sorted([join_places(phrases), *phrases], key=len, reverse=True):
        if each:
            rest = rest.replace(each, " ")
    entry = grounds.entry(found)
    own = sides_in(own_words(entry))
    if entry is None and not known:
        return
    said: set[str] = set()
    for match in _AS_PLACE.finditer(rest + " "):
        said |= sides_in(match[0])
    for side in sorted(said - known - title - own):
        where = level("; ".join(found.places))
        told = (
            f"The text of {name(found)} says “{side}”; the line under its title says “{where}”."
            if where
            else f"The text of {name(found)} says “{side}”, and the line under its title names no place."
        )
        yield of_finding(
            "side",
            found,
            told,
            "Look at the checklist or the photo, and say the same side everywhere.",
        )
    for side in sorted(known - sides_in(text)):
        told = f"The line under the title of {name(found)} says “{level('; '.join(found.places))}”; its text does not say “{side}”."
        yield of_finding(
            "side",
            found,
            told,
            "Look at the checklist or the photo, and say the same side everywhere.",
        )


def _stories(grounds: Grounds) -> Iterator[Matter]:
    for piece in grounds.pieces("story"):
        for passage in piece.passages:
            text = level(passage.text)
            lead = re.search(r"\blies? (?:close )?together,? ([^:]+):", text)
            numbers = [int(each) for each in re.findall(r"\(number (\d{1,9})\b[^()]*\)", text)]
            members = [grounds.by_number[each] for each in numbers if each in grounds.by_number]
            known = sides_in(level(" ".join(place for each in members for place in each.places)))
            for side in sorted(sides_in(lead[1]) - known) if lead and members else ():
                told = (
                    f"The story of numbers {', '.join(map(str, numbers))} says “{side}”; none of these findings does."
                )
                yield Matter("side", line_of(passage, piece), None, told, "Say the place that the findings name.")
