"""Figures that are no quantity: dates, hours, telephone numbers, money, codes, sizes such as `2x6`."""

from __future__ import annotations

import re

__all__ = ["free_left", "free_right", "trap_spans"]

_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|march|apr(?:il)?|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?"
    r"|nov(?:ember)?|dec(?:ember)?|(?-i:Mar|May))"
)
_TRAPS = re.compile(
    r"(?<![0-9])[0-9]{1,4}([/.-])[0-9]{1,2}\1[0-9]{2,4}(?![0-9])"  # 3/4/2026, 2026-03-04
    r"|(?<![0-9:])[0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?(?![0-9])(?: ?[ap]\.?m(?!\w)\.?)?"  # 14:10, 2:10 pm
    r"|(?<![0-9])[0-9]{1,2} ?[ap]\.?m(?!\w)\.?"  # 5 p.m.
    r"|\(?(?<![0-9])[0-9]{3}\)?[ .-]{1,2}[0-9]{3}[ .-][0-9]{4}(?![0-9])"  # a telephone number
    r"|(?<![0-9])[0-9]{3}-[0-9]{4}(?![0-9])"
    rf"|(?<![0-9])[0-9]{{1,2}}(?:st|nd|rd|th)? {_MONTH}(?!\w)\.?(?:,? [0-9]{{4}}(?![0-9]))?"  # 4 March 2026
    rf"|(?<!\w){_MONTH}\.? [0-9]{{1,2}}(?:st|nd|rd|th)?(?![0-9])(?:,? [0-9]{{4}}(?![0-9]))?"  # March 4
    rf"|(?<!\w){_MONTH}\.? [0-9]{{4}}(?![0-9])"
    r"|[$€£] ?[0-9][0-9,.]*[km]?"  # money
    r"|(?<![0-9])(?:[0-9]{1,4}[ -])?[0-9]{1,4} ?/ ?0+(?![0-9])"  # 1/0
    r"|[0-9][ -]in-[0-9a-z]|(?<![\w.])[\w.]{1,64}@\S+|(?<!\w)[a-z]{3,5}://\S+",  # 3-in-1, 2 in-line, addresses
    re.IGNORECASE,
)
_SLOPE = re.compile(r"[0-9]{1,2}:12$")
_TIMES_LEFT = re.compile(
    r"(?:[0-9\"'](?:x|\*)|(?:[0-9\"']|(?<![a-z])(?:in|ft|mm|cm|inch|inches|feet|foot)\.?) +x +"
    r"|[0-9\"']x +| [*] +|[0-9] / )$",
    re.IGNORECASE,
)
_TIMES_RIGHT = re.compile(r"(?:x ?| +x +| *[*] *| / )[0-9]", re.IGNORECASE)
_PLUS_MINUS = re.compile(r" ?(?:±|\+)")
_AFTER_SIGN = re.compile(r"(?:±|\+|<=|>=|≤|≥) *$")


def trap_spans(line: str) -> list[tuple[int, int]]:
    """The half-open spans of `line` with figures but no quantity. `8:12` is left: it may be a slope."""
    return [match.span() for match in _TRAPS.finditer(line) if _SLOPE.fullmatch(match[0]) is None]


def free_left(line: str, begin: int, start: int) -> bool:
    """Whether a quantity may begin at `begin` (first digit at `start`): nothing touches it."""
    if begin == 0:
        return True
    before = line[begin - 1]
    if before.isalnum() or before in "_#$€£@/\\.^*+±≤≥&-<>":
        return False
    if before == ":" and begin >= 2 and not line[begin - 2].isalpha():
        return False
    if before == "=" and begin >= 2 and line[begin - 2] in "<>":
        return False
    if before == "'" and re.match(r"[0-9]{2}(?![0-9])", line[start : start + 3]):
        return False
    left = line[max(0, begin - 12) : begin]
    return _TIMES_LEFT.search(left) is None and _AFTER_SIGN.search(left) is None


def free_right(line: str, end: int) -> bool:
    """Whether a quantity may end at `end`: what follows does not go on with the same code, date or size."""
    if end >= len(line):
        return True
    after, then, last = line[end], line[end + 1 : end + 2], line[end - 1]
    if (after.isalnum() or after == "_") and last not in "\"'%°":
        return False
    if after in "/\\+@^°%‰'\"" and not (after == '"' and last == "%"):
        return False
    if after == "-" and then.isalnum() and (then.isdigit() or last.isdigit()):
        return False
    if after in ".:" and then.isdigit():
        return False
    return _TIMES_RIGHT.match(line, end) is None and _PLUS_MINUS.match(line, end) is None
