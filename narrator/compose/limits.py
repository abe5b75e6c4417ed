"""Where each limit is told: among what nobody has seen, or beside what it limits. In full once, and pointed to after that."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from narrator.assess.limits import Limit
from narrator.compose import rows
from narrator.compose.facts import Told
from narrator.compose.spans import Paragraph, Span, trace
from narrator.read.model import Line
from narrator.resolve.vocabulary import plain_words

if TYPE_CHECKING:
    from narrator.report import Section, TraceSpan, Unseen

OPENING = "opening"
LIMITS_FILE = "library/limits.yaml"


def unseen_items(
    lines: Sequence[Line], limits: Sequence[Limit], sections: Sequence[Section], told: Told
) -> list[Unseen]:
    """What nobody has seen: statuses in typed order, then the limits that belong there or have no section to stand in."""
    out: list[Unseen] = []
    taken: set[str] = set()
    for line in lines:
        if line.kind == "status" and line.key in rows.UNSEEN:
            text = rows.status_text(line, told)
            made = Span(text, "words", f"line {line.number}", None, line.number)
            name = _own_id(line, taken)
            out.append({"id": name, "text": text, "lines": [line.number], "kind": line.key, "trace": _traced(made)})
    there = {section["system"] for section in sections}
    for limit in limits:
        if limit.page or not there.intersection(limit.systems):
            lines_of = list(limit.lines)
            out.append(
                {
                    "id": limit.id,
                    "text": limit.text,
                    "lines": lines_of,
                    "kind": limit.kind,
                    "trace": _traced(_span(limit)),
                }
            )
    return out


def place_limits(limits: Sequence[Limit], sections: Sequence[Section]) -> None:
    """Each limit put into the sections it is about, in full in the first unless page one says it."""
    by_system = {section["system"]: section for section in sections}
    for limit in limits:
        at = OPENING if limit.page else None
        for system in limit.systems:
            if system not in by_system:
                continue
            by_system[system]["limits"].append(
                {
                    "id": limit.id,
                    "text": limit.text,
                    "lines": list(limit.lines),
                    "kind": limit.kind,
                    "at": at,
                    "trace": _traced(_span(limit)) if at is None else [],
                }
            )
            at = at or system


def _span(limit: Limit) -> Span:
    return Span(limit.text, "text", f"limit:{limit.id}", LIMITS_FILE, None)


def _traced(span: Span) -> list[TraceSpan]:
    return trace("text", Paragraph((span,)))


def _own_id(line: Line, taken: set[str]) -> str:
    """An id made of the status, the thing and its place: the same whatever lines stand around it."""
    words = plain_words(f"{line.key} {line.what} {line.where}")
    base = "-".join(part for part in (re.sub(r"[^a-z0-9]", "", word) for word in words) if part)
    name, count = base, 1
    while name in taken:
        count += 1
        name = f"{base}-{count}"
    taken.add(name)
    return name
