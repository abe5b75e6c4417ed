"""The worked examples of worked-examples.yaml beside this file, through the calculations and the library's criteria.

Each example says where it comes from (`source`): a page that works it out, or arithmetic on a clause. `recalled` marks
those that rest on a figure from memory, to be confirmed before it is relied on.
"""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path
from typing import Any

import pytest
import yaml
from worked_house import HOUSE
from worked_rows import CRITERIA, Rows
from worked_systems import SYSTEMS

FILE = Path(__file__).with_name("worked-examples.yaml")
EXAMPLES: list[dict[str, Any]] = yaml.load(FILE.read_text("utf-8"), yaml.BaseLoader)["examples"]
CALCULATIONS = HOUSE | SYSTEMS


def typed(value: Any) -> Any:
    """A value of the file: a figure exact, `true` and `false`, else a word."""
    if isinstance(value, list):
        return [typed(item) for item in value]
    if value in ("true", "false"):
        return value == "true"
    try:
        return F(value)
    except ValueError:
        return value


def test_all_examples_are_here_and_covered() -> None:
    assert len({example["id"] for example in EXAMPLES}) == len(EXAMPLES) == 85
    assert {example["calculation"] for example in EXAMPLES} == CALCULATIONS.keys()


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example["id"])
def test_example(example: dict[str, Any]) -> None:
    rows = Rows()
    given = {key: typed(value) for key, value in example["inputs"].items()}
    results = CALCULATIONS[example["calculation"]](given, rows)
    for key, value in example["expected"].items():
        expected, ours = typed(value), results[key]
        tolerance = float(example.get("tolerance", {}).get(key, 0))
        if isinstance(expected, bool):
            assert ours is expected, key
        elif tolerance == 0:
            assert ours == expected, key
        else:
            assert float(ours) == pytest.approx(float(expected), abs=tolerance, rel=0), key
    assert rows.used == set(example.get("uses", []))
    assert rows.too_close == set(example.get("too_close", []))


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example["id"])
def test_source_is_named_and_memory_is_said(example: dict[str, Any]) -> None:
    assert example["source"] and example["kind"] in ("published", "arithmetic")
    recalled = any(CRITERIA[name].known_by == "memory" for name in example.get("uses", []))
    assert recalled == (example.get("recalled") == "true")
