"""The kinds of change that an impact is told in, and what differs between two forms of one paragraph."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from narrator.review.kinds import KINDS, WEIGHT, Kind
from narrator.review.lines import Line, pair
from narrator.review.meaning import Known, alone, between, gained
from narrator.review.plainly import level, sentences

_MORE = (
    Kind("unresolved", "Unresolved now", True),
    Kind("elsewhere", "Taken for something else", True),
    Kind("resolved", "Resolved now", True),
)
IMPACT_KINDS: Mapping[str, Kind] = {kind.name: kind for kind in (*_MORE, *KINDS.values())}
"""Every kind by name, the weightiest first."""

_NUMBERS = re.compile(r"\b(numbers?|items?) \d+(?:(?:, and |, | and )\d+)*")
_NOTHING = Known(frozenset(), frozenset())


class Change(NamedTuple):
    """One paragraph that another wording would alter. `entry`: the code, or the list that it comes from (`glossary: lath`)."""

    kind: str
    entry: str
    field: str
    lines: tuple[int, ...]
    before: str
    after: str


def sentences_changed(before: str, after: str, role: str) -> Iterator[tuple[str, str, str]]:
    """(kind, before, after) for each sentence of a paragraph that is another one, is gone or is new. Numbers of findings do not count."""
    one, other = (level(_NUMBERS.sub(r"\1 #", text)) for text in (before, after))
    if one == other:
        return
    lines = [[Line(text, 0) for text in sentences(each)] for each in (one, other)]
    for each in pair(*lines):
        if each.before and each.after:
            if each.before.text != each.after.text:
                kinds = sorted(
                    (found.kind for found in between(each.before.text, each.after.text, _NOTHING)),
                    key=WEIGHT.__getitem__,
                )
                yield (kinds[0] if kinds else "spelling"), each.before.text, each.after.text
        elif each.before:
            yield alone(each.before.text, role), each.before.text, ""
        elif each.after:
            yield gained(each.after.text, role), "", each.after.text
