"""What the checks of a review stand on: the report by number and role, and what the library knows of its findings."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cached_property

from narrator.compose.english import number_word
from narrator.compose.place import Places
from narrator.pipeline import places_of, systems_of
from narrator.publish.labels import Labels
from narrator.report import Finding, Report
from narrator.resolve.vocabulary import Vocabulary
from narrator.review.pieces import Found, Passage, Piece, Reading
from narrator.review.plainly import level
from narrator.source import index as store
from narrator.source.index import Index
from narrator.source.model import Entry

OWNER = "once the house is yours"
WORDS = {number_word(n): n for n in range(0, 21)} | {"no": 0}
_FIGURE = re.compile(r"(?<![A-Za-z0-9/.,])(\d+[ -]\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*)(?![0-9]*[A-Za-z]\d)")
_QUOTE = re.compile(r'"[^"]*"')
_LEAD = re.compile(r"^(?:told to us|not seen directly): ")


@dataclass(frozen=True)
class Grounds:
    """A report and its library."""

    reading: Reading
    index: Index
    labels: Labels

    @property
    def report(self) -> Report | None:
        """The value itself, where the report came as JSON."""
        return self.reading.report

    @cached_property
    def vocabulary(self) -> Vocabulary:
        """Part and condition words."""
        return store.vocabulary(self.index)

    @cached_property
    def places(self) -> Places:
        """Known places."""
        return places_of(self.index)

    @cached_property
    def systems(self) -> dict[str, str]:
        """Names and titles of systems -> id."""
        return {name.lower(): each for name, each in systems_of(self.index).names.items()}

    @cached_property
    def by_number(self) -> dict[int, Found]:
        """Findings by number; of two with one number, the first."""
        found: dict[int, Found] = {}
        for each in self.reading.findings:
            if each.number is not None:
                found.setdefault(each.number, each)
        return found

    @cached_property
    def values(self) -> dict[int, Finding]:
        """The findings of the JSON value, by number."""
        sections = self.report["sections"] if self.report else []
        return {each["number"]: each for part in sections for each in part["findings"]}

    def pieces(self, *roles: str) -> tuple[Piece, ...]:
        """The pieces of these roles, in printed order."""
        return tuple(each for each in self.reading.pieces if each.role in roles)

    @cached_property
    def same_library(self) -> bool:
        """Whether the report names the very library that is open now."""
        said = level(" ".join(each.text for piece in self.pieces("colophon") for each in piece.passages))
        return f"({self.index.fingerprint[:12]})" in said

    @cached_property
    def _by_title(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for code, known in self.index.connection.execute("SELECT code, known FROM entry ORDER BY code"):
            found.setdefault(level(json.loads(known)[0]).lower(), []).append(code)
        return found

    def entry(self, found: Found) -> Entry | None:
        """The library's entry of a finding: by its id, else by its title where one entry alone has it."""
        code = found.id.split("~")[0]
        if not code:
            codes = self._by_title.get(_LEAD.sub("", level(found.title).lower()), [])
            code = codes[0] if len(codes) == 1 else ""
        return store.entry(self.index, code) if code else None


def prose(found: Found) -> str:
    """The running text of a finding, levelled; pictures left out."""
    return " ".join(level(each.text) for each in found.passages if each.kind != "chart")


def unquoted(text: str) -> str:
    """A levelled text without what stands in quotation marks."""
    return _QUOTE.sub('""', text)


def quotes(text: str) -> list[str]:
    """What stands in quotation marks in a levelled text."""
    return [each.strip('"') for each in _QUOTE.findall(text)]


def figures(text: str) -> set[str]:
    """Every figure in a levelled text, as `1 1/2` or `0.25`; also small numbers in words."""
    found = {each.replace("-", " ").rstrip(".,") for each in _FIGURE.findall(text)}
    return found | {str(WORDS[word]) for word in re.findall(r"[a-z]+", text.lower()) if word in WORDS}


def name(found: Found) -> str:
    """`number 7 (Stucco nearly touches the roof)`: how a message speaks of a finding."""
    title = level(found.title) or "without a title"
    return f"number {found.number} ({title})" if found.number is not None else f"the finding '{title}'"


def capital(text: str) -> str:
    """The text with its first letter large, and all else as it is."""
    return text[:1].upper() + text[1:]


def own_words(entry: Entry | None) -> str:
    """Everything that the library itself says in an entry, levelled and small: those words were weighed before."""
    if entry is None:
        return ""
    fields = (entry.title, entry.observation, entry.implication, entry.recommendation)
    texts = [variant.text for field in fields for variant in field]
    return level(" ".join([*texts, entry.why, *(rule.why for rule in entry.raises)])).lower()


def line_of(passage: Passage, piece: Piece) -> int:
    """The line of a passage, or of its piece where the form has none."""
    return passage.line or piece.line
