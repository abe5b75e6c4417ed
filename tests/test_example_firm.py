"""The example firm: its draft differs from the base draft exactly where an edit says so, and its settings do what they say."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

from narrator.commands.common import labels_of, read_any
from narrator.pipeline import draft_checklist
from narrator.publish import publish
from narrator.source.firm.check import base_files, check_firm
from narrator.source.firm.layers import layers_of, read_firm
from narrator.source.index import Index
from narrator.source.store import compile_firm, open_library, packaged_root

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
FIRM = EXAMPLES / "firms" / "tarn-and-thistle"
HOUSE = EXAMPLES / "stucco-house" / "checklist.txt"
FIELDS = ("title", "severity", "why", "observation", "implication", "recommendation", "trades", "ask", "limits")


@pytest.fixture(scope="module")
def firm() -> Index:
    return compile_firm(packaged_root(), FIRM)


@pytest.fixture(scope="module")
def wording_only(tmp_path_factory: pytest.TempPathFactory) -> Index:
    """The firm's edits alone, without its units, terms and other settings."""
    root = tmp_path_factory.mktemp("firm") / "firm"
    shutil.copytree(FIRM, root)
    (root / "firm.yaml").write_text("format: narrator.firm/1\nname: Tarn & Thistle\n", encoding="utf-8")
    return compile_firm(packaged_root(), root)


def drafted(path: Path, index: Index) -> dict[str, Any]:
    return draft_checklist(read_any(str(path), None, index), index)  # type: ignore[return-value]


