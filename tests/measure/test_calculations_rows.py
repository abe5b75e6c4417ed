"""Calculations that say which row of the criteria applies, and figures in code that the criteria files also hold."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest
import yaml

from narrator.measure.calculations import (
    age,
    chimney,
    decks,
    drainage,
    dryer,
    electrical,
    guards,
    insulation,
    openings,
    slopes,
    structure,
    stucco,
    ventilation,
)
from narrator.measure.criterion import Criterion, from_mapping

LIBRARY = Path(__file__).parents[2] / "library" / "criteria"
ROWS: dict[str, Criterion] = {
    row.id: row
    for path in sorted(LIBRARY.glob("*.yaml"))
    for row in map(from_mapping, yaml.safe_load(path.read_text("utf-8"))["criteria"])
}
COVERINGS = (
    "asphalt shingle", "clay tile", "concrete tile", "metal shingle", "slate", "wood shingle", "wood shake",
    "lapped metal panel", "sealed metal panel", "standing seam", "built-up", "coal tar", "membrane", "roll roofing",
)  # fmt: skip
CONDUCTORS = [
    (14, "copper"),
    (12, "copper"),
    (10, "copper"),
    (8, "copper"),
    (6, "copper"),
    (12, "aluminum"),
    (10, "aluminum"),
]


def limits() -> set[str]:
    """All ids of limits that a calculation may give."""
    found = {name for covering in COVERINGS for name in slopes.covering_criteria(covering) if name}
    found |= {name for place in ("floor", "stair", "stair triangle") for name in guards.guard_criteria(place)}
    found |= {openings.egress_area_criterion(sill) for sill in (None, F(40))}
    found |= {ventilation.attic_vent_criterion(share) for share in (None, F(45))}
    found |= {ventilation.crawl_vent_criterion(cover) for cover in (True, False)}
    found |= {drainage.drain_slope_criterion(F(size)) for size in (2, 3)}
    found |= {drainage.trap_arm_criterion(F(size)) for size in ("5/4", "3/2", 2, 3, 4)}
    found |= {drainage.trap_arm_criterion(F(size), "upc") for size in ("5/4", "3/2", 2, 3)}
    found |= {electrical.conductor_criterion(*wire, column) for wire in CONDUCTORS for column in (60, 75)}
    found |= {electrical.service_drop_criterion(F(slope), F(240)) for slope in (3, 4)}
    found |= {electrical.service_drop_criterion(F(4), F(240), overhang=True)}
    found |= {stucco.panel_area_criterion(flat) for flat in (True, False)}
    found |= {decks.ledger_spacing_criterion(F(span), kind) for span in range(1, 19) for kind in ("lag", "bolt")}
    found |= {insulation.ceiling_criterion(zone, year) for zone in range(1, 9) for year in ("2021", "2018")}
    found |= {insulation.ceiling_criterion(zone, "2009") for zone in (1, 2, 3)}
    found |= {insulation.wall_criterion(zone) for zone in range(1, 9)}
    found |= {insulation.wall_criterion(zone, "2018") for zone in range(1, 6)}
    found |= {insulation.floor_criterion(zone) for zone in range(1, 9)}
    found |= {name for area in (5, 6) for name in chimney.hearth_criteria(F(area))}
    return found


def test_every_limit_is_in_the_library_and_judges() -> None:
    assert limits() <= ROWS.keys()
    assert all(ROWS[name].judges for name in limits())


@pytest.mark.parametrize(
    "family",
    ["trap-arm-length-", "breaker-", "deck-ledger-lag-", "deck-ledger-bolt-", "ceiling-r-", "wall-r-", "floor-r-",
     "hearth-extension-", "service-drop-above-roof", "service-drop-above-steep", "service-drop-above-overhang"],
)  # fmt: skip
def test_every_row_of_a_family_can_be_reached(family: str) -> None:
    rows = {name for name in ROWS if name.startswith(family) and name != "breaker-handle-height"}
    assert rows and rows <= limits()


def test_factors_and_typical_lives() -> None:
    elbows = {dryer.elbow_criterion(kind, angle) for kind in ("mitered", "smooth6", "smooth8") for angle in (45, 90)}
    assert elbows == {name for name, row in ROWS.items() if row.role == "factor"}
    kinds = ("gas water heater", "water heater", "furnace", "air conditioner", "heat pump", "asphalt shingle",
             "garage door opener")  # fmt: skip
    lives = {name for kind in kinds for name in age.life_criteria(kind)}
    assert lives == {name for name, row in ROWS.items() if row.role == "typical"}


def test_the_row_that_fits_the_case() -> None:
    assert slopes.covering_criteria(" Asphalt Shingles") == slopes.covering_criteria("asphalt shingle")
    assert slopes.covering_criteria("slate") == ("slope-slate", "")
    assert openings.egress_area_criterion(F(44)) == "egress-opening-area-grade-floor"
    assert openings.egress_area_criterion(F(45)) == openings.egress_area_criterion(None) == "egress-opening-area"
    assert drainage.drain_slope_criterion(F(5, 2)) == "drain-slope-small"
    assert drainage.drain_slope_criterion(F(6)) == "drain-slope-medium"
    assert electrical.conductor_criterion(12, "copper", 75) == "breaker-copper-12-awg"
    assert electrical.conductor_criterion(8, "copper", 75) == "breaker-copper-8-awg-75c"
    assert electrical.service_drop_criterion(F(12), F(480), overhang=True) == "service-drop-above-roof"
    assert decks.ledger_spacing_criterion(F(25, 2), "bolt") == "deck-ledger-bolt-spacing-14ft"
    assert insulation.ceiling_criterion(4) == "ceiling-r-2021-zones-4-8"
    assert insulation.floor_criterion(4) == "floor-r-zones-3-4"
    assert insulation.floor_criterion(4, marine=True) == "floor-r-zones-5-6"
    assert chimney.hearth_criteria(F(6))[0] == "hearth-extension-front-large"
    assert chimney.hearth_criteria(F("5.99")) == ("hearth-extension-front-small", "hearth-extension-side-small")


@pytest.mark.parametrize(
    ("share", "cold", "retarder", "reduced"),
    [
        (None, False, True, False),
        (F(39), False, False, False),
        (F(40), False, False, True),
        (F(50), True, True, True),
        (F(50), True, False, False),
        (F(51), False, True, False),
    ],
)
def test_when_an_attic_may_have_the_smaller_area(share: F | None, cold: bool, retarder: bool, reduced: bool) -> None:
    name = ventilation.attic_vent_criterion(share, cold_zone=cold, vapor_retarder=retarder)
    assert ROWS[name].value == ((F(1, 300),) if reduced else (F(1, 150),))


def test_figures_in_code_are_those_of_the_rows() -> None:
    """Conditions and bands stand in code where several figures decide together; here against the criteria files."""
    bands = {
        grade: next(row for name, row in ROWS.items() if name.startswith(f"crack-grade-{grade}-")) for grade in range(6)
    }
    for grade in range(5):
        assert structure.crack_grade(bands[grade].value[-1]) == grade
    assert structure.crack_grade(bands[5].value[0]) == 4 and not bands[5].inclusive
    area, bottom = ROWS["safety-glass-pane-area"].value[0], ROWS["safety-glass-bottom-edge"].value[0]
    assert not openings.large_pane_hazard(area, bottom - 1, F(70), F(12))
    assert not openings.large_pane_hazard(area + 1, bottom, F(70), F(12))
    assert openings.large_pane_hazard(area + 1, bottom - 1, F(70), F(12))
    low, high = ROWS["attic-vent-high-share"].value
    assert ventilation.attic_vent_criterion(low) == ventilation.attic_vent_criterion(high)
    assert ventilation.attic_vent_criterion(high + 1) != ventilation.attic_vent_criterion(high)
    table = ROWS["whole-house-vent-1501-3000-sf-2-3-bed"].value[0]
    assert {ventilation.whole_house_airflow_table(F(area), beds) for area in (1501, 3000) for beds in (2, 3)} == {table}
    assert chimney.gas_vent_height(F(6)) == ROWS["gas-vent-height-by-pitch"].value[0]
    assert chimney.mantel_projection(ROWS["fireplace-combustible-trim"].value[0]) == F(6, 8)
