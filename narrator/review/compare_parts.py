"""Pieces of two reports that belong together: by role and heading, else by what they say."""

from __future__ import annotations

from collections.abc import Sequence

from narrator.review.pieces import Piece
from narrator.review.plainly import level
from narrator.review.wordwise import alike

_FIRST_PAGE = ("danger", "deadline", "find-out", "not-seen", "in-time", "counts")
_ONCE = frozenset(
    {
        *_FIRST_PAGE,
        "summary",
        "head",
        "day",
        "charts",
        "photos",
        "notes",
        "unseen",
        "glossary",
        "terms",
        "colophon",
        "settle",
    }
)
_MEANT = {"terms": "term", "deadline": "deadline", "not-seen": "limit", "unseen": "limit", "unseen-here": "limit"}
_MEANT |= {"head": "header", "day": "header", "colophon": "version"}


def meant(piece: Piece) -> str:
    """What the text of a piece is about, as `meaning` asks."""
    return _MEANT.get(piece.role, "text")


def area(piece: Piece) -> str:
    """`opening`, `sheet`, `story` or `glossary`, where a change may follow from one in a finding; else `other`."""
    if piece.role in _FIRST_PAGE or piece.role == "summary":
        return "opening"
    return piece.role if piece.role in ("sheet", "story", "glossary") else "other"


def where(piece: Piece) -> str:
    """The place in the report, for people."""
    if piece.role in _FIRST_PAGE:
        return f"First page, {piece.title}"
    if piece.role == "head":
        return "Top of the report"
    if piece.role == "colophon":
        return "Last lines"
    return f"{piece.within}, {piece.title}" if piece.within else piece.title or "Text without a heading"


def paired(before: Sequence[Piece], after: Sequence[Piece]) -> tuple[list[tuple[int, int]], list[int], list[int]]:
    """Pairs of places in the two lists, and what is only in the first or only in the second."""
    pairs: list[tuple[int, int]] = []
    free, left = list(range(len(before))), list(range(len(after)))

    def take(same: object) -> None:
        assert callable(same)
        for one in list(free):
            other = next((at for at in left if same(before[one], after[at])), None)
            if other is not None:
                pairs.append((one, other))
                free.remove(one)
                left.remove(other)

    take(lambda a, b: (a.role, level(a.title), level(a.within)) == (b.role, level(b.title), level(b.within)))
    take(lambda a, b: a.role == b.role and a.role in _ONCE)
    take(lambda a, b: a.role == b.role and level(a.title) == level(b.title) and alike(_text(a), _text(b)) >= 0.5)
    take(lambda a, b: a.role == b.role and alike(a.title, b.title) >= 0.5 and level(a.within) == level(b.within))
    take(lambda a, b: alike(_text(a), _text(b)) >= 0.5)
    return sorted(pairs, key=lambda each: each[1]), free, left


def _text(piece: Piece) -> str:
    return " ".join(each.text for each in piece.passages)
