"""Slips of one letter: a word that is not known is read as the one known word beside it, and never as a plain one."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from narrator.resolve.vocabulary import Vocabulary, build_phrases, plain_words


def spelling_table(words: Mapping[str, Any]) -> dict[str, list[str]]:
    """Every known word under each of its one-letter deletions: a slip of one letter is found by a look-up."""
    known: set[str] = set()
    for options in build_phrases(words).values():
        for parts, _, _ in options:
            known.update(part for part in parts if len(part) >= 4 and part.isalpha())
    table: dict[str, set[str]] = {}
    for word in known:
        for key in {word, *_deletions(word)}:
            table.setdefault(key, set()).add(word)
    return {key: sorted(found) for key, found in sorted(table.items())}


def _deletions(word: str) -> set[str]:
    return {word[:index] + word[index + 1 :] for index in range(len(word))}


def respell(word: str, vocabulary: Vocabulary) -> str | None:
    """The known word one slip away (a letter more, less, other, or two swapped), if there is no doubt which."""
    found = respellings(word, vocabulary)
    return found[0] if len(found) == 1 else None


def respellings(word: str, vocabulary: Vocabulary) -> tuple[str, ...]:
    """The known words one slip away: the likeliest kind of slip only, one for each group of words."""
    if len(word) < 4 or not word.isalpha() or word in vocabulary.ordinary:
        return ()
    found: dict[str, int] = {}
    for key in {word, *_deletions(word)}:
        for known in vocabulary.slips(key):
            if abs(len(known) - len(word)) <= 1 and known[0] == word[0] and one_slip(word, known):
                found[known] = _slip_kind(word, known)
    likeliest = min(found.values(), default=0)
    groups: dict[object, str] = {}
    for known in sorted(found):
        if found[known] == likeliest:
            groups.setdefault(_alone(known, vocabulary) or known, known)
    return tuple(groups.values())


def _slip_kind(typed: str, known: str) -> int:
    """0: two letters swapped, or a double letter typed once or thrice; 1: a letter more or less; 2: another letter."""
    if len(typed) == len(known):
        return 0 if sorted(typed) == sorted(known) else 2
    longer, shorter = (typed, known) if len(typed) > len(known) else (known, typed)
    at = next((i for i in range(len(shorter)) if longer[i] != shorter[i]), len(shorter))
    return 0 if at and longer[at] == longer[at - 1] else 1


def spellings(text: str, vocabulary: Vocabulary) -> tuple[str, ...]:
    """The text with its first word of doubtful spelling written each way; none when no word is in doubt."""
    for word in plain_words(text):
        if (
            word in vocabulary.abbreviations
            or word in vocabulary.phrases
            or word in vocabulary.fillers
            or word in vocabulary.inner
        ):
            continue
        ways = respellings(word, vocabulary)
        if len(ways) > 1:
            # Not `\b`: an underscore ends a word here. A text that does not change has no other spelling to try.
            typed = re.compile(rf"(?<![^\W_]){re.escape(word)}(?![^\W_])", re.IGNORECASE)
            tried = (typed.sub(way, text, count=1) for way in ways)
            return tuple(other for other in tried if other != text)
    return ()


def _alone(word: str, vocabulary: Vocabulary) -> tuple[str, str] | None:
    """The group of a word that stands alone: two spellings of one word are no doubt."""
    groups = {(kind, canon) for parts, kind, canon in vocabulary.phrases.get(word, ()) if parts == (word,)}
    return groups.pop() if len(groups) == 1 else None


def one_slip(a: str, b: str) -> bool:
    """Whether two words differ by one letter added, dropped or changed, or by two neighbours swapped."""
    if a == b:
        return True
    if len(a) == len(b):
        different = [index for index in range(len(a)) if a[index] != b[index]]
        if len(different) == 1:
            return True
        if len(different) == 2:
            i, j = different
            return j == i + 1 and a[i] == b[j] and a[j] == b[i]
        return False
    if len(a) > len(b):
        a, b = b, a
    return len(b) - len(a) == 1 and any(b[:index] + b[index + 1 :] == a for index in range(len(b)))
