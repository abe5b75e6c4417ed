"""A draft under a standard of practice: how it is named, its summary page, its coverage."""

from __future__ import annotations

import json
from typing import Any

import pytest
from drafting import LIBRARY, draft, notes
from jsonschema import Draft202012Validator

from narrator.pipeline import draft_text
from narrator.publish import publish
from narrator.publish.labels import Labels
from narrator.publish.readback import read
from narrator.source import index as store
from narrator.source.schema import schema_folder

HOUSE = """\
visited: 4 March 2026
method: roof walked, attic from the hatch
standard: {standard}

Roof
roof covering = asphalt shingles
gutter full | rear
shingles curling | rear slope | photo 20
Plumbing
gas smell | meter | warned occupant 14:10
own: Fountain pump hums | front yard
ok: water heater | garage
not present: fireplace
not inspected: crawl space - hatch painted shut
"""
NC = "nc-11ncac08-1100"
NOTICE = "A notice | that *only* the firm <b>knows</b>."


def under(standard: str, **more: Any) -> dict[str, Any]:
    return draft_text(HOUSE.format(standard=standard), "notes.txt", LIBRARY, **more)  # type: ignore[return-value]


def ids(rows: list[dict[str, Any]]) -> set[str]:
    return {f"{row['system']}/{row['id']}" for row in rows}


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("ASHI", "ashi-2014"),
        ("the ASHI Standard of Practice", "ashi-2014"),
        ("internachi sop", "internachi-residential"),
        ("nc", NC),
        ("North Carolina standards", NC),
        ("TREC", "tx-22tac535"),
        (NC, NC),
        ("WAC 308-408C", "wa-308-408c"),
    ],
)
def test_a_name_or_an_id_chooses_a_standard(typed: str, name: str) -> None:
    report = under(typed)
    assert (report["standard"], report["coverage"]["standard"]) == (typed, name)
    assert notes(report, "standard") == []


def test_an_unknown_standard_is_said_with_the_nearest_and_binds_nothing() -> None:
    report = under("ASHII")
    assert report["standard"] == "ASHII"
    assert report["coverage"] == {"standard": "ASHII", "reported": [], "missing": []}
    (note,) = notes(report, "standard")
    assert note["lines"] == [3] and "Did you mean 'ashi-2014'?" in note["text"]
    assert notes(report, "duty") == notes(report, "coverage") == []


def test_without_a_standard_nothing_is_added() -> None:
    plain = draft("\n".join(line for line in HOUSE.splitlines() if not line.startswith("standard")))
    assert "summary" not in plain and plain["coverage"] == {"standard": None, "reported": [], "missing": []}
    assert not [note for note in plain["review_notes"] if note["kind"] in ("duty", "coverage", "standard")]


def test_the_firms_standard_holds_where_no_header_chooses_one() -> None:
    text = HOUSE.replace("standard: {standard}\n", "")
    assert draft_text(text, "notes.txt", LIBRARY, standard="NC")["coverage"]["standard"] == NC
    typed = draft_text(HOUSE.format(standard="ASHI"), "notes.txt", LIBRARY, standard="NC")
    assert typed["coverage"]["standard"] == "ashi-2014"


def test_the_summary_holds_what_the_standard_names_and_the_urgent_first() -> None:
    page = under("NC")["summary"]
    assert [item["severity"] for item in page["items"]] == ["act-now", "plan", None]
    assert "gutter" not in json.dumps(page).lower()  # upkeep without danger
    assert page["notice"] is None
    assert page["findings"] == [item["finding"] for item in page["items"]]


@pytest.mark.parametrize("standard", ["ASHI", "InterNACHI", "TX", "WA"])
def test_a_standard_that_asks_for_no_summary_gets_none(standard: str) -> None:
    assert "summary" not in under(standard)


def test_the_notice_is_the_firms_word_for_word_in_every_format() -> None:
    report: Any = under("NC", notices={NC: NOTICE, "ashi-2014": "Another."})
    assert report["summary"]["notice"] == NOTICE
    assert not any("notice in the words" in note["text"] for note in notes(report, "duty"))
    texts = {form: publish(report, form, Labels()) for form in ("md", "html", "txt", "json")}
    assert NOTICE in texts["txt"] and json.loads(texts["json"])["summary"]["notice"] == NOTICE
    assert "A notice | that *only* the firm &lt;b&gt;knows&lt;/b&gt;." in texts["html"]
    assert "A notice \\| that \\*only\\* the firm &lt;b>knows&lt;/b>." in texts["md"]
    assert all("Another." not in text for text in texts.values())
    assert list(json.loads(texts["json"])["summary"]) == ["standard", "notice", "text", "findings", "items"]


