"""The likeness matcher is judged by phrases it was not tuned on: `find` by its first answers, `draft` by its wrong ones.

A wrong automatic answer is far worse than a line left for the inspector, so plain phrases allow none at all.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import yaml

from narrator.pipeline import draft_text
from narrator.resolve.search import search
from narrator.source.index import Index
from narrator.source.index import codes as codes_of
from narrator.source.store import open_library

PHRASES = Path(__file__).with_name("phrases.yaml")
FRESH = Path(__file__).with_name("phrases-fresh.yaml")
DOCUMENT: dict[str, list[dict[str, Any]]] = yaml.safe_load(PHRASES.read_text(encoding="utf-8"))
HEAD = "property: 1 Sample Street\nvisited: 2025-03-04\n\n"


@dataclass(frozen=True, slots=True)
class Drafted:
    """What a draft made of one line: the codes of its findings, of measured results that are as they should be, or a fine result."""

    codes: frozenset[str]
    met: frozenset[str]
    fine: bool


def half(kind: str, name: str) -> list[dict[str, Any]]:
    """One half of one kind."""
    return [item for item in DOCUMENT[kind] if item["half"] == name]


def drafted(phrase: str, index: Index) -> Drafted:
    """One phrase as the only line of a checklist."""
    report = draft_text(f"{HEAD}{phrase}\n", "phrases", index)
    codes = {finding["code"] for section in report["sections"] for finding in section["findings"]}
    results = [result["code"] for section in report["sections"] for result in section["results"]]
    return Drafted(frozenset(codes), frozenset(code for code in results if code), None in results)


def wrong(item: dict[str, Any], got: Drafted) -> bool:
    """Whether a draft says something that the phrase does not."""
    if "codes" in item:
        return got.fine or bool((got.codes | got.met) - set(item["codes"]))
    accept = set(item["accept"])
    return ((got.fine or bool(got.met - accept)) and "result" not in accept) or bool(got.codes - accept)


@pytest.fixture(scope="module")
def index() -> Index:
    return open_library()


def test_the_set_is_wide_enough(index: Index) -> None:
    plain, adversarial = DOCUMENT["plain"], DOCUMENT["adversarial"]
    meant = {code for item in plain for code in item["codes"]}
    assert len(plain) >= 320 and len(adversarial) >= 140 and len(meant) >= 200
    phrases = [item["phrase"].lower() for kind in DOCUMENT.values() for item in kind]
    assert len(phrases) == len(set(phrases))
    known = set(codes_of(index))
    accepted = {code for item in adversarial for code in item["accept"] if "." in code}
    assert (meant | accepted) <= known, "A phrase names a code that the library does not have."


def test_find_puts_the_right_answer_first(index: Index) -> None:
    items = half("plain", "untouched")
    first = within = 0
    for item in items:
        found = [scored.code for scored in search(item["phrase"], index)[:3]]
        first += bool(found) and found[0] in item["codes"]
        within += bool(set(found) & set(item["codes"]))
    assert first >= 0.95 * len(items), f"first answer right: {first} of {len(items)}"
    assert within >= 0.99 * len(items), f"right among three: {within} of {len(items)}"


def test_draft_answers_most_plain_phrases_and_none_wrongly(index: Index) -> None:
    items = half("plain", "untouched")
    answers = [(item, drafted(item["phrase"], index)) for item in items]
    faults = sum(wrong(item, got) for item, got in answers)
    right = sum(bool(got.codes | got.met) and not wrong(item, got) for item, got in answers)
    assert not faults, f"{faults} plain phrases answered wrongly"
    assert right >= 0.8 * len(items), f"answered: {right} of {len(items)}"


def test_draft_takes_almost_no_adversarial_phrase_for_something_else(index: Index) -> None:
    items = half("adversarial", "untouched")
    faults = sum(wrong(item, drafted(item["phrase"], index)) for item in items)
    assert faults <= 0.02 * len(items), f"{faults} of {len(items)} answered wrongly"


def test_phrases_written_after_all_tuning_are_held_to_the_same(index: Index) -> None:
    """From another hand, out of codes and titles alone.

    The first set from that hand gave three wrong answers of 190 when it was first run. What stood in the other set was
    taken out since, and so were some phrases that a name of the library says word for word; this set gave none.
    """
    fresh: dict[str, list[dict[str, Any]]] = yaml.safe_load(FRESH.read_text(encoding="utf-8"))
    known = {item["phrase"].lower() for kind in DOCUMENT.values() for item in kind}
    assert not [item["phrase"] for kind in fresh.values() for item in kind if item["phrase"].lower() in known]
    assert len(fresh["plain"]) >= 100 and len(fresh["adversarial"]) >= 45
    plain = [(item, drafted(item["phrase"], index)) for item in fresh["plain"]]
    assert not [item["phrase"] for item, got in plain if wrong(item, got)]
    assert sum(bool(got.codes | got.met) for _, got in plain) >= 0.8 * len(plain)
    adversarial = fresh["adversarial"]
    assert not [item["phrase"] for item in adversarial if wrong(item, drafted(item["phrase"], index))]
