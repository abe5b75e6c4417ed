"""The review of one report alone: nothing on a clean draft but true matters, and seeded faults found under their names."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import faults
import pytest
from drafting import LIBRARY, draft
from houses import checklist
from jsonschema import Draft202012Validator

from narrator.commands.common import labels_of
from narrator.publish import publish
from narrator.review.matter import KINDS, Matter
from narrator.review.opened import open_text
from narrator.review.solo import review

ROOT = Path(__file__).parents[2]
LABELS = labels_of(LIBRARY)
PAGES = ("md", "html", "txt")
FORMS = (*PAGES, "json")
HOUSES = 30


def look(text: str, form: str) -> tuple[Matter, ...]:
    return review(open_text(text, "x", LABELS, form), LIBRARY, LABELS)


@cache
def example(name: str) -> dict[str, Any]:
    return draft((ROOT / "examples" / name / "checklist.txt").read_text(encoding="utf-8"))


@cache
def houses() -> list[dict[str, Any]]:
    """The drafts that faults are put into: the example with a story, and generated ones."""
    told = (ROOT / "examples" / "stucco-house" / "checklist.txt").read_text(encoding="utf-8")
    return [draft(told), *(draft(checklist(seed)) for seed in range(200, 206))]


def printed(report: dict[str, Any], form: str) -> str:
    return publish(report, form, LABELS)  # type: ignore[arg-type]


def true_matters(report: dict[str, Any]) -> set[tuple[str, int | None]]:
    """What a clean draft leaves to look at, by the value alone: what the draft's own notes and empty fields say."""
    out: set[tuple[str, int | None]] = set()
    said = " ".join([report["inspector"] or "", *report["conditions"].values()]).lower()
    out |= {("header", None)} if "licen" not in said or "agreement" not in report["conditions"] else set()
    out |= {("unsettled", None)} if report["review_notes"] else set()
    against = [set(note["lines"]) for note in report["review_notes"] if note["kind"] == "contradiction"]
    for found in faults.findings(report):
        if found["severity"] == "act-now" and not any(one["acts"] for one in found["instances"]):
            out.add(("notice", found["number"]))
        if found["code"].startswith("own."):
            out.add(("action", found["number"]))
        if any(lines & set(found["lines"]) for lines in against):
            out.add(("contradiction", found["number"]))
        if found["basis"] == "inferred" and not any(one["words"] or one["measures"] for one in found["instances"]):
            out.add(("inferred", found["number"]))
        if found["basis"] == "told" and not all(one["source"] for one in found["instances"]):
            out.add(("told", found["number"]))
    return out


@pytest.mark.parametrize("form", FORMS)
def test_a_clean_draft_gives_true_matters_only(form: str) -> None:
    for report in [example("newer-house"), *(draft(checklist(seed)) for seed in range(HOUSES))]:
        found = {(each.kind, each.number) for each in look(printed(report, form), form)}
        assert found <= true_matters(report), report["property"]


@pytest.mark.parametrize("form", FORMS)
def test_the_example_with_a_story_says_what_is_left_to_do(form: str) -> None:
    found = look(printed(example("stucco-house"), form), form)
    assert {(each.kind, each.number) for each in found} - {("unsettled", None)} == {
        ("notice", 28),
        ("notice", 32),
        ("notice", 34),
        ("photo", None),  # photo 1 shows the front from the street, and the cladding
        ("action", 4),
        ("header", None),
    }
    assert [each.weight for each in found] == sorted(each.weight for each in found)
    assert all(each.text.strip() and each.right.strip() for each in found)


@cache
def seeded() -> tuple[tuple[faults.Fault, str, frozenset[Matter]], ...]:
    """Every fault with its form and what a review says of it beyond the clean draft."""
    out = []
    for form in PAGES:
        pages = [faults.Page(printed(report, form), form, report) for report in houses()]
        clean = [set(look(page.text, form)) for page in pages]
        known = [{(each.kind, each.number, each.text) for each in found} for found in clean]
        for at, maker in enumerate(faults.PAGE):
            draw = Random(at * 7 + len(form))
            order = draw.sample(range(len(pages)), len(pages))
            made = [(which, fault) for which in order if (fault := faults.in_page(pages[which], maker, draw))][:1]
            out += [(fault, form, _new(fault.text, form, known[which])) for which, fault in made]
    for at, report in enumerate(houses()[:2]):
        value = json.loads(json.dumps(report))
        known_here = {(each.kind, each.number, each.text) for each in look(printed(report, "json"), "json")}
        out += [(fault, "json", _new(fault.text, "json", known_here)) for fault in faults.in_json(value, Random(at))]
    return tuple(out)


def _new(text: str, form: str, known: set[tuple[str, int | None, str]]) -> frozenset[Matter]:
    return frozenset(each for each in look(text, form) if (each.kind, each.number, each.text) not in known)


def test_seeded_faults_are_found_under_their_names() -> None:
    every = seeded()
    assert len(every) >= 100
    kinds = {fault.name.split(":")[0].removesuffix(" changed") for fault, _, _ in every}
    assert len(kinds) >= 40
    missed = [(fault.name, form) for fault, form, found in every if not any(each.kind in fault.kinds for each in found)]
    assert len(missed) <= 0.05 * len(every), missed


def test_seeded_faults_raise_no_false_alarm() -> None:
    said = [(fault, each) for fault, _, found in seeded() for each in found]
    false = [
        (fault.name, each) for fault, each in said if each.kind not in fault.kinds and each.number not in fault.numbers
    ]
    assert len(false) <= 0.02 * len(said), false


@pytest.mark.parametrize("form", PAGES)
def test_harmless_edits_say_nothing_new(form: str) -> None:
    tried, alarms = 0, []
    for at, report in enumerate(houses()[:4]):
        page = faults.Page(printed(report, form), form, report)
        known = {(each.kind, each.number) for each in look(page.text, form)}
        for text in faults.harmless(page, Random(at)):
            tried += text != page.text
            alarms += [each for each in look(text, form) if (each.kind, each.number) not in known]
    assert tried >= 20
    assert len(alarms) <= 0.02 * tried, alarms


def test_over_claims_are_found_whatever_they_claim() -> None:
    report = houses()[0]
    page = faults.Page(printed(report, "md"), "md", report)
    for sentence in faults.CLAIMS:
        text = page.added(page.finding(17), sentence)
        assert text
        assert any(each.kind in ("over-claim", "wording") and each.number == 17 for each in look(text, "md")), sentence


def test_each_kind_that_the_schema_names_is_one_of_ours() -> None:
    schema = json.loads((ROOT / "schemas" / "review.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    assert schema["properties"]["matters"]["items"]["properties"]["kind"]["enum"] == list(KINDS)
    assert list(KINDS.values()) == sorted(KINDS.values(), key=lambda each: each.weight)
