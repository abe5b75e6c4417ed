"""Limits worked out from what was typed: how the house was looked at, the weather, what was off, who lived there.

The rules are data (`computed` in `limits.yaml`). A rule reads one header, piece by piece; nothing is worked out from a header
that was not typed. A rule never holds against a typed line: what a test shows to have been tried gets the rule's `else`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from narrator.measure.scan import scan
from narrator.measure.units import convert
from narrator.read.model import Line
from narrator.resolve.vocabulary import plain_words

_PIECES = re.compile(r"[,;.]|\bbut\b", re.IGNORECASE)
# A state ends a piece too (`water off gas on`), unless an exception follows it (`all on except gas`).
_STATES = re.compile(_PIECES.pattern + r"|(?<=\bon\b)(?!\s+except)|(?<=\boff\b)(?!\s+except)", re.IGNORECASE)
_NEGATIONS = frozenset(("not", "no", "never"))
_FAHRENHEIT = "degF"


class Limit(NamedTuple):
    """One limit. `systems`: where it belongs, first to last; `page`: it is among what nobody has seen on page one."""

    id: str
    kind: str
    text: str
    lines: tuple[int, ...]
    systems: tuple[str, ...]
    page: bool


def computed_limits(
    headers: Mapping[str, Sequence[tuple[str, int]]],
    lines: Sequence[Line],
    kinds: Mapping[str, frozenset[str]],
    rules: Mapping[str, Mapping[str, Any]],
) -> tuple[Limit, ...]:
    """Every limit that the headers call for, in the order of the rules.

    `kinds`: each kind of measure that was typed, with the systems it was typed for.
    """
    out: list[Limit] = []
    groups: set[str] = set()
    for name, rule in rules.items():
        header, group = rule["header"], rule.get("group", "")
        if group in groups or (rule.get("alone") and any(limit.kind == header for limit in out)):
            continue
        found = tuple(number for value, number in headers.get(header, ()) if value and _holds(value, rule))
        if (
            not found
            or rule.get("measure") not in (None, *kinds)
            or not _needed(lines, rule)
            or _unreached(lines, rule)
        ):
            continue
        tried = any(_tried(line, rule.get("tried", ()), rule.get("ran", ())) for line in lines)
        text = rule.get("else") if tried else rule["text"]
        if text is None:
            continue
        groups |= {group} - {""}
        page = rule["page"] and not any(line.key == "partly" and _about(line, rule) for line in lines)
        where = kinds.get(rule["measure"], frozenset()) if "measure" in rule else frozenset(rule["systems"])
        systems = tuple(system for system in rule["systems"] if system in where)
        out.append(Limit(name, header, text, found, systems, page))
    return tuple(out)


def spoken_against(texts: Iterable[str], rule: Mapping[str, Any]) -> bool:
    """Whether typed words speak against an entry's limit: `drilled` against `we did not see inside the wall`."""
    return any(_within(plain_words(text), phrase) for text in texts for phrase in rule.get("unless", ()))


def _holds(value: str, rule: Mapping[str, Any]) -> bool:
    """Whether a header's value says what the rule reads."""
    if "below" in rule:
        found = [one.quantity for one in scan(value) if one.quantity.unit in ("degF", "degC")]
        warmest = max((convert(one.high, one.unit, _FAHRENHEIT) for one in found), default=None)
        return warmest is not None and warmest < Fraction(rule["below"])
    return any(_says(piece, rule) for piece in _pieces(value, rule))


def _pieces(value: str, rule: Mapping[str, Any]) -> list[list[str]]:
    """A value in pieces of plain words; one that only names the thing goes with the next (`water, gas and power off`)."""
    if rule.get("whole"):
        return [list(plain_words(value))]
    splits = _STATES if rule["header"] == "utilities" else _PIECES
    out: list[list[str]] = []
    waiting: list[str] = []
    for words in (plain_words(piece) for piece in splits.split(value)):
        joined = [*waiting, *words]
        told = any(_within(words, phrase) for phrase in (*rule["says"], *rule.get("not", ())))
        if told or not _named(joined, rule):
            out.append(joined)
            waiting = []
        else:
            waiting = joined
    return [*out, waiting] if waiting else out


def _named(words: Sequence[str], rule: Mapping[str, Any]) -> bool:
    return bool(rule.get("of")) and any(_within(words, phrase) for phrase in rule["of"])


def _says(words: Sequence[str], rule: Mapping[str, Any]) -> bool:
    """Whether a piece names the thing and says it, and nothing that is left speaks against it."""
    if rule.get("of") and not _named(words, rule):
        return False
    left = list(words)
    undoing = rule.get("not", ())
    if any(_within(left, phrase) for phrase in undoing if " " in phrase):
        return False
    said = False
    for phrase in sorted(rule["says"], key=lambda phrase: -len(phrase.split())):
        at = _within(left, phrase)
        if at:
            said = True
            left[at[0] : at[1]] = []
    found = [at for at in (_within(left, phrase) for phrase in undoing) if at]
    return said and all(start and left[start - 1] in _NEGATIONS for start, _ in found)  # `not walked` undoes nothing


def _within(words: Sequence[str], phrase: str) -> tuple[int, int] | None:
    """Where a phrase stands among plain words; `*` in it is any one word."""
    wanted = [word for part in phrase.split() for word in (["*"] if part == "*" else plain_words(part))]
    for at in range(len(words) - len(wanted) + 1):
        if all(want in ("*", word) for want, word in zip(wanted, words[at:], strict=False)):
            return at, at + len(wanted)
    return None


def _needed(lines: Sequence[Line], rule: Mapping[str, Any]) -> bool:
    """Whether the house has what the rule is about, by what was typed."""
    wanted = rule.get("needs", ())
    return not wanted or any(
        _within(plain_words(line.text), phrase)
        for line in lines
        if line.kind not in ("header", "note") and line.key != "not present"
        for phrase in wanted
    )


def _about(line: Line, rule: Mapping[str, Any]) -> bool:
    """Whether a status is about the whole of the rule's thing: `partly: roof`, not `partly: roof vents`."""
    words = tuple(word for word in plain_words(line.what) if word != "the")
    return line.kind == "status" and any(words == plain_words(thing) for thing in rule.get("of", ()))


def _unreached(lines: Sequence[Line], rule: Mapping[str, Any]) -> bool:
    """Whether a status says already that the whole thing was not looked at or is not there."""
    return any(line.key in ("not inspected", "not present") and _about(line, rule) for line in lines)


def _tried(line: Line, things: Sequence[str], ran: Sequence[str]) -> bool:
    """Whether a line says that one of these was tried: a `tested`, a figure or a condition that only a trial gives."""
    if line.kind not in ("status", "finding") or not things:
        return False
    tested = line.key == "tested" or any(item.kind == "basis" and item.key == "tested" for item in line.items)
    figure = line.kind == "finding" and any(one.quantity.unit in ("degF", "psi") for one in scan(line.text))
    words = plain_words(f"{line.what} {line.where}")
    showed = line.kind == "finding" and any(_within(words, word) for word in ran)
    return (tested or figure or showed) and any(_within(words, thing) for thing in things)
