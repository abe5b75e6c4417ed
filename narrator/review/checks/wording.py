"""Over-claims and words that a client should not read, wherever a hand put them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.assess.wording import ORDINARY_WHEN_TYPED, never_words
from narrator.review.grounds import Grounds, line_of, name, own_words, quotes, unquoted
from narrator.review.matter import Matter
from narrator.review.pieces import Found
from narrator.review.plainly import level, sentences

_CLAIMS: tuple[tuple[str, str, str], ...] = (
    (
        r"definitely|certainly|undoubtedly|without (?:a |any )?doubt|no doubt|obviously|clearly|conclusive(?:ly)?|"
        r"proves?|proven|"
        r"100 ?(?:%|percent) (?:certain|sure)|for certain|beyond question|"
        r"(?:will|is going to) (?:surely|certainly|fail|collapse|leak|burn)|"
        r"never (?:fails?|leaks?)|we (?:are (?:sure|certain|confident)|know that|confirm)",
        "certainty that nobody has",
        "Say what was seen, what we think and what we do not know.",
    ),
    (
        r"probably|most likely|very likely|highly likely|unlikely|likelihood|chances are|\d+ ?(?:%|percent) (?:chance|likely|probability)",
        "a likelihood",
        "Say “we think” with the signs, or that we do not know.",
    ),
    (
        r"(?:do not|don't|should not|shouldn't|would not|wouldn't|should|recommend(?:ed)? (?:not )?) ?"
        r"(?:to )?buy(?:ing)?(?: this| the)? (?:house|home|property|it)|"
        r"good buy|bad buy|great deal|deal ?breakers?|overpriced|worth (?:the|its|buying)|walk away from|"
        r"lower (?:your|the) (?:offer|price)|"
        r"price reduction|ask (?:the seller )?for (?:a )?(?:credit|discount|reduction)|back out of|renegotiat\w+|market value",
        "advice on buying",
        "Leave what to pay, and whether to buy, to the client.",
    ),
    (
        r"(?:structurally |perfectly )(?:sound|safe)|unsafe|good (?:shape|order|condition|repair)|"
        r"(?:working|fine|excellent|great|poor|fair) (?:order|condition|shape)|"
        r"acceptable|serviceable|performing as intended|functions? as (?:intended|designed)|no (?:concerns?|issues?|worries|defects)|"
        r"nothing to worry about|not a concern|not dangerous|harmless|"
        r"in compliance|compliant|(?:to|meets|up to|per|against) code|code(?:s)? requires?|required by (?:law|code)|illegal(?:ly)?",
        "a judgement that an inspection cannot give",
        "Say what was seen or measured, and beside which figure.",
    ),
    (
        r"(?:[$€£] ?\d[\d,.]*(?:k\b)?|\b\d[\d,.]*k? (?:dollars|euros|pounds sterling|bucks|usd))|"
        r"(?:costs?|price) (?:about|around|roughly|up to) \S+",
        "a price",
        "Leave prices to the trades, in writing.",
    ),
    (
        r"(?:black |toxic )?mou?ld(?:y)?|asbestos|termites?|carpenter ants?|powder ?post beetles?|"
        r"wood[- ]boring insects?|lead paint|radon|infest(?:ation|ed)|rats?|rodents?",
        "a thing named that only a test or a specialist can name",
        "Say what was seen, and who can say what it is.",
    ),
    (
        r"code violations?|violat(?:es?|ions?)|guarantee[ds]?|warrant(?:y|ed|ies)",
        "a promise or a judgement of law",
        "Say what was seen or measured.",
    ),
)
_PATTERNS = tuple(
    (re.compile(rf"(?<![\w-])(?:{pattern})(?![\w-])", re.IGNORECASE), what, right) for pattern, what, right in _CLAIMS
)
_TYPED = ("looked", "unseen-here", "not-seen", "unseen", "day", "system")
_OURS = ("danger", "deadline", "find-out", "in-time", "counts", "story", "other", "head")


def check(grounds: Grounds) -> Iterator[Matter]:
    """Each sentence with such a word."""
    for found in grounds.reading.findings:
        for text, line in [
            (level(found.title), found.line),
            *((level(each.text), each.line or found.line) for each in found.passages if each.kind != "chart"),
        ]:
            for sentence in sentences(text):
                yield from _sentence(grounds, sentence, line, found)
    for piece in grounds.pieces(*_OURS, *_TYPED, "notes"):
        for passage in piece.passages:
            text, told = level(passage.text), grounds.by_number.get(passage.number or 0)
            if told is not None:
                text = text.removeprefix(level(told.title).rstrip("."))  # the title is judged where it stands
            if piece.role == "story":
                text = _untitled(grounds, text)
            for sentence in sentences(text):
                yield from _elsewhere(sentence, line_of(passage, piece), piece.role)


def _sentence(grounds: Grounds, sentence: str, line: int, found: Found) -> Iterator[Matter]:
    known = own_words(grounds.entry(found))
    plain = unquoted(sentence)
    for pattern, what, right in _PATTERNS:
        match = pattern.search(plain)
        if match and match[0].lower() not in known:
            yield Matter(
                "over-claim",
                line,
                found.number,
                f"In {name(found)}: “{match[0]}” is {what}. The sentence: “{_short(sentence)}”",
                right,
            )
            return
    words = [word for word in never_words(plain) if word.lower() not in known]
    if words:
        yield Matter(
            "wording",
            line,
            found.number,
            f"In {name(found)}: “{words[0]}”. The sentence: “{_short(sentence)}”",
            "Say the fact instead: what was seen, measured or told.",
        )
    for quote in quotes(sentence):
        typed = [word for word in never_words(quote) if word.lower() not in ORDINARY_WHEN_TYPED]
        if typed:
            yield Matter(
                "wording",
                line,
                found.number,
                f"The inspector’s own words in {name(found)} say “{typed[0]}”: “{_short(quote)}”",
                "They print as typed. Should a client read them so?",
            )


def _untitled(grounds: Grounds, text: str) -> str:
    """A story without the titles of the findings that it tells together."""
    for number in re.findall(r"\(number (\d{1,9})\b", text):
        found = grounds.by_number.get(int(number))
        if found is not None:
            text = re.sub(re.escape(level(found.title)), "…", text, flags=re.IGNORECASE)
    return text


def _elsewhere(sentence: str, line: int, role: str) -> Iterator[Matter]:
    plain = sentence if role == "notes" else unquoted(sentence)
    words = [word for word in never_words(plain) if role in _OURS or word.lower() not in ORDINARY_WHEN_TYPED]
    claims = [(match[0], what, right) for pattern, what, right in _PATTERNS if (match := pattern.search(plain))]
    if role in _OURS and claims:
        yield Matter(
            "over-claim",
            line,
            None,
            f"“{claims[0][0]}” is {claims[0][1]}. The sentence: “{_short(sentence)}”",
            claims[0][2],
        )
    elif words or claims:
        word = words[0] if words else claims[0][0]
        yield Matter(
            "wording",
            line,
            None,
            f"“{word}” in “{_short(sentence)}”",
            "These words print as typed. Should a client read them so?",
        )


def _short(text: str) -> str:
    return text if len(text) <= 140 else text[:137].rsplit(" ", 1)[0] + " …"
