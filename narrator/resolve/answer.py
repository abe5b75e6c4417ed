"""One phrase, one answer: exact, then likeness with vetoes; never a silent guess."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

from narrator.compose.place import Places, find_known, written_out
from narrator.compose.place import is_known as _is_known
from narrator.read.cells import trim
from narrator.read.model import Item
from narrator.resolve.fits import quantity_fits, series_fits
from narrator.resolve.likeness import Scored, choose, rank
from narrator.resolve.model import Near
from narrator.resolve.rooms import about, other_rooms
from narrator.resolve.spelling import spellings
from narrator.resolve.vocabulary import Phrase, Vocabulary, name_key, plain_words
from narrator.resolve.words import understand
from narrator.source import index as store
from narrator.source.index import Index


class Answer(NamedTuple):
    """What a phrase was taken to be. `place` is a place that stood in the phrase; `left` the typed words nothing explains."""

    code: str
    how: str
    score: float
    place: str | None
    left: tuple[str, ...]
    hedged: bool
    conditions: frozenset[str]


class NoAnswer(NamedTuple):
    """Why there is none, and the nearest entries."""

    reason: str
    near: tuple[Near, ...]
    fine: bool
    conditions: frozenset[str]


def readings(text: str, places: Places) -> list[tuple[str, str | None]]:
    """The ways a phrase can be read: as it is, without a known place in it, without what stands after a relation word."""
    out: list[tuple[str, str | None]] = [(text, None)]
    known = find_known(text, places)
    if known is not None:
        start, end = known
        before = re.sub(
            r"\b(?:in|at|on|of|from|inside|the|to|for|around)\s*$",
            "",
            re.sub(r"\bthe\s*$", "", text[:start]).rstrip(),
            flags=re.I,
        )
        rest = trim(f"{trim(before)} {trim(text[end:])}")
        if rest:
            out.append((rest, written_out(text[start:end], places)))
    relation = _relation(text, places)
    if relation is not None:
        out.append((trim(text[:relation]), trim(text[relation:])))
        if known is not None and known[1] <= relation:
            start, end = known
            rest = trim(f"{text[:start]} {text[end:relation]}")
            if trim(rest):
                out.append((trim(rest), f"{text[start:end]}, {trim(text[relation:])}"))
    return [(phrase, place) for phrase, place in out if plain_words(phrase)]


def _relation(text: str, places: Places) -> int | None:
    """Where the first relation word after the first word stands, with something behind it."""
    lowered = text.lower()
    found = [
        match.start(1)
        for word in places.relations
        if word in lowered and (match := re.search(rf"(?<=\w)\s+({re.escape(word)})\s+\w", lowered))
    ]
    return min(found, default=None)


def answer(
    text: str,
    index: Index,
    places: Places,
    prefer: str | None,
    values: Sequence[Item],
    where: str = "",
    above: str = "",
) -> Answer | NoAnswer:
    """The entry that a phrase (figures taken out) names, or why none may be taken.

    `prefer` is the heading's system, `values` the figures on the line, `where` its place, `above` the place heading's.
    """
    fits = partial(value_fits, index, tuple(values))
    if "." in text and store.entry(index, text.lower()) is not None:
        return Answer(text.lower(), "code", 1.0, None, (), False, frozenset())
    vocabulary = store.vocabulary(index)
    found: list[tuple[int, int, Answer]] = []
    first: NoAnswer | None = None
    typed: frozenset[str] = frozenset()
    whole: tuple[Scored, ...] = ()  # what passes for the phrase uncut
    cuts = readings(text, places)
    barred = other_rooms(text, (*(place or "" for _, place in cuts), where, above), index, places)
    for order, (phrase, place) in enumerate(cuts):
        understood = understand(phrase, vocabulary)
        if place is None:
            typed = understood.parts
        elif not understood.parts <= typed:
            continue  # the cut broke the name of a thing ("attic fan")
        exact = _exact(phrase, understood, index, fits)
        if exact is not None and not barred(exact):
            # A phrase that stands before a relation word was cut by us: that is a likeness, to be listed.
            how = "name" if place is None or _is_known(place, places) else "likeness"
            own = _under_heading(phrase, exact, prefer, index)
            made = Answer(own or exact, "likeness" if own else how, 1.0, place, (), False, understood.conditions)
            if place is None:
                return made
            found.append((0, order, made))
            continue
        ranked = ranking(understood, index, fits)
        open_to = [item for item in ranked if not barred(item.code)]
        chosen = choose(open_to, vocabulary.thresholds, prefer)
        if place is None:
            whole = tuple(item for item in open_to if item.passes and item.score >= vocabulary.thresholds["automatic"])
        if chosen is not None:
            found.append((len(left_over(understood, chosen, index)), order, _likely(understood, chosen, place, index)))
        elif first is None:
            first = _none(understood, ranked, vocabulary.exceptions)
    # A place that names a part ("balcony", "steps") is no mere place where the uncut phrase has an answer.
    found = [item for item in found if not _overruled(item[2], whole, vocabulary)]
    found = [item for item in found if not _drops_a_part(item[2], index, places)]
    if found:
        # The reading that leaves fewest words unexplained; the fuller one when two leave the same.
        return min(found, key=lambda item: item[:2])[2]
    assert first is not None
    return (
        _with_place_word(text, about((where, above), places), index, prefer, fits, barred)
        or _respelled(text, index, places, prefer, values, where, above)
        or first
    )


_OF = frozenset({"of", "in", "on", "inside", "within"})


def _drops_a_part(got: Answer, index: Index, places: Places) -> bool:
    """Whether the words cut off as a place name the part itself ("back wall of firebox"), and it stays unexplained.

    What a thing stands near to or left of may be anything; what it is of, in or on is what it is about.
    """
    about = [
        piece for piece in (got.place or "").split(",") if piece.lower().split()[:1] and piece.lower().split()[0] in _OF
    ]
    if not about or _is_known(got.place or "", places):
        return False
    known = store.known_of(index, [got.code])[got.code].parts
    for token in understand(" ".join(about), store.vocabulary(index)).tokens:
        if token.kind == "part" and token.canon not in known and " ".join(token.words) not in places.heads:
            return True
    return False


def _overruled(got: Answer, whole: Sequence[Scored], vocabulary: Vocabulary) -> bool:
    """Whether an answer to a cut phrase says less than what the phrase as typed says best."""
    if not got.place or not whole or not understand(got.place, vocabulary).parts:
        return False
    return got.code not in [item.code for item in whole if item.score == whole[0].score]


def _respelled(
    text: str, index: Index, places: Places, prefer: str | None, values: Sequence[Item], where: str, above: str
) -> Answer | None:
    """The answer to a phrase with a word of doubtful spelling, if one way of writing it alone has one."""
    answers: dict[str, Answer] = {}
    for way in spellings(text, store.vocabulary(index)):
        got = answer(way, index, places, prefer, values, where, above)
        if isinstance(got, Answer):
            answers.setdefault(got.code, got._replace(how="likeness"))
    return next(iter(answers.values())) if len(answers) == 1 else None


def _under_heading(phrase: str, exact: str, prefer: str | None, index: Index) -> str | None:
    """`flashing rusted` under Roof is the roof's: a name of the heading's own system that only adds the system's word."""
    if prefer is None or exact.split(".", 1)[0] == prefer:
        return None
    for word in dict.fromkeys((prefer, prefer.removesuffix("s"))):
        code = store.exact(index, f"{word} {name_key(phrase)}")
        if code is not None and code.split(".", 1)[0] == prefer:
            return code
    return None


