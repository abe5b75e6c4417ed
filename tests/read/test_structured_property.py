"""Whatever stands in the cells, nothing but NarratorError is raised and no word is lost."""

import csv
import io
import json
import re
from functools import cache

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrator.errors import NarratorError
from narrator.pipeline import draft_checklist, grammar_of
from narrator.read.model import Checklist, Line
from narrator.read.structured import read_structured
from narrator.source.index import Index
from narrator.source.store import open_library

SETTINGS = settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
PHRASES = st.sampled_from(
    ["no gfci", "Kitchen", "ok: soffit", "photos 3-5, 7", "gap 1/2 in", '"', "same", "a; b", "roof covering = slate", "--", "— x",
     "x -- y", '"words, here"', "note: a | b", "property", "not inspected", "1,200 sq ft", "tested", "wet?", "?", ";", "a\nb",
     "because \"so\"", "act-now", "own: hum", "partly: attic - hatch, photo 2", "photos 1: front", "19 22 38 OL", "=", "|", "\t"]
)  # fmt: skip
TEXTS = st.one_of(PHRASES, st.text(max_size=25), st.lists(PHRASES, min_size=2, max_size=3).map(", ".join))
HEADS = st.sampled_from(
    [[], ["what", "where", "details"], ["Status", "Item", "Location", "Notes", "Photos", "Severity"],
     ["Room", "Finding", "Reason", "Inspector id"], ["section", "name", "value", "", "finding"]]
)  # fmt: skip


@cache
def library() -> Index:
    return open_library()


def words(text: str) -> set[str]:
    return set(re.findall(r"[^\W_]+", text.lower()))


def kept(line: Line) -> str:
    """Every text that a line carries on into the report."""
    items = [part for item in line.items for part in (item.text, item.value, item.label, item.key)]
    fields = [line.key, line.value, line.what, line.where, line.reason, *items, *map(str, line.photos)]
    loose = [line.text] if line.kind in ("unresolved", "heading", "photos") else []
    return " ".join([*fields, *loose, line.kind, line.heading_text or ""])


def shown(found: Checklist) -> set[str]:
    return words(" ".join(line.text for line in found.lines) + " same remark")


def carried(found: Checklist) -> set[str]:
    return words(" ".join(map(kept, found.lines)) + " same photos photo remark finding")


@SETTINGS
@given(head=HEADS, rows=st.lists(st.lists(TEXTS, max_size=7), max_size=6), sign=st.sampled_from(",;\t"))
def test_no_cell_is_lost(head: list[str], rows: list[list[str]], sign: str) -> None:
    out = io.StringIO()
    csv.writer(out, delimiter=sign).writerows([head, *rows] if head else rows)
    kind = "tsv" if sign == "\t" else "csv"
    try:
        found = read_structured(f"sep={sign}\n{out.getvalue()}", "house", kind, grammar_of(library()))
    except NarratorError:
        return
    remarks = set()
    for row in csv.reader(io.StringIO(out.getvalue()), delimiter=sign):
        if any(re.match(r"\s*(--|—|remark)", cell) for cell in row) or "remark" in [cell.lower() for cell in row]:
            remarks |= words(" ".join(row))
    typed = words(" ".join(cell for row in rows for cell in row))
    assert typed - remarks <= shown(found) | carried(found) | words(" ".join(head))
    assert {word for word in typed - remarks if not word.isdigit()} <= carried(found) | words(" ".join(head))
    draft_checklist(found, library())


ITEM_TEXTS = st.one_of(TEXTS, st.lists(TEXTS, max_size=3), st.none(), st.integers(), st.booleans())
KEYS = st.sampled_from(
    ["what", "where", "details", "photos", "ok", "tested", "reason", "note", "own", "name", "value", "heading", "remark", "caption",
     "not_inspected", "wrong"]
)  # fmt: skip


@SETTINGS
@given(st.lists(st.one_of(TEXTS, st.dictionaries(KEYS, ITEM_TEXTS, max_size=4)), max_size=6), st.sampled_from(["json", "yaml"]))
def test_any_shape_is_read_or_refused(lines: list[object], kind: str) -> None:
    text = json.dumps({"format": "narrator.checklist/1", "lines": lines}, ensure_ascii=kind == "json", indent=1)
    try:
        draft_checklist(read_structured(text, "house", kind, grammar_of(library())), library())
    except NarratorError as error:
        assert error.faults


@SETTINGS
@given(what=TEXTS, where=TEXTS, details=st.lists(TEXTS, max_size=3), kind=st.sampled_from(["what", "own", "ok", "partly"]))
def test_no_field_is_lost(what: str, where: str, details: list[str], kind: str) -> None:
    item = {kind: what, "where": where, "details": details}
    text = json.dumps({"format": "narrator.checklist/1", "lines": [item]})
    found = read_structured(text, "house", "json", grammar_of(library()))
    typed = words(" ".join([what, where, *details]))
    assert {word for word in typed if not word.isdigit()} <= carried(found) | shown(found)
    assert [line.number for line in found.lines] == [1] * len(found.lines)
    assert found.lines


@SETTINGS
@given(st.text(max_size=200), st.sampled_from(["json", "yaml", "csv", "tsv"]))
def test_arbitrary_text_is_read_or_refused(text: str, kind: str) -> None:
    try:
        draft_checklist(read_structured(text, "house", kind, grammar_of(library())), library())
    except NarratorError as error:
        assert error.faults


@SETTINGS
@given(st.text(alphabet='",;\t\n\r a-|=:#[]{}\\', max_size=60), st.sampled_from(["json", "yaml", "csv", "tsv"]))
def test_arbitrary_signs_are_read_or_refused(text: str, kind: str) -> None:
    try:
        draft_checklist(read_structured(text, "house", kind, grammar_of(library())), library())
    except NarratorError as error:
        assert error.faults
