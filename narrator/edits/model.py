"""The hand edits of one inspection: what `NAME.edits.yaml` holds."""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Mapping
from typing import NamedTuple

FORMAT = "narrator.edits/1"

TEXTS = ("title", "observation", "implication", "recommendation", "why")
"""Fields of a finding that are plain texts. Beside them: `severity`, `trades`, `limits.ID`."""

PARTS = ("story", "note", "description", "result", "status", "limit", "term")
"""Texts of a report that belong to no single finding."""


class Edit(NamedTuple):
    """One text that a person changed.

    On a finding: its id in `finding` and the `field`. Else a `part` of `PARTS`, with `of` naming it where it has a name (the
    findings of a story, the id of a limit or term). `base` is the text that was replaced, `fingerprint` its mark; `line` is where the
    edit stands in its file.
    """

    text: str
    base: str
    finding: str = ""
    field: str = ""
    part: str = ""
    of: str = ""
    fingerprint: str = ""
    by: str = ""
    reason: str = ""
    line: int = 0

    @property
    def key(self) -> tuple[str, ...]:
        """What it changes; a second edit of the same takes the place of the first."""
        if self.finding:
            return (self.finding, self.field)
        return (self.part, self.of) if self.of else (self.part, self.of, self.fingerprint)


class Settled(NamedTuple):
    """An answer to what was open on a line: `code` binds the line to an entry, `notes` are the review notes answered.

    `number` and `text` are the line's when it was settled; the text decides when the line has moved. `what` is the part of
    the line that `code` is for.
    """

    number: int
    text: str
    what: str = ""
    code: str = ""
    answer: str = ""
    notes: tuple[str, ...] = ()
    by: str = ""
    line: int = 0


class Unplaced(NamedTuple):
    """Something that a person changed and that has no place among the edits. Kept until the person takes it out."""

    where: str
    said: str
    text: str = ""
    before: str = ""
    finding: str = ""
    by: str = ""
    line: int = 0

    @property
    def key(self) -> tuple[str, str, str]:
        """The same thing found again by a second reading."""
        return (fold(self.where), fold(self.text), fold(self.before))


class Edits(NamedTuple):
    """Everything that the file holds. `path` is its name as messages show it, `source` its text as it was read."""

    path: str
    edits: tuple[Edit, ...] = ()
    settled: tuple[Settled, ...] = ()
    unplaced: tuple[Unplaced, ...] = ()
    source: str = ""

    def by_key(self) -> Mapping[tuple[str, ...], Edit]:
        """The edits by what they change."""
        return {each.key: each for each in self.edits}


def fold(text: str) -> str:
    """A text as it is compared: NFC, white space collapsed."""
    return " ".join(unicodedata.normalize("NFC", text).split())


def fingerprint(text: str) -> str:
    """The mark of a text: the first 16 digits of the SHA-256 of its folded form."""
    return hashlib.sha256(fold(text).encode("utf-8", "surrogatepass")).hexdigest()[:16]
