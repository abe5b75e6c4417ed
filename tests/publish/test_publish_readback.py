"""Number, title and the line under it can be read back from each format, whatever a person has typed."""

from __future__ import annotations

import pytest
from house import LABELS, report
from hypothesis import given, settings
from hypothesis import strategies as st
from rough import reports, texts

from narrator.publish import publish
from narrator.publish.blocks import Condition
from narrator.publish.order import walk
from narrator.publish.readback import FindingRead, read
from narrator.publish.text import inline
from narrator.report import Report

TEXT_FORMATS = ("md", "html", "txt")


def expected(made: Report) -> list[FindingRead]:
    """From the report itself, but for the prose, which the walk has put together."""
    prose = [block.paragraphs for part in walk(made, LABELS) for block in part.blocks if isinstance(block, Condition)]
    findings = [found for part in made["sections"] for found in part["findings"]]
    return [
        {
            "number": found["number"],
            "title": inline(found["title"]),
            "severity": LABELS.severity(found["severity"], found["danger"]),
            "trades": [
                LABELS.trade(each["id"])
                for role in ("lead", "with")
                for each in found["trades"]
                if each["role"] == role
            ],
            "places": [inline(place) for place in found["places"] if inline(place)],
            "photos": sorted(set(found["photos"])),
            "sketches": sorted({n for each in found["instances"] for n in each["sketches"]} - set(found["photos"])),
            "paragraphs": list(text),
        }
        for found, text in zip(findings, prose, strict=True)
    ]


@pytest.mark.parametrize("to", TEXT_FORMATS)
def test_the_example_reads_back(to: str) -> None:
    read_back = read(publish(report(), to, LABELS), to)
    assert read_back == expected(report())
    assert [each["number"] for each in read_back] == [3, 4, 5, 6, 7, 2, 1, 8]
    assert read_back[0]["trades"] == ["stucco contractor", "roofer"]
    assert read_back[0]["photos"] == [12, 13, 14, 17] and read_back[0]["sketches"] == [60]
    assert read_back[5]["severity"] == "act now: shock, fire"
    assert read_back[7]["severity"] == "not graded" and read_back[7]["trades"] == []


@settings(deadline=None, max_examples=60)
@given(reports())
def test_rough_reports_read_back(made: Report) -> None:
    for to in TEXT_FORMATS:
        assert read(publish(made, to, LABELS), to) == expected(made), to


@pytest.mark.parametrize("to", TEXT_FORMATS)
def test_a_hand_edit_that_lost_the_no_break_spaces_still_reads(to: str) -> None:
    edited = publish(report(), to, LABELS).replace("\u00a0", " ").replace("Stucco nearly touches", "Stucco touches")
    read_back = read(edited.replace("\n", "\r\n"), to)
    assert [each["number"] for each in read_back] == [3, 4, 5, 6, 7, 2, 1, 8]
    assert read_back[0]["title"] == "Stucco touches the roof"
    assert read_back[0]["photos"] == [12, 13, 14, 17]
    assert read_back[0]["places"] == ["front wall, left of the entry window", "rear dormer"]
    assert read_back[4]["photos"] == [] and read_back[4]["places"] == ["rear"]
    assert read_back[7]["trades"] == []


def test_json_is_not_read_here() -> None:
    with pytest.raises(ValueError, match="json"):
        read("{}", "json")


@settings(deadline=None, max_examples=200)
@given(st.one_of(texts, st.text(), st.integers(0, 9000).map(str)), st.integers(0, 20_000))
def test_half_a_report_and_anything_else_is_read_without_a_fault(text: str, cut: int) -> None:
    for to in TEXT_FORMATS:
        read(text, to)
        read(publish(report(), to, LABELS)[:cut] + text, to)


@pytest.mark.parametrize(
    "text", ["<![foo", "<![", "<!", "</", "<article class=finding>", "9" * 5000, "### 7 ·", "7 · x"]
)
def test_broken_pages_are_read_without_a_fault(text: str) -> None:
    for to in TEXT_FORMATS:
        assert read(text, to) in ([], read("### 7 ·", "md"))
