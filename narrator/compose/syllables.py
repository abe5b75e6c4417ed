"""Syllables of an English word by rule: vowel groups, silent endings, vowels said apart, and exceptions."""

from __future__ import annotations

import re
from functools import lru_cache

_PART = re.compile(r"\d+(?:[.,/:]\d+)*|[^\W\d_]+(?:['’.&][^\W\d_]+)*")
_VOWELS = re.compile(r"[aeiouyà-öø-ÿ]+")
# Vowels that stand together and are said apart: one syllable more for each.
_APART = re.compile(
    "|".join(
        (
            r"(?<![ctsxgw])i(?=a)",
            r"i(?=at)(?<=[cts]i)",
            r"(?<=[bdfhkmprvz])i(?=o)",
            r"i(?=um|us\b|als?\b(?<![ct]ial))",
            r"(?<=[aeiou])y(?=[aeiou](?!\b))(?!e[ds]\b)",
            r"(?<=[^aeiouw][lr])y(?=[aeo])",
            r"y(?=i)",
            r"i(?=et|en[ct])(?<![ct]i)",
            r"(?<=[nrltdfvs])i(?=er\b|ers\b|est\b)",
            r"(?<![gq])u(?=a|ous|en[ct]|ing\b|els?\b|id|in\b|ity)",
            r"e(?=o(?![nprusw]))",
            r"(?<=g)e(?=o[gm])",
            r"[eo](?=ing\b)",
            r"(?<=\br)e(?=a(?:tt|pp|ct|dj|rr|ss|lig|wa)|in[fs]|u[ps]|o|en)",
            r"(?<=cr)e(?=a[ti])",
            r"e(?=as?\b)(?<=[rd]e)",
        )
    )
)
# An `e` that is not said before an ending or in a compound: one syllable less for each.
_ENDINGS = "ly|less|ful|fully|ments?|ness|where|thing|lessly|ty"
_OPENINGS = (
    "base|before|drive|else|fire|fore|grate|home|house|name|pipe|place|plate|safe|side|slide|some|"
    "spare|stone|tile|time|tube|whole"
)
_SILENT = re.compile(
    rf"(?<=[aeiouy])(?:[bcdfgklmnprstvz]|ng|st|dg|tch|ch)e(?=(?:{_ENDINGS})\b)"
    rf"|\b(?:{_OPENINGS})(?=[bcdfghjklmnpqrtvwyz][a-z]{{2}})"
)
_ENDS_E = re.compile(r"(?:[^aeiouy]|[gq]u)e\b")
_KEEPS_LE = re.compile(r"[bcdfgkpstxz]le[ds]?\b")
_ENDS_ES = re.compile(r"(?<![sxzcg])(?<![cs]h)(?<=[^aeiouy])es\b")
_ENDS_ED = re.compile(r"(?<=[^aeiouytd])ed\b")
_PLUS_ONE = re.compile(r"sms?\b|[bdgkptz]ling\b|(?<=[sd])n['’]?t\b|thms?\b")
# Words that the rules get wrong, and initials said as a word; their -s, -ed, -ing and -ly forms follow.
_ODD = {
    "aches": 1,
    "anyone": 3,
    "area": 3,
    "being": 2,
    "conduit": 3,
    "creosote": 3,
    "crooked": 2,
    "dielectric": 4,
    "drawer": 1,
    "eifs": 1,
    "element": 3,
    "entire": 3,
    "epa": 3,
    "every": 3,
    "everyday": 3,
    "everyone": 3,
    "everything": 3,
    "everywhere": 3,
    "fire": 2,
    "fireplace": 3,
    "hire": 2,
    "hour": 2,
    "hud": 1,
    "hvac": 2,
    "laboratory": 4,
    "makeshift": 2,
    "naked": 2,
    "nema": 2,
    "osha": 2,
    "our": 2,
    "ourselves": 3,
    "pex": 1,
    "polyethylene": 5,
    "preventer": 3,
    "radioactive": 5,
    "ragged": 2,
    "recovery": 3,
    "rugged": 2,
    "ruin": 2,
    "seeing": 2,
    "several": 2,
    "simpler": 3,
    "temperature": 3,
    "tire": 2,
    "tpr": 3,
    "vegetable": 3,
    "whoever": 3,
    "wire": 2,
}


@lru_cache(maxsize=4096)
def word_syllables(word: str) -> int:
    """The syllables of a word: a hyphened one by its parts, a figure as one, initials letter by letter."""
    return sum(_part(part) for part in _PART.findall(word))


def _part(part: str) -> int:
    if part[0].isdigit():
        return 1
    lower = part.lower().replace("’", "'").removesuffix("'s")
    odd = _odd(lower)
    if odd:
        return odd
    letters = "".join(sign for sign in part if sign.isalpha())
    initials = letters.removesuffix("s")
    if "." in part or "&" in part or (initials.isupper() and 1 < len(initials) <= 5):
        return _letters(letters if not initials.isupper() else initials)
    return by_rule(lower)


def _letters(letters: str) -> int:
    """Letters said one by one; a `w` takes three syllables."""
    return len(letters) + 2 * letters.lower().count("w")


def _odd(word: str) -> int:
    """The exception for a word or for what it is formed from; 0 if there is none."""
    if word in _ODD:
        return _ODD[word]
    for ending, more in (("s", 0), ("'s", 0), ("ly", 1), ("ed", 0), ("d", 0), ("ing", 1)):
        stem = word.removesuffix(ending)
        if stem != word and stem in _ODD:
            return _ODD[stem] + more
    return 0


def by_rule(word: str) -> int:
    """The syllables of a word in lower case, by the rules alone."""
    count = len(_VOWELS.findall(word)) + len(_APART.findall(word)) + len(_PLUS_ONE.findall(word))
    count -= len(_SILENT.findall(word))
    silent = _ENDS_E.search(word) or _ENDS_ES.search(word) or _ENDS_ED.search(word)
    if silent and not _KEEPS_LE.search(word):
        count -= 1
    return max(1, count)
