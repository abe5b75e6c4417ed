"""How moisture meters show readings, and conversions easily got wrong, against moisture-facts.yaml beside this file.

Rows whose known_by is memory (the last ones of number_formatting, field-note practice) are recalled, not read: they
only tell which typed forms the scanner must cope with.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml

from narrator.measure.quantity import Quantity
from narrator.measure.scan import parse_value, scan
from narrator.measure.show import show_value
from narrator.measure.units import convert
from narrator.measure.verdict import from_mapping, judge

FACTS: dict[str, Any] = yaml.safe_load((Path(__file__).parent / "moisture-facts.yaml").read_text("utf-8"))
FORMATS = FACTS["number_formatting"]
UNITS = {"degC": "degC", "degF": "degF", "Pa": "pascal", "ft": "foot", "mm": "millimeter", "psi": "psi"}


def test_every_source_is_named() -> None:
    for row in FORMATS + FACTS["unit_checks"]:
        assert FACTS["sources"][row["source"]]["title"]


@pytest.mark.parametrize("row", [row for row in FORMATS if row["unit"].startswith("percent")], ids=lambda r: r["what"])
def test_percent_figures_print_and_read_back(row: dict[str, Any]) -> None:
    value = Fraction(str(row["value"]))
    printed = show_value(value, "percent")
    assert printed == f"{row['value']:g} %"
    assert parse_value(printed) == Quantity(value, value, "percent", text=printed)


@pytest.mark.parametrize(("value", "printed"), [(10000.0, "10,000 ohms"), (1000000000000.0, "1,000,000,000,000 ohms")])
def test_resistance_of_the_conductance_range(value: float, printed: str) -> None:
    assert value in [row["value"] for row in FORMATS if row["unit"] == "ohm"]
    assert show_value(Fraction(value), "ohm") == printed


@pytest.mark.parametrize(
    "shown", [row["value"] for row in FORMATS if row["unit"] == "display text" and isinstance(row["value"], str)]
)
def test_display_words_are_no_figure(shown: str) -> None:
    assert scan(shown) == ()


@pytest.mark.parametrize(
    ("typed", "low", "high", "bound"), [(">40", 40, 40, ">"), ("<6", 6, 6, "<"), ("14-22", 14, 22, "")]
)
def test_field_notes_of_memory(typed: str, low: int, high: int, bound: str) -> None:
    """`>40`, `<6` and `14-22` as in the notes of the recalled rows."""
    assert any(typed in row.get("note", "") for row in FORMATS if row["known_by"] == "memory")
    assert parse_value(typed) == Quantity(Fraction(low), Fraction(high), "", bound, None, typed)


@pytest.mark.parametrize("typed", ["OL", "OR", "HI", "LO", "N/R", "NR", "--", "---", "NT", "N/A"])
def test_no_reading_is_never_a_figure(typed: str) -> None:
    assert scan(typed) == ()


def test_the_recorded_figure_is_compared_and_then_rounded() -> None:
    """19.4 prints as 19 to the whole but is over 19: the verdict is on what was recorded."""
    limit = from_mapping(
        {
            "id": "wood-limit", "system": "moisture", "role": "limit", "element": "wood", "quantity": "moisture",
            "comparison": "max", "value": 19, "unit": "percent", "known_by": "memory",
            "source": {"document": "a limit made up for this test"},
        }
    )  # fmt: skip
    for typed, verdict in (("18.6 %", "meets"), ("19 %", "meets"), ("19.4 %", "over"), ("19.6 %", "over")):
        reading = parse_value(typed)
        assert reading is not None
        assert judge(reading, limit) == verdict
        assert judge(replace(reading, low=reading.low, high=reading.high), limit, Fraction(3, 2)) == "too close"


@pytest.mark.parametrize("row", FACTS["unit_checks"], ids=lambda row: f"{row['from']} {row['from_unit']}")
def test_unit_checks(row: dict[str, Any]) -> None:
    value, start, end = Fraction(str(row["from"])), row["from_unit"], row["unit"]
    if "per degC" in start:  # so much per degree: the degree is a difference
        ours = value * convert(Fraction(1), "delta_degF", "delta_degC")
    else:
        ours = convert(value, UNITS.get(start, start), UNITS.get(end, end))
    assert float(ours) == pytest.approx(row["value"], abs=0.06 if end == "Pa" else 0.00006)
