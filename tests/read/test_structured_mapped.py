"""YAML and JSON checklists: values are data, lines point into the file, faults say what would be right."""

import json
import re
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from narrator.errors import NarratorError
from narrator.pipeline import grammar_of
from narrator.read.model import Checklist
from narrator.read.notation import MOST_BYTES, MOST_LINES
from narrator.read.structured import kind_of, read_structured
from narrator.source.schema import schema_folder
from narrator.source.store import open_library

GRAMMAR = grammar_of(open_library())
TOP = "format: narrator.checklist/1\nlines:\n"


def read(text: str, kind: str = "yaml") -> Checklist:
    return read_structured(text, f"house.{kind}", kind, GRAMMAR)


def faults(text: str, kind: str = "yaml") -> list[str]:
    with pytest.raises(NarratorError) as caught:
        read(text, kind)
    return [f"{one.pos.line}:{one.pos.column} {one.message}" for one in caught.value.faults]


@pytest.mark.parametrize(
    "what",
    ["a | b", "a = b", "left; right", "Kitchen", "ok: soffit", "-- mine", "x -- y", "note: z", "photos 1: front", '"quoted" words', "- a"],
)
def test_what_is_data(what: str) -> None:
    """No sign makes another kind of line of it; a `;` parts two findings, as it does in a cell."""
    found = read(json.dumps({"format": "narrator.checklist/1", "lines": [{"what": what}]}), "json")
    assert [line.kind for line in found.lines] == ["finding"] * len(found.lines)
    assert "; ".join(line.what for line in found.lines) == what
    assert found.left_out == ()


def test_where_is_data_and_may_be_a_list() -> None:
    found = read(TOP + "  - {what: no gfci, where: 'photo 3 | x'}\n  - {what: no gfci, where: [left of sink, Hall bath]}\n")
    assert [line.where for line in found.lines] == ["photo 3 | x", "left of sink; Hall bath"]


def test_details_are_split_as_in_the_notation() -> None:
    found = read(TOP + "  - what: stucco cracked\n    details: ['gap 0.50 in, \"a, b\"', photos 3, 4-5, told by seller]\n    photos: [9]\n")
    line = found.lines[0]
    kinds = [(item.kind, item.text) for item in line.items]
    assert kinds == [("value", "gap 0.50 in"), ("quote", '"a, b"'), ("photos", "photos 3, 4-5"), ("basis", "told by seller"),
                     ("photos", "photos 9")]  # fmt: skip
    assert line.items[2].numbers == (3, 4, 5)


def test_a_new_line_in_details_parts_items_outside_quotations() -> None:
    found = read(TOP + '  - what: x y\n    details: |\n      gap 1 in\n      photo 3\n  - {what: x, details: "\\"a\\nb\\", c"}\n')
    assert [item.text for item in found.lines[0].items] == ["gap 1 in", "photo 3"]
    assert [item.text for item in found.lines[1].items] == ['"a b"', "c"]


def test_a_bar_or_dash_in_a_field_is_said() -> None:
    found = read(TOP + "  - {ok: soffit | rear}\n  - {what: x y, details: wet -- ask him}\n")
    assert found.lines[0].what == "soffit | rear"
    assert [(kind, line) for kind, line, _ in found.notes] == [("form", 3), ("form", 4)]


def test_kinds() -> None:
    found = read(
        TOP
        + "  - {heading: Kitchen}\n  - {name: roof covering, value: slate, where: main roof}\n  - {not_present: garage}\n"
        + "  - {own: hum, details: heard}\n  - {photos: [1, 3-4], caption: front}\n  - {photos: many, caption: front}\n"
        + "  - {name: stucco cracked, value: 1/8 in}\n  - {what: '', where: rear}\n  - {note: ''}\n  - {remark: mine}\n"
        + "  - {ok: soffit, remark: mine}\n"
    )
    assert [line.kind for line in found.lines] == [
        "heading", "description", "status", "own", "photos", "unresolved", "finding", "unresolved", "note", "status"
    ]  # fmt: skip
    assert found.lines[4].photos == (1, 3, 4)
    assert found.left_out == (12, 13)
    assert all(line.heading_place == "Kitchen" for line in found.lines[1:])


def test_an_unknown_heading_gives_no_place() -> None:
    found = read(TOP + "  - {heading: Kitchen}\n  - {heading: Plumbin}\n  - {what: pipe leaks}\n")
    assert (found.lines[2].heading_system, found.lines[2].heading_place) == (None, None)
    assert found.lines[2].heading_text == "Plumbin"
    assert "Did you mean 'plumbing'?" in found.notes[0][2]


def test_headers() -> None:
    found = read(
        "format: narrator.checklist/1\nproperty: 1 A St\nbuilt: 1998\nclient:\n  - A\n  - B\nrain_before: false\nweather:\nlines: []\n"
    )
    assert dict(found.headers) == {
        "property": (("1 A St", 2),), "built": (("1998", 3),), "client": (("A", 5), ("B", 6)),
        "rain before": (("no", 7),), "weather": (("", 8),),
    }  # fmt: skip


@pytest.mark.parametrize("value", ["1998", "0.50", "1e3", "no", "12:30", "3/8", "2026-03-04", "0x10", "1_000"])
def test_scalars_stay_as_typed(value: str) -> None:
    assert read(TOP + f"  - {{what: {value}}}\n").lines[0].what == value


def test_numbers_of_json_stay_as_typed() -> None:
    found = read('{"format": "narrator.checklist/1", "lines": [{"name": "roof age", "value": 10.50}]}', "json")
    assert found.lines[0].value == "10.50"


