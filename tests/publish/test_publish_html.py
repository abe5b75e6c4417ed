"""The page: one file, links that arrive, colours that can be read."""

from __future__ import annotations

import re

import pytest
from house import LABELS, report
from pages import parsed

from narrator.publish import publish
from narrator.publish.blocks import Ref
from narrator.publish.html import linked, style

CSS = style("report.css")


def luminance(colour: str) -> float:
    digits = colour.removeprefix("#")
    digits = "".join(each * 2 for each in digits) if len(digits) == 3 else digits
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_one_file_with_nothing_from_elsewhere() -> None:
    page = publish(report(), "html", LABELS)
    assert page.startswith('<!DOCTYPE html>\n<html lang="en">\n')
    assert not re.search(r"(?i)<script|<link|<img|url\(|@import|https?:|javascript:", page)
    assert page.count("<style>") == 1


def test_every_finding_has_an_anchor_and_every_link_arrives() -> None:
    page = parsed(publish(report(), "html", LABELS))
    ids = [value for _, name, value in page.attributes if name == "id"]
    assert len(ids) == len(set(ids))
    assert {each["id"] for part in report()["sections"] for each in part["findings"]} <= set(ids)
    links = [value.removeprefix("#") for _, name, value in page.attributes if name == "href"]
    assert links[:3] == ["plumbing.gas.odour", "electrical.outlet.open-splice", "walls.stucco.no-roof-gap"]
    assert set(links) <= set(ids)


def test_numbers_in_prose_link_to_their_findings() -> None:
    found = {3: Ref(3, "a.b.c"), 14: Ref(14, "d.e.f~told")}
    assert linked("See numbers 3, 5 and 14, or number 3; number 140 is not here.", found) == [
        ("See ", ""), ("numbers ", ""), ("3", "#a.b.c"), (", ", ""),
        ("5", ""), (" and ", ""), ("14", "#d.e.f~told"),
        (", or ", ""), ("number 3", "#a.b.c"), ("; ", ""), ("number 140", ""), (" is not here.", ""),
    ]  # fmt: skip


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
def test_text_can_be_read_on_its_ground(scheme: int) -> None:
    rules = re.findall(r":root \{(.*?)\}", CSS, re.DOTALL)
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]+);", rules[scheme]))
    for name in ("text", "quiet", "ink"):
        assert contrast(colours[name], colours["paper"]) >= 4.5, name


def test_the_margin_folds_on_a_phone_and_paper_keeps_it() -> None:
    assert "@media screen and (max-width: 700px)" in CSS
    assert re.search(r"@page sheet", CSS) and "break-after: page" in CSS


def test_a_draft_says_so_on_every_printed_page() -> None:
    printed = CSS[CSS.index("@media print") :]
    assert re.search(r"\.running \{[^}]*position: fixed", printed)
