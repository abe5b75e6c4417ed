"""Trade words explained once, at their first use, on the list of spans before it is joined."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any, NamedTuple

from narrator.compose.spans import Paragraph, Span

# A word as the glossary looks for it.
WORD = re.compile(r"[A-Za-z][\w-]*")


class Glossary(NamedTuple):
    """Terms by the first word of their spellings (longest spelling first), and what each means."""

    forms: Mapping[str, Sequence[tuple[str, str]]]
    glosses: Mapping[str, str]
    edited: Mapping[str, tuple[str, int]] = MappingProxyType({})


def glossary_from(data: Mapping[str, Any], edits: Sequence[Sequence[Any]] = ()) -> Glossary:
    """From `glossary.yaml`. `edits`: (key, file, line) of what a firm says in its place, so that the trace names its file."""
    forms: dict[str, list[tuple[str, str]]] = {}
    for term, item in data["terms"].items():
        for form in dict.fromkeys((str(term).lower(), *(str(one).lower() for one in item["forms"]))):
            first = WORD.match(form)
            forms.setdefault(first.group() if first else form, []).append((form, term))
    for found in forms.values():
        found.sort(key=lambda pair: (-len(pair[0]), pair[0]))
    edited = {str(key).rstrip("+").split(".")[1]: (file, line) for key, file, line in edits if "." in key}
    return Glossary(forms, {term: item["gloss"] for term, item in data["terms"].items()}, edited)


def explain(paragraph: Paragraph, glossary: Glossary, done: frozenset[str]) -> tuple[Paragraph, frozenset[str]]:
    """The paragraph with a gloss after each term's first use in library text, and the terms now explained."""
    out: list[Span] = []
    known = set(done)
    for span in paragraph.spans:
        if span.kind != "text":
            out.append(span)
            continue
        at = 0
        for end, term in _terms(span.text, glossary):
            if term in known:
                continue
            known.add(term)
            out.append(Span(span.text[at:end], span.kind, span.ref, span.file, span.line))
            file, line = glossary.edited.get(term, ("library/glossary.yaml", None))
            out.append(Span(f" ({glossary.glosses[term]})", "gloss", f"glossary:{term}", file, line))
            at = end
        if span.text[at:]:
            out.append(Span(span.text[at:], span.kind, span.ref, span.file, span.line))
    return Paragraph(tuple(out)), frozenset(known)


def _terms(text: str, glossary: Glossary) -> list[tuple[int, str]]:
    """(where it ends, term) for every use of a term, longest spelling first; one that is explained by hand is left alone."""
    found: list[tuple[int, str]] = []
    lowered = text.lower()
    taken = 0
    for match in WORD.finditer(lowered):
        if match.start() < taken:
            continue
        for form, term in glossary.forms.get(match.group(), ()):
            end = match.start() + len(form)
            if (
                lowered.startswith(form, match.start())
                and not lowered[end : end + 1].isalnum()
                and lowered[end : end + 1] != "-"
            ):
                taken = end
                if not lowered[end:].lstrip().startswith("("):
                    found.append((end, term))
                break
    return found
