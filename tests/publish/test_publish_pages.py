"""The text formats print the same words in the same order; nothing that a person typed changes a page."""

from __future__ import annotations

import re

from house import LABELS, report
from hypothesis import given, settings
from pages import expected, level, parsed, rendered
from rough import reports

from narrator.publish import publish
from narrator.publish.order import DRAFT, DRAFT_END
from narrator.report import Report

MD_TAGS = {"h1", "h2", "h3", "p", "em", "ul", "li", "table", "thead", "tbody", "tr", "th", "td", "hr"}
HTML_TAGS = {
    "html", "head", "meta", "title", "style", "body", "main", "section", "div", "article", "h1", "h2",
    "h3", "p", "span", "i", "b", "a", "ul", "li", "table", "thead", "tbody", "tr", "th", "td",
}  # fmt: skip


def html_shown(made: Report) -> list[tuple[str, str]]:
    shown = level(parsed(publish(made, "html", LABELS)).shown)
    return [each for each in shown if each not in {("p", DRAFT), ("p", DRAFT_END)}]


def md_shown(made: Report) -> list[tuple[str, str]]:
    return [each for each in level(rendered(publish(made, "md", LABELS)).shown) if each != ("p", DRAFT_END)]


def test_the_example_prints_the_same_everywhere() -> None:
    wanted = level(expected(report()))
    assert md_shown(report()) == wanted
    assert html_shown(report()) == wanted
    lines = [" ".join(each.split()) for each in publish(report(), "txt", LABELS).split("\n") if each]
    printed = [text for tag, text in wanted if tag not in {"th", "td"}]
    assert [each for each in lines if not each.startswith("Number: ")] == [DRAFT, *printed, DRAFT_END]


@settings(deadline=None, max_examples=60)
@given(reports())
def test_rough_text_prints_literally(made: Report) -> None:
    wanted = level(expected(made))
    assert md_shown(made) == wanted
    assert html_shown(made) == wanted


@settings(deadline=None, max_examples=40)
@given(reports())
def test_nothing_typed_becomes_markup(made: Report) -> None:
    assert rendered(publish(made, "md", LABELS)).tags <= MD_TAGS
    page = parsed(publish(made, "html", LABELS))
    assert page.tags <= HTML_TAGS
    assert not [each for each in page.attributes if each[1].startswith("on") or each[1] in {"src", "style"}]
    assert all(value.startswith("#") for _, name, value in page.attributes if name == "href")


@settings(deadline=None, max_examples=40)
@given(reports())
def test_no_invisible_control_reaches_a_page(made: Report) -> None:
    hidden = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff\ud800-\udfff]")
    for to in ("md", "html", "txt"):
        text = publish(made, to, LABELS)
        assert not hidden.search(text)
        assert text.encode("utf-8")
        assert text.endswith("\n") and not text.endswith("\n\n")


def test_plain_text_is_one_line_a_paragraph() -> None:
    text = publish(report(), "txt", LABELS)
    assert not re.search(r"(?m)^[#*>|-]|^ | $", text)
    assert "\n\n\n\n" not in text
    assert "\n\n\nOutside walls\n\n" in text
    assert (
        "3 · Stucco nearly touches the roof\nfind out before you decide · stucco contractor with roofer · "
        in text.replace("\u00a0", " ")
    )
