"""Blocks as a report: which piece each belongs to, and the findings. Nothing is dropped but the marks of a draft."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrator.errors import nearest
from narrator.publish.meta import MetaRead, read_line
from narrator.publish.order import DRAFT, DRAFT_END
from narrator.publish.said import CHART
from narrator.publish.sheets_rows import SHEET_HEAD
from narrator.publish.text import NBSP
from narrator.review.headings import INSIDE, finding_heading, grade_of, is_meta, opened
from narrator.review.pieces import Found, Passage, Piece, Raw
from narrator.review.plainly import level

_ROW = re.compile(r"(?i)(?:[-*–]\s+)?number[ \u00a0]([0-9]{1,9}) ?: *")
_COLOPHON = re.compile(r"(?i)written with narrator\b")
_LABEL = re.compile(r"[^.!?]{1,60}:$")
_EMPTY: MetaRead = {"severity": "", "trades": [], "places": [], "photos": [], "sketches": []}
_HEADS = re.compile(r"(?:^|; )([A-Z][A-Za-z ]{2,30}):(?: |(?=;)|$)")


def is_mark(raw: Raw) -> bool:
    """Whether a block only says that the report is a draft."""
    return level(raw.text).strip("*_ ").lower() in {DRAFT.lower(), DRAFT_END.lower()}


def structured(raws: Sequence[Raw], headed: bool = True) -> tuple[Piece | Found, ...]:
    """The report's pieces and findings in order. `headed`: the format marks headings; else they are known by their words."""
    raws = [_charted(raw) for raw in raws if not is_mark(raw)]
    return tuple(_joined(_walk(raws, headed)))


def _charted(raw: Raw) -> Raw:
    """A paragraph that stands for a picture, without the word that says so."""
    if raw.kind == "text" and raw.text.startswith(f"{CHART} ·"):
        return raw._replace(kind="chart", text=raw.text[len(CHART) + 2 :].strip())
    return raw


def _walk(raws: list[Raw], headed: bool) -> Iterator[Piece | Found]:
    role, title, line, system = "head", "", raws[0].line if raws else 1, ""
    held: list[Raw] = []
    finding: tuple[int | None, str, Raw] | None = None

    def done() -> Iterator[Piece | Found]:
        if finding:
            yield _found(*finding, held, system)
        elif title or held:
            yield Piece(
                role, title, line, tuple(_passages(role, held)), system if role in INSIDE or role == "other" else ""
            )
        held.clear()

    for at, raw in enumerate(raws):
        following = raws[at + 1] if at + 1 < len(raws) else None
        fresh = finding_heading(raw, following)
        if raw.kind in ("text", "heading") and _COLOPHON.match(raw.text):
            yield from done()
            role, title, line, finding = "colophon", "", raw.line, None
            held.append(raw)
        elif fresh:
            yield from done()
            finding = (*fresh, raw)
        elif raw.kind == "heading" or (not headed and _may_head(raw, following)):
            yield from done()
            finding, title, line = None, raw.text, raw.line
            known = opened(raw.text)
            inner = raw.level > 2 and bool(system)
            role = known.role if known else "other" if inner else "head" if raw.level == 1 and at == 0 else "system"
            if role not in INSIDE and role != "other":
                system = raw.text if role == "system" else ""
        elif raw.kind != "rule":
            held.append(raw)
    yield from done()


def _may_head(raw: Raw, following: Raw | None) -> bool:
    """A heading in plain text that lost its gaps: a known one, or a short line without an end."""
    if raw.kind != "text" or following is None:
        return False
    known = opened(raw.text, near=False)
    short = len(raw.text.split()) <= 7 and raw.text[-1:].isalpha() and raw.text[:1].isupper()
    return bool(known and len(raw.text) < 90) or (short and " · " not in raw.text)


def _found(number: int | None, title: str, head: Raw, held: list[Raw], system: str) -> Found:
    meta = _EMPTY
    rest = held
    if held and held[0].kind == "text" and is_meta(held[0].text):
        meta, rest = read_line(held[0].text.strip()), held[1:]
    return Found(
        number,
        head.anchor,
        " ".join(title.split()),
        head.line,
        meta["severity"].strip(),
        grade_of(meta["severity"]) if meta["severity"] else None,
        tuple(each.replace(NBSP, " ") for each in meta["trades"]),
        tuple(each.replace(NBSP, " ") for each in meta["places"]),
        tuple(meta["photos"]),
        tuple(meta["sketches"]),
        tuple(_passages("finding", rest)),
        system,
    )


def _passages(role: str, raws: list[Raw]) -> Iterator[Passage]:
    label, headed = "", role != "sheet"
    head: tuple[str, ...] = SHEET_HEAD
    for at, raw in enumerate(raws):
        if raw.kind == "head":
            head = tuple(known_head(each) for each in raw.cells)
            if role == "sheet":
                yield Passage("; ".join(raw.cells), raw.line)
                headed = True
            continue
        cells = tuple(zip(head, raw.cells, strict=False)) if raw.kind == "cells" else ()
        if role == "sheet" and raw.kind == "text" and raw.text.startswith(f"{SHEET_HEAD[0]}:"):
            cells = tuple(_split_cells(raw.text))
        if cells:
            if not headed:  # plain text says the head of a column in each row
                yield Passage("; ".join(known_head(name) for name, _ in cells), raw.line)
                headed = True
            yield _sheet_row(cells, raw.line)
            continue
        row = _ROW.match(raw.text)
        if row:
            yield Passage(raw.text[row.end() :], raw.line, "row", int(row[1]), label)
        elif raw.kind in ("row", "chart") or (role == "not-seen" and at):  # one opening sentence, then a list
            yield Passage(raw.text, raw.line, "chart" if raw.kind == "chart" else "row", None, label)
        elif (
            _LABEL.fullmatch(raw.text)
            and at + 1 < len(raws)
            and (raws[at + 1].kind == "row" or _ROW.match(raws[at + 1].text))
        ):
            label = raw.text.rstrip(":")
            yield Passage(raw.text, raw.line, "label", None, label)
        else:
            label = ""
            yield Passage(raw.text, raw.line)


def known_head(text: str) -> str:
    """The head of a column by our own name where it was only retouched, so that the column stays that column."""
    name = level(text)
    return name if name in SHEET_HEAD else nearest(name, SHEET_HEAD) or name


def _split_cells(text: str) -> Iterator[tuple[str, str]]:
    found = [each for each in _HEADS.finditer(text) if known_head(each[1]) in SHEET_HEAD]
    for match, following in zip(found, [*found[1:], None], strict=True):
        yield match[1], text[match.end() : following.start() if following else len(text)].strip()


def _sheet_row(cells: tuple[tuple[str, str], ...], line: int) -> Passage:
    number = next((value for name, value in cells if level(name).lower() == "number"), "")
    said = "; ".join(f"{name}: {value}" for name, value in cells if value and level(name).lower() != "number")
    return Passage(
        said,
        line,
        "row",
        int(number) if number.isascii() and number.isdigit() and len(number) < 10 else None,
        "",
        cells,
    )


def _joined(parts: Iterator[Piece | Found]) -> Iterator[Piece | Found]:
    """Without the empty piece before the title."""
    yield from (part for part in parts if isinstance(part, Found) or part.title or part.passages)
