"""The rules of written findings that carry a check: each is one here, or is said not to be decidable.

`written-findings.yaml` was gathered from published standards (ASHI 2014, InterNACHI, 11 NCAC 08 .1100, 22 TAC 535,
WAC 308-408C, G.S. 143-151.58) and from teaching; each rule names where it was read. Most standards were read in their
own words, the rules marked `memory` were not.
"""

from __future__ import annotations

import copy
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from drafting import LIBRARY, draft, notes

from narrator.assess.wording import CLAIMS, claims
from narrator.compose.coverage import coverage, said_in
from narrator.compose.duties import CHECKS, Held, duty_notes
from narrator.source import index as store
from narrator.source.check.practice import _CAUSE, _HEDGE

PUBLISHED = yaml.safe_load(Path(__file__).with_name("written-findings.yaml").read_text(encoding="utf-8"))["rules"]
RULES = store.document(LIBRARY, "practice/report-writing")["rules"]
ASHI, NACHI, NC, TX = "ashi-2014", "internachi-residential", "nc-11ncac08-1100", "tx-22tac535"
# Held by the library's own check, each with where it is tried: the wording of a client's text is settled there.
BY_LIBRARY = {
    "language-plain": "tests/source/check/test_check_duties.py and the glossary's first uses",
    "language-simple": "tests/source/check/test_check_wording.py, sentences of many words",
    "language-appears": "below, and tests/source/check/test_check_practice.py",
    "overclaim-cause": "below, and tests/source/check/test_check_practice.py",
}
# Not decidable here, with the reason that the library states itself.
UNDECIDED = {"overclaim-concealed"}
WHOLE = """\
property: 14 Larch Hollow Road
visited: 4 March 2026
inspector: R. Vance, license 20417
client: Dana Ortiz
method: roof from a ladder
standard: {standard}

"""


def under(standard: str, lines: str) -> list[str]:
    """The texts of the duty notes of a checklist under a standard."""
    return [note["text"] for note in notes(draft(WHOLE.format(standard=standard) + lines), "duty")]


def changed(standard: str, lines: str, rule: str, change: Callable[[dict[str, Any]], None]) -> list[str]:
    """What one rule says of a report whose first finding was changed by hand."""
    report: Any = copy.deepcopy(draft(WHOLE.format(standard=standard) + lines))
    change(next(found for section in report["sections"] for found in section["findings"]))
    practice = store.document(LIBRARY, f"practice/{standard}")
    said = said_in(report, store.vocabulary(LIBRARY))
    held = Held(report, practice, said, coverage(practice, said, "", ()))
    return [text for _, text in duty_notes(held, {rule: RULES[rule]})]


def test_every_published_check_is_one_or_says_why_not() -> None:
    for rule in PUBLISHED:
        row = RULES[rule["id"]]
        assert (row["kind"], row["known_by"], row["source"]) == (rule["kind"], rule["known_by"], rule["source"])
        if row["held"] == "draft":
            assert rule["id"] in CHECKS
        elif row["held"] == "words":
            assert rule["id"] in CLAIMS
        elif row["held"] == "library":
            assert rule["id"] in BY_LIBRARY
        else:
            assert rule["id"] in UNDECIDED and len(row["why"]) > 60
    assert {rule["id"] for rule in PUBLISHED} <= set(RULES)
    assert {name for name, row in RULES.items() if row["held"] == "draft"} == set(CHECKS)


