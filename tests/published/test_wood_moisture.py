"""What wood holds in equilibrium with air, and corrections of a meter, against wood-moisture.yaml beside this file.

The file says for each block its source and how it is known. `grid_read` are the 192 cells of the handbook's table that
were read in a copy; `grid_memory` are recalled, to be confirmed. The table looks as if it was made with the equation,
so agreement shows that the arithmetic is right, not that wood does so.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from narrator.measure.wood import (
    GARRAHAN_SPECIES,
    correct_reading,
    dry_basis,
    equilibrium_moisture,
    humidity_for_moisture,
    moisture_content,
    wet_basis,
)

FACTS: dict[str, Any] = yaml.safe_load((Path(__file__).parent / "wood-moisture.yaml").read_text("utf-8"))


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


def cells(block: str) -> list[tuple[float, float, float]]:
    return [(row, column, value) for row, cells in FACTS[block].items() for column, value in cells.items()]


def si_equilibrium(degrees: float, humidity: float) -> float:
    """The same equation with the other published set of coefficients, in degrees Celsius (source WH-EQ)."""
    w, k, k1, k2 = (sum(c * degrees**n for n, c in enumerate(FACTS["si"][name])) for name in ("W", "K", "K1", "K2"))
    kh = k * humidity / 100
    bound = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + bound)


def test_the_192_read_cells() -> None:
    """Source WH-T42, read: within 0.1, most of them exactly to the printed digit."""
    rows = cells("grid_read")
    assert len(rows) == 192
    gaps = [abs(equilibrium_moisture(celsius(t), rh) - value) for t, rh, value in rows]
    assert max(gaps) <= 0.1
    assert sum(round(equilibrium_moisture(celsius(t), rh), 1) == value for t, rh, value in rows) >= 179


def test_the_recalled_cells() -> None:
    """Source WH-T42, known by memory: a hint, no proof."""
    rows = cells("grid_memory")
    assert len(rows) == 47
    assert all(abs(equilibrium_moisture(celsius(t), rh) - value) <= 0.1 for t, rh, value in rows)


def test_the_misprint_of_the_copy_is_not_followed() -> None:
    """The copy of WH-T42 prints 3.0 at 110 °F and 20 percent; 4.0 is recalled and lies between its neighbours."""
    assert 20 not in FACTS["grid_read"][110]
    assert equilibrium_moisture(celsius(110), 20) == pytest.approx(FACTS["grid_memory"][110][20], abs=0.1)


@pytest.mark.parametrize(("t", "rh", "value"), cells("grid_celsius"))
def test_computed_from_the_other_coefficients(t: float, rh: float, value: float) -> None:
    """Source CALC-EQ, computed to two places."""
    assert si_equilibrium(t, rh) == pytest.approx(value, abs=0.0051)
    assert equilibrium_moisture(t, rh) == pytest.approx(value, abs=0.0051 + 0.015)


@pytest.mark.parametrize("row", FACTS["si_gap"])
def test_the_two_sets_of_coefficients_agree(row: dict[str, Any]) -> None:
    """Source CALC-EQ, computed: the largest gap between them."""
    (cold, hot), (dry, wet) = row["degrees_f"], row["humidity"]
    gaps = [
        abs(equilibrium_moisture(celsius(t), rh) - si_equilibrium(celsius(t), rh))
        for t in range(cold, hot + 1)
        for rh in range(dry, wet + 1)
    ]
    assert max(gaps) == pytest.approx(row["gap"], abs=0.0006)


@pytest.mark.parametrize(("t", "moisture", "value"), cells("inverse"))
def test_inverse(t: float, moisture: float, value: float) -> None:
    """Source CALC-EQ, computed to two places."""
    humidity = humidity_for_moisture(celsius(t), moisture)
    assert humidity == pytest.approx(value, abs=0.0051)
    assert equilibrium_moisture(celsius(t), humidity) == pytest.approx(moisture, abs=1e-9)


@pytest.mark.parametrize("row", FACTS["checks"], ids=lambda row: f"{row['source']} {row['humidity']}")
def test_loose_checks(row: dict[str, Any]) -> None:
    ours = equilibrium_moisture(celsius(row["degrees_f"]), row["humidity"])
    assert ours == pytest.approx(row["moisture"], abs=row["tolerance"])


def test_bases_and_weighing() -> None:
    for row in FACTS["wet_basis"]:
        assert wet_basis(row["dry"]) == pytest.approx(row["wet"], abs=row["tolerance"])
        assert dry_basis(wet_basis(row["dry"])) == pytest.approx(row["dry"])
    weighed = FACTS["weighed"]
    assert moisture_content(weighed["wet"], weighed["dry"]) == weighed["moisture"]


@pytest.mark.parametrize("row", FACTS["garrahan"], ids=lambda row: f"{row['species'] or 'none'} {row['celsius']}")
def test_garrahan(row: dict[str, Any]) -> None:
    """Source GARRAHAN: the equation was read second hand, its credit is from memory; the values are computed."""
    for reading, value in row["corrected"].items():
        ours = correct_reading(reading, row["celsius"], "garrahan", species=row["species"])
        assert ours.value == pytest.approx(value, abs=0.0051)
        assert (ours.raw, ours.method, ours.celsius) == (reading, "garrahan", row["celsius"])


def test_garrahan_corrects_nothing_at_its_own_temperature() -> None:
    nil = FACTS["garrahan_nil_at"]
    assert correct_reading(nil["reading"], nil["celsius"], "garrahan").value == pytest.approx(nil["reading"], abs=0.01)


def test_garrahan_against_the_james_chart() -> None:
    """Source GTR6-F5 as digitised by a third party, for comparison only: same sign, 16 to 42 percent smaller."""
    shares = []
    for degrees in (-10, 0, 10, 30, 40, 50):
        for reading, add in FACTS["james"][degrees].items():
            if reading == 18:
                continue
            ours = correct_reading(reading, degrees, "garrahan").value - reading
            shares.append(1 - ours / add)
    assert min(shares) >= 0.16 and max(shares) <= 0.42


def test_james_example_between_rows() -> None:
    """The example stated with the chart, by straight lines: it checks the digitised points, nothing built in."""
    example, rows = FACTS["james_example"], FACTS["james"]
    t, reading = celsius(example["degrees_f"]), example["reading"]
    add = rows[45][reading] + (rows[50][reading] - rows[45][reading]) * (t - 45) / 5
    assert reading + add == pytest.approx(example["between_rows"], abs=0.005)
    assert reading + add == pytest.approx(example["corrected"], abs=0.3)
    with pytest.raises(ValueError, match="'james' is not a correction"):
        correct_reading(reading, t, "james")


def test_rates_of_manuals() -> None:
    """Each rate as read in the manual or report named; 20 °C is the reference."""
    for row in FACTS["rates"]:
        cold = correct_reading(15, 10, "per degree", per_degree=row["rate"])
        warm = correct_reading(15, 30, "per degree", per_degree=row["rate"])
        assert cold.value - 15 == pytest.approx(10 * row["rate"]) == pytest.approx(15 - warm.value)
    row = FACTS["rate_example"]
    assert 15 - correct_reading(15, row["celsius"], "per degree", per_degree=row["rate"]).value == row["too_high"]


def test_one_manual_follows_no_single_rate() -> None:
    """Source MAN-TRAMEX, read: whole numbers that straight lines of one rate miss, so its table is not imitated."""
    rates = {(row["reading"] - row["corrected"]) / (row["celsius"] - 20) for row in FACTS["tramex"]}
    assert len(rates) == 2


def test_only_species_with_constants_that_were_found() -> None:
    assert set(GARRAHAN_SPECIES) == {row["species"].lower() for row in FACTS["garrahan"] if row["species"]}


def test_every_source_is_named() -> None:
    named = [row["source"] for key in ("checks", "wet_basis", "rates", "tramex") for row in FACTS[key]]
    named += [FACTS[key]["source"] for key in ("weighed", "garrahan_nil_at", "rate_example")]
    assert all(FACTS["sources"][name]["title"] for name in named)
