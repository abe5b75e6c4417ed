"""The report against its checklist: what stands in one and not in the other. The checklist is drafted anew to compare."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.review.checks.photos import without_line
from narrator.review.checks.sides import sides_in
from narrator.review.grounds import Grounds, capital, figures, name, prose, unquoted
from narrator.review.matter import Matter, of_finding
from narrator.review.pieces import Found
from narrator.review.plainly import level


def against(grounds: Grounds, drafted: Grounds) -> Iterator[Matter]:
    """Findings, figures, places, photos and heads that no line of the checklist gives."""
    pairs = _paired(grounds, drafted)
    seen = {id(other) for _, other in pairs if other is not None}
    for found, other in pairs:
        if other is None:
            yield of_finding(
                "missing",
                found,
                f"No line of the checklist gives {name(found)}.",
                "Type the line, or look whether it came from another report.",
            )
        else:
            yield from _figures(found, other)
            yield from _places(found, other)
            yield from _photos(found, other)
    for other in drafted.reading.findings:
        if id(other) not in seen:
            yield Matter(
                "missing",
                0,
                None,
                f"The checklist gives “{level(other.title)}” ({_where(other)}); the report does not tell it.",
                "Put the finding back, or hold it back in the checklist with a reason.",
            )
    yield from _heads(grounds, drafted)


def _paired(grounds: Grounds, drafted: Grounds) -> list[tuple[Found, Found | None]]:
    """Each finding with the drafted one of its id, else of its title, else of its number where the words agree."""
    free = list(drafted.reading.findings)
    out: list[tuple[Found, Found | None]] = []
    for found in grounds.reading.findings:
        title = level(found.title).lower()
        other = next((each for each in free if found.id and each.id == found.id), None)
        other = other or next((each for each in free if level(each.title).lower() == title), None)
        other = other or next((each for each in free if each.number == found.number and _alike(each, found)), None)
        if other is not None:
            free.remove(other)
        out.append((found, other))
    return out


def _alike(one: Found, other: Found) -> bool:
    first, second = (set(re.findall(r"[a-z]{4,}", prose(each).lower())) for each in (one, other))
    return len(first & second) >= 0.5 * max(1, min(len(first), len(second)))


def _figures(found: Found, other: Found) -> Iterator[Matter]:
    plain = re.sub(r"as at number \d+", "", unquoted(prose(found)))
    known = figures(f"{prose(other)} {level('; '.join(other.places))} {level(other.title)}")
    for figure in sorted(_digits(plain) - known):
        yield of_finding(
            "figure",
            found,
            f"The text of {name(found)} says {figure}; neither the checklist nor a published figure there has it.",
            "Look at the checklist, and write the measured figure.",
        )


def _digits(text: str) -> set[str]:
    return {each for each in figures(text) if each in re.findall(r"\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*", text)}


def _places(found: Found, other: Found) -> Iterator[Matter]:
    typed = {level(each).lower() for each in other.places}
    for place in found.places:
        if level(place).lower() not in typed:
            kind = "side" if sides_in(level(place)) - sides_in(" ".join(typed)) else "place"
            yield Matter(
                kind,
                found.line,
                found.number,
                f"{capital(name(found))} is at “{level(place)}”; the checklist says “{_where(other)}”.",
                "Say the place that was typed.",
            )


def _where(found: Found) -> str:
    return level("; ".join(found.places)) or "no place"


def _photos(found: Found, other: Found) -> Iterator[Matter]:
    for number in sorted({*found.photos, *found.sketches} - {*other.photos, *other.sketches}):
        yield without_line(found, number)


def _heads(grounds: Grounds, drafted: Grounds) -> Iterator[Matter]:
    one, other = level(grounds.reading.house), level(drafted.reading.house)
    if other and one.lower() != other.lower():
        yield Matter(
            "house",
            1,
            None,
            f"The report is about “{one}”; the checklist is about “{other}”.",
            "Name the checklist of this house.",
        )
        return
    said, typed = (
        " ".join(level(each.text) for piece in each.pieces("head")[:1] for each in piece.passages)
        for each in (grounds, drafted)
    )
    if said.lower() != typed.lower() and not re.search(r"(?i)\bissued\b", said):
        yield Matter(
            "house",
            1,
            None,
            f"Under the title stands “{said}”; the checklist gives “{typed}”.",
            "Say the date and the names that were typed.",
        )
