"""Texts in pieces: what a person changed word by word, carried over to a text that has moved on meanwhile."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from typing import TYPE_CHECKING, NamedTuple

from narrator.review.plainly import level

if TYPE_CHECKING:
    from narrator.report import TraceSpan

_PIECE = re.compile(r"\s*(?:\d+(?:[.,:/]\d+)*|[^\W\d_]+(?:['’-][^\W\d_]+)*|\S)|\s+\Z")


_STOPS = frozenset({".", "!", "?", ":"})


class Piece(NamedTuple):
    """A word, a figure or a sign with the space before it; `key` is what counts when two are compared."""

    text: str
    key: str


class Change(NamedTuple):
    """Pieces `start` to `end` of the first text became pieces `to` to `until` of the second."""

    start: int
    end: int
    to: int
    until: int


def pieces(text: str) -> list[Piece]:
    """The text as pieces; joined they are the text again."""
    return [Piece(found, level(found)) for found in _PIECE.findall(text)]


def changes(before: Sequence[Piece], after: Sequence[Piece]) -> list[Change]:
    """Where two texts differ, in order. An editor's quotes, dashes and spaces are no difference."""
    one, other = [each.key for each in before], [each.key for each in after]
    found = SequenceMatcher(None, one, other, autojunk=False).get_opcodes()
    return [_slid(Change(*places), one, other) for tag, *places in found if tag != "equal"]


def _slid(change: Change, one: Sequence[str], other: Sequence[str]) -> Change:
    """A whole sentence that left or came takes its own full stop with it, not that of the sentence before."""
    start, end, to, until = change
    words, first, last = (one, start, end) if start < end else (other, to, until)
    if (start < end) == (to < until) or last >= len(words) or words[first] not in _STOPS or words[first] != words[last]:
        return change
    return Change(start + 1, end + 1, to + 1, until + 1)


def same(one: str, other: str) -> bool:
    """Whether two texts say the same, whatever their quotes, dashes and spaces."""
    return [each.key for each in pieces(one)] == [each.key for each in pieces(other)]


def merged(base: str, edited: str, fresh: str) -> str | None:
    """The edit of `base` carried over to `fresh`; None where both changed the same words, or words that touch."""
    old, mine, new = pieces(base), pieces(edited), pieces(fresh)
    own, moved = changes(old, mine), changes(old, new)
    if any(one.start <= other.end and other.start <= one.end for one in own for other in moved):
        return None
    out = [each.text for each in new]
    for change in reversed(own):
        shift = sum((other.until - other.to) - (other.end - other.start) for other in moved if other.end < change.start)
        out[change.start + shift : change.end + shift] = ["".join(each.text for each in mine[change.to : change.until])]
    return "".join(out)


def respanned(before: str, spans: Sequence[TraceSpan], after: str, field: str, file: str, line: int) -> list[TraceSpan]:
    """The trace of an edited text: what stayed keeps its source, what came names the edits file and its line."""
    old, new = pieces(before), pieces(after)
    starts, ends = _edges(old), _edges(new)
    out: list[TraceSpan] = []
    at, reached = 0, 0
    for change in [*changes(old, new), Change(len(old), len(old), len(new), len(new))]:
        out += _moved(
            spans, starts[at], starts[change.start], old[at : change.start], new[reached : change.to], ends[reached]
        )
        if change.until > change.to:
            out.append(
                {
                    "field": field,
                    "start": ends[change.to],
                    "end": ends[change.until],
                    "kind": "edit",
                    "ref": f"edit:{field}",
                    "file": file,
                    "line": line,
                }
            )
        at, reached = change.end, change.until
    return [span for span in out if span["end"] > span["start"]]


def _edges(parts: Sequence[Piece]) -> list[int]:
    """Where each piece begins, and where the last ends."""
    out = [0]
    for each in parts:
        out.append(out[-1] + len(each.text))
    return out


def _moved(
    spans: Sequence[TraceSpan], start: int, end: int, old: Sequence[Piece], new: Sequence[Piece], to: int
) -> Iterator[TraceSpan]:
    """The spans of a stretch that stayed, at their new places. A stretch typed with other spaces keeps them in its last span."""
    if sum(len(each.text) for each in old) != sum(len(each.text) for each in new):
        yield from _stretched(spans, start, old, new, to)
        return
    for span in spans:
        first, last = max(span["start"], start), min(span["end"], end)
        if first < last:
            yield {**span, "start": to + first - start, "end": to + last - start}


def _stretched(
    spans: Sequence[TraceSpan], start: int, old: Sequence[Piece], new: Sequence[Piece], to: int
) -> Iterator[TraceSpan]:
    for before, after in zip(old, new, strict=True):
        own = next((span for span in reversed(spans) if span["start"] < start + len(before.text)), None)
        if own is not None:
            yield {**own, "start": to, "end": to + len(after.text)}
        start, to = start + len(before.text), to + len(after.text)


def told(before: str, after: str, most: int = 3) -> str:
    """What became of a text, for people: `“1/4” is now “1/2”`."""
    old, new = pieces(before), pieces(after)
    found = changes(old, new)
    said = []
    for each in found[:most]:
        lost = "".join(one.text for one in old[each.start : each.end]).strip()
        came = "".join(one.text for one in new[each.to : each.until]).strip()
        if lost and came:
            said.append(f"“{lost}” is now “{came}”")
        else:
            said.append(f"“{lost}” is gone" if lost else f"“{came}” is new")
    return "; ".join([*said, *(["and more"] if len(found) > most else [])])
