"""A phrase without its figures: what it may name, and which numbers in it are figures at all."""

from __future__ import annotations

import re
from collections.abc import Iterable

from narrator.compose.place import Places, find_known
from narrator.measure.quantity import Found
from narrator.measure.scan import scan
from narrator.read.cells import trim
from narrator.resolve.dimensions import NAMED, as_noun, dimension_of, without
from narrator.resolve.vocabulary import Vocabulary, plain_words
from narrator.resolve.words import understand


def figures(text: str, vocabulary: Vocabulary, places: Places) -> list[Found]:
    """The figures of a text, without a whole number that belongs to a known name ("2 prong") or room ("br 2")."""
    found = [one for one in scan(text) if not _names(one, text, vocabulary)]
    known = find_known(text, places) if any(not one.quantity.unit for one in found) else None
    if known is None:
        return found
    return [one for one in found if one.quantity.unit or not known[0] < one.start < known[1]]


def _names(found: Found, text: str, vocabulary: Vocabulary) -> bool:
    if found.quantity.unit or not found.quantity.text.isdigit():
        return False
    words = plain_words(text[found.start :])
    return any(words[: len(parts)] == parts for parts, _, _ in vocabulary.phrases.get(found.quantity.text, ()))


def without_quantities(text: str, vocabulary: Vocabulary, places: Places) -> str:
    """A phrase with its figures taken out, and the dimension words beside them."""
    return _tidy(without(text, figures(text, vocabulary, places)))


def _tidy(text: str) -> str:
    return trim(re.sub(r"\s+", " ", text)).strip(" ,:=@")


def wordings(text: str, vocabulary: Vocabulary, places: Places, labels: Iterable[str] = ()) -> tuple[str, ...]:
    """A phrase as it may name its thing, its figures taken out: a dimension word is a noun there ("guard height").

    `labels`: words beside the figures of the details. What says that something is wrong needs no dimension.
    """
    found = figures(text, vocabulary, places)
    plain = _tidy(without(text, found))
    if understand(plain, vocabulary).conditions:
        return (plain,)
    beside = [one for each in found if (one := dimension_of(text, each)) is not None]
    out = [_tidy(without(text, found, "nouns"))] if beside else []
    out += [plain, *(f"{plain} {noun}" for noun in sorted(as_noun(labels) & NAMED))]
    if any(one.before for one in beside):
        out.append(_tidy(without(text, found, "typed")))
    return tuple(dict.fromkeys(out))
