"""The printed texts of a library, each with the place it stands at, and what they have in common: sentences, figures, words."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.compose.template import variables
from narrator.errors import Fault
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
    for number, rule in enumerate(entry.raises):
        yield located, ("raise", number, "why"), rule.why


def list_texts(stock: Stock) -> Iterator[Text]:
    """Every text of the shared lists that narrator prints as its own: limits and what glossary terms mean."""
    limits, glossary = stock.files.lists["limits"], stock.files.lists["glossary"]
    for name, item in limits.value["limits"].items():
        yield limits, ("limits", name, "text"), item["text"]
    for name, item in glossary.value["terms"].items():
        yield glossary, ("terms", name, "gloss"), item["gloss"]


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


def used(text: str) -> frozenset[str]:
    """The names that a text prints; none when it is not a template of the product (said elsewhere)."""
    from jinja2 import TemplateError

    from narrator.compose.template import Untyped

    try:
        return variables(text)
    except (Untyped, TemplateError, RecursionError):
        return frozenset()


def measured(text: str, names: frozenset[str]) -> bool:
    """Whether a text prints a figure of one of these measures."""
    return any(name.split(".", 1)[0] in names for name in used(text))


def sorted_faults(faults: list[Fault]) -> list[Fault]:
    """Faults once each, in order of file, line and column."""
    return sorted(set(faults))