@pytest.mark.parametrize("form", ["md", "html", "txt"])
def test_the_summary_does_not_disturb_what_is_read_back(form: str) -> None:
    with_page: Any = under("NC")
    without: Any = {key: value for key, value in with_page.items() if key != "summary"}
    assert "Summary" in publish(with_page, form, Labels())
    assert read(publish(with_page, form, Labels()), form) == read(publish(without, form, Labels()), form)


def test_a_house_without_findings_has_a_summary_that_says_so() -> None:
    page = draft("standard: NC\nok: roof\n")["summary"]
    assert page["items"] == [] and page["text"] == "No item of this report belongs on this page."


def test_coverage_tells_what_was_spoken_of_and_what_was_not() -> None:
    covered = under("ASHI")["coverage"]
    said, missing = ids(covered["reported"]), ids(covered["missing"])
    assert {
        "roofing/roof-covering-type",  # described
        "roofing/roof-covering",  # a finding
        "roofing/roof-drainage",  # an upkeep finding
        "roofing/roof-method",  # the header `method`
        "plumbing/water-heater",  # an `ok`
        "fireplaces-fuel-burning/fireplaces-stoves-inserts",  # not present
        "structural/crawl-attic-method",
    } <= said
    assert {"structural/foundation-type", "heating/heating-equipment", "plumbing/water-heater-description"} <= missing
    assert not said & missing
    rows = {row["id"]: row for row in covered["reported"]}
    assert rows["roof-covering-type"]["lines"] == [6] and rows["fireplaces-stoves-inserts"]["lines"] == [13]
    whole = [item for system in store.document(LIBRARY, "practice/ashi-2014")["systems"] for item in system["items"]]
    assert len(covered["reported"]) + len(covered["missing"]) == len(whole)


def test_what_is_to_be_described_is_not_answered_by_a_finding() -> None:
    found = draft("standard: ASHI\nPlumbing\nWH 18 yr old | garage\n")["coverage"]
    assert "plumbing/water-heater" in ids(found["reported"])
    assert "plumbing/water-heater-description" in ids(found["missing"])
    told = draft("standard: ASHI\nPlumbing\nwater heater = gas, 50 gallon | garage\n")["coverage"]
    assert "plumbing/water-heater-description" in ids(told["reported"])


def test_a_place_is_not_what_was_looked_at() -> None:
    found = draft("standard: ASHI\ntested: smoke alarms | basement stairs | sounded\n")["coverage"]
    assert "interiors/interior-steps-stairs-railings" in ids(found["missing"])
    assert "electrical/smoke-co-alarms" in ids(found["reported"])


def test_one_note_counts_what_is_missing() -> None:
    report = under("ASHI")
    (note,) = notes(report, "coverage")
    missing, reported = report["coverage"]["missing"], report["coverage"]["reported"]
    assert f"nothing of {len(missing)} of its {len(missing) + len(reported)} items" in note["text"]
    assert missing[0]["what"] in note["text"] and f"{len(missing) - 5} more" in note["text"]
    (partial,) = notes(under("WA"), "coverage")
    assert "only part of this standard" in partial["text"]


@pytest.mark.parametrize("standard", ["ASHI", "InterNACHI", "NC", "TX", "WA", "nobody's"])
def test_a_report_under_any_standard_fits_the_schema(standard: str) -> None:
    schema = json.loads((schema_folder() / "report.schema.json").read_text(encoding="utf-8"))
    report = under(standard, notices={NC: NOTICE})
    assert not list(Draft202012Validator(schema).iter_errors(json.loads(json.dumps(report))))
    assert report == under(standard, notices={NC: NOTICE})


def test_no_sentence_of_the_summary_stands_anywhere_else() -> None:
    report: Any = under("NC")
    text = publish(report, "txt", Labels())
    for sentence in report["summary"]["text"].split(". "):
        assert text.count(sentence) == 1
