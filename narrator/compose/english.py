"""Small English: lists, dates, hours, articles and plurals, the way the report prints them.

Dates and lists follow CLDR for British English. Hours do not: the house writes `5 p.m.`, and says noon and
midnight in words, because a reader in a hurry must not have to ask which twelve is meant.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date

from narrator.measure import show

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")

# The letters whose names begin with a vowel sound ("an F", "an HVAC duct").
_VOWEL_LETTERS = frozenset("AEFHILMNORSX")
# Initials that are said as a word: the article goes by that word.
_SAID_AS_WORDS = {
    "EIFS": "an",
    "LED": "an",
    "OSHA": "an",
    "FEMA": "a",
    "HEPA": "a",
    "HUD": "a",
    "LEED": "a",
    "MERV": "a",
    "NEMA": "a",
    "NIST": "a",
    "PEX": "a",
    "SEER": "a",
}
_SILENT_H = re.compile(r"(?:hour|hon(?:est|or|our)|heir|herb)", re.IGNORECASE)
# Words spelled with a vowel that open with the sound of "you" or "won".
_YOU_OR_WON = re.compile(r"(?:eu|ewe|ubi|uni(?![mn]|d(?!ir)|ss)|us[aeiu]|ut[aei]|ur[aei]|one\b|once)", re.IGNORECASE)
_INITIALS = re.compile(r"[A-Z](?:[A-Z0-9&/]*[A-Z0-9])?s?$")

_ODD_PLURALS = {
    "foot": "feet",
    "tooth": "teeth",
    "child": "children",
    "person": "people",
    "woman": "women",
    "mouse": "mice",
    "goose": "geese",
    "half": "halves",
    "shelf": "shelves",
    "knife": "knives",
    "leaf": "leaves",
    "life": "lives",
    "loaf": "loaves",
    "wife": "wives",
    "self": "selves",
    "criterion": "criteria",
    "axis": "axes",
    "basis": "bases",
    "crisis": "crises",
    "analysis": "analyses",
    "fungus": "fungi",
    "tomato": "tomatoes",
    "potato": "potatoes",
    "this": "these",
    "that": "those",
    "bus": "buses",
    "gas": "gases",
    "quiz": "quizzes",
}
_SAME_IN_PLURAL = frozenset(
    {"stairs", "premises", "series", "species", "sheep", "fish", "deer", "equipment", "works", "headquarters", "means"}
)
# Odd plurals that also close a longer word ("bookshelf").
_ENDINGS = frozenset({"foot", "tooth", "child", "person", "woman", "shelf", "knife", "leaf"})
_S_ENDINGS = ("s", "x", "z", "ch", "sh")
_K_CH = frozenset({"stomach", "loch", "epoch"})


def join_list(items: Sequence[str], comma: str = "") -> str:
    """Items joined as CLDR en-GB does: `a, b and c`; a `comma` of "," adds one before the last "and"."""
    if len(items) < 2:
        return "".join(items)
    head = ", ".join(items[:-1])
    return f"{head}{comma} and {items[-1]}"


DATES = ("day month year", "month day year", "year-month-day")
"""Forms of a date: as CLDR en-GB prints it long (the house's own), as CLDR en-US does, and ISO 8601."""


def long_date(day: date, form: str = DATES[0]) -> str:
    """A date in one of the forms: `14 March 2026`, `March 14, 2026`, `2026-03-14`."""
    if form == DATES[1]:
        return f"{MONTHS[day.month - 1]} {day.day}, {day.year}"
    if form == DATES[2]:
        return day.isoformat()
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def short_date(day: date, form: str = DATES[0]) -> str:
    """A date whose year is plain from what stands before it: `14 March`; in ISO form it keeps its year."""
    if form == DATES[1]:
        return f"{MONTHS[day.month - 1]} {day.day}"
    if form == DATES[2]:
        return day.isoformat()
    return f"{day.day} {MONTHS[day.month - 1]}"


def weekday_date(day: date, form: str = DATES[0]) -> str:
    """A date with its weekday: `Saturday, 14 March 2026`, `Saturday, March 14, 2026`."""
    return f"{WEEKDAYS[day.weekday()]}, {long_date(day, form)}"


def clock(hour: str) -> str:
    """An hour of the day in house style: `17:00` is `5 p.m.`, `17:30` is `5:30 p.m.`, `12:00` is `noon`."""
    hours, minutes = (int(part) for part in hour.split(":"))
    if minutes == 0 and hours in (0, 12, 24):
        return "noon" if hours == 12 else "midnight"
    shown = f"{hours % 12 or 12}" + (f":{minutes:02d}" if minutes else "")
    return f"{shown} {'a.m.' if hours % 24 < 12 else 'p.m.'}"


def article(noun: str) -> str:
    """`a` or `an`, by the sound that the noun opens with ("an hour", "a unit", "an HVAC duct")."""
    match = re.search(r"[\w&/½⅓¼⅛]+", noun)
    if match is None:
        return "a"
    word = match.group()
    if word[0].isdigit():
        return "an" if _said_eight_or_eleven(word) else "a"
    initials = word.removesuffix("s")
    if initials in _SAID_AS_WORDS:
        return _SAID_AS_WORDS[initials]
    hyphened = noun[match.end() : match.end() + 1] == "-"
    if _INITIALS.fullmatch(word) and (len(word) > 1 or hyphened or word == noun.strip()):
        return "an" if word[0] in _VOWEL_LETTERS else "a"
    if _SILENT_H.match(word):
        return "an"
    if _YOU_OR_WON.match(word):
        return "a"
    return "an" if word[0].lower() in "aeiou" else "a"


def _said_eight_or_eleven(figures: str) -> bool:
    """Whether a figure opens with a vowel sound: eight, eleven, eighteen, and what is made of them."""
    whole = re.match(r"\d+", figures)
    digits = whole.group() if whole else ""
    return digits[:1] == "8" or (digits[:2] in ("11", "18") and len(digits) % 3 == 2)


def plural(noun: str) -> str:
    """The plural of a building noun or noun phrase: `sashes`, `lengths of pipe`."""
    split = re.match(r"(.+?)(\s+(?:of|in|on|at|to|for|from|with|per)\s.+)$", noun)
    if split:
        return plural(split.group(1)) + split.group(2)
    start, word = re.fullmatch(r"(.*?)([^\s-]*)", noun, re.DOTALL).groups()  # type: ignore[union-attr]
    if not word:
        return noun
    return start + _plural_word(word)


def _plural_word(word: str) -> str:
    lower = word.lower()
    if lower in _SAME_IN_PLURAL:
        return word
    for odd, many in _ODD_PLURALS.items():
        if lower == odd or (odd in _ENDINGS and lower.endswith(odd)):
            kept = word[: len(word) - len(odd)]
            return kept + (many.capitalize() if word[len(kept)].isupper() else many)
    if word.isupper() and len(word) > 1:
        return word + "s"
    if lower.endswith("man") and lower not in ("human", "german", "roman"):
        return word[:-2] + "en"
    if lower.endswith("y") and lower[-2:-1] not in ("a", "e", "i", "o", "u", ""):
        return word[:-1] + "ies"
    if lower.endswith(_S_ENDINGS) and lower not in _K_CH:
        return word + "es"
    return word + "s"


def capital_first(text: str) -> str:
    """The text with its first letter large, behind any quotation mark; a figure in front leaves it alone."""
    for index, sign in enumerate(text):
        if sign.isalpha():
            return text[:index] + sign.upper() + text[index + 1 :]
        if sign.isalnum():
            return text
    return text


def number_word(number: int) -> str:
    """A number as a word up to `twelve`; a larger one in figures, with a comma at the thousands."""
    return "zero" if number == 0 else show.number_word(number)


def lower_first(text: str) -> str:
    """A title inside a sentence: its first letter small, unless the word is an abbreviation."""
    first = text.split(" ", 1)[0]
    return text if len(first) > 1 and first[1:2].isupper() else text[:1].lower() + text[1:]
