"""Pictures on a page: drawn, in words, read back, escaped, and left out where nothing can draw."""

from __future__ import annotations

import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from html.parser import HTMLParser
from typing import Any, cast

import pytest
from house import GAP, LABELS, report
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pages import parsed, rendered
from rough import reports, texts

from narrator.publish import publish
from narrator.publish.chart import inside_html, svg
from narrator.publish.readback import read
from narrator.publish.shapes import WIDTH, Words, folded, scale
from narrator.publish.steps import steps
from narrator.publish.strips import strips
from narrator.publish.text import inline
from narrator.report import Chart, Report

NS = "{http://www.w3.org/2000/svg}"


def point(name: str | None, value: float | None, reason: str | None = None, text: str = "") -> dict[str, Any]:
    return {"name": name, "value": value, "reason": reason, "text": text or f"{value} %"}


def row(label: str, *points: dict[str, Any], control: bool = False, spread: Any = None) -> dict[str, Any]:
    return {"label": label, "control": control, "points": list(points), "spread": spread}


def chart(*rows: dict[str, Any], **other: Any) -> Chart:
    made = {
        "id": "chart-a", "text": "Moisture readings, in percent. Front: 18 % at B1.", "lines": [5], "kind": "moisture",
        "finding": GAP, "title": "Moisture readings, in percent", "unit": "percent", "rows": list(rows),
        "marks": [{"value": 20, "text": "20 % and up: a reason to look for water"}],
    }  # fmt: skip
    return cast(Chart, made | other)


def survey(**other: Any) -> Chart:
    points = [point("B1", 18), point("B2", 21), point("B3", 33.5), point("B4", None, "OL", "past the top of the scale")]
    points += [point(f"B{at}", None, why, why) for at, why in enumerate(("no-hold", "void", "blocked", "too short"), 5)]
    dry = [point(None, value) for value in (10, 11, 12)]
    return chart(row("Front, below entry window", *points), row("Right side", *dry, control=True), **other)


def flight(*values: float, **other: Any) -> Chart:
    points = [point(None, value, text=f"{value:g} inches") for value in values]
    spread = {"figure": "3/4 inch", "text": "The largest difference is 3/4 inch"}
    made = {"kind": "risers", "title": "Height of each step, in inches", "unit": "inch", "marks": []} | other
    return chart(row("Main stairs", *points, spread=spread), **made)


def with_charts(*charts: Chart) -> Report:
    made = report()
    made["charts"] = list(charts)
    return made


def words(drawn: str) -> list[str]:
    return [each.text or "" for each in ET.fromstring(drawn).iter(f"{NS}text")]


# Without a library that draws


def test_a_strip_stands_for_each_place_and_says_why_there_is_no_reading() -> None:
    said = [shape.text for shape in strips(survey()).shapes if isinstance(shape, Words)]
    for text in ("18", "21", "33.5", "past", "scale", "no", "hold", "void", "blocked", "too", "short", "B1", "B8"):
        assert text in said
    assert {"Front, below entry window", "Right side", "believed dry", "20 %", "0 %"} <= set(said)
    assert said.count("20 % and up: a reason to look for water") == 1


def test_over_the_scale_stands_at_the_top_edge_and_all_strips_share_one_scale() -> None:
    made = strips(survey()).shapes
    signs = {shape.form: shape for shape in made if type(shape).__name__ == "Sign"}
    assert set(signs) == {"dot", "ring", "up", "cross", "diamond", "square", "down"}
    dots = [shape for shape in made if type(shape).__name__ == "Sign" and shape.form in ("dot", "ring")]
    assert all(shape.y > signs["up"].y for shape in dots)
    small = chart(row("Front", point(None, 18), point(None, 21)), row("Rear", point(None, 10), control=True))
    first, second, dry = (shape for shape in strips(small).shapes if type(shape).__name__ == "Sign")
    assert (dry.y - first.y) / 8 == pytest.approx((first.y - second.y) / 3) and dry.x > second.x


def test_many_points_and_long_names_stay_on_the_sheet() -> None:
    long = row("The wall of the garage beside the neighbour's fence " * 3, *(point(f"A{n}", n) for n in range(1, 41)))
    for made in (chart(long, row("", point(None, 100), point("Z", 0))), survey(), chart(row("x", point(None, 5)))):
        sheet = strips(made)
        spots = [(shape.x, shape.y) for shape in sheet.shapes]
        assert all(0 <= x <= WIDTH and 0 <= y <= sheet.height for x, y in spots)
    sheet = steps(flight(*(7 + n % 5 / 8 for n in range(37))))
    assert all(0 <= shape.x <= WIDTH and 0 <= shape.y <= sheet.height for shape in sheet.shapes)


