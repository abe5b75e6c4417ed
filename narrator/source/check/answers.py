"""Every name, typed by itself, finds its own entry."""

from __future__ import annotations

from narrator.compose.place import Places
from narrator.errors import Fault
from narrator.pipeline import grammar_of, places_of
from narrator.read.notation import Grammar, read_checklist
from narrator.resolve.lines import resolve
from narrator.resolve.words import understand
from narrator.source.check.stock import Stock
from narrator.source.model import Entry
from narrator.source.positions import Located


def answer_faults(stock: Stock) -> list[Fault]:
    """A fault for each name that is taken for another entry, for another kind of line, or for nothing."""
    grammar, places = grammar_of(stock.index), places_of(stock.index)
    out: list[Fault] = []
    for code, entry in stock.entries.items():
        located = stock.located(code)
        values = _values(located) or [""]
        for number, name in enumerate(entry.names):
            plain = not understand(name, stock.vocabulary).conditions
            lines = [f"{name} | | {value}" for value in values] if plain else [name]
            found = [_came_of(line, entry, stock, grammar, places) for line in lines]
            wrong = None if None in found else found[0]
            if wrong:
                out.append(located.fault(("names", number), f"'{name}', typed by itself, {wrong}"))
    return out


def _values(located: Located) -> list[str]:
    """What the cases give, as figures to type after the plain name of a measured thing."""
    return list(dict.fromkeys(str(case["given"]) for case in located.value["cases"] if str(case["given"]).strip()))


def _came_of(line: str, entry: Entry, stock: Stock, grammar: Grammar, places: Places) -> str | None:
    """What is wrong with the answer to a line, or None when it is this entry's."""
    read = read_checklist(line, "name", grammar)
    kinds = [item.kind for item in read.lines]
    if kinds != ["finding"]:
        return f"is read as {' and '.join(kinds) or 'nothing'}, not as a finding."
    resolved = resolve(read, stock.index, places)
    if resolved.loose:
        loose = resolved.loose[0]
        near = ", ".join(item.code for item in loose.near)
        return f"finds no answer: {loose.reason}{f' Nearest: {near}.' if near else ''}"
    if resolved.results:
        return "is read as a thing that went fine."
    found = sorted({item.match.code for item in resolved.instances})
    return None if found == [entry.code] else f"is taken for {', '.join(found)}."
