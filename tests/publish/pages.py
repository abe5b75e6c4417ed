"""What a reader of each format is shown, by other people's parsers, and what the walk says it should be."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest
from house import LABELS

from narrator.publish.blocks import Block, Condition, Figure, Heading, Items, Para
from narrator.publish.meta import line
from narrator.publish.order import walk
from narrator.publish.said import charted, numbered, pointer
from narrator.publish.text import DOT
from narrator.report import Report

Shown = tuple[str, str]


def expected(made: Report) -> list[Shown]:
    """Every printed text in order, with the element it stands in."""
    return [each for part in walk(made, LABELS) for block in part.blocks for each in _block(block)]


def _block(block: Block) -> list[Shown]:
    if isinstance(block, Heading):
        return [(f"h{block.level}", block.text)]
    if isinstance(block, Para):
        return [("p", block.text + pointer(block))]
    if isinstance(block, Items):
        label = [("p", f"{block.label}:")] if block.label else []
        return [*label, *(("li", numbered(row) + row.text) for row in block.rows)]
    if isinstance(block, Condition):
        title = f"{block.ref.number}{DOT}{block.title}"
        return [("h3", title), ("p", line(block.meta)), *(("p", text) for text in block.paragraphs)]
    if isinstance(block, Figure):
        return [("p", charted(block))]
    return [("th", cell) for cell in block.head] + [("td", cell) for row in block.rows for cell in row]


class _Shown(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.shown: list[Shown] = []
        self.tags: set[str] = set()
        self.attributes: list[tuple[str, str, str]] = []
        self.on = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes += [(tag, name, value or "") for name, value in attrs]
        self.on = self.on or tag in {"h1", "h2", "h3", "p", "li", "th", "td"}
        if tag in {"h1", "h2", "h3", "p", "li", "th", "td"}:
            self.shown.append((tag, ""))

    def handle_endtag(self, tag: str) -> None:
        if self.shown and tag == self.shown[-1][0]:
            self.on = False

    def handle_data(self, data: str) -> None:
        if self.on:
            self.shown[-1] = (self.shown[-1][0], self.shown[-1][1] + data)


def parsed(text: str) -> _Shown:
    """An HTML page, taken apart."""
    page = _Shown()
    page.feed(text)
    page.close()
    return page


def rendered(markdown: str) -> _Shown:
    """A Markdown page as CommonMark with pipe tables renders it."""
    reader = pytest.importorskip("markdown_it").MarkdownIt("commonmark").enable(["table", "strikethrough"])
    return parsed(reader.render(markdown))


def level(shown: list[Shown]) -> list[Shown]:
    """With every kind of space alike, since a format may choose where a line can break."""
    return [(tag, " ".join(text.split())) for tag, text in shown]
