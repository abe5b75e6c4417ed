"""Trade sheets against the report: a row for each place, with the same title, place, figures, photos and limit."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from narrator.publish.text import numbers_read
from narrator.review.checks.sides import sides_in
from narrator.review.grounds import OWNER, Grounds, capital, figures, line_of, name, prose, quotes
from narrator.review.matter import Matter, of_finding
from narrator.review.pieces import Found
from narrator.review.plainly import level
from narrator.source import index as store

_TITLE = re.compile(r"(?i)notes for a price\b[:\s–-]*(.*)")


class SheetLine(NamedTuple):
    """A row of a sheet, levelled."""

    trade: str
    number: int | None
    cells: dict[str, str]
    line: int


def rows(grounds: Grounds) -> list[SheetLine]:
    """Every row of every sheet."""
    out = []
    for piece in grounds.pieces("sheet"):
        match = _TITLE.match(level(piece.title))
        for each in piece.passages:
            if each.cells:
                cells = {level(key): level(value) for key, value in each.cells}
                out.append(SheetLine(match[1] if match else "", each.number, cells, line_of(each, piece)))
    return out


def check(grounds: Grounds) -> Iterator[Matter]:
    """Rows that are missing, wrong, or of another finding."""
    every = rows(grounds)
    for found in grounds.reading.findings:
        lead = level(found.trades[0]) if found.trades else ""
        if not lead or lead in (OWNER, *_unpriced(grounds)) or found.number is None or _no_lead(grounds, found):
            continue
        mine = [each for each in every if each.number == found.number]
        if not mine:
            yield of_finding(
                "sheet",
                found,
                f"No sheet for a trade has a row for {name(found)}.",
                f"Put it on the sheet for the {lead}.",
            )
            continue
        if all(each.trade.lower() != lead.lower() for each in mine):
            yield Matter(
                "sheet",
                mine[0].line,
                found.number,
                f"{capital(name(found))} stands on the sheet “{mine[0].trade}”; the finding names “{lead}” first.",
                f"Put it on the sheet for the {lead}.",
            )
        yield from _places(found, mine)
        yield from _photos(found, mine)
    for row in every:
        told = grounds.by_number.get(row.number or 0)
        if told is None:
            yield Matter(
                "sheet",
                row.line,
                row.number,
                f"The sheet “{row.trade}” has a row for number {row.number}, which the report does not have.",
                "Take the row away, or put the finding back.",
            )
        else:
            yield from _row(grounds, row, told)


def _unpriced(grounds: Grounds) -> list[str]:
    """Printed names of those who are called and price no work: there need be no sheet for them."""
    trades = store.document(grounds.index, "trades")["trades"]
    return [level(each["label"]) for each in trades if str(each.get("who", "true")).lower() == "false"]


def _no_lead(grounds: Grounds, found: Found) -> bool:
    value = grounds.values.get(found.number or 0)
    return value is not None and all(each["role"] != "lead" for each in value["trades"])


def _places(found: Found, mine: list[SheetLine]) -> Iterator[Matter]:
    said = {each.cells.get("Place", "").lower() for each in mine}
    places = {level(each).lower() for each in found.places}
    wrong = sorted(said - places - {""})
    for place in sorted(places - said):
        other = next(iter(wrong), "") if len(wrong) == 1 else ""
        kind = "side" if other and sides_in(other) != sides_in(place) else "place" if other else "sheet"
        told = f"the sheet says “{other}”" if other else "no row of its sheet names that place"
        yield Matter(
            kind,
            mine[0].line,
            found.number,
            f"{capital(name(found))} is at “{place}”; {told}.",
            "Give each place its own row, with the same words.",
        )
    if wrong and not places - said:
        row = next(each for each in mine if each.cells.get("Place", "").lower() == wrong[0])
        kind = "side" if sides_in(wrong[0]) - sides_in(" ".join(places)) else "place"
        yield Matter(
            kind,
            row.line,
            found.number,
            f"The sheet says “{wrong[0]}” for {name(found)}; the finding says “{'; '.join(sorted(places)) or 'no place'}”.",
            "Say the same place in both.",
        )


def _photos(found: Found, mine: list[SheetLine]) -> Iterator[Matter]:
    said = {number for each in mine for number in numbers_read(each.cells.get("Photos", ""))}
    for number in sorted(set(found.photos) ^ said):
        one, other = ("the finding", "its sheet") if number in found.photos else ("the sheet", "the finding")
        yield Matter(
            "photo",
            mine[0].line,
            found.number,
            f"Photo {number} of {name(found)} stands on {one} and not on {other}.",
            "Name the same photos in both places.",
        )


def _row(grounds: Grounds, row: SheetLine, found: Found) -> Iterator[Matter]:
    title = level(found.title)
    item = row.cells.get("Item", "")
    beside = re.sub(r" \(with [^()]*\)$", "", item)  # who works beside the lead stands with the item
    if title.lower() not in (item.lower(), beside.lower()):
        yield Matter(
            "sheet",
            row.line,
            row.number,
            f"The sheet calls number {row.number} “{row.cells.get('Item', '')}”; the finding’s title is “{title}”.",
            "Use one title in both places.",
        )
    text = prose(found)
    told = row.cells.get("Figures", "")
    for words in quotes(told):
        if words not in text:
            yield Matter(
                "sheet",
                row.line,
                row.number,
                f"The sheet quotes “{words}” for {name(found)}; the finding does not.",
                "A quotation is word for word, in both places.",
            )
    plain = re.sub(r'"[^"]*"', "", told)
    for figure in sorted(figures(plain) - figures(text)):
        yield Matter(
            "figure",
            row.line,
            row.number,
            f"The sheet says “{plain.strip('; ')}” for {name(found)}; the figure {figure} is not in the finding.",
            "Look at the checklist, and write the measured figure in both places.",
        )
    unseen = row.cells.get("What we could not see", "")
    if unseen and unseen not in text:
        number = [grounds.by_number.get(int(each)) for each in re.findall(r"as at number (\d{1,9})", text)]
        if not any(each is not None and unseen in prose(each) for each in number):
            yield Matter(
                "limit",
                row.line,
                row.number,
                f"The sheet says “{unseen}” The text of {name(found)} no longer says so.",
                "Put the sentence back, or the words “(not seen here: as at number N)”.",
            )
