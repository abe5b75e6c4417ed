"""One thing that a reviewer should look at, and what the kinds of it weigh."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from narrator.review.pieces import Found


class Kind(NamedTuple):
    """What a kind of matter is called, why it matters, and its weight: 1 first, 4 last."""

    weight: int
    title: str
    why: str


KINDS = {
    "contradiction": Kind(1, "Speaks against a finding", "A reader cannot tell which of the two is true."),
    "first-page": Kind(1, "First page and report differ", "Many people read the first page only."),
    "figure": Kind(1, "A figure that does not agree", "A price or a decision may hang on it."),
    "side": Kind(1, "Sides that do not agree", "A contractor would look at the wrong side of the house."),
    "notice": Kind(1, "Who was warned?", "Someone could be hurt before the report is read."),
    "limit": Kind(1, "A limit is missing", "What nobody saw would read as if it had been seen."),
    "over-claim": Kind(1, "Says more than anyone can know", "A client will take it for a promise or a fact."),
    "house": Kind(1, "Another house or another person", "A part of another report may be in this one."),
    "missing": Kind(1, "Something is left out", "The client would not learn of it."),
    "unsettled": Kind(1, "Not settled yet", "A report is issued when nothing is open."),
    "draft": Kind(1, "Draft or issued?", "A draft must say so until a named person issues it."),
    "grade": Kind(
        2, "A grade that does not agree", "The grade says what to do first, and its reason is always printed."
    ),
    "sheet": Kind(2, "Sheet for a trade and report differ", "A contractor prices from the sheet alone."),
    "place": Kind(2, "Places that do not agree", "Nobody should have to guess where it is."),
    "reference": Kind(2, "A number that leads nowhere", "Numbers are how people speak of findings."),
    "term": Kind(2, "The terms", "They are the firm’s contract text, word for word."),
    "told": Kind(2, "Told by whom?", "The client should know whose word it is."),
    "inferred": Kind(2, "Inferred from what?", "An opinion names the signs that it rests on."),
    "wording": Kind(3, "Words a client should not read", "They promise, judge or frighten without a fact."),
    "photo": Kind(3, "Photos", "A photo under the wrong finding shows the wrong thing."),
    "action": Kind(3, "Nothing to do, or nobody to call", "The client would not know what to do on Monday."),
    "header": Kind(4, "Not written on the report", "A reader years later should know who looked, when and for whom."),
}
"""Every kind of matter, in the order of weight."""


class Matter(NamedTuple):
    """One matter. `line` counts from 1 (0: no line is known), `number` is the finding's; `right` says what would be right."""

    kind: str
    line: int
    number: int | None
    text: str
    right: str

    @property
    def weight(self) -> int:
        """1 first, 4 last."""
        return KINDS[self.kind].weight

    @property
    def why(self) -> str:
        """Why it matters."""
        return KINDS[self.kind].why


def of_finding(kind: str, found: Found, text: str, right: str) -> Matter:
    """A matter of one finding, at its line and under its number."""
    return Matter(kind, found.line, found.number, text, right)


def ordered(found: set[Matter]) -> tuple[Matter, ...]:
    """By weight, kind, and place in the report; what is said twice in the same words stands at its first line."""
    order = {kind: at for at, kind in enumerate(KINDS)}
    every = sorted(found, key=lambda each: (each.weight, order[each.kind], each.line, each.number or 0, each.text))
    first = {(each.kind, each.number, each.text): each for each in reversed(every)}
    return tuple(each for each in every if first[each.kind, each.number, each.text] is each)
