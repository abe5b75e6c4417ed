"""Templates that print typed values only.

A template is Jinja2 text that names typed values and nothing else: no filters, no calls, no statements, no literals. It is
parsed once, in Jinja2's sandbox, when a library is compiled, and kept as data: texts and names. A draft fills the names in; it
never runs template code, and text typed by a person never comes near the parser.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any, NamedTuple

from narrator.compose.spans import Paragraph, Span, sentence_case
from narrator.errors import Fault, NarratorError, Pos
from narrator.source.model import Variant

_STATEMENT = re.compile(r"\{%|\{#|#\}|%\}")
_OPENING = re.compile(r",?\s*")


class Untyped(Exception):
    """A template printed something that is not a typed value."""


class Value(NamedTuple):
    """A typed value for a template: the spans it prints, and named parts of it (`gap.usual`)."""

    spans: tuple[Span, ...]
    parts: Mapping[str, Value] = MappingProxyType({})


def value(text: str, kind: str, ref: str, line: int | None = None, file: str | None = None) -> Value:
    """A value of one span."""
    return Value((Span(text, kind, ref, file, line),))


def parse(text: str) -> list[Any]:
    """A template as pieces: a text as it is, a value as `[name]` or `[name, part]`.

    Raises Untyped for anything but typed values, and jinja2's TemplateSyntaxError.
    """
    from jinja2 import nodes  # heavy: only when a library is compiled or checked
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    if _STATEMENT.search(text):
        raise Untyped("statement")
    tree = ImmutableSandboxedEnvironment().parse(text)
    pieces: list[Any] = []
    for output in tree.body:
        if not isinstance(output, nodes.Output):
            raise Untyped(type(output).__name__)
        for node in output.nodes:
            if isinstance(node, nodes.TemplateData):
                pieces.append(node.data)
            elif isinstance(node, nodes.Name):
                pieces.append([node.name])
            elif (
                isinstance(node, nodes.Getattr) and isinstance(node.node, nodes.Name) and not node.attr.startswith("_")
            ):
                pieces.append([node.node.name, node.attr])
            else:
                raise Untyped(type(node).__name__)
    return pieces


def variables(text: str) -> frozenset[str]:
    """The names a template uses (`gap`, `gap.usual`); raises like `parse`."""
    return frozenset(".".join(piece) for piece in parse(text) if not isinstance(piece, str))


def render(variant: Variant, values: Mapping[str, Value], file: str, ref: str) -> Paragraph:
    """The variant's text with its values as spans. Raises NarratorError naming the entry's own line."""
    spans: list[Span] = []
    swallow = False
    file, line = variant.file or file, variant.line
    for at, piece in enumerate(variant.pieces):
        if variant.seam is not None and at == variant.seam[0]:
            _, file, line = variant.seam
        if isinstance(piece, str):
            text = piece
            if swallow:
                opening = _OPENING.match(text)
                text = text[opening.end() :] if opening else text
            swallow = False
            if text:
                spans.append(Span(text, "text", ref, file, line))
            continue
        found = _value(piece, values, variant, file, ref).spans
        if any(span.text for span in found):
            spans.extend(found)
        elif not spans or spans[-1].text.rstrip().endswith((".", "!", "?")):
            swallow = True  # an empty place that opens a sentence takes its comma along
        elif spans[-1].text.endswith(" "):
            spans[-1] = Span(spans[-1].text[:-1], "text", ref, file, line)
    return Paragraph(sentence_case(_capital_after_gap(spans)))


def _value(piece: Sequence[str], values: Mapping[str, Value], variant: Variant, file: str, ref: str) -> Value:
    """The value a piece names; a fault when there is none."""
    found = values.get(piece[0])
    if found is not None and len(piece) > 1:
        found = found.parts.get(piece[1])
    if found is None:
        known = ", ".join(sorted(values))
        message = f"'{'.'.join(piece)}' cannot be filled in: no such value here. Known here: {known}."
        raise NarratorError([Fault(Pos(file, variant.line, 1), ref, message)])
    return found


def explain(error: Exception) -> str:
    """What is wrong with a template, in plain words."""
    if isinstance(error, Untyped):
        return "Only typed values may be printed (place, count, a measure of the entry): no filters, calls, literals or statements."
    return f"The text is not a template: {str(error) or type(error).__name__}."


def _capital_after_gap(spans: list[Span]) -> list[Span]:
    """A literal that follows a vanished value at a sentence start gets its capital."""
    out: list[Span] = []
    before = ""
    for span in spans:
        text = span.text
        if (
            span.kind == "text"
            and text[:1].islower()
            and (not before.strip() or before.rstrip().endswith((".", "!", "?")))
        ):
            text = text[0].upper() + text[1:]
        out.append(Span(text, span.kind, span.ref, span.file, span.line))
        before += text
    return out
