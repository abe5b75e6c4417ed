"""A report reads back whole from every format, also after an editor, a word processor or a hurried hand had it."""

from __future__ import annotations

import json
import re
import textwrap
from pathlib import Path
from typing import Any

import pytest
from house import LABELS, report
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from pages import expected, level
from rough import reports

from narrator.errors import NarratorError
from narrator.publish import FORMATS, publish
from narrator.publish.order import walk
from narrator.report import Report
from narrator.review.pieces import Found, Reading
from narrator.review.reading import decoded, load, read_text

TEXT_FORMATS = ("md", "html", "txt")
ROOT = Path(__file__).parents[2]


def reread(made: Report, to: str) -> Reading:
    return read_text(publish(made, to, LABELS), "x", LABELS, to)


def words(text: str) -> str:
    return " ".join(text.split())


def whole(reading: Reading) -> list[Any]:
    """All that a reading says, without lines and ids."""
    out: list[Any] = []
    for each in reading.order:
        passages = [(words(p.text), p.number, p.kind == "chart") for p in each.passages]
        if isinstance(each, Found):
            meta = (each.number, words(each.title), each.severity, each.grade, each.trades, each.places, each.photos)
            out.append(("finding", *meta, each.sketches, passages))
        else:
            out.append((each.role, words(each.title), passages))
    return out


@pytest.mark.parametrize("to", TEXT_FORMATS)
def test_what_was_published_reads_back_whole(to: str) -> None:
    made = reread(report(), to)
    assert whole(made) == whole(reread(report(), "json"))
    assert made.house == report()["property"] and made.draft and not made.remarks
    assert [each.number for each in made.findings] == [3, 4, 5, 6, 7, 2, 1, 8]
    assert all(each.line for each in made.findings)
    sheet = next(each for each in made.pieces if each.role == "sheet")
    assert {name for row in sheet.passages for name, _ in row.cells} > {"Item", "Place", "Photos"}


def test_json_reads_back_as_the_report_itself() -> None:
    assert reread(report(), "json").report == report()


@settings(deadline=None, max_examples=60)
@given(reports())
def test_every_printed_word_of_a_rough_report_is_read(made: Report) -> None:
    """The words in order, by the walk that all formats share; the marks of a draft are told apart."""
    assert reread(made, "json").report == json.loads(json.dumps(made))
    printed = letters(" ".join(text for _, text in level(expected(made))))
    for to in TEXT_FORMATS:
        said = [each.text for each in _raws(publish(made, to, LABELS), to)]
        assert letters(" ".join(said)) == printed, to


def letters(text: str) -> str:
    """Letters and figures only; the words that only a form needs are left out: Draft, Chart, heads of columns."""
    heads = r"Number|Item|Place|Figures|Photos|What we could not see|Price|Date|Firm"
    text = re.sub(rf"(?:(?<=\s)|^)(?:{heads}):?(?=[\s;]|$)", " ", text)
    return re.sub(r"[\W_]|Chart|Draft\. It has not been issued|End of the draft\. It has not been issued", "", text)


def _raws(text: str, to: str) -> list[Any]:
    from narrator.review.reading import _blocks
    from narrator.review.structure import is_mark

    raws = [raw for raw in _blocks(text.replace("\r\n", "\n"), to) if not is_mark(raw)]
    return [raw._replace(text=" ".join([raw.text, *raw.cells])) for raw in raws]


@settings(deadline=None, max_examples=40)
@given(reports())
def test_findings_of_a_rough_report_read_back(made: Report) -> None:
    want = [block for block in whole(reread(made, "json")) if block[0] == "finding"]
    for to in ("md", "html"):
        found = [block for block in whole(reread(made, to)) if block[0] == "finding"]
        assert [each[:2] for each in found] == [each[:2] for each in want], to
    assert len(want) == sum(len(part["findings"]) for part in made["sections"])
    assert walk(made, LABELS)


@pytest.mark.parametrize("to", TEXT_FORMATS)
def test_an_editor_may_change_line_ends_spaces_quotes_and_dashes(to: str) -> None:
    text = publish(report(), to, LABELS)
    assert whole(read_text("\ufeff" + text.replace("\n", "\r\n"), "x", LABELS, to)) == whole(reread(report(), to))
    plain = read_text(
        text.replace("\u00a0", " ").replace("’", "'").replace("“", '"').replace("”", '"'), "x", LABELS, to
    )
    assert [(each.number, each.places, each.photos) for each in plain.findings] == [
        (each.number, each.places, each.photos) for each in reread(report(), to).findings
    ]
    assert [each.role for each in plain.pieces] == [each.role for each in reread(report(), to).pieces]


def test_a_word_processors_html_has_no_classes_and_other_tags() -> None:
    text = publish(report(), "html", LABELS)
    text = re.sub(r"(?s)<style>.*?</style>|<svg.*?</svg>", "", text)
    text = re.sub(r' (?:class|id|scope|data-head|aria-hidden|href)="[^"]*"', "", text)
    text = re.sub(r"</?(?:section|article|main|div|span|figure|i)\b[^>]*>", "", text)
    text = text.replace("<p>", '<P STYLE="margin-bottom: 0.1in">').replace("</p>", "</P>")
    text = re.sub(r"<li>(.*?)</li>", r"<LI><P><FONT FACE='x'>\1</FONT></P></LI>", text)
    saved, ours = read_text(text, "x", LABELS, "html"), reread(report(), "html")
    assert [each[:9] for each in whole(saved) if each[0] == "finding"] == [
        each[:9] for each in whole(ours) if each[0] == "finding"
    ]
    assert [each.role for each in saved.pieces if each.role != "charts"] == [
        each.role for each in ours.pieces if each.role != "charts"
    ]
    assert saved.house == ours.house