def findings(report: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {finding["id"]: finding for section in report["sections"] for finding in section["findings"]}


def shown(finding: dict[str, Any], field: str) -> Any:
    """A field without what depends on the order of findings: numbers, and the terms explained at their first use."""
    if field == "limits":
        return [(limit["id"], limit["text"]) for limit in finding["limits"]]
    if field not in ("observation", "implication", "recommendation"):
        return finding[field]
    spans = [span for span in finding["trace"] if span["field"] == field and span["kind"] not in ("gloss", "number")]
    return "".join(finding[field][span["start"] : span["end"]] for span in spans)


def expected(report: dict[str, Any]) -> set[tuple[str, str]]:
    """(finding, field) that the firm's edits reach in this report."""
    layers = layers_of(base_files(packaged_root()), read_firm(FIRM))
    out: set[tuple[str, str]] = set()
    for name, finding in findings(report).items():
        said = {span["ref"] for span in finding["trace"] if span["kind"] == "text"}
        for edit in layers.edits:
            field = {"trade": "trades"}.get(edit.key[0], edit.key[0])
            if edit.target == finding["code"] and field in FIELDS:
                wording = f"{finding['code']}:{field}:{edit.key[1]}" if len(edit.key) > 2 else ""
                raised = field == "severity" and finding["why"] != layers.files.entries[finding["code"]].value["why"]
                if (not wording or wording in said) and not raised:
                    out.add((name, field))
            if edit.target == "limits" and any(limit["id"] == edit.key[1] for limit in finding["limits"]):
                out.add((name, "limits"))
    return out


def test_the_draft_differs_exactly_where_an_edit_says_so(wording_only: Index, library: Index) -> None:
    base, ours = drafted(HOUSE, library), drafted(HOUSE, wording_only)
    old, new = findings(base), findings(ours)
    assert set(old) == set(new)
    differ = {(name, field) for name in old for field in FIELDS if shown(old[name], field) != shown(new[name], field)}
    assert differ == expected(ours)
    assert len(differ) >= 20
    for name, finding in new.items():  # and every sentence that differs names the firm's file
        for field in ("observation", "implication", "recommendation"):
            files = {span["file"] for span in finding["trace"] if span["field"] == field and span["kind"] == "text"}
            assert any(str(file).startswith("firm/") for file in files) == ((name, field) in differ)


def test_what_is_no_finding_stays(wording_only: Index, library: Index) -> None:
    base, ours = drafted(HOUSE, library), drafted(HOUSE, wording_only)
    for key in ("header_lines", "headings", "notes", "photos", "unresolved", "unseen", "terms", "library", "review_window"):
        assert base[key] == ours[key], key
    for old, new in zip(base["sections"], ours["sections"], strict=True):
        assert [old[key] for key in ("system", "descriptions", "results", "statuses")] == [
            new[key] for key in ("system", "descriptions", "results", "statuses")
        ]
    old_words, new_words = ({item["term"]: item["text"] for item in report["glossary"]} for report in (base, ours))
    assert {term for term in old_words if old_words[term] != new_words[term]} == {"kick-out flashing"}


def test_the_firm_has_twenty_five_edits_and_nothing_to_mend() -> None:
    found = check_firm(base_files(packaged_root()), FIRM)
    assert not found.faults
    assert found.edits == 25 and found.own == 1
    assert found.lock is None  # the lock beside it is of this library


def test_its_settings_do_what_they_say(firm: Index) -> None:
    report = drafted(HOUSE, firm)
    text = publish(report, "md", labels_of(firm))  # type: ignore[arg-type]
    found = findings(report)
    gap = found["walls.stucco.no-roof-gap"]["instances"][0]["measures"][0]
    assert (gap["text"], gap["unit"], gap["value"]) == ("6 mm", "millimeter", 6.35)
    assert "25 to 51 mm is common" in found["walls.stucco.no-roof-gap"]["observation"]
    assert "59 °C" in found["plumbing.water-heater.too-hot"]["observation"]
    assert " inch" not in " ".join(
        finding[field] for finding in found.values() for field in ("observation", "implication") if "“" not in finding[field]
    )
    assert [term["id"] for term in report["terms"]] == ["statutory", "scope", "liability"]
    assert report["standard"] == "Brackwater Practice Rules"
    assert [section["system"] for section in report["sections"]][:3] == ["roof", "walls", "site"]
    assert report["review_window"]["text"].endswith("Your contract calls this the answer day.")
    assert "## Your deadline: the answer day" in text
    assert "put it in the budget" in text and "plan the repair" not in text
    assert "call first: chartered engineer" not in text.lower()
    assert report["firm"]["name"] == "Tarn & Thistle Home Inspection" and len(report["firm"]["fingerprint"]) == 16


@pytest.mark.parametrize("form", ["md", "html", "txt"])
def test_the_grades_print_in_its_words_everywhere(form: str, firm: Index) -> None:
    text = publish(drafted(HOUSE, firm), form, labels_of(firm))  # type: ignore[arg-type]
    for words in ("before anyone uses it", "ask before the answer day", "put it in the budget", "in your first year"):
        assert words in text
    for words in ("act now", "find out before you decide", "plan the repair"):
        assert words not in text.lower().replace("to find out before you decide", "")


def test_its_own_export_is_read_by_its_column_names(firm: Index) -> None:
    report = drafted(FIRM / "visit.csv", firm)
    assert not report["unresolved"]
    assert report["inspector"] == "Jonas Thistle"
    assert report["firm"]["inspector"] == {
        "initials": "JT",
        "name": "Jonas Thistle",
        "licence": "BW-0204",
        "signature": "Jonas Thistle, home inspector",
    }
    codes = {finding["code"]: finding for finding in findings(report).values()}
    assert "roof.gutter.heat-cable-loose" in codes
    assert codes["roof.shingles.curled"]["photos"] == [4, 5]
    assert codes["plumbing.water-heater.too-hot"]["places"] == ["boot room"]
    assert not [note for note in report["review_notes"] if note["kind"] == "firm"]


def test_without_a_firm_its_export_is_not_guessed_at() -> None:
    index = open_library()
    report = drafted(FIRM / "visit.csv", index)
    assert report["firm"] is None


def test_the_same_again_is_the_same_bytes(firm: Index) -> None:
    again = compile_firm(packaged_root(), FIRM)
    texts = [publish(drafted(HOUSE, index), "json", labels_of(index)) for index in (firm, again)]  # type: ignore[arg-type]
    assert texts[0] == texts[1]


def test_the_report_fits_its_schema(firm: Index) -> None:
    import json

    from jsonschema import Draft202012Validator

    from narrator.source.schema import schema_folder

    schema = json.loads((schema_folder() / "report.schema.json").read_text(encoding="utf-8"))
    for path in (HOUSE, FIRM / "visit.csv"):
        text = publish(drafted(path, firm), "json", labels_of(firm))  # type: ignore[arg-type]
        assert not list(Draft202012Validator(schema).iter_errors(json.loads(text)))
