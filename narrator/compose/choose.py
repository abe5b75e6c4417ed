"""Which wording holds: `when` is closed data, the first variant that holds wins."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from narrator.assess.model import FIRST_HAND, Seen, undated
from narrator.source.model import Variant

VERDICTS = ("meets", "short", "over", "too close", "typed", "none")
PLACES = ("none", "one", "many")


STORY = ("told", "alone")


def holds(
    when: Mapping[str, Any], seen: Sequence[Seen], places: int, count: int | None, in_story: bool = False
) -> bool:
    """Whether every condition of a `when` holds for these instances; a list of values means any of them."""
    return all(
        ("told" if in_story else "alone") == wanted if key == "story" else _holds(key, wanted, seen, places, count)
        for key, wanted in when.items()
    )


def _holds(key: str, wanted: Any, seen: Sequence[Seen], places: int, count: int | None) -> bool:
    options = wanted if isinstance(wanted, list) else [wanted]
    if key == "places":
        return ("none" if places == 0 else "one" if places == 1 else "many") in options
    if key == "count":
        return ("none" if count is None else "one" if count == 1 else "many") in options
    if key == "basis":
        bases = {item.instance.basis for item in seen}
        kinds = bases | ({"first-hand"} if bases <= set(FIRST_HAND) else set())
        return len(bases) == 1 and bool(kinds & set(options))
    verdicts = [
        item.verdict
        for one in seen
        for item in one.judged
        if item.measure.spec.name == key and not item.measure.control and not undated(item)
    ]
    typed = bool(verdicts)
    if "typed" in options and typed:
        return True
    if "none" in options and not typed:
        return True
    known = {verdict for verdict in verdicts if verdict}
    if "meets" in options and known == {"meets"}:
        return True
    return bool((known - {"meets"}) & (set(options) - {"meets"}))


def chosen(
    variants: Sequence[Variant], seen: Sequence[Seen], places: int, count: int | None, in_story: bool = False
) -> Variant | None:
    """The first variant that holds, or None."""
    return next((variant for variant in variants if holds(variant.when, seen, places, count, in_story)), None)
