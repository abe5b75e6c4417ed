"""Syllables of an English word by rule: vowel groups, silent endings, vowels that part, and a table of exceptions."""

from __future__ import annotations

import re
from functools import lru_cache

_PARTS = re.compile(r"[A-Za-z0-9À-ÿ'’.]+")
_VOWELS = re.compile(r"[aeiouy]+")
# Two vowels in one group that are said apart ("di-al", "vide-o", "flu-id").
_APART = tuple(re.compile(shape) for shape in (
    r"(?<![ctsgx])i[ao](?!us)", r"(?<=[aeiouy][bdfhlmnprvz])io(?=n\b)", r"i[ao](?=[lb])(?<![ct]i.)", r"iet", r"iu(?=m)",
    r"(?<![gq])u(?:al|an|at|ou|or|en|el\b|id|in\b|it(?=y|ed|ing|ous))", r"eo(?=[mnrl]|\b)", r"ea(?=te|ti|l(?:i|\b(?<=[rd]eal)))",
    r"[aeiou]y(?=ing)", r"(?<=[^aeiou])ying", r"eing", r"oing", r"oe(?=t|m)", r"ie(?=nt|nc|r\b(?<=[rn]ier))", r"yi",
))
_SILENT_INSIDE = re.compile(
    r"(?<=[aeiouy])[bcdfgklmnprstvz]+e(?=(?:ly|less|ful|fully|ment|ments|ness|where|thing|side|sides|what|work|hole|holes)\b)")
