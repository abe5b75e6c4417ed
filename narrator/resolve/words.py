"""Words of a phrase as the trade hears them: parts, conditions, negations, fine words; everything else is a plain word.

The lists are fixed data (`library/words.yaml`). A phrase becomes tokens by longest match; a negation turns the word of
function after it into a defect ("does not trip"), the damage after it into a fine statement ("no stains"), and the part
after it into something missing ("no handrail").
"""

from __future__ import annotations

from collections.abc import Sequence

from narrator.resolve.negation import negate
from narrator.resolve.spelling import respell
from narrator.resolve.vocabulary import ARTICLES, Phrase, Token, Vocabulary, plain_words

MOST_KEPT = 500  # phrases whose reading is kept for the next look


def understand(text: str, vocabulary: Vocabulary, outcome: bool = False) -> Phrase:
    """A phrase as parts, conditions, fine words and others.

    `outcome`: it tells what a test gave, so a word of function is meant as one ("reversed at the photo eyes").
    """
    key = (text, outcome)
    if key not in vocabulary.memo:
        if len(vocabulary.memo) >= MOST_KEPT:
            vocabulary.memo.clear()
        vocabulary.memo[key] = _understood(text, vocabulary, outcome)
    return vocabulary.memo[key]


def _understood(text: str, vocabulary: Vocabulary, outcome: bool) -> Phrase:
    raw = _raw_tokens(_expand(plain_words(text), vocabulary), vocabulary, outcome)
    tokens, unclear = negate(raw, vocabulary, outcome)
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


def _expand(words: Sequence[str], vocabulary: Vocabulary) -> list[tuple[str, str, bool]]:
    """(word, as typed, spelled right) with abbreviations written out and slips mended."""
    out: list[tuple[str, str, bool]] = []
    for word in words:
        if word in vocabulary.abbreviations:
            out.extend((full, word, True) for full in vocabulary.abbreviations[word])
        elif word in ARTICLES:
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
