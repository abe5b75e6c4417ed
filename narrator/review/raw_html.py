"""HTML as blocks: our own page, or one that a word processor saved."""

from __future__ import annotations

import re
from html.parser import HTMLParser

from narrator.publish.text import DOT, NARROW, NBSP
from narrator.review.pieces import Raw

OURS = f"{NBSP}· "
"""Our separator as a page shows it; it stays whole in a hand edit, or it is none."""

_HEADINGS = {f"h{level}": level for level in range(1, 7)}
_BLOCKS = {*_HEADINGS, "p", "li", "td", "th", "dt", "dd", "figcaption", "pre", "caption"}
_AROUND = {"div", "section", "article", "main", "body", "ul", "ol", "table", "thead", "tbody", "figure", "blockquote"}
_SILENT = {"style", "script", "title", "svg", "template", "head"}
_VOID = {"br", "hr", "img", "meta", "link", "input", "wbr", "col"}


class _Page(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.blocks: list[Raw] = []
        self.silent: list[str] = []
        self.kind, self.level, self.line = "text", 0, 0
        self.text: list[str] = []
        self.row: list[str] | None = None
        self.row_line, self.row_kind, self.anchor = 0, "cells", ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begins a block, or lets a part of the page that shows nothing pass by."""
        if tag in _VOID:
            if tag == "br":
                self.text.append(" ")
            return
        given = dict(attrs)
        classes = (given.get("class") or "").split()
        if self.silent or tag in _SILENT or given.get("aria-hidden") == "true":
            self.silent.append(tag)
            return
        if tag in _BLOCKS or tag in _AROUND or tag == "tr":
            self.end_block()
            self.line = self.getpos()[0]
        if tag in _HEADINGS:
            self.kind, self.level = "heading", _HEADINGS[tag]
        elif tag in _BLOCKS or tag in _AROUND:
            self.kind, self.level = {"li": "row", "figcaption": "chart", "td": "cell", "th": "cell"}.get(tag, "text"), 0
        if self.row is not None and tag in ("p", "div"):
            self.kind = "cell"
        if tag == "article":
            self.anchor = given.get("id") or ""
        elif tag == "tr":
            self.row, self.row_line, self.row_kind = [], self.getpos()[0], "cells"
        elif tag in ("td", "th") and self.row is not None:
            self.row.append("")
            self.row_kind = "head" if tag == "th" and self.row_kind in ("cells", "head") else "cells"
        elif tag == "i" and "dot" in classes:
            self.text.append("\x00")

    def handle_endtag(self, tag: str) -> None:
        """Ends a block."""
        if self.silent:
            if tag in self.silent:
                while self.silent.pop() != tag:
                    pass
            return
        if tag in _BLOCKS or tag in _AROUND:
            self.end_block()
        if tag == "i" and self.text and "\x00" in "".join(self.text[-2:]):
            self.text.append("\x01")
        if tag in ("tr", "table") and self.row is not None:
            self.end_block()
            if any(self.row):
                self.blocks.append(Raw(self.row_kind, "", self.row_line, cells=tuple(self.row)))
            self.row = None

    def handle_data(self, data: str) -> None:
        """Gathers the text of the block."""
        if not self.silent:
            self.text.append(data)

    def parse_marked_section(self, i: int, report: bool = True) -> int:
        """Passes over what stands between `<![` and `>`, where the parser would stop at an unknown word."""
        return self.parse_bogus_comment(i)

    def end_block(self) -> None:
        """Keeps the block that was open, if it says anything."""
        text = closed_up("".join(self.text))
        self.text = []
        if not text:
            return
        if self.row is not None:
            self.row[-1:] = [f"{self.row[-1]} {text}".strip() if self.row else text]
            return
        anchor, self.anchor = (self.anchor, "") if self.kind == "heading" else ("", self.anchor)
        self.blocks.append(
            Raw(self.kind if self.kind != "cell" else "text", text, self.line, self.level, anchor=anchor)
        )
        self.kind, self.level = "text", 0


def closed_up(text: str) -> str:
    """Text as a page shows it: white space closed up; our separator as in the other formats."""
    text = re.sub("[ \t\n\f\r]+", " ", text.replace(NARROW, " "))
    # Between the marks stands our own separator; a colon there belongs to a row of a list.
    text = re.sub("\x00([^\x01]*)\x01", lambda found: DOT if found[1] == OURS else found[1], text)
    return text.replace("\x00", "").replace("\x01", "").strip(" ")


def blocks(text: str) -> list[Raw]:
    """Every block of a page, in order."""
    page = _Page()
    page.feed(text)
    page.close()
    page.end_block()
    return page.blocks
