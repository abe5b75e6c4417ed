"""JSON with places: the same values as others read, and a fault at the place for all else."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrator.errors import NarratorError
from narrator.source.json_positions import load_json

LEAVES = st.one_of(st.none(), st.booleans(), st.text(max_size=8))
VALUES: st.SearchStrategy[Any] = st.recursive(
    LEAVES,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(st.text(max_size=5), inner, max_size=4)),
    max_leaves=12,
)


@settings(deadline=None)
@given(VALUES, st.booleans(), st.sampled_from([None, 0, "\t"]))
def test_values_are_read_as_others_read_them(value: Any, ascii_only: bool, indent: Any) -> None:
    found = load_json(json.dumps(value, ensure_ascii=ascii_only, indent=indent), "x")
    assert found.value == value


def test_places_and_numbers() -> None:
    found = load_json('{\r\n "a": [1.50,\t-2e3],\r\n\t"b": {"c": true}}', "x")
    assert found.value == {"a": ["1.50", "-2e3"], "b": {"c": True}}
    assert [found.places[key] for key in (("a",), ("a", 1), ("b", "c"))] == [(2, 2), (2, 14), (3, 8)]


@pytest.mark.parametrize(
    ("text", "place", "said"),
    [
        ("", (1, 1), "it is empty"),
        ('{"a": 1,\n}', (1, 8), "take out this comma"),
        ("[1\n2]", (2, 1), "a comma or `]`"),
        ('{"a": [1,', (1, 10), "the file ends where a value"),
        ('{"a": [1', (1, 9), "the bracket of line 1, column 7 is not closed"),
        ("{a: 1}", (1, 2), "'a' is not"),
        ("[01]", (1, 2), "needs double quotation marks"),
        ("[NaN]", (1, 2), "needs double quotation marks"),
        ("// x\n{}", (1, 1), "no comments"),
        ("{} {}", (1, 4), "belongs to nothing"),
        ('["a\nb"]', (1, 4), "must end on its own line"),
        ('["a', (1, 2), "never closed"),
        ('["\\x"]', (1, 3), "backslash"),
        ('["\\udc00"]', (1, 2), "half a character"),
        ('{"a": 1, "a": 2}', (1, 10), "stands twice (first on line 1)"),
        ('{"a" 1}', (1, 6), "a colon is needed"),
    ],
)
def test_faults(text: str, place: tuple[int, int], said: str) -> None:
    with pytest.raises(NarratorError) as caught:
        load_json(text, "x")
    fault = caught.value.faults[0]
    assert (fault.pos.line, fault.pos.column) == place
    assert said in fault.message