def test_plain_texts_are_lines_of_the_notation() -> None:
    found = read(TOP + "  - 'no gfci | kitchen | photo 3 -- secret'\n  - |\n    Kitchen\n    -- secret\n    no gfci\n  - ''\n")
    assert [(line.kind, line.number) for line in found.lines] == [("finding", 3), ("heading", 4), ("finding", 4)]
    assert found.left_out == (3, 4)


def test_a_yaml_comment_that_ends_a_text_is_said() -> None:
    found = read(TOP + "  - stained ceiling # 20, hall\n  - what: '#3 panel' # fine\n  # a comment\n")
    assert [line.text for line in found.lines] == ["stained ceiling", "#3 panel"]
    assert [(line, text) for _, line, text in found.notes if "hall" in text] == [
        (3, "'# 20, hall' is left out: YAML takes it for a comment. Quotation marks would keep it.")
    ]
    assert len(found.notes) == 1


def test_columns_point_at_the_words() -> None:
    text = TOP + '  - {what: "no gfci; loose panel", details: "wobbly, \\"x\\"", where: a}\n'
    lines = read(text).lines
    assert [(line.number, line.column) for line in lines] == [(3, 13), (3, 22)]
    flow = TOP + "  - {what: no gfci, details: [wobbly thing, more]}\n"
    typed = flow.split("\n")[2]
    assert [typed[item.column - 1 :].split(",")[0] for item in read(flow).lines[0].items] == ["wobbly thing", "more]}"]


def test_columns_of_details_on_other_lines_are_those_of_the_item() -> None:
    line = read(TOP + "  - what: no gfci\n    details: wobbly\n").lines[0]
    assert (line.number, line.column, line.items[0].column) == (3, 11, 5)


def test_json_with_tabs_and_escapes() -> None:
    text = (
        '{\r\n\t"format":\t"narrator.checklist/1",\r\n\t'
        '"lines": [\r\n\t\t{"what": "\\u00bd \\ud83d\\ude00 a\\/b \\"c\\" \\\\"}\r\n\t]\r\n}'
    )
    line = read(text, "json").lines[0]
    assert (line.what, line.number) == ('½ 😀 a/b "c" \\', 4)


def test_every_fault_at_once() -> None:
    text = TOP + "  - {whta: x}\n  - {ok: true}\n  - {where: rear}\n  - {name: x}\n  - [a]\n  - Kitchen: no gfci\nweathr: dry\n"
    found = faults(text)
    assert [one.split(" ")[0] for one in found] == ["3:6", "4:6", "5:5", "6:5", "7:5", "8:5", "9:1"]
    assert "Did you mean 'what'?" in found[0]
    assert "Did you mean 'weather'?" in found[6]
    assert "put the whole line in quotation marks" in found[5]


@pytest.mark.parametrize(
    ("text", "kind", "said"),
    [
        ("", "yaml", "keys and values"),
        ("a: [", "yaml", "This is not YAML"),
        (TOP + "  - a\n  - {what: x, what: y}\n", "yaml", "4:15 'what' stands twice"),
        ("format: narrator.checklist/2\nlines: []\n", "yaml", "it must be 'narrator.checklist/1'"),
        (TOP + "  - &a {what: x}\n  - *a\n", "yaml", "anchor"),
        ('{"format": "narrator.checklist/1",\n "lines": [],\n "lines": []}', "json", "3:2 'lines' stands twice"),
        ('{"format": "narrator.checklist/1",\n "lines": [],}', "json", "2:13 This is not JSON: take out this comma"),
        ("{'a': 1}", "json", "double quotation marks"),
        ('{"format": "narrator.checklist/1", "lines": ["\\ud800"]}', "json", "half a character"),
        ("[" * 100_000, "json", "nested too deep"),
        ("- " * 100_000, "yaml", "nesting"),
        ("f\x00o\x00", "yaml", "UTF-16"),
        ("x" * (MOST_BYTES + 1), "yaml", "4 MiB"),
        ("é" * (MOST_BYTES // 2 + 1), "json", "4 MiB"),
        ("\n" * MOST_LINES, "csv", "20001 lines"),
        ('{"format": "narrator.checklist/1", "lines": [' + '"a",' * MOST_LINES + '"a"]}', "json", "20001 lines"),
    ],
)
def test_refusals(text: str, kind: str, said: str) -> None:
    assert said in faults(text, kind)[0]


def test_a_byte_order_mark_is_no_text() -> None:
    assert read("\ufeff" + TOP + "  - no gfci\n").lines[0].number == 3


@pytest.mark.parametrize(
    ("path", "given", "kind"),
    [("a.txt", None, "text"), ("a.md", None, "text"), ("a", None, "text"), ("-", None, "text"), ("A.YML", None, "yaml"),
     ("a.yaml", None, "yaml"), ("a.json", None, "json"), ("a.csv", None, "csv"), ("x/a.tsv", None, "tsv"), ("a.csv", "text", "text"),
     ("-", "yml", "yaml"), ("-", "JSON", "json")],
)  # fmt: skip
def test_kind_of(path: str, given: str | None, kind: str) -> None:
    assert kind_of(path, given) == kind


def test_kind_of_a_wrong_name() -> None:
    with pytest.raises(NarratorError, match=re.escape("Did you mean 'json'?")):
        kind_of("a", "jsno")


def test_the_schema_is_one_and_others_can_use_it() -> None:
    schema = json.loads(Path(schema_folder(), "checklist.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    good = yaml.safe_load("format: narrator.checklist/1\nbuilt: 1998\nlines: [a | b, 5, {what: x, photos: [1, 2-3]}, {remark: x}]\n")
    assert not list(Draft202012Validator(schema).iter_errors(good))
    bad = yaml.safe_load("format: narrator.checklist/1\nlines: [{what: x, value: 1}, {reason: x}, {}]\n")
    assert len(list(Draft202012Validator(schema).iter_errors(bad))) == 3
