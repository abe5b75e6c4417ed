"""Age of equipment against typical service life: where it stands, by each published standard. Never a pass mark."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.calculations.checks import at_least, choice
from narrator.measure.criterion import Criterion
from narrator.measure.units import convert

__all__ = ["Ages", "Standing", "age_from_years", "life_criteria", "standing"]

# Equipment: the rows of typical life, one a standard.
_LIVES = {
    "gas water heater": ("tank-water-heater-gas-age", "water-heater-age-appraisal"),
    "water heater": ("water-heater-age-appraisal",),
    "furnace": ("furnace-age",),
    "air conditioner": ("central-air-conditioner-age",),
    "heat pump": ("heat-pump-age",),
    "asphalt shingle": ("asphalt-shingle-age",),
    "garage door opener": ("garage-door-opener-age",),
}


@dataclass(frozen=True, slots=True)
class Ages:
    """The least and the most whole years that a thing made in one year can be old in another."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Standing:
    """Where an age stands: `place` is `under`, `within` or `past` the typical life, `share` its part of that life.

    `share` is the age over the longest typical life. `source` is the document that gives it.
    """

    place: str
    share: Fraction
    source: str


def age_from_years(made: int, visited: int) -> Ages:
    """The age of a thing from the year of making to the year of the visit, in whole years.

    Formula: most = visited - made; least is one fewer, as months are not known. Source: arithmetic.

    Raises:
        ValueError: made after the visit.
    """
    if made > visited:
        raise ValueError(f"made in {made}, after the visit in {visited}")
    return Ages(max(0, visited - made - 1), visited - made)


def life_criteria(equipment: str) -> tuple[str, ...]:
    """The ids of the rows of typical life for a kind of equipment, one for each standard.

    Source: a study of life expectancy by a builders' association (figures from memory); appraisal depreciation
    guidelines for water heaters (read), which are shorter than field practice.

    Raises:
        ValueError: equipment that has no row.
    """
    return choice(_LIVES, equipment, "equipment")


def standing(age_years: Fraction, life: Criterion) -> Standing:
    """Where `age_years` stands against one row of typical life.

    Formula: under below the (lower) figure, past above the (higher) one, within else. Source: the row's.

    Raises:
        ValueError: an age below zero, or a row that is no typical life.
    """
    at_least(age_years, 0, "the age")
    if life.role != "typical":
        raise ValueError(f"{life.id} is no typical life")
    figures = sorted(convert(figure, life.unit, "year") for figure in life.value)
    place = "under" if age_years < figures[0] else "past" if age_years > figures[-1] else "within"
    return Standing(place, age_years / figures[-1], life.source)
