"""How hard a text is to read: the Flesch-Kincaid grade by a counting rule of our own.

The counting rule. A word is a run between spaces that holds a letter or a figure; hyphens and slashes
do not part it. A sentence ends at a full stop, question mark or exclamation mark, and a piece of one or
two words is none. That is the rule of textstat 0.7.8, by which finished texts are judged, with its
quirks: `e.g.` and `1.5` end a sentence too. Syllables are counted by rule, without a dictionary: by
vowel groups and endings, with a table of exceptions; a hyphened word by its parts, a figure as one,
initials letter by letter. Where a rule must err, it errs upward. How near this comes to textstat is
stated and held by tests/published/test_readability.py.
"""

from __future__ import annotations

import re

from narrator.compose.syllables import word_syllables

_WORD = re.compile(r"\S*\w\S*")
_SENTENCE = re.compile(r"\b[^.!?]+[.!?]*")


def count_words(text: str) -> int:
    """The number of words: runs between spaces that hold a letter or a figure."""
    return len(_WORD.findall(text))


def count_sentences(text: str) -> int:
    """The number of sentences of three words or more; at least one where there is any text."""
    if not text:
        return 0
    return max(1, sum(count_words(piece) > 2 for piece in _SENTENCE.findall(text)))


def count_syllables(text: str) -> int:
    """The number of syllables of all words."""
    return sum(word_syllables(word) for word in _WORD.findall(text))


def mean_sentence_words(text: str) -> float:
    """The mean number of words in a sentence; 0 for no text."""
    sentences = count_sentences(text)
    return count_words(text) / sentences if sentences else 0.0


def grade(text: str) -> float:
    """The Flesch-Kincaid grade, 0.39 words per sentence + 11.8 syllables per word - 15.59; 0 for no words."""
    words = count_words(text)
    if not words:
        return 0.0
    return 0.39 * mean_sentence_words(text) + 11.8 * count_syllables(text) / words - 15.59
