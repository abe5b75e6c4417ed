"""Photos that no place of a finding claims, and one number for two different things."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

from narrator.publish.text import numbers_read
from narrator.review.grounds import Grounds, line_of, name, prose, unquoted
from narrator.review.matter import Matter, of_finding
from narrator.review.pieces import Found
from narrator.review.plainly import level

_NAMED = re.compile(r"\b[Pp]hotos? (\d+(?:(?:, | and | to )\d+)*)")


def without_line(found: Found, number: int) -> Matter:
    """A photo of a finding that no line of the checklist gives it."""
    return of_finding(
        "photo",
        found,
        f"No line of the checklist gives photo {number} to {name(found)}.",
        "Look at the photo, and take the number away or type it on the line.",
    )


def check(grounds: Grounds) -> Iterator[Matter]:
    """Photos in a text and not in its line; photos of two findings; photos that no line of the checklist names."""
    used: dict[int, dict[str, int]] = defaultdict(dict)
    for found in grounds.reading.findings:
        known = {*found.photos, *found.sketches}
        for number in sorted(known):
            used[number][name(found)] = found.line
        text = unquoted(prose(found))
        for match in _NAMED.finditer(text):
            for number in numbers_read(match[1].replace(" and ", ", ")):
                if number not in known:
                    yield of_finding(
                        "photo",
                        found,
                        f"The text of {name(found)} names photo {number}; the line under its title does not.",
                        "Name the same photos in both places.",
                    )
        value = grounds.values.get(found.number or 0)
        if value is not None:
            typed = {number for one in value["instances"] for number in (*one["photos"], *one["sketches"])}
            for number in sorted(set(value["photos"]) - typed):
                yield without_line(found, number)
    for piece in grounds.pieces("photos", "system", "looked"):
        for passage in piece.passages:
            for match in _NAMED.finditer(level(passage.text)):
                for number in numbers_read(match[1].replace(" and ", ", ")):
                    used[number].setdefault(
                        f"“{_short(level(passage.text))}”"
                        if piece.role == "photos"
                        else f"“{piece.title or piece.within}”",
                        line_of(passage, piece),
                    )
    for number, where in sorted(used.items()):
        if len(where) > 1:
            yield Matter(
                "photo",
                max(where.values()),
                None,
                f"Photo {number} stands for several things: {'; '.join(where)}.",
                "Does it show them all? Else one of the numbers is wrong.",
            )


def _short(text: str) -> str:
    return text if len(text) < 60 else text[:57] + "…"
