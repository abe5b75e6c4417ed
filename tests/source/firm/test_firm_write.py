"""Changing a firm's file in place: the value is there, and every other line is as it was."""

from __future__ import annotations

import difflib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrator.source.firm.emit import edit_text, entry_text
from narrator.source.firm.write import set_value, without
from narrator.source.positions import load

TEXT = """\
# top comment
format: narrator.edit/1
severity: plan  # agreed with J.
# about the reason
why: Short one.
recommendation: |  # ours
  A first line of text that stands here.
  # not a comment
# after it
observation:
  - name: measured   # m
    text: |
      {{ place }}, the gap.
  # between
  - name: looked
    text: "a: b"
trade: {lead: roof, with+: [mason]}
"""
LONG = "A much longer text: with a colon, that goes on for a while so that it stands under its key {{ gap }}."


def lines_gone(new: str) -> list[str]:
    return [line[2:] for line in difflib.ndiff(TEXT.splitlines(), new.splitlines()) if line.startswith("- ")]


@pytest.mark.parametrize(
    ("key", "value", "gone"),
    [
        (("severity",), "upkeep", ["severity: plan  # agreed with J."]),
        (("why",), LONG, ["why: Short one."]),
        (("recommendation",), LONG, TEXT.splitlines()[5:8]),
        (("recommendation",), "Short.", TEXT.splitlines()[5:8]),
        (("observation", "measured", "text"), LONG, ["      {{ place }}, the gap."]),
        (("observation", "looked", "text"), LONG, ['    text: "a: b"']),
        (("observation", "new", "text"), LONG, []),
        (("implication", "x", "text"), LONG, []),
        (("title",), "T", []),
        (("trade", "lead"), "hvac", ["trade: {lead: roof, with+: [mason]}"]),
        (("names+",), ["a b", "c, d"], []),
    ],
)
def test_only_what_was_asked_for_changes(key: tuple[str, ...], value: object, gone: list[str]) -> None:
    new = set_value(TEXT, key, value, "f.yaml")
    assert lines_gone(new) == gone
    comments = [line for line in TEXT.splitlines() if "#" in line and "not a comment" not in line]
    assert all(any(comment.split("#")[1] in line for line in new.splitlines()) for comment in comments)


@pytest.mark.parametrize(
    ("spot", "gone"),
    [
        (("severity",), ["severity: plan  # agreed with J."]),
        (("recommendation",), TEXT.splitlines()[5:8]),
        (("observation", 0, "text"), TEXT.splitlines()[10:13]),
        (("observation", 1), TEXT.splitlines()[14:16]),
        (("trade", "with+"), ["trade: {lead: roof, with+: [mason]}"]),
    ],
)
def test_what_goes_takes_nothing_with_it(spot: tuple[str | int, ...], gone: list[str]) -> None:
    assert lines_gone(without(TEXT, spot, "f.yaml")) == gone


def test_the_first_key_of_an_item_can_go() -> None:
    text = "observation:\n  - text: One.\n    when: {gap: short}\n  - name: b\n    text: Two.\n"
    assert load(without(text, ("observation", 0, "text"), "f"), "f").value["observation"][0] == {"when": {"gap": "short"}}


@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from([("severity",), ("why",), ("recommendation",), ("observation", "measured", "text"), ("trade", "lead"), ("new",)]),
    st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc", "Co", "Cn", "Zl", "Zp")), min_size=1, max_size=200),
)
def test_any_text_reads_back_as_it_was_given(key: tuple[str, ...], value: str) -> None:
    new = load(set_value(TEXT, key, value, "f.yaml"), "f.yaml").value
    for name in key:
        new = new[name] if isinstance(new, dict) else next(item for item in new if item["name"] == name)
    assert " ".join(new.split()) == " ".join(value.split())


def test_a_whole_entry_is_written_in_the_librarys_order() -> None:
    entry = {
        "cases": [{"given": "", "says": ["x"]}],
        "title": "A thing",
        "observation": [{"name": "a", "when": {"gap": "short"}, "text": LONG}, {"text": "Short."}],
        "trade": {"lead": "roof"},
        "format": "narrator.entry/1",
    }
    text = entry_text(entry, "needs review")
    assert text.startswith("# needs review\nformat: narrator.entry/1\ntitle: A thing\n")
    read = load(text, "f").value
    assert list(read) == ["format", "title", "trade", "observation", "cases"]
    assert read["observation"][0]["text"].strip() == LONG and read["cases"] == entry["cases"]


def test_a_new_edit_file_reads_back() -> None:
    read = load(edit_text({"severity": "plan", "observation": [{"name": "a", "text": LONG}]}, "one\ntwo"), "f").value
    assert read["severity"] == "plan" and read["observation"][0]["text"].strip() == LONG
