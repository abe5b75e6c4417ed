"""Names: each answers for one entry only, says a part and a condition, and can be told from every other entry's."""

from __future__ import annotations

from narrator.errors import Fault
from narrator.resolve.vocabulary import Phrase, Vocabulary, name_key, plain_words
from narrator.resolve.words import understand
from narrator.source.check.stock import Stock
from narrator.source.positions import Key, Located

Words = tuple[frozenset[str], frozenset[str], frozenset[str], frozenset[str]]


def name_faults(stock: Stock) -> list[Fault]:
    """Faults of names over all well-formed entries."""
    out: list[Fault] = []
    keys: dict[str, tuple[str, Key]] = {}
    words: dict[Words, tuple[str, str, Key]] = {}
    codes = {name_key(code): code for code in stock.codes}
    for code, entry in stock.entries.items():
        located = stock.located(code)
        for number, name in enumerate(entry.names):
            at: Key = ("names", number)
            key = name_key(name)
            if key in keys:
                message = f"'{name}' is a name of {_where(stock, *keys[key], own=code)} already. Keep one."
                out.append(located.fault(at, message))
                continue
            keys[key] = (code, at)
            if key in codes:
                out.append(located.fault(at, f"'{name}' is the code of {codes[key]}; a name is what people type."))
            phrase = understand(name, stock.vocabulary)
            out += _shape(located, at, name, phrase, bool(entry.measures), stock.vocabulary)
            said = (phrase.parts, phrase.conditions, phrase.others, phrase.fine)
            if any(said) and said in words and words[said][0] != code:
                other, typed, place = words[said]
                whose = _where(stock, other, place, own=code)
                message = f"'{name}' says the same words as '{typed}' of {whose}: one must say more."
                out.append(located.fault(at, message))
            words.setdefault(said, (code, name, at))
    return out


def _where(stock: Stock, code: str, key: Key, own: str) -> str:
    place = stock.located(code).pos(key)
    return f"this entry (line {place.line})" if code == own else f"{code} (line {place.line})"


def _shape(
    located: Located, key: Key, name: str, phrase: Phrase, measured: bool, vocabulary: Vocabulary
) -> list[Fault]:
    """A part and a condition; or the plain name of a measured thing."""
    if phrase.hedged:
        return [located.fault(key, f"'{name}' has a word of doubt, which is read as how it is known. Leave it out.")]
    part = bool(phrase.parts) or _inner_part(name, vocabulary)
    if phrase.conditions and part:
        return []
    if not phrase.conditions and measured and (part or phrase.others):
        return []
    if not phrase.conditions:
        tail = "" if measured else " A plain name is only for an entry with measures."
        return [located.fault(key, f"'{name}' has no word that says what is wrong (conditions in words.yaml).{tail}")]
    return [located.fault(key, f"'{name}' has no word that names the part (parts in words.yaml).")]


def _inner_part(name: str, vocabulary: Vocabulary) -> bool:
    """Whether a part is named inside the words of a condition (`water in basement`)."""
    words = plain_words(name)
    return any(
        kind == "part" and words[at : at + len(form)] == tuple(form)
        for at, word in enumerate(words)
        for form, kind, _ in vocabulary.phrases.get(word, ())
    )
