"""Every limit, unseen thing and term is printed in every format, so that one which is missing can be found by its words."""

from __future__ import annotations

import html
import re

import pytest
from drafting import LIBRARY, draft

from narrator.commands.common import labels_of
from narrator.publish import publish
from narrator.source import index as store

TEXT = (
    "utilities: water off\nrain before: dry for a week\nmethod: roof from the ground, walls from the ground\noccupied: yes\n"
    "moisture meter: pin\nnot inspected: crawl space - locked\npartly: attic - from the hatch\nshingles curling | rear slope\n"
    "stucco moisture | rear | 24 %\ntoilet loose | hall bath\nno gfci | kitchen\nground slopes toward house | left side"
)


def plain(page: str) -> str:
    """A page as words alone."""
    words = html.unescape(re.sub(r"<[^>]+>", " ", page)).replace("\\", "")
    return " ".join(re.sub(r"\s([.,])", r"\1", words).split())


@pytest.mark.parametrize("form", ["md", "html", "txt"])
def test_each_is_found_by_its_exact_words(form: str) -> None:
    report = draft(TEXT)
    page = plain(publish(report, form, labels_of(LIBRARY)))
    full = [*report["unseen"], *report["terms"]]
    for section in report["sections"]:
        full += [item for item in section["limits"] if item["at"] is None]
        full += [item for finding in section["findings"] for item in finding["limits"] if item["at"] is None]
    assert len(full) > 10
    assert [item["id"] for item in full if item["text"] not in page] == []


def test_a_limit_never_stands_before_its_finding() -> None:
    page = plain(publish(draft(TEXT), "txt", labels_of(LIBRARY)))
    meter = page.index("A pin meter tells only")
    assert page.index("24 %") < meter


def test_no_limit_speaks_of_what_was_not_done_to_the_house() -> None:
    rules = store.document(LIBRARY, "limits")
    said = [
        text
        for group in ("limits", "computed")
        for item in rules[group].values()
        for text in (item["text"], item.get("else", ""))
    ]
    assert len(said) > 60
    assert not [text for text in said if re.search(r"invasive|did not see the roof|not limited to", text)]