def _with_place_word(
    text: str,
    where: Sequence[str],
    index: Index,
    prefer: str | None,
    fits: Callable[[str], bool],
    barred: Callable[[str], bool],
) -> Answer | None:
    """A phrase that leaves its thing to its place (`water stains | living room ceiling`), if one answer alone fits."""
    vocabulary = store.vocabulary(index)
    understood = understand(text, vocabulary)
    extra = [token.canon for text in where for token in understand(text, vocabulary).tokens if token.kind == "part"]
    answers: dict[str, Answer] = {}
    for part in extra:
        wider = understood._replace(parts=understood.parts | {part})
        open_to = [item for item in ranking(wider, index, fits) if not barred(item.code)]
        chosen = choose(open_to, vocabulary.thresholds, prefer)
        if chosen is not None:
            answers.setdefault(chosen.code, _likely(understood, chosen, None, index))
    return next(iter(answers.values())) if len(answers) == 1 else None


def _likely(understood: Phrase, chosen: Scored, place: str | None, index: Index) -> Answer:
    left = left_over(understood, chosen, index)
    return Answer(chosen.code, "likeness", chosen.score, place, left, understood.hedged, understood.conditions)


def value_fits(index: Index, values: Sequence[Item], code: str) -> bool:
    """Whether any figure of the line has the dimension of a measure of this entry."""
    entry = store.entry(index, code)
    if entry is None:
        return False
    for item in values:
        for spec in entry.measures:
            if item.quantity is not None and quantity_fits(item.quantity, spec):
                return True
            if item.kind == "series" and series_fits(item, spec):
                return True
    return False