def test_the_largest_difference_is_named_beside_the_bars() -> None:
    said = [shape.text for shape in steps(flight(7.25, 7.75, 8)).shapes if isinstance(shape, Words)]
    assert said.index("largest") + 2 == said.index("difference") + 1 == said.index("3/4 inch")
    assert {"7.25", "7.75", "8", "1", "2", "3", "Main stairs"} <= set(said)


@pytest.mark.parametrize(
    ("most", "top", "ticks"),
    [(30, 30, 4), (33, 40, 5), (45, 50, 6), (100, 100, 6), (8, 8, 5), (203, 250, 6), (1, 1, 2)],
)
def test_a_scale_is_round(most: float, top: float, ticks: int) -> None:
    found, marks = scale(most)
    assert (found, len(marks)) == (top, ticks)


@given(st.text(min_size=1), st.floats(5, 400), st.integers(1, 4))
def test_folded_text_keeps_to_its_lines(text: str, width: float, most: int) -> None:
    assert 1 <= len(folded(text, width, most=most)) <= most


# Drawn


@pytest.fixture
def drawn() -> str:
    return svg(survey())


def test_the_picture_is_one_closed_thing(drawn: str) -> None:
    root = ET.fromstring(drawn)
    assert root.tag == f"{NS}svg" and root.get("role") == "img"
    assert root.get("aria-label") == "Moisture readings, in percent: Front, below entry window; Right side"
    assert root.findtext(f"{NS}title") == "Moisture readings, in percent"
    assert " id=" not in drawn and "url(" not in drawn and "href" not in drawn and "<style" not in drawn
    assert re.findall("https?:[^\"']*", drawn) == ["http://www.w3.org/2000/svg"]
    assert set(re.findall(r"font-family: ([^;\"]+)", drawn)) == {"serif"}


def test_only_greys_are_used(drawn: str) -> None:
    for colour in set(re.findall(r"#[0-9a-f]{6}", drawn + svg(flight(7, 8)))):
        parts = [int(colour[at : at + 2], 16) for at in (1, 3, 5)]
        assert max(parts) - min(parts) <= 16, colour


def test_the_same_bytes_again_whatever_settings_lie_about(drawn: str) -> None:
    import matplotlib

    with matplotlib.rc_context({"svg.fonttype": "path", "font.size": 30, "text.usetex": False, "lines.linewidth": 9}):
        assert svg(survey()) == drawn
    assert svg(survey()) == drawn


def test_drawing_asks_for_no_window_and_changes_no_setting() -> None:
    code = (
        "import sys, matplotlib; before = matplotlib.rcParams.copy()\n"
        "from test_publish_chart import survey, svg; svg(survey())\n"
        "print('matplotlib.pyplot' in sys.modules, matplotlib.rcParams.copy() == before)"
    )
    path = ":".join(sys.path)
    done = subprocess.run(
        [sys.executable, "-c", code], env={"PYTHONPATH": path, "HOME": "/nonexistent"}, capture_output=True, text=True
    )
    assert done.stdout == "False True\n" and done.stderr == ""


def test_what_people_typed_is_escaped_and_never_read_as_a_formula() -> None:
    nasty = "<b>&\"'</svg>"
    made = survey(title=nasty, marks=[{"value": 20, "text": nasty}])
    made["rows"][0]["label"] = "$x^2$"
    made["rows"][0]["points"][0]["name"] = "<"
    said = words(svg(made))
    assert said.count(nasty) == 2 and "$x^2$" in said and "<" in said
    assert ET.fromstring(svg(made)).get("aria-label") == f"{nasty}: $x^2$; Right side"


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(texts, min_size=3, max_size=3), st.sampled_from(["moisture", "risers"]))
def test_rough_words_are_drawn_as_words(typed: list[str], kind: str) -> None:
    made = chart(row(typed[0], point(typed[1], 18, text=typed[2]), point(None, None, typed[1])), kind=kind)
    drawn = svg(made)
    assert {each.tag.removeprefix(NS) for each in ET.fromstring(drawn).iter()} <= {"svg", "title", "text", "path", "g"}
    assert "<script" not in publish(with_charts(made), "html", LABELS)


