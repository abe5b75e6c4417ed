"""What a change of words means: the kinds of change between two forms of one sentence, and of a sentence alone."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from narrator.assess.wording import never_words
from narrator.review import lexicon as lex
from narrator.review import patterns
from narrator.review.kinds import WEIGHT
from narrator.review.wordwise import Piece, differences, misspelled, tokens

CLAUSE = 3
"""Content words. So many left out in a row are more than a word for another."""

_LOOSE = frozenset({"back", "backside", "over", "overhead", "under", "inner", "outer"})


class Meaning(NamedTuple):
    """A kind of change, and what it was in the words of the texts."""

    kind: str
    lost: tuple[str, ...] = ()
    gained: tuple[str, ...] = ()


class Known(NamedTuple):
    """Words that stand in the reports: one of a pair that only one report knows may be a slip of the fingers."""

    before: frozenset[str]
    after: frozenset[str]
    glosses: frozenset[str] = frozenset()
    """Meanings of trade words, which a redraft may print at another finding."""


def between(before: str, after: str, known: Known) -> list[Meaning]:
    """What changed from one form of a sentence to the other; the weightiest first, nothing where only signs did."""
    pieces = [piece for each in differences(before, after) if (piece := _without_slips(each, known)) is not None]
    if not pieces:
        # Quotes and dashes are levelled before this: what is left differs in spelling, stops or capital letters.
        return [] if tokens(before) == tokens(after) else [Meaning("spelling")]
    one, other = _lower(before), _lower(after)
    lost, gained = _moved_out(pieces)
    found = [
        *_figures(before, one, other, pieces),
        *_directions(one, other, lost, gained),
        *_stances(before, after, pieces, lost, gained),
    ]
    found += [*_places(pieces, lost, gained), *_people(lost, gained), *_doings(before, lost, gained)]
    found += [] if found else _clauses(pieces, lost, gained, known)
    found = found or [_wording(lost, gained, one)]
    return sorted(dict.fromkeys(found), key=lambda each: WEIGHT[each.kind])


def _lower(text: str) -> list[str]:
    return [each.lower() for each in tokens(text)]


def _words(parts: Iterable[str]) -> list[str]:
    return [each for each in parts if each[0].isalnum()]


def _without_slips(piece: Piece, known: Known) -> Piece | None:
    """The stretch without signs and words that are only misspelled; None where nothing is left."""
    lost, gained = _words(piece.lost), _words(piece.gained)
    if len(lost) == len(gained):
        pairs = [pair for pair in zip(lost, gained, strict=True) if not _slip(*pair, known)]
        lost, gained = [one for one, _ in pairs], [other for _, other in pairs]
    elif "".join(lost) == "".join(gained) and not any(each[0].isdigit() for each in lost + gained):
        return None  # a space or a hyphen went astray
    return Piece(tuple(lost), tuple(gained)) if lost or gained else None


def _slip(one: str, other: str, known: Known) -> bool:
    if not misspelled(one, other):
        return False
    heavy = {one, other} & (lex.NEGATIONS | lex.POINTS | lex.NUMBER_WORDS.keys())
    if heavy and (
        {one, other} & lex.CONFUSED or len({one, other} & (lex.NEGATIONS | lex.POINTS)) > 1 or len(one) < 4 > len(other)
    ):
        return sorted(one) == sorted(other)
    return other not in known.before or one not in known.after


def _moved_out(pieces: Sequence[Piece]) -> tuple[list[str], list[str]]:
    """Words that left and that came, without those that only changed their place in the sentence."""
    lost = Counter(word for piece in pieces for word in piece.lost)
    gained = Counter(word for piece in pieces for word in piece.gained)
    return list((lost - gained).elements()), list((gained - lost).elements())


def _figures(text: str, one: list[str], other: list[str], pieces: Sequence[Piece]) -> list[Meaning]:
    """A figure, its unit or a date that is another one."""
    before, after = _numbers(one), _numbers(other)
    values = [each[:2] for each in before], [each[:2] for each in after]
    if values[0] != values[1]:
        left = [each for each in before if each[:2] not in values[1]] or before
        came = [each for each in after if each[:2] not in values[0]] or after
        shown = [each[2] for each in left], [each[2] for each in came]
        if any(each[1] for each in [*left, *came]):
            kind = "criterion" if patterns.CRITERION.search(text) else "measure"
        else:
            kind = "criterion" if re.search(r"\d+ (?:to|or) \d", text) and patterns.CRITERION.search(text) else "number"
        return [Meaning(kind, tuple(shown[0]), tuple(shown[1]))]
    dates = [each for each in one if each in lex.DATE_WORDS], [each for each in other if each in lex.DATE_WORDS]
    return [Meaning("number", tuple(dates[0]), tuple(dates[1]))] if dates[0] != dates[1] else []


def _numbers(words: list[str]) -> list[tuple[str, str, str]]:
    """Each figure in order: its value, the group of its unit, and both as typed."""
    out = []
    for at, word in enumerate(words):
        value = word if word[0].isdigit() else lex.NUMBER_WORDS.get(word)
        if value is None:
            continue
        unit = next((each for each in words[at + 1 : at + 2] if each in lex.UNITS), "")
        before = words[at - 1] if at else ""
        sign = (
            before
            if before in ("<", ">", "~") or (before == "-" and (at < 2 or not words[at - 2][0].isalnum()))
            else ""
        )
        out.append((sign + value.replace(",", ""), lex.UNITS.get(unit, ""), f"{sign}{word} {unit}".strip()))
    return out


def _directions(one: list[str], other: list[str], lost: list[str], gained: list[str]) -> list[Meaning]:
    """A negation more or less, a word for its contrary, a side for another."""
    found = []
    negations = [each for each in one if each in lex.NEGATIONS], [each for each in other if each in lex.NEGATIONS]
    contrary = lex.any_opposite(lost, gained)
    if len(negations[0]) != len(negations[1]):
        left, came = Counter(negations[0]), Counter(negations[1])
        found.append(Meaning("negation", tuple((left - came).elements()), tuple((came - left).elements())))
    elif contrary:
        found.append(Meaning("negation", (contrary[0],), (contrary[1],)))
    sides = _sides(one), _sides(other)
    if sides[0] != sides[1]:
        left, came = Counter(sides[0]), Counter(sides[1])
        gone, new = tuple((left - came).elements()), tuple((came - left).elements())
        found.append(Meaning("side", *((gone, new) if gone or new else (tuple(sides[0]), tuple(sides[1])))))
    else:
        turned = [
            (a, b)
            for a in lost
            for b in gained
            if frozenset((lex.SIDES.get(a, a), lex.SIDES.get(b, b))) in lex.TURNED
            and lex.SIDES.get(a) != lex.SIDES.get(b)
        ]
        found += [Meaning("side", (turned[0][0],), (turned[0][1],))] if turned else []
    return found


def _sides(words: list[str]) -> list[str]:
    return [
        lex.SIDES[each] for each in words if each in lex.SIDES and each not in _LOOSE and lex.SIDES[each] in lex.POINTS
    ]


def _stances(before: str, after: str, pieces: Sequence[Piece], lost: list[str], gained: list[str]) -> list[Meaning]:
    """More or less sure than before, a claim that was not there, a limit or a warning that is none any more."""
    found = []
    # `about` for `regarding` hedges nothing; `about 2 inches` for `2 inches` does.
    loose = {each for piece in pieces if piece.lost and piece.gained for each in (*piece.lost, *piece.gained)} & {
        "about",
        "around",
    }
    hedges = lex.HEDGES - loose
    hedged = [each for each in lost if each in hedges], [each for each in gained if each in hedges]
    if len(hedged[0]) != len(hedged[1]) or (patterns.STANCE.search(before) and not patterns.STANCE.search(after)):
        found.append(Meaning("stance", tuple(hedged[0]), tuple(hedged[1])))
    claims = claims_of(after) - claims_of(before)
    if claims:
        found.append(Meaning("claim", (), tuple(sorted(claims))))
    # One word for another does not take a limit or a warning away, whatever words it is known by here.
    if any(len(content(piece.lost)) > max(1, len(content(piece.gained))) for piece in pieces):
        if patterns.LIMIT.search(before) and not patterns.LIMIT.search(after):
            found.append(Meaning("limit"))
        if patterns.ACT.search(before) and not patterns.ACT.search(after):
            found.append(Meaning("act"))
    return found


def claims_of(text: str) -> set[str]:
    """Words that claim more than a look can show."""
    return {each.lower() for each in (*never_words(text), *(match[0] for match in patterns.CLAIMS.finditer(text)))}


def _places(pieces: Sequence[Piece], lost: list[str], gained: list[str]) -> list[Meaning]:
    for piece in pieces:
        left = [each for each in piece.lost if each in lex.ROOMS and each in lost]
        came = [each for each in piece.gained if each in lex.ROOMS and each in gained]
        if ({lex.ROOMS[each] for each in left} != {lex.ROOMS[each] for each in came}) and (
            (left and came) or not piece.lost or not piece.gained
        ):
            return [Meaning("place", tuple(left), tuple(came))]
    return []


def _people(lost: list[str], gained: list[str]) -> list[Meaning]:
    left = [each for each in lost if _person(each) in lex.TRADE_WORDS]
    came = [each for each in gained if _person(each) in lex.TRADE_WORDS]
    return [Meaning("trade", tuple(left), tuple(came))] if left and came else []


def _person(word: str) -> str:
    """`carpenter's` and `carpenters` as the carpenter."""
    return word.removesuffix("'s").removesuffix("s")


def _doings(before: str, lost: list[str], gained: list[str]) -> list[Meaning]:
    if not recommends(before):
        return []
    left = [each for each in lost if each in lex.DOINGS]
    came = [each for each in gained if each in lex.DOINGS]
    groups: Mapping[str, str] = lex.DOINGS
    if left and came and not {groups[each] for each in left} & {groups[each] for each in came}:
        return [Meaning("recommendation", tuple(left), tuple(came))]
    return []


def _clauses(pieces: Sequence[Piece], lost: list[str], gained: list[str], known: Known) -> list[Meaning]:
    """Several words in a row that left, or came, without others for them."""
    for piece in pieces:
        if " ".join(piece.lost or piece.gained) in known.glosses:
            continue
        left = [each for each in content(piece.lost) if each in lost]
        came = [each for each in content(piece.gained) if each in gained]
        if len(left) >= CLAUSE and not came:
            return [Meaning("omitted", piece.lost, ())]
        if len(came) >= CLAUSE and not left:
            return [Meaning("added-text", (), piece.gained)]
    return []


def _wording(lost: list[str], gained: list[str], one: list[str]) -> Meaning:
    left, came = content(lost), content(gained)
    few = max(len(left), len(came)) <= 2 or len(left) + len(came) <= len(content(_words(one))) // 3
    return Meaning("word" if few else "reworded", tuple(lost), tuple(gained))


def content(words: Iterable[str]) -> list[str]:
    """The words that carry something."""
    return [each for each in words if each[0].isalnum() and each not in lex.SMALL]


def recommends(text: str) -> bool:
    """Whether a sentence asks someone to do something."""
    first = next(iter(_words(_lower(text))), "")
    return first in lex.IMPERATIVES or bool(
        re.search(r"(?i)\b(?:have an? |ask (?:the|an?|your) |in writing\b|price\b)", text)
    )


def alone(text: str, role: str) -> str:
    """The kind of change when a whole sentence left a piece of this role."""
    if role in ("term", "deadline", "limit", "header", "version"):
        return role
    if patterns.STANCE.search(text):
        return "stance"
    if patterns.ACT.search(text):
        return "act"
    if patterns.LIMIT.search(text):
        return "limit"
    numbered = _numbers(_lower(text))
    if any(unit for _, unit, _ in numbered) and not recommends(text):
        return "criterion" if patterns.CRITERION.search(text) else "measure"
    if recommends(text):
        return "recommendation"
    return "omitted"


def gained(text: str, role: str) -> str:
    """The kind of change when a whole sentence came into a piece of this role. Most are text added; a few say something new."""
    if role in ("term", "version"):
        return role
    if role in ("deadline", "header") and any(map(str.isdigit, text)):
        return role
    if role == "limit" and patterns.LIMIT.search(text):
        return role
    if claims_of(text):
        return "claim"
    if re.search(r"(?i)\bwe (?:told|warned|notified|informed)\b", text):
        return "act"
    if role == "finding":
        if any(unit for _, unit, _ in _numbers(_lower(text))) and not recommends(text):
            return "criterion" if patterns.CRITERION.search(text) else "measure"
        first = next(iter(_words(_lower(text))), "")
        if first in lex.IMPERATIVES and any(_person(each) in lex.TRADE_WORDS for each in _lower(text)):
            return "recommendation"
    return "added-text"


def figures(text: str) -> list[tuple[str, str, str]]:
    """Each figure of a text in order: its value, the group of its unit or nothing, and both as typed."""
    return _numbers(_lower(text))
