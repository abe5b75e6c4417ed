"""`Nothing to report`, `not inspected` and `not present` against a finding on the same part at the same place."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from narrator.assess.contradictions import meet, same_part, within
from narrator.compose.place import Places, class_of
from narrator.resolve.vocabulary import Vocabulary
from narrator.resolve.words import understand
from narrator.review.grounds import Grounds, line_of, name, unquoted
from narrator.review.matter import Matter
from narrator.review.pieces import Found
from narrator.review.plainly import level, sentences

_WHOLE = ("room", "space", "outbuilding", "outdoor")
_MERGED = re.compile(r"Nothing to report that day: (.+?)\.?$")
_FINE = re.compile(r"(.+?): (?:tested; )?nothing to report that day\b", re.IGNORECASE)
_TESTED = re.compile(r"(.+?): (.+), when tested\.?$")
_NOT = re.compile(r"We did not (?:inspect|see|look at|enter) (.+?)(?:\. The reason|\. No reason|\.|:|$)")
_ABSENT = re.compile(r"Not present: (.+?)(?:;|\.|$)")
_PLACE = re.compile(
    r"(?:at|on|in|by|near|above|below|under|left of|right of|behind|throughout|upstairs|downstairs)\b", re.IGNORECASE
)
_SOME = re.compile(r"(\d{1,9}) of (\d{1,9})")
_ARTICLE = re.compile(r"^(?:the|a|an|all|both|any|some) ", re.IGNORECASE)
_HEARD = re.compile(r"(?i)told to us:|not seen directly:")
_FROM_BELOW = ("B3015", "B3016")  # UNIFORMAT II (NISTIR 6389), level 4: eaves and soffits; gutters and downspouts
_DESCRIBED = re.compile(r"([A-Z][^:.]{1,40}): \S")
_VERBS = frozenset(["is", "are", "has", "have", "do", "does", "will", "can", "was", "were"])
_EXCEPT = re.compile(r"\b(?:except|apart from|other than|but for|the other|rest of)\b", re.IGNORECASE)


class Said(NamedTuple):
    """A status as printed: what it speaks of, where, and the sentence."""

    key: str
    thing: str
    where: str
    text: str
    line: int


def check(grounds: Grounds) -> Iterator[Matter]:
    """Each status that a finding speaks against."""
    for said in _statuses(grounds):
        if said.key == "not present":
            yield from _described(grounds, said)
        for found in grounds.reading.findings:
            if _against(said, found, grounds):
                text = f"“{said.text}” stands against {name(found)}."
                yield Matter(
                    "contradiction",
                    said.line,
                    found.number,
                    text,
                    "Keep the one that is true, or name the part and the place that each speaks of.",
                )


def _described(grounds: Grounds, said: Said) -> Iterator[Matter]:
    """What is said not to be there, and is described."""
    things = {_ARTICLE.sub("", part.strip()).lower() for part in said.thing.split(",")}
    for piece in grounds.pieces("system"):
        for passage in piece.passages:
            for sentence in sentences(level(passage.text)):
                match = _DESCRIBED.match(sentence)
                if match and match[1].lower() in things and not said.where:
                    text = f"“{said.text}” stands against “{sentence}”"
                    yield Matter("contradiction", line_of(passage, piece), None, text, "Keep the one that is true.")


def _statuses(grounds: Grounds) -> Iterator[Said]:
    for piece in grounds.pieces("looked", "unseen-here"):
        for passage in piece.passages:
            text = unquoted(level(passage.text))
            for sentence in sentences(text):
                for key, thing in _parsed(sentence, grounds):
                    if not _EXCEPT.search(sentence):
                        what, where = _placed(thing)
                        yield Said(key, what, where, sentence, line_of(passage, piece))


def _parsed(sentence: str, grounds: Grounds) -> Iterator[tuple[str, str]]:
    if match := _MERGED.match(sentence):
        yield from (("ok", each) for each in match[1].split(";"))
    elif match := _FINE.match(sentence):
        yield "ok", match[1]
    elif match := _TESTED.match(sentence):
        count = _SOME.search(match[2])
        failed = count is not None and int(count[1]) < int(count[2])
        if (
            not failed
            and not understand(match[2], grounds.vocabulary, outcome=True).conditions
            and not understand(match[1], grounds.vocabulary, outcome=True).conditions
        ):
            yield "tested", match[1]
    elif match := _NOT.match(sentence):
        yield "not inspected", match[1]
    elif match := _ABSENT.match(sentence):
        yield "not present", match[1]


def _placed(thing: str) -> tuple[str, str]:
    """What, and where: the place begins at the first comma before a preposition."""
    thing = re.sub(r" \(photos?[^)]*\)", "", thing)
    parts = [part.strip() for part in thing.split(",")]
    for at, part in enumerate(parts):
        if at and _PLACE.match(part):
            return ", ".join(parts[:at]), ", ".join(parts[at:])
    inner = re.search(r" (?=(?:in|on|at) the )", thing)
    return (thing[: inner.start()], thing[inner.end() :]) if inner else (thing, "")


def _against(said: Said, found: Found, grounds: Grounds) -> bool:
    vocabulary, places = grounds.vocabulary, grounds.places
    titled = understand(level(found.title), vocabulary).parts
    entry = grounds.entry(found)
    wide = titled | (understand(entry.code.split(".")[1].replace("-", " "), vocabulary).parts if entry else frozenset())
    lead = _subject(level(found.title), vocabulary)
    if said.key == "not inspected" and _HEARD.match(level(found.title)):
        return False  # nobody says that it was seen there
    if (
        said.key == "tested"
        and entry is not None
        and any(each.kind == "age" and not each.context for each in entry.measures)
    ):
        return False  # an old one can run
    system = grounds.systems.get(level(found.section).lower())
    for part in said.thing.split(","):
        thing = _ARTICLE.sub("", part.strip())
        if not thing:
            continue
        whole = class_of(thing, places) in _WHOLE
        if whole:
            unseen = said.key in ("not inspected", "not present")
            reached = entry is not None and entry.element not in _FROM_BELOW and not said.where
            own = reached and thing.lower() == system == grounds.systems.get(thing.lower())
            if unseen and (own or any(within(place, thing) for place in found.places)):
                return True
            continue
        parts = understand(thing, vocabulary).parts
        # A finding at a place is the exception to a word about all of them.
        placed = bool(said.where) or not found.places
        begun = said.key in ("ok", "tested") and bool(lead) and lead <= parts and placed
        same = grounds.systems.get(thing.lower()) == system and system is not None
        if (same or begun or (bool(parts) and same_part(said.key, parts, titled, wide))) and _same_place(
            said, found, places
        ):
            return True
    return False


def _subject(title: str, vocabulary: Vocabulary) -> frozenset[str]:
    """The part that a title begins with (`Toilet rocks on the floor`); none where a word of its name is unexplained."""
    words = _ARTICLE.sub("", title).lower().split()
    for at in range(1, min(4, len(words))):
        verb = words[at] in _VERBS or (
            words[at].endswith("s") and words[at + 1 : at + 2] not in [[each] for each in _VERBS]
        )
        if verb:
            phrase = understand(" ".join(words[:at]), vocabulary)
            return frozenset() if phrase.others else phrase.parts
    return frozenset()


def _same_place(said: Said, found: Found, places: Places) -> bool:
    if not said.where:
        return said.key != "tested" or not found.places
    first = [
        _ARTICLE.sub("", re.sub(r"^(?:at|on|in|by) ", "", part.strip()))
        for part in re.split(r",| and (?=at |on |in )|;", said.where)
    ]
    return any(meet(one, two, places) for one in first if one for place in found.places for two in place.split(","))
