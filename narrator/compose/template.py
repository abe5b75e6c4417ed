"""Sandboxed templates that print typed values only.

A template sees names of typed values and nothing else: no filters, no globals, no statements. What it prints must be a
`Value`; anything else is an error that names the entry's own file and line. The printed marks are then replaced by spans, so
that text typed by a person never passes through the template engine.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from jinja2 import StrictUndefined, Template, TemplateError
from jinja2.sandbox import ImmutableSandboxedEnvironment

from narrator.compose.spans import Paragraph, Span, sentence_case
from narrator.errors import Fault, NarratorError, Pos
from narrator.source.model import Variant

_MARK = re.compile("\ue000(\\d+)\ue001")
_STATEMENT = re.compile(r"\{%|\{#|#\}|%\}")


class Untyped(Exception):
    """A template printed something that is not a typed value."""


@dataclass(frozen=True, slots=True)
class Value:
    """A typed value for a template: the spans it prints, and named parts of it (`gap.usual`)."""

    spans: tuple[Span, ...]
    parts: Mapping[str, Value] = field(default_factory=dict)


def value(text: str, kind: str, ref: str, line: int | None = None, file: str | None = None) -> Value:
    """A value of one span."""
    return Value((Span(text, kind, ref, file, line),))


def _finalize(item: Any) -> str:
    if isinstance(item, _Slot):
        return item.mark
    raise Untyped(type(item).__name__)


@dataclass(frozen=True, slots=True)
class _Slot:
    """What the template really sees: a mark and the marks of its parts; no text at all."""

    mark: str
    parts: Mapping[str, _Slot]


class _Environment(ImmutableSandboxedEnvironment):
    """The sandbox, narrowed: only the named parts of a slot can be reached."""

    def getattr(self, obj: Any, attribute: str) -> Any:
        if isinstance(obj, _Slot) and attribute in obj.parts:
            return obj.parts[attribute]
        return self.undefined(obj=obj, name=attribute)

    def getitem(self, obj: Any, argument: Any) -> Any:
        return self.getattr(obj, argument) if isinstance(argument, str) else self.undefined(obj=obj, name=str(argument))

    def is_safe_callable(self, obj: Any) -> bool:
        return False


def environment() -> ImmutableSandboxedEnvironment:
    """A fresh, empty sandbox."""
    made = _Environment(undefined=StrictUndefined, finalize=_finalize, autoescape=False, cache_size=0, optimized=False)
    made.filters.clear()
    made.tests.clear()
    made.globals.clear()
    return made


_SANDBOX = environment()


def compiled(text: str) -> Template:
    """A template compiled from its source; statements and comments are refused."""
    if _STATEMENT.search(text):
        raise Untyped("statement")
    return _SANDBOX.from_string(text)


def render(variant: Variant, values: Mapping[str, Value], file: str, ref: str) -> Paragraph:
    """The variant's text with its values as spans. Raises NarratorError naming the entry's own line."""
    slots: list[Value] = []

    def slot(item: Value) -> _Slot:
        slots.append(item)
        mark = f"\ue000{len(slots) - 1}\ue001"
        return _Slot(mark, {name: slot(part) for name, part in item.parts.items()})

    context = {name: slot(item) for name, item in values.items()}
    try:
        text = compiled(variant.text).render(context)
    except (TemplateError, Untyped, TypeError, ValueError, KeyError, RecursionError) as error:
        raise NarratorError([Fault(Pos(file, variant.line, 1), ref, explain(error, values))]) from None
    return Paragraph(sentence_case(_spans(text, slots, file, ref, variant.line)))


def explain(error: Exception, values: Mapping[str, Value]) -> str:
    """What is wrong with a template, in plain words."""
    if isinstance(error, Untyped):
        return "Only typed values may be printed (place, count, a measure of the entry); no filters, literals or statements."
    message = str(error) or type(error).__name__
    names = ", ".join(sorted(values))
    return f"The text cannot be filled in: {message}. Known here: {names}."


def _spans(text: str, slots: Sequence[Value], file: str, ref: str, line: int) -> list[Span]:
    """Text and marks as spans; an empty place takes its comma and space along."""
    out: list[Span] = []
    at = 0
    for match in _MARK.finditer(text):
        literal = text[at : match.start()]
        at = match.end()
        spans = slots[int(match.group(1))].spans
        if literal:
            out.append(Span(literal, "text", ref, file, line))
        if any(span.text for span in spans):
            out.extend(spans)
            continue
        rest = re.match(r",?\s*", text[at:])
        if (not out or not literal or literal.rstrip().endswith((".", "!", "?"))) and rest:
            at += rest.end()
        elif out and out[-1].text.endswith(" "):
            out[-1] = Span(out[-1].text[:-1], "text", ref, file, line)
    if text[at:]:
        out.append(Span(text[at:], "text", ref, file, line))
    return _capital_after_gap(out)


def _capital_after_gap(spans: list[Span]) -> list[Span]:
    """A literal that follows a vanished value at a sentence start gets its capital."""
    out: list[Span] = []
    before = ""
    for span in spans:
        text = span.text
        if span.kind == "text" and text[:1].islower() and (not before.strip() or before.rstrip().endswith((".", "!", "?"))):
            text = text[0].upper() + text[1:]
        out.append(Span(text, span.kind, span.ref, span.file, span.line))
        before += text
    return out


def variables(text: str) -> frozenset[str]:
    """The names a template uses (`gap`, `gap.usual`), for `check`; raises Untyped or TemplateError when it uses more."""
    from jinja2 import nodes

    if _STATEMENT.search(text):
        raise Untyped("statement")
    tree = _SANDBOX.parse(text)
    names: set[str] = set()
    for output in tree.body:
        if not isinstance(output, nodes.Output):
            raise Untyped(type(output).__name__)
        for node in output.nodes:
            if isinstance(node, nodes.TemplateData):
                continue
            if isinstance(node, nodes.Name):
                names.add(node.name)
            elif isinstance(node, nodes.Getattr) and isinstance(node.node, nodes.Name):
                names.add(f"{node.node.name}.{node.attr}")
            else:
                raise Untyped(type(node).__name__)
    return frozenset(names)