def ranking(understood: Phrase, index: Index, fits: Callable[[str], bool]) -> tuple[Scored, ...]:
    """Every entry that shares a word with the phrase, best first."""
    words = understood.parts | understood.conditions
    names = store.name_rows(index, words or understood.others)
    known = store.known_of(index, (name.code for name in names))
    return rank(understood, names, known, store.vocabulary(index).weights, fits)


def _exact(phrase: str, understood: Phrase, index: Index, fits: Callable[[str], bool]) -> str | None:
    """The code whose name this is; the plain name of a measured thing answers only a line with a value."""
    key = name_key(phrase)
    code = store.exact(index, key) if key else None
    return code if code is not None and (understood.conditions or fits(code)) else None


def left_over(understood: Phrase, chosen: Scored, index: Index) -> tuple[str, ...]:
    """The typed words that the entry does not explain."""
    known = store.known_of(index, [chosen.code])[chosen.code]
    name_words = set(chosen.name.split()) | set(plain_words(known.title))
    out: list[str] = []
    for token in understood.tokens:
        if (token.kind == "other" and token.canon not in name_words and not set(token.words) <= name_words) or (
            token.kind == "fine" and not set(token.words) & name_words
        ):
            out.extend(token.words)
    return tuple(out)


def _none(understood: Phrase, ranked: tuple[Scored, ...], exceptions: frozenset[str]) -> NoAnswer:
    near = tuple(Near(item.code, item.title, item.score) for item in ranked[:3])
    conditions = understood.conditions
    # A misspelled word may not make a line fine.
    said = not conditions and any(token.kind == "fine" and token.spelled for token in understood.tokens)
    but = [token.words[0] for token in understood.tokens if said and token.canon in exceptions]
    fine = said and not but and not understood.unclear
    if understood.unclear:
        reason = "The 'no' here can be read in two ways."
    elif but:
        reason = f"It says that something is as it should be, but also '{but[0]}': what was not?"
    elif fine:
        reason = "Its only condition words say that something is as it should be."
    elif not conditions:
        reason = "No word here says what is wrong, and no figure goes with it."
    elif understood.fine:
        reason = "It says both that something is right and that something is wrong."
    elif len([item for item in ranked if item.passes]) > 1:
        reason = "Two answers are equally near."
    elif near:
        reason = "Nothing in the library says just this."
    else:
        reason = "The library has nothing like this."
    return NoAnswer(reason, near, fine, conditions)
