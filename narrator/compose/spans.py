"""Paragraphs as lists of spans: every piece of text knows its kind and where it came from, so nothing untraced can print."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from narrator.report import TraceSpan


class Span(NamedTuple):
    """A piece of text. `ref` names its source (entry field and variant, checklist line, criterion...); `file` and `line` where."""

    text: str
    kind: str
    ref: str = ""
    file: str | None = None
    line: int | None = None


class Paragraph(NamedTuple):
    """One field of a finding as spans."""

    spans: tuple[Span, ...]

    @property
    def text(self) -> str:
        """The text as printed."""
        return "".join(span.text for span in self.spans)


EMPTY = Paragraph(())


def engine(text: str, ref: str) -> Span:
    """A piece of narrator's own wording."""
    return Span(text, "engine", ref)


def join(paragraphs: Iterable[Paragraph]) -> Paragraph:
    """Paragraphs as one, a space between."""
    out: list[Span] = []
    for paragraph in paragraphs:
        if not paragraph.text.strip():
            continue
        if out:
            out.append(Span(" ", "engine", "space"))
        out.extend(paragraph.spans)
    return Paragraph(tuple(out))


def join_once(paragraphs: Sequence[Paragraph], said: set[str]) -> Paragraph:
    """Paragraphs as one; a plain sentence that the report has already goes into brackets behind the one before it.

    `said` takes the sentences of this one. Two lines that say the same keep both, and no sentence stands twice.
    """
    out: list[Paragraph] = []
    for paragraph in paragraphs:
        text = paragraph.text.strip()
        last = out[-1].spans[-1] if out and out[-1].spans else None
        if text in said and last is not None and last.text.endswith(".") and paragraph.spans[-1].text.endswith("."):
            first, *rest = paragraph.spans
            first = first if first.kind == "words" else first._replace(text=first.text[:1].lower() + first.text[1:])
            added = [first, *rest]
            added[-1] = added[-1]._replace(text=added[-1].text.removesuffix("."))
            before = (*out[-1].spans[:-1], last._replace(text=last.text.removesuffix(".")))
            out[-1] = Paragraph((*before, engine(" (", "once"), *added, engine(").", "once")))
            continue
        if text:
            said.add(text)
            out.append(paragraph)
    return join(out)


def sentence_case(spans: Sequence[Span]) -> tuple[Span, ...]:
    """The first letter of each sentence that a typed value opens, as a capital; quoted words are never touched."""
    out: list[Span] = []
    before = ""
    for span in spans:
        text = span.text
        opens = not before.strip() or before.rstrip().endswith((".", "!", "?", ".”", '."'))
        if text and opens and span.kind != "words" and text[0].islower():
            text = text[0].upper() + text[1:]
        out.append(span._replace(text=text))
        before += text
    return tuple(out)


_END = re.compile(r"\.(?:\s|$)")


def first_end(spans: Sequence[Span]) -> tuple[int, int] | None:
    """Where the first sentence ends: which span, and how far into it. Typed words and figures hold no such end."""
    for number, span in enumerate(spans):
        found = _END.search(span.text) if span.kind in ("text", "engine") else None
        if found:
            return number, found.start()
    return None


def trace(field: str, paragraph: Paragraph) -> list[TraceSpan]:
    """The spans of a paragraph with their character positions."""
    out: list[TraceSpan] = []
    at = 0
    for span in paragraph.spans:
        end = at + len(span.text)
        if span.text:
            out.append(
                {
                    "field": field,
                    "start": at,
                    "end": end,
                    "kind": span.kind,
                    "ref": span.ref,
                    "file": span.file,
                    "line": span.line,
                }
            )
        at = end
    return out
