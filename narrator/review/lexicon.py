"""Small words that carry much: negations, sides, numbers, hedges, claims, acts, verbs of repair. `known_by: memory`.

The classes are those in which published studies of dictated reports find the errors that matter: negation, side, number,
and what was left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping


def _listed(words: str) -> list[str]:
    """Words between spaces."""
    return words.split()


def _classed(groups: Mapping[str, str]) -> dict[str, str]:
    """Each word with the name of its group."""
    return {word: name for name, words in groups.items() for word in words.split()}


NEGATIONS = frozenset(
    _listed(
        "no not never none nobody nothing neither nor without cannot nowhere unable hardly barely except "
        "unless lacks lack lacking missing absent isn't aren't wasn't weren't doesn't don't didn't won't "
        "can't couldn't hasn't haven't hadn't wouldn't shouldn't isnt arent wasnt werent doesnt dont didnt "
        "wont cant couldnt hasnt havent hadnt"
    )
)
"""A word that turns what is said. `missing` and its like turn it too, and stand for `no`."""

SIDES = _classed(
    {
        "left": "left lefthand left-hand leftmost",
        "right": "right righthand right-hand rightmost",
        "front": "front",
        "rear": "rear back backside",
        "north": "north northern northerly",
        "south": "south southern southerly",
        "east": "east eastern easterly",
        "west": "west western westerly",
        "northeast": "northeast north-east northeastern",
        "northwest": "northwest north-west northwestern",
        "southeast": "southeast south-east southeastern",
        "southwest": "southwest south-west southwestern",
        "above": "above over overhead",
        "below": "below under beneath underneath",
        "upper": "upper uppermost",
        "lower": "lower lowermost",
        "top": "top",
        "bottom": "bottom",
        "inside": "inside interior indoors inner",
        "outside": "outside exterior outdoors outer",
        "upstairs": "upstairs",
        "downstairs": "downstairs",
        "uphill": "uphill",
        "downhill": "downhill",
        "behind": "behind",
        "before": "before",
        "after": "after",
        "toward": "toward towards",
        "away": "away",
        "clockwise": "clockwise",
        "counterclockwise": "counterclockwise anticlockwise",
    }
)

_FAR = (
    ("left", "right"), ("front", "rear"), ("above", "below"), ("upper", "lower"), ("top", "bottom"),
    ("inside", "outside"), ("upstairs", "downstairs"), ("uphill", "downhill"), ("before", "after"), ("toward", "away"),
    ("clockwise", "counterclockwise"), ("behind", "front"),
)  # fmt: skip
POINTS = frozenset(
    _listed("left right front rear north south east west northeast northwest southeast southwest")
) | frozenset(
    _listed(
        "upper lower top bottom inside outside upstairs downstairs uphill downhill clockwise counterclockwise "
        "above below"
    )
)
"""Groups of `SIDES` that tell by themselves where a thing is."""

TURNED = frozenset(frozenset(pair) for pair in _FAR)

OPPOSITES = _classed(
    {
        "open+": "open opened opens", "open-": "closed close closes shut",
        "dry+": "dry dried", "dry-": "wet damp moist soaked",
        "firm+": "firm tight secure fastened fixed", "firm-": "loose unfastened wobbly",
        "high+": "high higher tall taller", "high-": "low lower short shorter",
        "on+": "on", "on-": "off",
        "hot+": "hot warm", "hot-": "cold cool",
        "clean+": "clean clear", "clean-": "dirty blocked clogged",
        "more+": "more most least-than greater larger longer wider deeper", "more-": "less fewer smaller narrower shallower",
        "least+": "least minimum", "least-": "maximum",
        "new+": "new newer", "new-": "old older",
        "early+": "earlier", "early-": "later",
        "work+": "works worked working work", "work-": "fails failed failing broken",
        "pass+": "passed passes", "pass-": "failed fails",
        "live+": "live energized", "live-": "dead",
        "cover+": "covered capped insulated protected", "cover-": "bare exposed uncovered uncapped uninsulated unprotected",
        "safe+": "safe safely", "safe-": "unsafe dangerous",
        "stable+": "stable steady level plumb", "stable-": "unstable unsteady leaning tilted uneven",
        "present+": "present there", "present-": "absent",
        "up+": "up rises rise", "up-": "down falls fall",
        "light+": "lit", "light-": "unlit dark",
        "all+": "all every always each", "all-": "some part partly sometimes seldom",
        "enough+": "enough adequate sufficient", "enough-": "inadequate insufficient",
        "whole+": "whole intact undamaged sound", "whole-": "cracked damaged rotted decayed corroded rusted split torn",
        "grounded+": "grounded", "grounded-": "ungrounded",
        "licensed+": "licensed", "licensed-": "unlicensed",
        "supported+": "supported", "supported-": "unsupported",
        "vented+": "vented", "vented-": "unvented",
        "first-hand+": "directly", "first-hand-": "indirectly",
        "keep+": "keep leave", "keep-": "remove",
        "add+": "add raise", "add-": "reduce",
    }
)  # fmt: skip
"""`X+` and `X-` are opposites. A word in two groups counts for its last one."""

HEDGES = frozenset(
    _listed(
        "think thinks thought may might could can perhaps maybe likely probably possibly seems seem appears "
        "appear suspect suspected believe believed opinion inferred told heard reported says said often "
        "sometimes usually commonly about roughly partly tends tend approximately approximate deem deemed "
        "advised advises would should unclear unsure unknown "
        "apparently around frequently informed stated states mentioned typically generally normally mostly "
        "sometimes occasionally guess assume assumed"
    )
)

NUMBER_WORDS = {
    word: str(at)
    for at, word in enumerate(
        _listed(
            "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
            "sixteen seventeen eighteen nineteen twenty"
        )
    )
    if word != "one"  # more often a pronoun
}
NUMBER_WORDS |= {
    "thirty": "30",
    "forty": "40",
    "fifty": "50",
    "sixty": "60",
    "seventy": "70",
    "eighty": "80",
    "ninety": "90",
}
NUMBER_WORDS |= {
    "hundred": "100",
    "thousand": "1000",
    "half": "half",
    "quarter": "quarter",
    "twice": "twice",
}
NUMBER_WORDS |= {
    "both": "2",
    "second": "2nd",
    "third": "3rd",
    "fourth": "4th",
    "fifth": "5th",
    "sixth": "6th",
    "dozen": "12",
}
_DAYS = _listed("january february march april june july august september october november december")
DATE_WORDS = frozenset([*_DAYS, *_listed("monday tuesday wednesday thursday friday saturday sunday a.m p.m")])

UNITS = _classed(
    {
        "inch": "inch inches in", "foot": "foot feet ft", "mm": "mm millimeter millimeters", "cm": "cm", "metre": "m meter meters",
        "percent": "% percent", "degree": "° degree degrees", "psi": "psi", "amp": "amp amps a ampere amperes",
        "volt": "volt volts v", "year": "year years", "day": "day days", "hour": "hour hours", "minute": "minute minutes",
        "gallon": "gallon gallons", "pound": "pound pounds", "ppm": "ppm", "pascal": "pa pascals", "watt": "watt watts w",
        "month": "month months", "week": "week weeks", "gauge": "gauge", "btu": "btu",
    }
)  # fmt: skip

ROOMS = _classed(
    {
        "kitchen": "kitchen", "bath": "bath bathroom baths bathrooms", "bedroom": "bedroom bedrooms", "hall": "hall hallway",
        "garage": "garage", "attic": "attic", "basement": "basement cellar", "crawl": "crawl crawlspace crawl-space",
        "laundry": "laundry", "dining": "dining", "living": "living", "family": "family", "den": "den", "closet": "closet",
        "entry": "entry entrance foyer", "porch": "porch", "deck": "deck", "patio": "patio", "balcony": "balcony", "office": "office",
        "utility": "utility", "pantry": "pantry", "driveway": "driveway", "stairs": "stairs stairway staircase", "shed": "shed",
        "sunroom": "sunroom", "loft": "loft", "dormer": "dormer", "gable": "gable", "eave": "eave eaves", "ridge": "ridge",
        "main": "main", "master": "master primary", "guest": "guest",
    }
)  # fmt: skip

DOINGS = _classed(
    {
        "replace": "replace replaces replaced renew swap", "repair": "repair repaired repairs fix mend patch",
        "look": "look looks inspect check examine evaluate assess", "open": "open", "watch": "watch monitor observe",
        "clean": "clean clear", "add": "add install fit put set", "remove": "remove pull strip take", "seal": "seal caulk",
        "paint": "paint repaint", "price": "price quote", "ask": "ask", "call": "call phone", "test": "test measure",
        "wait": "wait postpone defer", "ignore": "ignore skip", "write": "write", "close": "close shut", "turn": "turn",
        "cut": "cut trim", "move": "move relocate", "raise": "raise lift", "tighten": "tighten fasten secure refasten",
        "support": "support brace shore", "drain": "drain", "vent": "vent", "keep": "keep leave", "stop": "stop avoid",
    }
)  # fmt: skip
"""What a person is asked to do."""

IMPERATIVES = frozenset(
    _listed(
        "have ask get put clean clear replace repair fix mend add install remove pull seal paint price call "
        "test keep leave let turn cut move raise lower tighten fasten support drain vent open check watch "
        "look slide screw plan use stop do make set run lay bring start find cover cap strap wrap fill brush "
        "sweep trim budget agree slope extend lead shut patch treat tie secure cut nail give carry hang drive "
        "swap settle"
    )
)

TRADE_WORDS = frozenset(
    _listed(
        "roofer electrician plumber mason carpenter engineer painter chimney sweep glazier locksmith handyman "
        "contractor mover landscaper exterminator surveyor utility builder technician specialist licensed "
        "installer arborist"
    )
)
SMALL = frozenset(
    _listed(
        "a an the of to in on at by for with and or but so as it its is are was were be been has have had "
        "this that these those there here we you they our your their from into than then also very only which "
        "who will does do did"
    )
)
"""Words that carry little alone; a change of these is a word for another."""

CONFUSED = frozenset(
    _listed(
        "now note knot hot lot got net nut nor lift loft felt light tight fight night sight might fort root "
        "roof rare year tear worth mouth fast best rest nest vest eats test oven ever sever"
    )
)
"""Words one letter from a negation or a side, and words in their own right."""


def opposite(first: str, second: str) -> bool:
    """Whether one word says the contrary of the other."""
    for one, other in ((first, second), (second, first)):
        if other in (
            f"un{one}",
            f"in{one}",
            f"im{one}",
            f"non{one}",
            f"non-{one}",
            f"dis{one}",
            f"mis{one}",
            f"ir{one}",
        ):
            return True
        if other.endswith("less") and one.endswith("ful") and other[:-4] == one[:-3]:
            return True
    groups = OPPOSITES.get(first, ""), OPPOSITES.get(second, "")
    return bool(groups[0]) and groups[0][:-1] == groups[1][:-1] and groups[0] != groups[1]


def any_opposite(lost: Iterable[str], gained: Iterable[str]) -> tuple[str, str] | None:
    """The first pair of opposites of which one left and the other came."""
    came = list(gained)
    return next(((one, other) for one in lost for other in came if opposite(one, other)), None)
