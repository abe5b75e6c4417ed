"""Words of a phrase as the trade hears them: parts, conditions, negations, fine words; everything else is a plain word.

The lists are fixed data (`library/words.yaml`). A phrase becomes tokens by longest match; a negation turns the word of
function after it into a defect ("does not trip"), the damage after it into a fine statement ("no stains"), and the part
after it into something missing ("no handrail").
"""

from __future__ import annotations

import re
from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

_SPLIT = re.compile(r"[^0-9a-zà-öø-ÿ&/'.]+")
_FOLD = str.maketrans({"’": "'", "‘": "'", "′": "'", "–": "-", "—": "-"})
# What joins a plain noun to the part it belongs to ("no power at the outlet").
JOINS = frozenset(
    [
        "at",
        "in",
        "on",
        "of",
        "to",
        "for",
        "with",
        "from",
        "by",
        "near",
        "around",
        "under",
        "above",
        "below",
        "behind",
        "between",
        "over",
        "inside",
        "outside",
        "along",
        "beside",
    ]
)
_HELPERS = frozenset({"does", "do", "did", "will", "would", "could", "can", "to"})
_ARTICLES = frozenset({"a", "an", "the"})
_VERBAL = frozenset(
    {
        "doesnt",
        "doesn't",
        "dont",
        "don't",
        "didnt",
        "didn't",
        "wont",
        "won't",
        "cant",
        "can't",
        "cannot",
        "not",
        "never",
        "isnt",
        "isn't",
        "arent",
        "aren't",
        "wasnt",
        "wasn't",
        "wouldnt",
        "wouldn't",
        "couldnt",
        "couldn't",
        "shouldnt",
        "shouldn't",
        "unable to",
        "failed to",
        "fails to",
        "fail to",
        "failing to",
        "refuses to",
    }
)


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The word lists, ready for longest match: first word -> [(words, kind, canon)], longest first."""

    phrases: Mapping[str, Sequence[tuple[tuple[str, ...], str, str]]]
    abbreviations: Mapping[str, tuple[str, ...]]
    fillers: frozenset[str]
    ordinary: frozenset[str]
    turned: Mapping[str, str]
    hedges: frozenset[str]
    weights: Mapping[str, float]
    thresholds: Mapping[str, float]
    inner: Container[str]
    neutral: frozenset[str]
    telling: frozenset[str]
    slips: Callable[[str], Sequence[str]]


class Token(NamedTuple):
    """One understood piece: `kind` is part, condition, fine, other or filler; `canon` its group; `words` what was typed."""

    kind: str
    canon: str
    words: tuple[str, ...]
    spelled: bool = True


class Phrase(NamedTuple):
    """What a phrase says: `parts`, `conditions` and `others` are canonical; `unclear` marks an ambiguous negation."""

    tokens: tuple[Token, ...]
    parts: frozenset[str]
    conditions: frozenset[str]
    fine: frozenset[str]
    others: frozenset[str]
    hedged: bool
    unclear: bool
    misspelled: bool


def plain_words(text: str) -> tuple[str, ...]:
    """Lower-case words of a text; hyphens split, `&`, inner `/` and apostrophes stay."""
    lowered = text.lower().translate(_FOLD)
    words = (word.strip(".'/&") if word not in ("w/", "&") else word for word in _SPLIT.split(lowered))
    return tuple(word for word in words if word)


def name_key(text: str) -> str:
    """The form in which a name answers exactly: lower case, single spaces, no punctuation."""
    return " ".join(plain_words(text))


def build_phrases(words: Mapping[str, Any]) -> dict[str, list[tuple[tuple[str, ...], str, str]]]:
    """The table for longest match out of `words.yaml`."""
    table: dict[str, list[tuple[tuple[str, ...], str, str]]] = {}

    def add(text: str, kind: str, canon: str) -> None:
        parts = tuple(word for word in plain_words(text) if word not in _ARTICLES)
        if parts:
            table.setdefault(parts[0], []).append((parts, kind, canon))

    for kind, section in (("part", "parts"), ("condition", "conditions"), ("function", "functions")):
        for canon, forms in words[section].items():
            for form in forms:
                add(str(form), kind, canon)
    for canon, forms in words["negated"].items():
        for form in forms:
            add(str(form), "condition", f"not:{canon}")
    for form in words["fine"]:
        add(str(form), "fine", str(form))
    for form in words["negations"]:
        add(str(form), "negation", str(form))
    for found in table.values():
        found.sort(key=lambda item: (-len(item[0]), item[1], item[2]))
    return table


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


def understand(text: str, vocabulary: Vocabulary, outcome: bool = False) -> Phrase:
    """A phrase as parts, conditions, fine words and others.

    `outcome`: it tells what a test gave, so a word of function is meant as one ("reversed at the photo eyes").
    """
    raw = _raw_tokens(_expand(plain_words(text), vocabulary), vocabulary, outcome)
    tokens, unclear = _negate(raw, vocabulary, outcome)
    hedged = any(token.canon in vocabulary.hedges for token in tokens)
    tokens = [token for token in tokens if token.canon not in vocabulary.hedges]
    if not any(token.kind == "condition" and token.canon == "missing" for token in tokens):
        told = [token for token in tokens if token.kind == "part" and token.canon in vocabulary.telling]
        tokens += [Token("condition", f"has:{token.canon}", token.words, token.spelled) for token in told]

    def pick(kind: str) -> frozenset[str]:
        return frozenset(token.canon for token in tokens if token.kind == kind)

    return Phrase(
        tuple(tokens),
        pick("part"),
        pick("condition"),
        pick("fine"),
        pick("other"),
        hedged,
        unclear,
        any(not token.spelled for token in tokens),
    )


def written_out(text: str, vocabulary: Vocabulary) -> str:
    """A typed text with the abbreviations of the trade written out, all else as typed."""
    words = [" ".join(vocabulary.abbreviations.get(word.lower(), (word,))) for word in text.split()]
    return " ".join(words)


def _expand(words: Sequence[str], vocabulary: Vocabulary) -> list[tuple[str, str, bool]]:
    """(word, as typed, spelled right) with abbreviations written out and slips mended."""
    out: list[tuple[str, str, bool]] = []
    for word in words:
        if word in vocabulary.abbreviations:
            out.extend((full, word, True) for full in vocabulary.abbreviations[word])
        elif word in _ARTICLES:
            continue
        elif word in vocabulary.phrases or word in vocabulary.fillers or word.isdigit():
            out.append((word, word, True))
        elif "/" in word:
            out.extend(_expand([part for part in word.split("/") if part], vocabulary))
        else:
            better = respell(word, vocabulary) if word not in vocabulary.inner else None
            out.append((better or word, word, better is None))
    return out


def _raw_tokens(words: Sequence[tuple[str, str, bool]], vocabulary: Vocabulary, outcome: bool) -> list[Token]:
    """Longest match from the left. A word of function that is also a part counts as function only after a negation."""
    tokens: list[Token] = []
    at = 0
    negated = False
    while at < len(words):
        word = words[at][0]
        best: tuple[tuple[str, ...], str, str] | None = None
        for option in vocabulary.phrases.get(word, ()):
            length = len(option[0])
            if best is not None and length < len(best[0]):
                break
            if tuple(item[0] for item in words[at : at + length]) != option[0]:
                continue
            # Of equal length a word of function wins after a negation and in an outcome; else a part does.
            if (
                best is None
                or (option[1] == "function" and (negated or outcome))
                or ((best[1] != "function" or not (negated or outcome)) and option[1] != "function")
            ):
                best = option
        if best is None:
            kind = "filler" if word in vocabulary.fillers else "other"
            tokens.append(Token(kind, word, (words[at][1],), words[at][2]))
            at += 1
        else:
            piece = words[at : at + len(best[0])]
            typed = tuple(dict.fromkeys(item[1] for item in piece))
            tokens.append(Token(best[1], best[2], typed, all(item[2] for item in piece)))
            at += len(best[0])
        kind = tokens[-1].kind
        negated = kind == "negation" or (negated and kind in ("filler", "other", "fine"))
    return tokens


def _negate(raw: Sequence[Token], vocabulary: Vocabulary, outcome: bool = False) -> tuple[list[Token], bool]:
    """Apply negations; True when one can be read in two ways.

    In the outcome of a test, "no" before a plain noun tells what was not met ("no backup"), not what is missing.
    """
    tokens: list[Token] = []
    unclear = False
    at = 0
    while at < len(raw):
        token = raw[at]
        lacking = token.kind == "negation" and token.canon not in _VERBAL
        noun = _lacked(raw, at, lacking) if lacking or (token.kind, token.canon) == ("condition", "missing") else None
        if noun is not None and outcome and token.kind == "negation":
            tokens.append(Token("fine", f"no:{raw[noun].canon}", token.words + raw[noun].words, raw[noun].spelled))
            at = noun + 1
            continue
        if noun is not None:
            tokens.append(Token("condition", "missing", token.words, token.spelled))
            tokens.extend(item for item in raw[at + 1 : noun] if item.kind == "other")
            tokens.append(Token("condition", f"no:{raw[noun].canon}", raw[noun].words, raw[noun].spelled))
            at = noun + 1
            continue
        if token.kind != "negation":
            kind = token.kind
            if kind == "function":
                kind = "other" if token.canon in vocabulary.neutral else "fine"
            tokens.append(Token(kind, token.canon, token.words, token.spelled))
            at += 1
            continue
        ahead = next((i for i in range(at + 1, len(raw)) if raw[i].kind != "filler"), None)
        # An adverb may stand between ("not fully closed"): look past plain and fine words for a word of function.
        deeper = next(
            (
                i
                for i in range(at + 1, min(len(raw), at + 4))
                if raw[i].kind in ("function", "condition", "part", "negation")
            ),
            None,
        )
        if ahead is None:
            tokens.append(Token("condition", "missing", token.words))
            at += 1
            continue
        turns = token.canon in _VERBAL and raw[ahead].kind == "fine" and raw[ahead].canon in vocabulary.turned
        target = deeper if deeper is not None and not turns else ahead
        found = raw[target]
        words = token.words + found.words
        between = list(raw[at + 1 : target])
        if found.kind == "function":
            # "not run" alone: it would not, or nobody ran it.
            helped = at > 0 and raw[at - 1].canon in _HELPERS
            unclear = unclear or (found.words == ("run",) and token.canon == "not" and not helped)
            tokens.extend(between)
            tokens.append(Token("condition", f"not:{found.canon}", words, found.spelled))
            at = target + 1
        elif found.kind == "condition":
            tokens.extend(between)
            tokens.append(Token("fine", f"no:{found.canon}", words, found.spelled))
            at = target + 1
        elif found.kind == "part":
            tokens.append(Token("condition", "missing", token.words))
            after = [item.kind for item in raw[target + 1 :]]
            unclear = unclear or any(kind in ("condition", "function", "fine") for kind in after)
            at += 1
        elif found.kind == "fine":
            turned = vocabulary.turned.get(found.canon, f"not:{found.canon}")
            tokens.extend(between)
            tokens.append(Token("condition", turned, words, found.spelled))
            at = target + 1
        elif token.canon in _VERBAL:
            tokens.append(Token("condition", f"not:{found.canon}", words, found.spelled))
            at = target + 1
        else:
            tokens.append(Token("condition", "missing", token.words))
            at += 1
    return tokens, unclear


def _lacked(raw: Sequence[Token], at: int, last: bool) -> int | None:
    """The plain noun that the 'no' or 'missing' at `at` belongs to, when it is not the part ("no power at the outlet").

    `last`: it may also end the phrase ("outlet no power").
    """
    after = next((i for i in range(at + 1, len(raw)) if raw[i].kind != "filler"), len(raw))
    end = after
    while end < len(raw) and raw[end].kind == "other" and raw[end].canon not in JOINS:
        end += 1
    if end == after or (end < len(raw) and raw[end].canon not in JOINS):
        return None
    return end - 1 if last or end < len(raw) else None
