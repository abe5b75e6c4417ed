"""`number 7` in one report is `number 6` in the other when an item above it is gone: such references are brought to one."""

from __future__ import annotations

import re
from collections.abc import Mapping

from narrator.compose.english import join_list
from narrator.publish.text import numbers, numbers_read

_SAID = re.compile(r"(?i)\bnumbers?(?: [0-9]{1,4}(?:(?:,? (?:and|or|to)|,) [0-9]{1,4})*)")


def translated(text: str, to: Mapping[int, int | None]) -> str:
    """The text with each number of a finding as the other report counts it; those that are gone there are left out."""
    return _SAID.sub(lambda found: _one(found[0], to), text) if "umber" in text else text


def _one(text: str, to: Mapping[int, int | None]) -> str:
    said = numbers_read(text)
    if len(said) > 9999 or all(to.get(each, each) == each for each in said):
        return text
    found = {new for each in said if (new := to.get(each, each)) is not None}
    word = text[:6] + ("s" if len(found) > 1 else "")
    listed = numbers(found).split(", ") if " to " in text else list(map(str, sorted(found)))
    return f"{word} {join_list(listed)}" if found else text[:6]
