"""Reads the findings back from a published report, also after a hand edit."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator, Mapping
from html.parser import HTMLParser
from typing import TypedDict

from narrator.publish.meta import MetaRead, read_line, read_photos
from narrator.publish.order import DRAFT_END
from narrator.publish.said import CHART
from narrator.publish.text import DOT, NARROW, NBSP


class FindingRead(TypedDict):
    """A finding as it stands in a published report."""

    number: int
    title: str
    severity: str
    trades: list[str]
    places: list[str]
    photos: list[int]
    sketches: list[int]
    paragraphs: list[str]


def read(text: str, fmt: str) -> list[FindingRead]:
    """The findings of a report in `md`, `html` or `txt`, in printed order."""
    if fmt not in _READERS:
        raise ValueError(f"{fmt!r} cannot be read back: {', '.join(_READERS)}")
    return list(_READERS[fmt](text.removeprefix("\ufeff").replace("\r\n", "\n")))


def _finding(number: int, title: str, meta: MetaRead, paragraphs: list[str]) -> FindingRead:
    return {"number": number, "title": title, **meta, "paragraphs": paragraphs}


def _prose(paragraphs: list[str], text: str) -> list[str]:
    """The paragraphs of a finding, without those that stand for a picture."""
    mark = CHART + (DOT if DOT in text else " · ")
    return [each for each in paragraphs if not each.startswith(mark)]


# Markdown

_HEADING = re.compile(rf"###[ \t]+([0-9]{{1,9}})[ {NBSP}]*·[ \t{NBSP}]*(.*?)[ \t]*$")
_ESCAPED = re.compile(r"\\([!-/:-@\[-`{-~])|&(?:#\d+|#[xX][0-9a-fA-F]+|[A-Za-z]\w*);")


def plain(text: str) -> str:
    """Escaped Markdown as the text that it prints."""
    return _ESCAPED.sub(lambda match: match[1] or html.unescape(match[0]), text)


def _md(text: str) -> Iterator[FindingRead]:
    found: tuple[int, str] | None = None
    said: list[str] = []
    for block in [*re.split(r"\n[ \t]*\n", text), "# end"]:
        lines = block.strip("\n").split("\n")
        ends = lines[0].startswith("#") or re.fullmatch(r"-{3,}|\*{3,}", lines[0].strip())
        if ends and found:
            prose = _prose([plain(each) for each in said[1:]], text)
            yield _finding(*found, read_line(_upright(said[0]) if said else ""), prose)
        if ends:
            match = _HEADING.match(lines[0])
            found, said = ((int(match[1]), plain(match[2])), []) if match else (None, [])
            lines = lines[1:]
        if lines and found:
            said += [" ".join(lines)] if said else [lines[0], *([" ".join(lines[1:])] if lines[1:] else [])]


def _upright(text: str) -> str:
    match = re.fullmatch(r"([*_])(.*)\1", text.strip())
    return plain(match[2] if match else text.strip())


# Plain text

_TITLE = re.compile(rf"([0-9]{{1,9}})[ {NBSP}]·[ {NBSP}](.*)")


def _txt(text: str) -> Iterator[FindingRead]:
    marked = bool(re.search(rf"(?m)^[0-9]+{DOT}", text))
    for group in re.split(r"\n{3,}", text.strip("\n")):
        first, *rest = group.split("\n")
        match = _TITLE.fullmatch(first)
        if match and rest and (not marked or DOT in first):
            prose = _prose([line for line in rest[1:] if line and line != DRAFT_END], text)
            yield _finding(int(match[1]), match[2], read_line(rest[0]), prose)


# HTML


class _Page(HTMLParser):
    """Gathers the texts of each finding's elements by their class."""

    VOID = frozenset({"br", "hr", "img", "meta", "link", "input", "wbr"})

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[dict[str, list[str]]] = []
        self.open: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        name = dict(attrs).get("class") or ""
        if tag == "article" and "finding" in name.split():
            self.found.append({})
        if tag in self.VOID:
            return
        first = (name.split() or [""])[0]
        kind = first if first in _KINDS else "paragraph" if tag == "p" and not first else ""
        self.open.append((tag, kind))
        if kind and self.found and self._inside():
            self.found[-1].setdefault(kind, []).append("")

    def handle_endtag(self, tag: str) -> None:
        while any(name == tag for name, _ in self.open) and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        if self._inside():
            for _, kind in self.open:
                if kind:
                    self.found[-1][kind][-1] += data

    def parse_marked_section(self, i: int, report: bool = True) -> int:
        """Passes over what stands between `<![` and `>`, where the parser would stop at an unknown word."""
        return self.parse_bogus_comment(i)

    def _inside(self) -> bool:
        return any(tag == "article" for tag, _ in self.open) and bool(self.found)


_KINDS = frozenset({"number", "title", "severity", "trade", "place", "photos"})


def _html(text: str) -> Iterator[FindingRead]:
    page = _Page()
    page.feed(text)
    page.close()
    for each in page.found:
        said = {kind: [_closed_up(found) for found in texts] for kind, texts in each.items()}
        number = (said.get("number") or [""])[0]
        if re.fullmatch("[0-9]{1,9}", number):
            photos, sketches = read_photos("".join(said.get("photos", [])))
            meta: MetaRead = {
                "severity": "".join(said.get("severity", [])),
                "trades": said.get("trade", []),
                "places": said.get("place", []),
                "photos": photos,
                "sketches": sketches,
            }
            yield _finding(int(number), "".join(said.get("title", [])), meta, said.get("paragraph", []))


def _closed_up(text: str) -> str:
    return re.sub("[ \t\n\f\r]+", " ", text.replace(NARROW, " ")).strip(" ")


_READERS: Mapping[str, Callable[[str], Iterator[FindingRead]]] = {"md": _md, "html": _html, "txt": _txt}
