"""Articles and plurals of building nouns against the `inflect` package (test only: it is slow to load)."""

import inflect
import pytest

from narrator.compose.english import article, plural

TYPED = (
    "air gap, air handler, anchor bolt, angle stop, anti-tip bracket, apron, arc, attic, awning, "
    "baffle, balcony, baluster, base, basement, bath, bathroom, battery, bay, beam, bearing wall, bib, "
    "boiler, bolt, boot, box, brace, bracket, branch, breaker, brick, burner, bush, cabinet, cap, "
    "carport, casing, ceiling, chase, chimney, chord, cleanout, closet, coil, collar, column, "
    "condenser, conduit, corner, coupling, course, cover, crack, crawl space, cricket, crown, damper, "
    "deck, dish, dishwasher, disposer, ditch, door, dormer, downspout, drain, driveway, dryer, duct, "
    "eave, edge, elbow, electrode, elevation, entry, escutcheon, estimate, exhaust fan, expansion tank, "
    "extension, eye, facade, fan, fascia, faucet, fence, finish, firebox, fireplace, fixture, flange, "
    "flashing, floor, flue, footing, foot, foundation, frame, furnace, fuse, gable, garage, gasket, "
    "gate, gauge, girder, grate, guard, gusset, gutter, half, hall, handrail, hanger, hatch, header, "
    "hearth, heater, heir, hinge, hip, hole, hood, hook, hose bib, hour, house, inch, incline, inlet, "
    "insect, inspector, intake, invoice, iron, island, jamb, joint, joist, junction box, key, kickout, "
    "kitchen, knee wall, knife, knob, knockout, ladder, landing, latch, leader, leaf, leak, ledge, "
    "ledger, light, lintel, loft, louver, main, mantel, mast, meter, mesh, mortar joint, motor, "
    "mullion, muntin, nail, neutral, newel, nook, notch, nut, oak, odor, offset, oil tank, one-inch "
    "pipe, opener, opening, orifice, outbuilding, outlet, oven, overflow, overhang, owner, panel, "
    "pantry, parapet, patch, patio, pier, pin, pipe, pitch, plate, plug, pocket, pool, porch, post, "
    "pump, purlin, quarter, rafter, railing, rake, range, receptacle, register, relief valve, ridge, "
    "riser, rod, roof, room, rung, saddle, sash, screen, screw, seam, sensor, shaft, shake, sheath, "
    "shelf, shim, shingle, shower, shutoff, siding, sill, sink, skylight, slab, slate, sleeve, smoke "
    "alarm, socket, soffit, splice, spring, stack, stair, step, stop, story, strap, stringer, strut, "
    "stud, sump, surround, swale, switch, tank, tap, tee, terrace, thermostat, threshold, tile, toe, "
    "tooth, track, trap, tray, tread, trench, truss, tub, umbrella, under-sink valve, unequal riser, "
    "uniform load, union, unit, unused flue, upper deck, upright, urinal, use, user, utility room, "
    "valley, valve, vanity, vault, veneer, vent, vestibule, volt, walkway, wall, washer, weep hole, "
    "well, window, wire, wrench, yard, zone"
)
NOUNS = TYPED.split(", ")

INITIALS = (
    "AFCI breaker",
    "CSST line",
    "EPDM roof",
    "GFCI outlet",
    "HVAC duct",
    "I-joist",
    "LVL beam",
    "MDF panel",
    "OSB sheet",
    "P-trap",
    "R-value",
    "S-trap",
    "TPR valve",
    "U-bend",
    "X-brace",
)


@pytest.mark.parametrize("noun", [*NOUNS, *INITIALS])
def test_article(noun: str) -> None:
    assert article(noun) == inflect.engine().a(noun).split()[0]


@pytest.mark.parametrize("noun", NOUNS)
def test_plural(noun: str) -> None:
    assert plural(noun) == inflect.engine().plural(noun)
