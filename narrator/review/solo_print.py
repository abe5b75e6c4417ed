"""What a review found, for the screen and as data (`schemas/review.schema.json`)."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Sequence
from itertools import groupby

from narrator.review.matter import KINDS, Matter
from narrator.review.pieces import Reading

FORMAT = "narrator.review/1"
WIDTH = 100


def as_text(reading: Reading, found: Sequence[Matter]) -> str:
    """The matters by kind, gravest first: place, what, what would be right; why it matters once for each kind."""
    if not found:
        return f"{reading.path}: nothing found to look at. A person still reads it before it goes out.\n"
    count = f"{len(found)} {'matter' if len(found) == 1 else 'matters'}"
    out = [f"{reading.path}: {count} to look at, the gravest first."]
    for kind, group in groupby(found, key=lambda each: each.kind):
        out += ["", KINDS[kind].title, _wrapped(KINDS[kind].why, "  ")]
        for each in group:
            where = f"line {each.line}: " if each.line else ""
            out += [_wrapped(f"{where}{each.text}", "  - ", "    "), _wrapped(f"→ {each.right}", "    ", "      ")]
    return "\n".join(out) + "\n"


def _wrapped(text: str, first: str, later: str | None = None) -> str:
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent=first,
        subsequent_indent=first if later is None else later,
        break_long_words=False,
        break_on_hyphens=False,
    )


def as_json(reading: Reading, found: Sequence[Matter]) -> str:
    """The same as data, in the same order."""
    value = {
        "format": FORMAT,
        "report": reading.path,
        "form": reading.form,
        "property": reading.house or None,
        "matters": [
            {
                "kind": each.kind,
                "weight": each.weight,
                "line": each.line or None,
                "number": each.number,
                "text": each.text,
                "why": each.why,
                "right": each.right,
            }
            for each in found
        ],
    }
    return json.dumps(value, ensure_ascii=False, indent=1) + "\n"
