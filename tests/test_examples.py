"""The drafts beside the examples are what the examples give today. To write them anew, after reading what changed:

for name in stucco-house newer-house; do
  narrator draft examples/$name/checklist.txt -o examples/$name/draft.md
  narrator draft examples/$name/checklist.txt -o examples/$name/draft.html
done
"""

from __future__ import annotations

from pathlib import Path

import pytest

from narrator.commands.common import labels_of, read_any
from narrator.pipeline import draft_checklist
from narrator.publish import publish
from narrator.publish.readback import read
from narrator.report import Report
from narrator.source.index import Index
from narrator.source.store import open_library

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
NAMES = ("stucco-house", "newer-house")


@pytest.fixture(scope="module")
def index() -> Index:
    return open_library()


def drafted(name: str, index: Index) -> Report:
    return draft_checklist(read_any(str(EXAMPLES / name / "checklist.txt"), None, index), index)


@pytest.mark.parametrize("name", NAMES)
def test_the_draft_beside_an_example_is_what_it_gives(name: str, index: Index) -> None:
    text = publish(drafted(name, index), "md", labels_of(index))
    assert (EXAMPLES / name / "draft.md").read_text(encoding="utf-8") == text


@pytest.mark.parametrize("name", NAMES)
def test_the_page_beside_an_example_holds_the_same_findings(name: str, index: Index) -> None:
    report = drafted(name, index)
    page = read((EXAMPLES / name / "draft.html").read_text(encoding="utf-8"), "html")
    findings = [finding for section in report["sections"] for finding in section["findings"]]
    assert [(item["number"], item["title"]) for item in page] == [(f["number"], f["title"]) for f in findings]


@pytest.mark.parametrize("name", NAMES)
def test_every_line_of_an_example_finds_its_place(name: str, index: Index) -> None:
    report = drafted(name, index)
    assert not report["unresolved"]
    assert not [note for note in report["review_notes"] if note["kind"] in ("contradiction", "fallback")]


def test_an_example_is_fifty_lines_or_more() -> None:
    for name in NAMES:
        assert len((EXAMPLES / name / "checklist.txt").read_text(encoding="utf-8").splitlines()) >= 50


def test_the_stucco_house_tells_its_wall_as_one_story(index: Index) -> None:
    stories = drafted("stucco-house", index)["connections"]
    assert "walls.stucco.no-roof-gap" in stories[0]["findings"]
    assert "opinion" in stories[0]["text"]
