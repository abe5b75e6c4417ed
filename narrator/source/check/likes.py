"""No two entries alike: the same sentence twice, or two of one system that open with the same words."""

from __future__ import annotations

from narrator.errors import Fault
from narrator.source.check.stock import Stock, fault_at
from narrator.source.check.texts import entry_texts, opening, sentences, variants_of
from narrator.source.positions import Key

OPENING_WORDS = 4


def like_faults(stock: Stock) -> list[Fault]:
    """Faults of likeness between entries; within one entry wordings may share what they share."""
    out: list[Fault] = []
    said: dict[str, tuple[str, Key]] = {}
    opened: dict[tuple[str, tuple[str, ...]], tuple[str, Key]] = {}
    for code, entry in stock.entries.items():
        located = stock.located(code)
        for _, key, text in entry_texts(stock, code):
            for sentence in sentences(text):
                plain = sentence.lower().strip(" .!?…,")
                other, _ = said.setdefault(plain, (code, key))
                if plain and other != code:
                    message = f"'{sentence}' stands also in {_at(stock, *said[plain])}. Say it in its own way."
                    out.append(fault_at(located, key, sentence.split("…", 1)[0].strip()[:20] or sentence[:20], message))
        for key, variant in variants_of(located, "observation", entry.observation):
            words = opening(variant.text, OPENING_WORDS)
            if len(words) < OPENING_WORDS:
                continue
            other, _ = opened.setdefault((entry.system, words), (code, key))
            if other != code:
                where = _at(stock, *opened[entry.system, words])
                message = f"It opens like {where}: '{' '.join(words)} ...'. Open it in another way."
                out.append(located.fault(key, message))
    return out


def _at(stock: Stock, code: str, key: Key) -> str:
    return f"{code} (line {stock.located(code).pos(key).line})"
