"""HTML: one self-contained file, a letter with a margin. No script and nothing from elsewhere."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from narrator.publish import meta
from narrator.publish.blocks import Block, Condition, Figure, Heading, Part, Ref
from narrator.publish.labels import Labels
from narrator.publish.order import DRAFT, DRAFT_END, is_draft, title, walk
from narrator.publish.said import pointer
from narrator.publish.text import NARROW, NBSP

if TYPE_CHECKING:
    from narrator.report import Report

TEMPLATES = Path(__file__).parent / "templates"

_NUMBERS = re.compile(
    rf"(?i)\bnumber[ {NBSP}][0-9]{{1,9}}\b"
    rf"|\bnumbers[ {NBSP}][0-9]{{1,9}}\b(?:(?:,| and| to| or)[ {NBSP}][0-9]{{1,9}}\b)*"
)


class Piece(NamedTuple):
    """A stretch of text, and what it links to if anything."""

    text: str
    href: str


def write(report: Report, labels: Labels) -> str:
    """The report as HTML."""
    return page(walk(report, labels), title(report), is_draft(report))


def page(parts: tuple[Part, ...], head: str, draft: bool, end: bool = True) -> str:
    """Parts as one whole file; `head` is the title of its window, `draft` marks every page, `end` the last line too."""
    return _template().render(
        title=head,
        parts=parts,
        found={block.ref.number: block.ref for part in parts for block in part.blocks if isinstance(block, Condition)},
        draft=draft,
        draft_mark=DRAFT,
        draft_end=DRAFT_END if end else "",
        dot=f"{NBSP}· ",
        meta=meta,
        style=style("report.css"),
    )


def style(name: str) -> Markup:
    """A page's style sheet, behind what all pages share."""
    return Markup("".join((TEMPLATES / each).read_text("utf-8") for each in ("common.css", name)))


def environment() -> Environment:
    """The way every page's template is read: markup in typed text is escaped, and an unknown name is an error."""
    return Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


@cache
def _template() -> Template:
    pages = environment()
    pages.filters |= {"kind": _kind, "grouped": _grouped, "anchor": anchor, "linked": linked}
    pages.filters |= {"pointer": pointer, "drawn": _drawn}
    return pages.get_template("report.html.j2")


def anchor(identity: str) -> str:
    """A finding's id as the id of its element: no space, and nothing that a link would read otherwise."""
    return re.sub(r"[^\w.~-]", "-", identity)


def linked(text: str, found: dict[int, Ref]) -> list[Piece]:
    """The text in pieces: `number 7` and `numbers 3, 4 and 5` link to the findings of that number."""
    pieces, end = [], 0
    for match in _NUMBERS.finditer(text):
        pieces += [Piece(text[end : match.start()], ""), *_each(match[0], found)]
        end = match.end()
    return [Piece(_kept(piece.text), piece.href) for piece in [*pieces, Piece(text[end:], "")] if piece.text]


def _kept(text: str) -> str:
    """A figure and its percent or degree sign stay on one line."""
    return re.sub(r"(?<=\d) (?=[%°])", NARROW, text)


def _each(text: str, found: dict[int, Ref]) -> list[Piece]:
    """`number 7` as one link, else each number by itself."""
    spans = [text] if text[6] in f" {NBSP}" else re.split(r"([0-9]+)", text)
    refs = [found.get(int(span[7:] if span is text else span)) if span[-1:].isdigit() else None for span in spans]
    return [Piece(span, f"#{anchor(ref.anchor)}" if ref else "") for span, ref in zip(spans, refs, strict=True)]


def _drawn(block: Figure) -> Markup:
    """The picture; nothing where the library that draws it is not installed, and its words then stand alone."""
    from narrator.publish.chart import inside_html, svg  # only for a report that has one

    try:
        return Markup(inside_html(svg(block.chart)))
    except ImportError:
        return Markup()


def _kind(block: Block) -> str:
    return type(block).__name__


def _grouped(blocks: tuple[Block, ...]) -> list[list[Block]]:
    """Each finding with its pictures; other blocks with the heading that they follow, which may stand in the margin."""
    groups: list[list[Block]] = []
    for block in blocks:
        after = bool(groups) and isinstance(groups[-1][0], Condition) and not isinstance(block, Figure)
        if not groups or isinstance(block, Heading | Condition) or after:
            groups.append([])
        groups[-1].append(block)
    return groups
