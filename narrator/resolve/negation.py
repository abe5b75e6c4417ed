"""What a negation does to the words after it."""

from __future__ import annotations

from collections.abc import Sequence

from narrator.resolve.vocabulary import Token, Vocabulary

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
        "nothing",
    }
)
_EVERY = frozenset({"all", "every", "each", "both", "everything"})
_WORKS = frozenset(
    {"work", "works", "worked", "working", "operate", "operates", "operated", "operational", "function", "functions"}
    | {"functioning", "respond", "responds", "responded"}
)


def negate(raw: Sequence[Token], vocabulary: Vocabulary, outcome: bool = False) -> tuple[list[Token], bool]:
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
                kind = "other" if token.canon in vocabulary.neutral and not _every_works(raw, at) else "fine"
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
            # "Nothing" at the end says that nothing was found; "no" there, that the thing is not.
            kind, canon = ("fine", token.canon) if token.canon == "nothing" else ("condition", "missing")
            tokens.append(Token(kind, canon, token.words))
            at += 1
            continue
        turns = token.canon in _VERBAL and raw[ahead].kind == "fine" and raw[ahead].canon in vocabulary.turned
        target = deeper if deeper is not None and not turns else ahead
        found = raw[target]
        words = token.words + found.words
        between = list(raw[at + 1 : target])
        if token.canon == "nothing" and found.kind not in ("function", "condition", "fine"):
            # "Nothing under sink" is fine; "nothing lights" may be anything.
            unclear = unclear or (raw[at + 1].kind != "filler" and raw[at + 1].canon not in JOINS)
            tokens.append(Token("fine", token.canon, token.words, token.spelled))
            at += 1
        elif found.kind == "function":
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


def _every_works(raw: Sequence[Token], at: int) -> bool:
    """Whether a word of working at `at` is said of everything named before it ("all outlets work")."""
    before = raw[:at]
    every = any(item.canon in _EVERY for item in before)
    said = len(raw[at].words) == 1 and raw[at].words[0] in _WORKS
    if before and raw[at].words == ("work",) and before[-1].canon == "all" and at + 1 < len(raw):
        return False  # "all work by owner": what was done
    return said and every and all(item.kind in ("part", "filler", "other") for item in before)


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
