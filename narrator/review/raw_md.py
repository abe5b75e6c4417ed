"""Markdown as blocks: as narrator writes it, and as editors and hurried hands leave it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.publish.readback import plain
from narrator.review.pieces import Raw

_HEADING = re.compile(r" {0,3}(#{1,6})(?:[ \t]+(.*?))?(?:[ \t]+#+)?[ \t]*$")
_RULE = re.compile(r" {0,3}(?:(?:-[ \t]*){3,}|(?:\*[ \t]*){3,}|(?:_[ \t]*){3,})$")
_UNDER = re.compile(r" {0,3}(=+|-{2,})[ \t]*$")
_ROW = re.compile(r"[ \t]*(?:[-*+•–]|\d{1,3}[.)])[ \t]+(\S.*)$")
_CELLS = re.compile(r"[ \t]*\|")
_TABLE_RULE = re.compile(r"[ \t]*\|?(?:[ \t]*:?-+:?[ \t]*\|)+(?:[ \t]*:?-+:?[ \t]*)?$")
_MARKS = re.compile(r"(\\[!-/:-@\[-`{-~])|(\*+|(?<!\w)_+|_+(?!\w))|!?\[((?:[^\]\\]|\\.)*)\]\([^()\s]*\)")
_BAR = re.compile(r"(?<!\\)((?:\\\\)*)\|")


def unmarked(text: str) -> str:
    """A line as it prints: emphasis and links taken off, escapes resolved."""
    if not any(sign in text for sign in "\\*_[&"):
        return text.strip(" \t")
    runs = sum(1 for found in _MARKS.finditer(text) if found[2])

    def kept(found: re.Match[str]) -> str:
        if found[1]:
            return found[1]
        if found[2]:
            return "" if runs > 1 else found[2]
        return found[3]

    return plain(_MARKS.sub(kept, text)).strip(" \t")


def blocks(text: str) -> Iterator[Raw]:
    """Every block of a page, in order."""
    held: list[str] = []
    kind, start = "text", 0
    lines = text.split("\n")

    def done() -> Iterator[Raw]:
        if held:
            yield Raw(kind, unmarked(" ".join(each.strip(" \t") for each in held)), start)
            held.clear()

    for number, line in enumerate(lines, 1):
        heading = _HEADING.match(line)
        bare = not line.strip(" \t")
        if held and kind == "text" and len(held) == 1 and (under := _UNDER.match(line)):
            yield Raw("heading", unmarked(held.pop()), start, 1 if under[1][0] == "=" else 2)
            continue
        if bare or heading or _CELLS.match(line) or _RULE.match(line):
            yield from done()
        if heading:
            yield Raw("heading", unmarked(heading[2] or ""), number, len(heading[1]))
        elif bare or _TABLE_RULE.fullmatch(line):
            continue
        elif _RULE.match(line):
            yield Raw("rule", "", number)
        elif _CELLS.match(line):
            yield _cells(line, number, lines[number] if number < len(lines) else "")
        else:
            row = _ROW.match(line)
            if row:
                yield from done()
            if not held:
                kind, start = "row" if row else "text", number
            elif held[0].lstrip(" ").startswith("*") and held[0].rstrip().endswith("*"):
                yield from done()  # the line under a title, to which a paragraph was pulled up
                kind, start = "text", number
            held.append(row[1] if row else line.removeprefix("> "))
    yield from done()


def _cells(line: str, number: int, following: str) -> Raw:
    inner = line.strip(" \t").removeprefix("|")
    texts = [unmarked(each) for each in _BAR.sub("\\1\x00", inner).split("\x00")]
    if texts and not texts[-1]:
        texts.pop()
    kind = "head" if _TABLE_RULE.fullmatch(following) else "cells"
    return Raw(kind, "", number, cells=tuple(texts))