SHORT = "own: Fountain pump hums"
FINDING = "shingles curling | rear slope | photo 20"
# rule: standard, lines that miss it, a piece of the note, lines that do not.
MISSED: dict[str, tuple[str, str, str, str]] = {
    "finding-four-parts": (NC, SHORT, "does not say why it matters and what to do", FINDING),
    "finding-recommend": (ASHI, SHORT, "does not say whether to repair", FINDING),
    "finding-reason": (ASHI, SHORT, "has no reason; type one", FINDING),
    "finding-location": (ASHI, "shingles curling", "names no place", FINDING),
    "finding-who": (ASHI, SHORT, "names no trade", FINDING),
    "finding-cost": (ASHI, 'shingles curling | rear | "roofer said $4,000"', "'$4' is a price", 'shingles curling | rear | "4 bad"'),
    "coverage-not-inspected-reason": (ASHI, "not inspected: crawl space", "has no reason", "not inspected: crawl space - locked"),
    "coverage-status-words": (TX, "not inspected: attic - locked\ninsulation missing | attic", "only with inspected", FINDING),
    "coverage-departure-grounds": (TX, "not inspected: attic - lunch", "which ground of the rule", "not inspected: attic - locked"),
    "coverage-method": (ASHI, "ok: insulation", "how the attic was looked at", "partly: attic - from the hatch\nok: insulation"),
    "coverage-descriptions": (ASHI, FINDING, "not described: Foundation", ""),
    "threshold-internachi": (NACHI, "WH 18 yr old | garage", "rests on age alone", 'WH 18 yr old | garage | "rust at the seam"'),
    "language-classify-first": (ASHI, SHORT, "has no grade", FINDING),
    "language-property-specific": (ASHI, 'shingles curling | rear | "[insert side]"', "a blank that nobody filled in", FINDING),
    "summary-nc": (NC, FINDING, "none was given, and none was made up", ""),
    "report-form-texas": (TX, FINDING, "is not the form REI 7-6", ""),
    "language-no-blame": (ASHI, 'shingles curling | rear | "shoddy job by builder"', "'shoddy'", FINDING),
    "overclaim-life": (NC, "note: The roof has 5 years left.", "'years left'", FINDING),
    "overclaim-adequacy": (ASHI, "note: The beam is undersized.", "'undersized'", FINDING),
    "language-balanced": (ASHI, "note: It is only minor.", "'only minor'", FINDING),
}  # fmt: skip


@pytest.mark.parametrize("rule", MISSED)
def test_a_draft_that_misses_a_rule_has_a_note(rule: str) -> None:
    standard, lines, piece, whole = MISSED[rule]
    assert any(piece in text for text in under(standard, lines)), under(standard, lines)
    if whole:
        assert not any(piece in text for text in under(standard, whole)), under(standard, whole)


@pytest.mark.parametrize("rule", ["overclaim-safe", "overclaim-guarantee", "code-no-violation-words"])
def test_words_that_no_report_says_are_noted_once(rule: str) -> None:
    word = {"overclaim-safe": "safe", "overclaim-guarantee": "certified", "code-no-violation-words": "violation"}[rule]
    report = draft(WHOLE.format(standard="TX") + f"note: The panel is {word}.")
    said = [note for note in report["review_notes"] if f"'{word}'" in note["text"]]
    assert [note["kind"] for note in said] == ["wording"]
    assert (rule, word) in claims(f"The panel is {word}.")


def test_what_only_a_hand_can_break_is_held_too() -> None:
    def no_observation(found: dict[str, Any]) -> None:
        found["observation"] = ""

    def no_unit(found: dict[str, Any]) -> None:
        found["instances"][0]["measures"][0]["unit"] = ""

    def urgent(found: dict[str, Any]) -> None:
        found["severity"] = "act-now"

    def same(found: dict[str, Any]) -> None:
        assert found

    gap = "stucco tight to roof | front | gap 1/4 in"
    for rule, change, piece in (
        ("finding-problem-first", no_observation, "before it says what is wrong"),
        ("finding-measure-with-unit", no_unit, "a figure without a unit: gap"),
        ("safety-prominent", urgent, "does not stand up front"),
    ):
        assert any(piece in text for text in changed(ASHI, gap, rule, change))
        assert changed(ASHI, gap, rule, same) == []


def test_who_inspected_for_whom_where_and_when() -> None:
    texts = [note["text"] for note in notes(draft(f"standard: TX\n{FINDING}"), "duty")]
    assert any(
        "the inspector's name, the client's name, the address, the inspector's license number and the date" in text
        for text in texts
    ), texts
    assert not any("asks for" in text for text in under("Texas", FINDING))
    unnumbered = WHOLE.format(standard="NC").replace(", license 20417", "") + FINDING
    assert any("license number" in note["text"] for note in notes(draft(unnumbered), "duty"))


def test_a_cause_as_a_fact_and_a_hedge_are_seen() -> None:
    assert _CAUSE.search("The stain is caused by the shower.")
    assert not _CAUSE.search("Spend nothing until the cause is known.")
    assert _HEDGE.search("The beam appears cracked.") and not _HEDGE.search("The beam is cracked.")


def test_a_duty_of_one_standard_binds_no_other() -> None:
    assert not any("REI 7-6" in text or "notice in the words" in text for text in under("ASHI", FINDING))
    assert not any("age alone" in text for text in under("ASHI", "WH 18 yr old | garage"))
