"""Trade words explained once, at their first use, on the list of spans before it is joined."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from narrator.compose.spans import Paragraph, Span


@dataclass(frozen=True, slots=True)
class Glossary:
    """Terms by spelling, longest first in one pattern; `glosses` by term."""

    pattern: re.Pattern[str]
    terms: Mapping[str, str]
    glosses: Mapping[str, str]


def glossary_from(data: Mapping[str, Any]) -> Glossary:
    """From `glossary.yaml`."""
    terms: dict[str, str] = {}
    glosses: dict[str, str] = {}
    for term, item in data["terms"].items():
        glosses[term] = item["gloss"]
        for form in (term, *item["forms"]):
            terms[str(form).lower()] = term
    forms = sorted(terms, key=lambda form: (-len(form), form))
    pattern = re.compile(r"\b(?:" + "|".join(re.escape(form) for form in forms) + r")\b(?!\s*\()", re.IGNORECASE)
    return Glossary(pattern, terms, glosses)


def explain(paragraph: Paragraph, glossary: Glossary, done: frozenset[str]) -> tuple[Paragraph, frozenset[str]]:
    """The paragraph with a gloss after each term's first use in library text, and the terms now explained."""
    out: list[Span] = []
    known = set(done)
    for span in paragraph.spans:
        if span.kind != "text":
            out.append(span)
            continue
        at = 0
        for match in glossary.pattern.finditer(span.text):
            term = glossary.terms[match.group(0).lower()]
            if term in known:
                continue
            known.add(term)
            out.append(Span(span.text[at : match.end()], span.kind, span.ref, span.file, span.line))
            out.append(Span(f" ({glossary.glosses[term]})", "gloss", f"glossary:{term}", "library/glossary.yaml", None))
            at = match.end()
        if span.text[at:]:
            out.append(Span(span.text[at:], span.kind, span.ref, span.file, span.line))
    return Paragraph(tuple(out)), frozenset(known)
