"""What a reader meets, over the examples and thirty checklists generated from the whole library.

Grade: Flesch-Kincaid by textstat 0.7.8, the outside reference, over a finding's three texts together without quoted words.
"""

from __future__ import annotations

import re
import statistics
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import textstat
from drafting import draft
from generated import checklists

EXAMPLES = Path(__file__).parents[2] / "examples"
FIELDS = ("observation", "implication", "recommendation")
_QUOTED = re.compile(r"“[^”]*”")
_SENTENCES = re.compile(r"(?<=[.!?])\s+")


@pytest.fixture(scope="module")
def reports() -> list[dict[str, Any]]:
    texts = [path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*/checklist.txt"))]
    return [draft(text) for text in (*texts, *checklists())]


def findings(report: dict[str, Any]) -> list[dict[str, Any]]:
    return [finding for section in report["sections"] for finding in section["findings"]]


def plain(finding: dict[str, Any]) -> str:
    return _QUOTED.sub("", " ".join(finding[field] for field in FIELDS if finding[field]))


def printed(report: dict[str, Any]) -> Iterator[str]:
    """Every text of a report once, as it prints: a limit only where it stands in full."""
    for finding in findings(report):
        yield from (finding[field] for field in FIELDS)
        yield finding["why"] if finding["why_at"] is None and finding["why"] not in finding["implication"] else ""
        yield from (limit["text"] for limit in finding["limits"] if limit["at"] is None)
    yield from (story["text"] for story in report["connections"])
    for section in report["sections"]:
        yield from (row["text"] for key in ("descriptions", "results", "statuses") for row in section[key])


def test_every_character_is_traced(reports: list[dict[str, Any]]) -> None:
    for report in reports:
        for finding in findings(report):
            for field in FIELDS:
                spans = [span for span in finding["trace"] if span["field"] == field]
                assert sum(span["end"] - span["start"] for span in spans) == len(finding[field])


def test_no_sentence_stands_twice_in_a_report(reports: list[dict[str, Any]]) -> None:
    again = []
    for report in reports:
        said = Counter(
            sentence.strip().lower()
            for text in printed(report)
            for sentence in _SENTENCES.split(_QUOTED.sub("“”", text))
            if sentence
        )
        again += [
            f"{report['property']}: {sentence}"
            for sentence, times in said.items()
            if times > 1 and "“”" not in sentence
        ]
    assert again == []


def test_no_two_findings_of_a_section_open_alike(reports: list[dict[str, Any]]) -> None:
    alike = []
    for report in reports:
        for section in report["sections"]:
            opens = Counter(" ".join(finding["observation"].lower().split()[:4]) for finding in section["findings"])
            alike += [f"{report['property']}: {words}" for words, times in opens.items() if times > 1]
    assert alike == []


def test_a_paragraph_reads_at_grade_nine_or_lower_and_seven_in_the_middle(reports: list[dict[str, Any]]) -> None:
    grades = [
        (textstat.flesch_kincaid_grade(plain(finding)), finding["id"])
        for report in reports
        for finding in findings(report)
    ]
    assert [item for item in grades if item[0] > 9] == []
    assert statistics.median(grade for grade, _ in grades) <= 7


def test_sentences_have_twelve_to_eighteen_words_on_average(reports: list[dict[str, Any]]) -> None:
    for report in reports:
        lengths = [
            len(sentence.split())
            for finding in findings(report)
            for field in FIELDS
            for sentence in _SENTENCES.split(finding[field])
            if sentence
        ]
        assert 10 <= statistics.mean(lengths) <= 18, report["property"]
    everything = [
        len(sentence.split())
        for report in reports
        for finding in findings(report)
        for field in FIELDS
        for sentence in _SENTENCES.split(finding[field])
        if sentence
    ]
    assert 12 <= statistics.mean(everything) <= 18
