"""The rows of the library's criteria, as the worked examples use them."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import yaml

from narrator.measure.criterion import Criterion, from_mapping
from narrator.measure.quantity import Quantity
from narrator.measure.units import convert
from narrator.measure.verdict import judge

LIBRARY = Path(__file__).parents[2] / "library" / "criteria"
CRITERIA: dict[str, Criterion] = {
    row.id: row
    for path in sorted(LIBRARY.glob("*.yaml"))
    for row in map(from_mapping, yaml.safe_load(path.read_text("utf-8"))["criteria"])
}

Inputs = dict[str, Any]
Results = dict[str, Any]


@dataclass
class Rows:
    """The criteria of the library, remembering which were used and where published figures leave the verdict open."""

    used: set[str] = field(default_factory=set)
    too_close: set[str] = field(default_factory=set)

    def row(self, name: str) -> Criterion:
        self.used.add(name)
        return CRITERIA[name]

    def figure(self, name: str, unit: str = "") -> F:
        row = self.row(name)
        return convert(row.value[0], row.unit, unit or row.unit)

    def verdict(self, name: str, value: F | float, unit: str) -> str:
        row = self.row(name)
        quantity = Quantity(F(value), F(value), unit)
        verdict = judge(quantity, row)
        if verdict == "too close":
            assert row.spread, name
            self.too_close.add(name)
            verdict = judge(quantity, replace(row, spread=()))
        return verdict

    def meets(self, name: str, value: F | float, unit: str) -> bool:
        return self.verdict(name, value, unit) == "meets"
