"""The printed texts of a library, each with the place it stands at; their sentences, openings and printed values."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.source.check.stock import Stock, Text
from narrator.source.model import TEXT_FIELDS, Variant
from narrator.source.positions import Key, Located

PRINTED = re.compile(r"\{\{.*?\}\}")
_PLACE = re.compile(r"\{\{\s*place\s*\}\}")
_SENTENCE = re.compile(r"[^.!?]+(?:[.!?]+|$)")
_ABBREVIATION = re.compile(r"\b([ap])\.m\.|\b(e\.g|i\.e|etc|no)\.", re.IGNORECASE)


def variants_of(located: Located, field: str, variants: tuple[Variant, ...]) -> Iterator[tuple[Key, Variant]]:
    """Each wording of a field with the key of its text."""
    several = isinstance(located.value[field], list)
    for number, variant in enumerate(variants):
        yield ((field, number, "text") if several else (field,)), variant


def entry_texts(stock: Stock, code: str) -> Iterator[Text]:
    """Every text of an entry that prints: its wordings, its reason, the reasons of its raises."""
    entry, located = stock.entries[code], stock.located(code)
    for field in TEXT_FIELDS:
        for key, variant in variants_of(located, field, getattr(entry, field)):
            yield located, key, variant.text
    yield located, ("why",), entry.why
    if entry.call:
        yield located, ("call",), entry.call
    for number, rule in enumerate(entry.raises):
        yield located, ("raise", number, "why"), rule.why


def list_texts(stock: Stock) -> Iterator[Text]:
    """Every text of the shared lists that narrator prints as its own: limits, what glossary terms mean, stories."""
    limits, glossary = stock.files.lists["limits"], stock.files.lists["glossary"]
    for group in ("limits", "computed"):
        for name, item in limits.value.get(group, {}).items():
            for key in ("text", "else"):
                if key in item:
                    yield limits, (group, name, key), item[key]
    for name, item in glossary.value["terms"].items():
        yield glossary, ("terms", name, "gloss"), item["gloss"]
    stories = stock.files.lists["stories"]
    for number, topic in enumerate(stories.value["topics"]):
        for part, text in topic.items():
            if part not in ("id", "among", "signs"):
                yield stories, ("topics", number, part), text


def sentences(text: str) -> list[str]:
    """The sentences of a text, white space folded; what a template prints counts as one word."""
    plain = _ABBREVIATION.sub(lambda match: match.group(0).replace(".", ""), PRINTED.sub("…", text))
    found = (" ".join(piece.split()) for piece in _SENTENCE.findall(plain))
    return [piece for piece in found if re.search(r"\w|…", piece)]


def opening(text: str, words: int) -> tuple[str, ...]:
    """The first words of a text after its place, in lower case; none when a value stands among them."""
    rest = _PLACE.sub("", text, count=1).lstrip(" ,") if _PLACE.match(text.lstrip()) else text
    found = rest.split()[:words]
    return () if any("{" in word for word in found) else tuple(word.strip(".,;:").lower() for word in found)


def printed(variant: Variant) -> frozenset[str]:
    """The values that a wording prints: `place`, `gap`, `gap.usual`."""
    return frozenset(".".join(piece) for piece in variant.pieces if not isinstance(piece, str))
