"""`schemas/report.schema.json` says what a report holds: real reports fit, it is closed, it agrees with `report.py`."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_type_hints

import pytest
import yaml
from jsonschema import Draft202012Validator

from narrator import report as contract
from narrator.pipeline import draft_text
from narrator.source.index import Index
from narrator.source.schema import schema_folder
from narrator.source.store import open_library, packaged_root

SCHEMA: dict[str, Any] = json.loads((schema_folder() / "report.schema.json").read_text(encoding="utf-8"))
EXAMPLES = Path(__file__).parents[2] / "examples"
# Every kind of line, and values of every shape.
SAMPLE = """\
property: 1 Sample Street
visited: 4 March 2026
inspector: I. Sample
client: A. Sample
client: B. Sample
firm: Sample Inspections
weather: rain
utilities: gas off
moisture meter: pin meter +/- 2
review window: 10 days from 4 March 2026 17:00, told by agent
Kitchen
no gfci, left of sink, photos 4-6, "two of them dead"
own: rake handle in the disposal | | act-now, x3, 3 ft
hot water | | 138 F, because "a child lives here", do "Turn it down.", trade plumber, plan
no gfci? | hall bath; bath 2 | told by seller, warned occupant 14:10, sketch photo 60
water heater | basement | made 2021, unit heater 2
gutter loose | rear | hold back - seller mends it on Friday
moisture | below entry window | A1 11, A2 OL, A3 no-hold, control 9 10 11
stair riser height | stairs | 7 to 9-1/4 in
stucco roof gap | front wall | gap ~2 in
stucco roof gap | rear wall | gap 60 mm
roof covering = asphalt shingle | main roof | photo 3
not inspected: attic - hatch painted shut
partly: crawl space
not present: pool
ok: soffit, fascia | rear | photo 9
tested: GFCI | kitchen, baths | 11 of 12 tripped
shingles ok
note: The seller was "kind".
photos 1-4: front elevation
zzz qqq | kitchen
-- not for print
"""


@pytest.fixture(scope="module")
def index() -> Index:
    return open_library()


def faults(report: Any) -> list[str]:
    """What does not fit, with its place."""
    validator = Draft202012Validator(SCHEMA)
    plain = json.loads(json.dumps(report))
    found = validator.iter_errors(plain)
    return [f"{'/'.join(map(str, error.absolute_path))}: {error.message[:200]}" for error in found]


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)


def test_a_report_with_every_kind_of_line_fits(index: Index) -> None:
    report = draft_text(SAMPLE, "sample.txt", index)
    assert faults(report) == []
    filled = {key for key, value in report.items() if value}
    # What later work fills stays empty.
    assert set(report) - filled <= {"issue", "connections", "charts", "standard"}


def test_a_report_of_an_empty_visit_fits(index: Index) -> None:
    assert faults(draft_text("-- nothing yet\n", "empty.txt", index)) == []


def test_the_examples_fit(index: Index) -> None:
    paths = sorted(EXAMPLES.glob("*/checklist.txt"))
    assert paths
    for path in paths:
        assert faults(draft_text(path.read_text(encoding="utf-8"), path.name, index)) == [], path


def test_every_case_of_the_library_fits(index: Index) -> None:
    lines: list[str] = []
    for path in sorted((packaged_root() / "entries").rglob("*.yaml")):
        code = ".".join(path.relative_to(packaged_root() / "entries").with_suffix("").parts)
        for case in yaml.safe_load(path.read_text(encoding="utf-8"))["cases"]:
            lines.append(f"{case.get('what', code)} | {case.get('where', 'rear wall')} | {case['given']}")
    report = draft_text("\n".join(["visited: 4 March 2026", *lines]), "cases.txt", index)
    assert faults(report) == []


def objects(schema: Any) -> Iterator[dict[str, Any]]:
    """Every part of the schema that speaks of keys."""
    if isinstance(schema, dict):
        if "properties" in schema and "type" in schema:
            yield schema
        for value in schema.values():
            yield from objects(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from objects(value)


def test_every_part_is_closed() -> None:
    assert all(part.get("additionalProperties") is False for part in objects(SCHEMA))


TYPES: dict[str, Any] = {
    "criterion": contract.CriterionRef,
    "act": contract.ActValue,
    "instance": contract.Instance,
    "override": contract.Override,
    "finding": contract.Finding,
    "description": contract.Description,
    "result": contract.Result,
    "status": contract.Status,
    "section": contract.Section,
    "opening": contract.OpeningPart,
    "row": contract.SheetRow,
    "window": contract.ReviewWindow,
    "chart": contract.Chart,
}


@pytest.mark.parametrize("name", TYPES)
def test_each_part_has_the_keys_of_its_type(name: str) -> None:
    assert set(SCHEMA["$defs"][name]["properties"]) == set(get_type_hints(TYPES[name]))


def test_the_report_has_the_keys_of_its_type() -> None:
    assert list(SCHEMA["properties"]) == list(get_type_hints(contract.Report))
    # Only a report under a standard that asks for one has a summary, and only an edited one has edits.
    assert set(SCHEMA["required"]) == set(SCHEMA["properties"]) - {"summary", "edits"}


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        (("extra",), 1, "extra"),
        (("format",), "narrator.report/2", "was expected"),
        (("state",), "sent", "is not one of"),
        (("issue",), {"by": "A"}, "expected to be empty"),
        (("sections", 0, "findings", 0, "severity"), "urgent", "is not one of"),
        (("sections", 0, "findings", 0, "id"), "gfci~seen", "does not match"),
        (("sections", 0, "findings", 0, "lines"), [0], "is less than the minimum"),
        (("sections", 0, "findings", 0, "instances"), [], "non-empty"),
        (("sections", 0, "findings", 0, "trace", 0, "kind"), "guess", "is not one of"),
        (("sections", 0, "findings", 0, "trades", 0, "role"), "boss", "is not one of"),
        (("review_window", "closes"), "14 March 2026", "does not match"),
        (("unresolved", 0, "nearest"), "none", "is not of type 'array'"),
    ],
)
def test_a_report_that_is_wrong_does_not_fit(path: tuple[Any, ...], value: Any, said: str, index: Index) -> None:
    report: Any = copy.deepcopy(draft_text(SAMPLE, "sample.txt", index))
    report["sections"] = [section for section in report["sections"] if section["findings"]]
    part = report
    for key in path[:-1]:
        part = part[key]
    part[path[-1]] = value
    found = faults(report)
    assert len(found) == 1
    assert said in found[0]


@pytest.mark.parametrize("key", SCHEMA["required"])
def test_no_key_may_be_missing(key: str, index: Index) -> None:
    report: Any = dict(draft_text("-- nothing yet\n", "empty.txt", index))
    del report[key]
    assert any(f"'{key}' is a required property" in text for text in faults(report))
