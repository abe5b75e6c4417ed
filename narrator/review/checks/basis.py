"""How it is known: an opinion names its signs, and hearsay names whose it is."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.review.grounds import Grounds, capital, figures, name, prose, quotes
from narrator.review.matter import Matter, of_finding
from narrator.review.plainly import level, sentences

_OPINION = re.compile(r"This is an opinion and not a thing that we saw|not seen directly", re.IGNORECASE)
_HEARSAY = re.compile(r"We know this only from (what we were told|[^:.]+)", re.IGNORECASE)
_SIGN = re.compile(r"\b(?:because|the signs?|from the|we take it from|it rests on)\b", re.IGNORECASE)
_SAW = re.compile(r"\bWe (?:saw|measured|tested|found|watched|heard|smelled|felt)\b(?! no| nothing)")


def check(grounds: Grounds) -> Iterator[Matter]:
    """Inferred without from what, told without by whom, and a title that says one thing and the text another."""
    for found in grounds.reading.findings:
        title, text = level(found.title), prose(found)
        value = grounds.values.get(found.number or 0)
        basis = value["basis"] if value else ""
        inferred = basis == "inferred" or "~inferred" in found.id or title.lower().startswith("not seen directly")
        told = basis == "told" or "~told" in found.id or title.lower().startswith("told to us")
        if inferred:
            first = " ".join(sentences(text)[:2])
            named = (
                any(one["words"] or one["measures"] for one in value["instances"])
                if value
                else bool(quotes(text) or _SIGN.search(first))
            )
            if not named and not (value is None and figures(re.sub(r"\b(?:one|two|no)\b", "", first.lower()))):
                yield of_finding(
                    "inferred",
                    found,
                    f"{capital(name(found))} is an opinion, and nothing says what it rests on.",
                    "Name the sign, in the inspector’s words or with a figure.",
                )
            if not _OPINION.search(f"{title} {text}"):
                yield of_finding(
                    "inferred",
                    found,
                    f"{capital(name(found))} was inferred, and the text no longer says that it is an opinion.",
                    "Say: this is an opinion and not a thing that we saw.",
                )
        if told:
            match = _HEARSAY.search(text)
            nobody = (
                any(one["basis"] == "told" and not one["source"] for one in value["instances"])
                if value
                else match is not None and match[1].startswith("what")
            )
            if nobody:
                yield of_finding(
                    "told",
                    found,
                    f"{capital(name(found))} was told to us, and nothing says by whom.",
                    "Name who said it, such as: told by seller.",
                )
            if match is None:
                yield of_finding(
                    "told",
                    found,
                    f"{capital(name(found))} was told to us, and the text no longer says so.",
                    "Say whose word it is: we know this only from the seller.",
                )
        for lead in (("opinion", inferred), ("hearsay", told)):
            saw = _SAW.search(" ".join(sentences(text)[:1]))
            if lead[1] and saw:
                yield of_finding(
                    "over-claim",
                    found,
                    f"{capital(name(found))} is {lead[0]}; its text begins with “{saw[0]}”.",
                    "Say how it is known, and no more.",
                )