def test_a_kind_that_nobody_can_draw_is_said() -> None:
    with pytest.raises(ValueError, match="'pie' is no kind of chart: moisture, risers"):
        svg(survey(kind="pie"))


# On a page


class _Page(HTMLParser):
    """The order of articles, figures and captions, and every id."""

    def __init__(self) -> None:
        super().__init__()
        self.order: list[str] = []
        self.ids: list[str] = []
        self.caption = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.ids += [value or "" for name, value in attrs if name == "id"]
        if tag in ("article", "figure", "svg", "figcaption"):
            self.order.append(tag if tag != "article" else str(dict(attrs)["id"]))

    def handle_data(self, data: str) -> None:
        if self.order and self.order[-1] == "figcaption":
            self.caption += data


def seen(page: str) -> _Page:
    made = _Page()
    made.feed(page)
    return made


def test_the_picture_follows_its_finding_with_its_words() -> None:
    page = publish(with_charts(survey(), flight(7, 8, finding=GAP, id="chart-b")), "html", LABELS)
    found = seen(page)
    at = found.order.index(GAP)
    assert found.order[at + 1 : at + 7] == ["figure", "svg", "figcaption"] * 2
    assert len(found.ids) == len(set(found.ids)) and "https:" not in page and "http:" not in page
    assert "var(--text, #22262a)" in page


def test_text_formats_print_the_words_after_the_finding() -> None:
    made = with_charts(survey())
    for to in ("md", "txt"):
        page = publish(made, to, LABELS)
        said = page.index("Chart ·\u00a0Moisture readings, in percent. Front: 18 % at B1.")
        assert page.index("Stucco nearly touches the roof\n") < said < page.index("4 ·\u00a0")
    assert ("p", "Chart ·\u00a0" + survey()["text"]) in rendered(publish(made, "md", LABELS)).shown


def test_a_picture_of_results_stands_with_them_and_no_picture_is_lost() -> None:
    made = report()
    result = next(each for part in made["sections"] for each in part["results"])
    result["measures"] = [{"points": []}]
    made["charts"] = [
        flight(7, 8, finding=None, lines=result["lines"], text="Beside."),
        survey(finding="x.y.z", text="Alone."),
    ]
    text = publish(made, "txt", LABELS)
    assert text.count("Chart ·\u00a0") == 2
    assert text.index("What we looked at or tested here") < text.index("Beside.") < text.index("\n\nRoof\n")
    assert text.index("\n\nCharts\n\nChart ·\u00a0Alone.") > text.index("Plumbing")


@pytest.mark.parametrize("to", ["md", "html", "txt"])
def test_the_findings_read_back_as_without_pictures(to: str) -> None:
    page = publish(with_charts(survey(), flight(7, 8)), to, LABELS)
    assert read(page, to) == read(publish(report(), to, LABELS), to)
    assert read(page.replace("\u00a0", " "), to) == read(publish(report(), to, LABELS).replace("\u00a0", " "), to)


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(reports(), texts)
def test_rough_pictures_read_back_and_print_literally(made: Report, text: str) -> None:
    without = {to: read(publish(made, to, LABELS), to) for to in ("md", "txt", "html")}
    said = inline(text) or "x"
    made["charts"] = [
        survey(finding=part["id"], text=said) for each in made["sections"] for part in each["findings"][:1]
    ]
    for to in ("md", "txt", "html"):
        assert read(publish(made, to, LABELS), to) == without[to], to
    assert said in seen(publish(made, "html", LABELS)).caption.replace("\u202f", " ")
    assert any(f"Chart ·\u00a0{said}" == shown for _, shown in rendered(publish(made, "md", LABELS)).shown)


def test_without_the_library_the_words_stand_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in [name for name in sys.modules if name.split(".")[0] == "matplotlib"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    with pytest.raises(ImportError):
        svg(survey())
    page = publish(with_charts(survey()), "html", LABELS)
    found = seen(page)
    assert found.order[found.order.index(GAP) + 1 :][:2] == ["figure", "figcaption"] and "<svg" not in page
    assert found.caption.strip().replace("\u202f", " ") == survey()["text"]


def test_the_page_may_darken_the_picture(drawn: str) -> None:
    inside = inside_html(drawn)
    assert "xmlns" not in inside and not re.search(r": #[0-9a-f]{6}", inside)
    assert parsed(inside).tags <= {"svg", "title", "text", "path", "g"}
