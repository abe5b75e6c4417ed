"""How the calculations of the house itself take the inputs of a worked example: roof, stairs, walls, floors."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction as F

from worked_rows import Inputs, Results, Rows

from narrator.measure.calculations import chimney, decks, masonry, openings, slopes, stairs, structure, stucco
from narrator.measure.units import convert


def roof_pitch(given: Inputs, rows: Rows) -> Results:
    pitch = slopes.roof_pitch(given["rise_in"], given["run_in"])
    return {"degrees": pitch.degrees, "percent": pitch.percent, "multiplier": pitch.area_factor}


def roof_area(given: Inputs, rows: Rows) -> Results:
    return {"area_ft2": slopes.sloped_area(given["footprint_ft2"], given["rise_in"])}


def roof_covering_slope(given: Inputs, rows: Rows) -> Results:
    least, doubled = slopes.covering_criteria(given["covering"])
    slope = given["slope_in_per_ft"]
    return {
        "meets_minimum": rows.meets(least, slope, "inch/foot"),
        "double_underlayment_called_for": rows.verdict(doubled, slope, "inch/foot") == "short",
    }


def riser_variation(given: Inputs, rows: Rows) -> Results:
    found = stairs.variation(given["risers_in"])
    return {
        "variation_in": found.spread,
        "tallest_in": found.largest,
        "variation_within": rows.meets("stair-riser-variation", found.spread, "inch"),
        "height_within": rows.meets("stair-riser-height", found.largest, "inch"),
    }


def riser_variation_adjacent(given: Inputs, rows: Rows) -> Results:
    adjacent = stairs.variation(given["risers_in"]).adjacent
    within = rows.meets("stair-riser-variation-adjacent", adjacent, "inch")
    return {"adjacent_in": adjacent, "within_older_rule": within}


def riser_height(given: Inputs, rows: Rows) -> Results:
    return {"riser_in": [stairs.riser_height(given["total_rise_in"], int(count)) for count in given["counts"]]}


def fewest_risers(given: Inputs, rows: Rows) -> Results:
    limit = rows.figure("stair-riser-height", "inch")
    assert limit == given["limit_in"]
    count = stairs.fewest_risers(given["total_rise_in"], limit)
    return {"count": count, "riser_in": stairs.riser_height(given["total_rise_in"], count)}


def grade(given: Inputs, rows: Rows) -> Results:
    found = slopes.grade(given["fall_in"], given["run_ft"])
    return {
        "percent": found.percent,
        "degrees": found.degrees,
        "equivalent_fall_10_ft_in": found.fall_in_10_ft,
        "toward_house": found.toward_house,
        "within": rows.meets("grade-slope-away-percent", found.percent, "percent"),
    }


def hard_surface_fall(given: Inputs, rows: Rows) -> Results:
    return {"fall_in": slopes.fall_for_percent(rows.figure("hard-surface-slope-away"), given["run_ft"] * 12)}


def stucco_panel(given: Inputs, rows: Rows) -> Results:
    found = stucco.panel(given["width_ft"], given["height_ft"])
    return {
        "area_ft2": found.area_ft2,
        "longest_ft": found.longest_ft,
        "ratio": found.ratio,
        "area_within": rows.meets(stucco.panel_area_criterion(), found.area_ft2, "foot**2"),
        "dimension_within": rows.meets("stucco-panel-dimension", found.longest_ft, "foot"),
        "ratio_within": rows.meets("stucco-panel-aspect-ratio", found.ratio, "dimensionless"),
    }


def stucco_thickness(given: Inputs, rows: Rows) -> Results:
    total = stucco.total_thickness(given["coats_in"])
    assert rows.meets("stucco-three-coat-thickness-over-lath", total, "inch")
    return {"total_in": total}


def egress_opening(given: Inputs, rows: Rows) -> Results:
    area = openings.clear_area(given["width_in"], given["height_in"])
    return {
        "area_ft2": area,
        "width_within": rows.meets("egress-opening-width", given["width_in"], "inch"),
        "height_within": rows.meets("egress-opening-height", given["height_in"], "inch"),
        "area_within": rows.meets(openings.egress_area_criterion(None), area, "foot**2"),
    }


def handrail_rectangle(given: Inputs, rows: Rows) -> Results:
    rail = stairs.rectangular_handrail(given["width_in"], given["height_in"])
    around = rows.meets("handrail-perimeter", rail.perimeter, "inch")
    across = rows.meets("handrail-cross-section", rail.across, "inch")
    return {"perimeter_in": rail.perimeter, "diagonal_in": rail.across, "type_1": around and across}


def handrail_round(given: Inputs, rows: Rows) -> Results:
    rail = stairs.round_handrail(given["diameter_in"])
    return {"perimeter_in": rail.perimeter, "type_1": rows.meets("handrail-round-diameter", rail.across, "inch")}


def floor_slope(given: Inputs, rows: Rows) -> Results:
    found = structure.floor_slope(given["difference_in"], given["run_ft"])
    allowed = structure.allowance(rows.figure("floor-out-of-level-20ft", "inch"), F(20), given["run_ft"])
    results: Results = {
        "percent": found.percent,
        "allowance_in": allowed,
        "allowance_nahb_in": allowed,
        "within": rows.meets("floor-out-of-level-20ft", found.over_20_ft_in, "inch"),
    }
    if given["run_ft"] == 35:  # the other published figure, 1/4 inch, is in the spread
        quarter = rows.row("floor-local-unevenness-32in").spread[0][0]
        results["allowance_quarter_in_32_in"] = structure.allowance(quarter, F(32), given["run_ft"] * 12)
    return results


def slab_limits(given: Inputs, rows: Rows) -> Results:
    length = given["length_ft"] * 12
    return {
        "deflection_limit_in": structure.bending_limit(length, rows.figure("slab-deflection-ratio")),
        "tilt_limit_in": slopes.fall_for_percent(rows.figure("slab-tilt-percent"), length),
    }


def crack_grade(given: Inputs, rows: Rows) -> Results:
    width = convert(given["width_in"], "inch", "millimeter")
    low, high = rows.row("crack-grade-2-slight").value
    assert low < width <= high
    return {"width_mm": width, "grade": structure.crack_grade(width)}


def brick_ties(given: Inputs, rows: Rows) -> Results:
    return {"ties": masonry.fewest_ties(given["area_ft2"], rows.figure("brick-tie-wall-area"))}


def brick_weeps(given: Inputs, rows: Rows) -> Results:
    return {"weeps": masonry.fewest_weeps(given["length_ft"] * 12, rows.figure("brick-weep-spacing", "inch"))}


def chimney_height(given: Inputs, rows: Rows) -> Results:
    least = rows.figure("chimney-height-above-roof-penetration", "inch")
    above = rows.figure("chimney-height-above-nearby-roof", "inch")
    found = chimney.chimney_height(given["horizontal_to_ridge_ft"], given["pitch_in_per_ft"], least, above)
    return {
        "ridge_above_penetration_in": found.roof_rise_in,
        "roof_rise_at_10_ft_in": found.roof_rise_in,
        "needed_in": found.needed_in,
    }


def ledger_fasteners(given: Inputs, rows: Rows) -> Results:
    spacing = rows.figure(decks.ledger_spacing_criterion(given["joist_span_ft"], "lag"), "inch")
    end = rows.figure("deck-ledger-fastener-end-distance", "inch")
    assert (spacing, end) == (given["spacing_in"], given["end_distance_in"])
    return {"fasteners": decks.fewest_ledger_fasteners(given["ledger_ft"] * 12, spacing, end)}


def large_pane(given: Inputs, rows: Rows) -> Results:
    pane = (given["pane_ft2"], given["bottom_in"], given["top_in"], given["walk_distance_in"])
    over = rows.verdict("safety-glass-pane-area", pane[0], "foot**2") == "over"
    low = rows.verdict("safety-glass-bottom-edge", pane[1], "inch") == "short"
    hazard = openings.large_pane_hazard(*pane)
    assert hazard == (over and low)  # the example meets the two other conditions, which have no rows
    return {"hazardous_location": hazard}


# The calculation of the file: the function above.
HOUSE: dict[str, Callable[[Inputs, Rows], Results]] = {
    function.__name__.replace("_", "-"): function
    for function in (
        roof_pitch, roof_area, roof_covering_slope, riser_variation, riser_variation_adjacent, riser_height,
        fewest_risers, grade, hard_surface_fall, stucco_panel, stucco_thickness, egress_opening, handrail_rectangle,
        handrail_round, floor_slope, slab_limits, crack_grade, brick_ties, brick_weeps, chimney_height,
        ledger_fasteners, large_pane,
    )
}  # fmt: skip
