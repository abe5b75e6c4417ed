"""Page one against the report: every urgent and open finding, its title, place, trade and danger, and the counts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date

from narrator.compose.place import phrase
from narrator.publish.labels import NO_TRADE
from narrator.publish.text import MONTHS, numbers_read
from narrator.review.checks.sides import sides_in
from narrator.review.grounds import WORDS, Grounds, capital, line_of, name
from narrator.review.matter import Matter, of_finding
from narrator.review.pieces import Found, Passage, Piece
from narrator.review.plainly import level

_LISTED = {"danger": ("act-now",), "find-out": ("find-out", None)}
_CALLED = {"danger": "things that could hurt someone", "find-out": "things to find out"}
_SMALL = frozenset(["the", "a", "an", "at", "in", "on", "by", "of", "and", "to", "from", "with", "near"])
_MORE = re.compile(r"; and [a-z0-9]+ more places?")
_COUNTED = re.compile(r"(\w+) (repairs? to plan|matters? of upkeep)")
_DAY = re.compile(rf"\b([A-Z][a-z]+day), (\d{{1,2}}) ({'|'.join(MONTHS)}) (\d{{4}})")
_WINDOW = re.compile(rf"\b(\d{1, 4}) (?:calendar )?days from (\d{{1,2}}) ({'|'.join(MONTHS)}) (\d{{4}})")
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def check(grounds: Grounds) -> Iterator[Matter]:
    """What page one says otherwise, or not at all."""
    for role, grades in _LISTED.items():
        yield from _listed(grounds, role, grades)
    yield from _urgent_count(grounds)
    yield from _rest(grounds)
    yield from _deadline(grounds)


def _rows(grounds: Grounds, role: str) -> list[tuple[Piece, Passage]]:
    return [(piece, each) for piece in grounds.pieces(role) for each in piece.passages if each.number is not None]


def _listed(grounds: Grounds, role: str, grades: Sequence[str | None]) -> Iterator[Matter]:
    rows = _rows(grounds, role)
    numbers = {each.number for _, each in rows}
    for found in grounds.reading.findings:
        graded = found.grade in grades and (found.grade is not None or bool(found.severity))
        if graded and found.number is not None and found.number not in numbers:
            text = f"{capital(name(found))} is “{level(found.severity)}”, but the first page does not list it."
            yield of_finding(
                "first-page",
                found,
                text,
                f"List it among the {_CALLED[role]}, or correct its grade.",
            )
    for piece, row in rows:
        told = grounds.by_number.get(row.number or 0)
        line = line_of(row, piece)
        if told is None:
            yield Matter(
                "first-page",
                line,
                row.number,
                f"The first page lists number {row.number}, but the report has no such finding.",
                "Take the line away, or put the finding back.",
            )
        elif told.grade not in grades:
            text = f"The first page lists {name(told)} among the {_CALLED[role]}; the finding says “{level(told.severity)}”."
            yield Matter("grade", line, row.number, text, "Say the same grade in both places.")
        else:
            yield from _row(grounds, role, row, told, line)


def _row(grounds: Grounds, role: str, row: Passage, found: Found, line: int) -> Iterator[Matter]:
    text, title = level(row.text), level(found.title).rstrip(".")
    if not text.lower().startswith(title.lower()):
        said = f"The first page calls number {row.number} “{text.split(', ')[0].rstrip('.')}”; the finding’s title is “{title}”."
        yield Matter("first-page", line, row.number, said, "Use one title in both places.")
        return
    place, _, rest = text[len(title) :].partition(". ")
    place = re.sub(r"(?i)^[.,]? ?(?:ask|danger:|call first:) .*", "", place.strip())
    place = _MORE.sub("", place.strip(" ,.")).lower()
    known = [level(phrase(each, grounds.places)).lower() for each in found.places]
    if _words(place) - _words(" ".join([*known, *(level(each).lower() for each in found.places)])):
        kind = "side" if sides_in(place) - sides_in(" ".join(known)) else "place"
        yield Matter(
            kind,
            line,
            row.number,
            f"The first page says “{place}” for {name(found)}; the finding says “{level('; '.join(found.places)) or 'no place'}”.",
            "Say the same place in both.",
        )
    elif sides_in(" ".join(known[:2])) - sides_in(place):
        yield Matter(
            "side",
            line,
            row.number,
            f"The first page says “{place or 'no place'}” for {name(found)}; the finding says “{level('; '.join(found.places))}”.",
            "Say the same place in both.",
        )
    if role == "danger":
        yield from _danger(row, found, level(rest), line)
    else:
        yield from _trade(row, found, line)


def _words(text: str) -> set[str]:
    return set(re.findall(r"[a-z0-9']+", text)) - _SMALL


def _danger(row: Passage, found: Found, rest: str, line: int) -> Iterator[Matter]:
    told = re.search(r"Danger: ([^.]+)", rest)
    named = level(found.severity).partition(":")[2]
    first, second = (
        set(filter(None, re.split(r", | and ", each.strip().lower()))) for each in (told[1] if told else "", named)
    )
    if first != second:
        page, body = told[1] if told else "no danger", named.strip() or "no danger"
        said = f"The first page says “{page}” for {name(found)}; the finding says “{body}”."
        yield Matter("first-page", line, row.number, said, "Name the same danger in both places.")
    call = re.search(r"Call first: ([^.]+)", rest)
    if call and found.trades and level(call[1]).lower() != level(found.trades[0]).lower():
        said = f"The first page says to call “{call[1]}” first for {name(found)}; the finding names “{found.trades[0]}” first."
        yield Matter("first-page", line, row.number, said, "Name the same trade in both places.")


def _trade(row: Passage, found: Found, line: int) -> Iterator[Matter]:
    label = level(row.label).lower()
    lead = level(found.trades[0]).lower() if found.trades else NO_TRADE
    if label and label != lead and not (label == NO_TRADE and not found.trades):
        said = f"The first page lists {name(found)} under “{row.label}”; the finding names “{lead}”."
        yield Matter("first-page", line, row.number, said, "Name the same trade in both places.")


def _urgent_count(grounds: Grounds) -> Iterator[Matter]:
    urgent = [each for each in grounds.reading.findings if each.grade == "act-now"]
    for piece in grounds.pieces("danger"):
        for passage in piece.passages:
            match = re.match(r"(\w+) things? could hurt", level(passage.text))
            said = _number(match[1]) if match else None
            if match and said is not None and said != len(urgent):
                text = f"The first page counts {match[1].lower()} things that could hurt someone; the report has {len(urgent)}."
                yield Matter(
                    "first-page",
                    line_of(passage, piece),
                    None,
                    text,
                    f"Write {len(urgent)}, or look for the finding that is missing.",
                )


def _number(word: str) -> int | None:
    return int(word) if word.isascii() and word.isdigit() and len(word) < 10 else WORDS.get(word.lower())


def _rest(grounds: Grounds) -> Iterator[Matter]:
    by_grade = {
        grade: [each.number for each in grounds.reading.findings if each.grade == grade] for grade in ("plan", "upkeep")
    }
    rest = {number for each in by_grade.values() for number in each if number is not None}
    for piece in grounds.pieces("counts"):
        for passage in piece.passages:
            text, line = level(passage.text), line_of(passage, piece)
            if not re.match(r"The report (?:also )?lists|There is nothing further|We wrote down no finding", text):
                continue
            said = {("plan" if "repair" in match[2] else "upkeep"): match[1] for match in _COUNTED.finditer(text)}
            for grade, label in (("plan", "repairs to plan"), ("upkeep", "matters of upkeep")):
                counted = _number(said.get(grade, "no"))
                if counted is not None and counted != len(by_grade[grade]):
                    told = (
                        f"The first page counts {said.get(grade, 'no')} {label}; the report has {len(by_grade[grade])}."
                    )
                    yield Matter(
                        "first-page",
                        line,
                        None,
                        told,
                        f"Write {len(by_grade[grade])}, or look for the finding that is missing.",
                    )
            pointer = re.search(r"See numbers? ([^.]+)", text)
            listed = set(numbers_read(pointer[1])) if pointer else rest
            for number in sorted(listed ^ rest):
                where = "does not name it" if number in rest else "names it"
                found = grounds.by_number.get(number)
                what = name(found) if found else f"number {number}, which the report does not have"
                told = f"“The rest” on the first page {where}: {what}."
                yield Matter(
                    "first-page",
                    line,
                    number,
                    told,
                    "Name there the repairs to plan and the matters of upkeep, each once.",
                )


def _deadline(grounds: Grounds) -> Iterator[Matter]:
    for piece in grounds.pieces("deadline"):
        for passage in piece.passages:
            text, line = level(passage.text), line_of(passage, piece)
            for match in _DAY.finditer(text):
                day = _date(match[2], match[3], match[4])
                if day and match[1] in _DAYS and _DAYS[day.weekday()] != match[1]:
                    yield Matter(
                        "figure",
                        line,
                        None,
                        f"{match[2]} {match[3]} {match[4]} is a {_DAYS[day.weekday()]}, not a {match[1]}.",
                        "Count the deadline again from the contract’s days.",
                    )
            counted, last = _WINDOW.search(text), _DAY.search(text)
            start = _date(counted[2], counted[3], counted[4]) if counted else None
            end = _date(last[2], last[3], last[4]) if last else None
            if (
                counted
                and start
                and end
                and "calendar days" in text
                and not 0 <= (end - start).days - int(counted[1]) <= 4
            ):
                said = (
                    f"{counted[1]} calendar days from {counted[2]} {counted[3]} do not end on {last[2]} {last[3]}."
                    if last
                    else ""
                )
                yield Matter("figure", line, None, said, "Count the deadline again from the contract’s days.")


def _date(day: str, month: str, year: str) -> date | None:
    try:
        return date(int(year), MONTHS.index(month) + 1, int(day))
    except ValueError:
        return None
