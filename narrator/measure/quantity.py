"""A measured value as it was typed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from narrator.measure import units

__all__ = ["Found", "Quantity"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure with its unit.

    `low` and `high` are equal unless a range was typed. `unit` is an id of the units table, `''` if none was
    typed; `date` means that both figures are a calendar year. `bound` is `''`, `~` (about), `<` or `>`. For
    `n of m` both figures are n and `of` is m. `text` is exactly what was typed.
    """

    low: Fraction
    high: Fraction
    unit: str = ""
    bound: str = ""
    of: Fraction | None = None
    text: str = ""

    @property
    def dimension(self) -> str:
        """The dimension of the unit, such as `length`; `''` if no unit was typed."""
        return units.dimension(self.unit)

    @property
    def is_range(self) -> bool:
        """Whether two different figures were typed."""
        return self.low != self.high


class Found(NamedTuple):
    """A quantity and the half-open span of characters that it takes in the scanned text."""

    quantity: Quantity
    start: int
    end: int
