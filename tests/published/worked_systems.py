"""How the calculations of its systems take the inputs of a worked example: air, water, electricity, heat."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction as F

from worked_rows import CRITERIA, Inputs, Results, Rows

from narrator.measure.calculations import (
    chimney,
    combustion,
    drainage,
    dryer,
    electrical,
    heating,
    plumbing,
    slopes,
    ventilation,
)
from narrator.measure.units import convert


def attic_vents(given: Inputs, rows: Rows) -> Results:
    area = given.get("attic_area_ft2") or given["attic_length_ft"] * given["attic_width_ft"]
    share = F(50) if given["ratio"] == 300 else None
    needed = ventilation.net_free_area(area, rows.figure(ventilation.attic_vent_criterion(share)))
    inches = convert(needed, "foot**2", "inch**2")
    half, eaves = ventilation.split_vents(inches), ventilation.split_vents(inches, low_rows=2)
    results: Results = {
        "nfa_ft2": needed,
        "nfa_in2": inches,
        "each_side_in2": half.each_low,
        "ridge_in2": eaves.high,
        "each_eave_in2": eaves.each_low,
    }
    if "ridge_vent_in2_per_ft" in given:
        results["ridge_vent_ft"] = ventilation.vent_length(half.high, given["ridge_vent_in2_per_ft"])
    return results


def attic_vents_high_share(given: Inputs, rows: Rows) -> Results:
    needed = ventilation.net_free_area(given["attic_area_ft2"], rows.figure("attic-vent-area-ratio-reduced"))
    low, high = rows.row("attic-vent-high-share").value
    inches = convert(needed, "foot**2", "inch**2")
    shares = [ventilation.split_vents(inches, share / 100).high for share in (low, high)]
    return {"nfa_in2": inches, "upper_min_in2": shares[0], "upper_max_in2": shares[1]}


def crawl_space_vents(given: Inputs, rows: Rows) -> Results:
    bare, covered = (
        ventilation.net_free_area(given["floor_area_ft2"], rows.figure(ventilation.crawl_vent_criterion(cover)))
        for cover in (False, True)
    )
    return {
        "without_cover_ft2": bare,
        "with_cover_ft2": covered,
        "with_cover_in2": convert(covered, "foot**2", "inch**2"),
    }


def elbows(given: Inputs, rows: Rows) -> list[tuple[int, F]]:
    found = []
    for kind in ("mitered", "smooth6", "smooth8"):
        for degrees in (45, 90):
            if f"{kind}_{degrees}" in given:
                each = rows.figure(dryer.elbow_criterion(kind, degrees), "foot")
                found.append((int(given[f"{kind}_{degrees}"]), each))
    return found


def dryer_straight_left(given: Inputs, rows: Rows) -> Results:
    limit = rows.figure("dryer-duct-length", "foot")
    assert limit == given["base_ft"]
    return {"allowable_straight_ft": dryer.allowable_straight(limit, elbows(given, rows))}


def dryer_equivalent(given: Inputs, rows: Rows) -> Results:
    length = dryer.equivalent_length(given["straight_ft"], elbows(given, rows))
    assert rows.figure("dryer-duct-length", "foot") == given["limit_ft"]
    return {"equivalent_ft": length, "within": rows.meets("dryer-duct-length", length, "foot")}


def dryer_equivalent_older(given: Inputs, rows: Rows) -> Results:
    """The row for older houses never judges; the example compares with its figure."""
    length = dryer.equivalent_length(given["straight_ft"], elbows(given, rows))
    limit = rows.figure("dryer-duct-length-older", "foot")
    assert limit == given["limit_ft"] and not CRITERIA["dryer-duct-length-older"].judges
    return {"equivalent_ft": length, "within": length <= limit}


def dryer_elbows_included(given: Inputs, rows: Rows) -> Results:
    limit = rows.figure("dryer-duct-length-upc-area", "foot")
    return {"allowable_ft": dryer.length_with_elbows_included(limit, int(given["elbows"]))}


def drain_fall(given: Inputs, rows: Rows) -> Results:
    slope = rows.figure(drainage.drain_slope_criterion(F(2) if given["slope_in_per_ft"] == F(1, 4) else F(3)))
    assert slope == given["slope_in_per_ft"]
    fall = drainage.drain_fall(slope, given["run_ft"])
    return {"fall_in": fall, "percent": slopes.slope_percent(fall, given["run_ft"] * 12)}


def drain_slope(given: Inputs, rows: Rows) -> Results:
    slope = drainage.drain_slope(given["fall_in"], given["run_ft"])
    return {
        "slope_in_per_ft": slope,
        "within_quarter_inch": rows.meets("drain-slope-small", slope, "inch/foot"),
        "within_eighth_inch": rows.meets("drain-slope-medium", slope, "inch/foot"),
    }


def trap_arm(given: Inputs, rows: Rows) -> Results:
    length = rows.figure(drainage.trap_arm_criterion(given["diameter_in"]), "foot")
    assert length == given["length_ft"]
    arm = drainage.trap_arm(given["slope_in_per_ft"], length, given["diameter_in"])
    within = rows.meets("trap-arm-fall-diameters", arm.diameters, "dimensionless")
    return {"fall_in": arm.fall_in, "within_one_diameter": within}


def breaker(given: Inputs, rows: Rows) -> Results:
    name = electrical.conductor_criterion(int(given["awg"]))
    return {"limit_a": rows.figure(name, "ampere"), "within": rows.meets(name, given["breaker_a"], "ampere")}


def ampacity(given: Inputs, rows: Rows) -> Results:
    return {"ampacity_a": electrical.ampacity(given["base_75c_a"], [given["factor"]])}


def receptacles(given: Inputs, rows: Rows) -> Results:
    reach = rows.figure("receptacle-wall-point-distance", "foot")
    return {"count": electrical.fewest_receptacles(given["wall_ft"], reach)}


def combustion_volume(given: Inputs, rows: Rows) -> Results:
    room = combustion.room_volume(*given["room_ft"])
    needed = combustion.air_volume(given["input_btuh"], rows.figure("combustion-air-indoor-volume"))
    within = rows.meets("combustion-air-indoor-volume", room / given["input_btuh"], "foot**3*hour/Btu")
    assert within == (room >= needed)
    return {"needed_ft3": needed, "room_ft3": room, "within": within}


def combustion_openings(given: Inputs, rows: Rows) -> Results:
    power = given["input_btuh"]
    least = rows.figure("combustion-air-indoor-opening-least")
    return {
        "indoor_each_in2": combustion.opening_area(power, rows.figure("combustion-air-indoor-opening"), least),
        "outdoor_direct_each_in2": combustion.opening_area(power, rows.figure("combustion-air-outdoor-opening")),
        "horizontal_duct_each_in2": combustion.opening_area(power, rows.figure("combustion-air-horizontal-duct")),
    }


def cooling_difference(given: Inputs, rows: Rows) -> Results:
    found = heating.cooling_difference(given["return_f"], given["supply_f"])
    assert rows.meets("cooling-temperature-split", found.degrees_f, "delta_degF")
    return {"split_f": found.degrees_f}


def whole_house_airflow(given: Inputs, rows: Rows) -> Results:
    area, bedrooms = given["area_ft2"], int(given["bedrooms"])
    table = ventilation.whole_house_airflow_table(area, bedrooms)
    assert table == rows.figure("whole-house-vent-1501-3000-sf-2-3-bed")
    return {"equation_cfm": ventilation.whole_house_airflow(area, bedrooms), "table_cfm": table}


def relief_pipe_gap(given: Inputs, rows: Rows) -> Results:
    least = plumbing.relief_pipe_gap(given["diameter_in"], rows.figure("tpr-discharge-height-minimum-diameters"))
    return {"least_in": least, "most_in": rows.figure("tpr-discharge-height-maximum", "inch")}


def gas_vent_height(given: Inputs, rows: Rows) -> Results:
    assert chimney.gas_vent_height(F(6)) == rows.figure("gas-vent-height-by-pitch", "foot")
    return {"height_ft": chimney.gas_vent_height(given["pitch"])}


def service_drop(given: Inputs, rows: Rows) -> Results:
    name = electrical.service_drop_criterion(given["roof_in_per_ft"], given["volts_between"])
    return {"limit_ft": rows.figure(name, "foot"), "within": rows.meets(name, given["clearance_ft"], "foot")}


def convert_radon(given: Inputs, rows: Rows) -> Results:
    return {"bq_per_m3": convert(given["pci_per_l"], "picocurie/liter", "becquerel/meter**3")}


def convert_temperature(given: Inputs, rows: Rows) -> Results:
    return {"c": convert(given["f"], "degF", "degC")}


def convert_pressure(given: Inputs, rows: Rows) -> Results:
    return {"kpa": convert(given["psi"], "psi", "kilopascal")}


# The calculation of the file: the function above.
SYSTEMS: dict[str, Callable[[Inputs, Rows], Results]] = {
    function.__name__.replace("_", "-"): function
    for function in (
        attic_vents, attic_vents_high_share, crawl_space_vents, dryer_straight_left, dryer_equivalent,
        dryer_equivalent_older, dryer_elbows_included, drain_fall, drain_slope, trap_arm, breaker, ampacity,
        receptacles, combustion_volume, combustion_openings, cooling_difference, whole_house_airflow,
        relief_pipe_gap, gas_vent_height, service_drop, convert_radon, convert_temperature, convert_pressure,
    )
}  # fmt: skip