def test_plain_text_without_its_gaps_is_read() -> None:
    text = publish(report(), "txt", LABELS)
    close = read_text(re.sub(r"\n{2,}", "\n", text), "x", LABELS, "txt")
    assert [each.number for each in close.findings] == [3, 4, 5, 6, 7, 2, 1, 8]
    assert {"deadline", "day", "terms", "glossary", "sheet"} <= {each.role for each in close.pieces}


@pytest.mark.parametrize("width", [72, 78, 100])
def test_a_page_that_an_editor_wrapped_is_read_as_before(width: int) -> None:
    lines = publish(report(), "txt", LABELS).split("\n")
    text = "\n".join(
        textwrap.fill(line, width, break_on_hyphens=False, break_long_words=False) if len(line) > width else line
        for line in lines
    )
    assert text.count("\n") > len(lines) + 20
    assert whole(read_text(text, "x", LABELS, "txt")) == whole(reread(report(), "txt"))


def test_markdown_that_another_program_rendered_or_wrapped_is_the_same_report() -> None:
    text = publish(report(), "md", LABELS)
    page = MarkdownIt("commonmark").enable(["table", "strikethrough"]).render(text)
    assert whole(read_text(page, "x", LABELS, "html")) == whole(reread(report(), "md"))
    wrapped = "\n".join(
        textwrap.fill(line, 80, break_on_hyphens=False) if len(line) > 80 and line[0].isalpha() else line
        for line in text.split("\n")
    )
    assert whole(read_text(wrapped, "x", LABELS, "md")) == whole(reread(report(), "md"))


def test_retouched_headings_and_free_text_are_kept_with_their_line() -> None:
    text = publish(report(), "md", LABELS)
    text = text.replace("## Words used here", "## Words used in this report\n\nWe were tired.", 1)
    text = text.replace("## What nobody has seen\n", "## What nobody saw\n", 1).replace("### 5 ·", "### 5.", 1)
    text = text.replace("## Terms", "## A word from us\n\nCall us on Friday.\n\n## Terms", 1)
    made = read_text(text, "x", LABELS, "md")
    assert 5 in [each.number for each in made.findings]
    own = next(each for each in made.pieces if each.title == "A word from us")
    assert own.passages[0].text == "Call us on Friday."
    assert text.split("\n")[own.passages[0].line - 1] == "Call us on Friday."
    assert any(p.text == "We were tired." for each in made.pieces for p in each.passages)


@pytest.mark.parametrize("to", FORMATS)
def test_half_a_file_is_said(to: str, tmp_path: Path) -> None:
    text = publish(report(), to, LABELS)
    file = tmp_path / f"half.{to}"
    file.write_text(text[: text.index("shingles") + 5], encoding="utf-8")
    with pytest.raises(NarratorError, match="in the middle"):
        load(str(file), LABELS)


@pytest.mark.parametrize(
    ("text", "form", "said"),
    [
        ("", None, "empty"),
        (" \n\ufeff\n", None, "empty"),
        ('{"a": 1}', "json", "no report of narrator"),
        ('{"format": "narrator.checklist/1"}', "json", "narrator.report/1"),
        ('{"format": "narrator.report/1", "state": "draft"}', "json", "missing"),
        ("[1, 2]", "json", "no report of narrator"),
        ("# Shopping\n\n## Milk\n\n- two bottles\n", "md", "does not look like a report"),
        ("<html><body><h1>Report</h1><p>Roof: fair.</p></body></html>", "html", "does not look like a report"),
        ("Roof: good\nWalls: good\n", "txt", "does not look like a report"),
        ("x", "docx", "cannot be read yet"),
    ],
)
def test_what_is_no_report_is_said_plainly(text: str, form: str | None, said: str) -> None:
    with pytest.raises(NarratorError, match=said):
        read_text(text, "x", LABELS, form)


def test_encodings_of_word_processors() -> None:
    assert decoded("“a” – é".encode("cp1252"), "x") == "“a” – é"
    assert decoded("“a”".encode("utf-16"), "x") in ("“a”", "\ufeff“a”")
    assert decoded(b'<meta charset="iso-8859-1">\xe9', "x").endswith("é")
    for raw in (b"PK\x03\x04rest", b"%PDF-1.7"):
        with pytest.raises(NarratorError, match="Save it as HTML"):
            decoded(raw, "x")


@settings(deadline=None, max_examples=150)
@given(st.text(), st.integers(0, 20_000), st.sampled_from([*FORMATS]))
def test_anything_is_read_or_refused_and_never_a_fault_of_ours(text: str, cut: int, to: str) -> None:
    for each in (text, publish(report(), to, LABELS)[:cut] + text):
        try:
            read_text(each, "x", LABELS, to)
        except NarratorError:
            continue
