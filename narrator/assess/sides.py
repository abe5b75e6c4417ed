"""What the figures make of a line, and which entry of the same component they speak for when the words leave it open."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from narrator.assess.model import Seen
from narrator.resolve.model import Instance, Measure
from narrator.source import index as store
from narrator.source.index import Index
from narrator.source.model import Entry

# An instance with its verdicts, under the settings of this checklist.
Judge = Callable[[Instance], Seen]


def fate_of(seen: Seen) -> str:
    """What the numbers make of a line: meets, contradiction (the words say otherwise) or fails."""
    verdicts = seen.verdicts
    if seen.judged and all(item.measure.control for item in seen.judged):
        return "meets"  # readings on a part believed dry: a result that the survey cites
    if not verdicts or any(verdict != "meets" for verdict in verdicts):
        return "fails"
    # `guard low` with a height that meets the figure: one of the two is wrong. `guard height` alone says nothing.
    return "contradiction" if seen.instance.says_wrong else "meets"


def other_side(seen: Seen, index: Index, judge: Judge) -> Seen | None:
    """The entry of the same component that the figure fails, when only the plain name of the measure was typed.

    `water pressure 30 psi` meets the upper figure; the entry for low pressure holds the same measure against a lower one.
    """
    instance = seen.instance
    if instance.match.how == "code" or instance.entry is None or not seen.verdicts:
        return None
    for code in store.component_codes(index, instance.match.code):
        entry = store.entry(index, code) if code != instance.match.code else None
        specs = {spec.name: spec for spec in entry.measures if spec.criterion and not spec.context} if entry else {}
        names = [measure.spec.name for measure in instance.measures if not measure.spec.context]
        if entry is None or not names or any(name not in specs for name in names):
            continue
        measures = tuple(
            replace(measure, spec=specs[measure.spec.name])
            for measure in instance.measures
            if measure.spec.name in specs
        )
        judged = judge(_moved(instance, entry, measures))
        if fate_of(judged) == "fails" and judged.verdicts:
            return judged
    return None


def has_reading(seen: Seen) -> bool:
    """Whether any point has a figure, or went past the top of the scale."""
    return any(point.value is not None or point.reason == "OL" for item in seen.judged for point in item.measure.points)


def only_unheld(seen: Seen) -> bool:
    """Points without hold, and beside them no reading that fails: the missing hold is the matter, not the moisture."""
    points = [point for item in seen.judged if not item.measure.control for point in item.measure.points]
    fails = any(verdict != "meets" for verdict in seen.verdicts)
    return any(point.reason == "no-hold" for point in points) and not fails


def unheld_side(seen: Seen, index: Index, judge: Judge) -> Seen | None:
    """The entry of the same component for pins that met nothing firm, if the library has one."""
    instance = seen.instance
    near = [code for code in store.component_codes(index, instance.match.code) if code != instance.match.code]
    for code, known in store.known_of(index, near).items():
        entry = store.entry(index, code)
        spec = next((one for one in entry.measures if one.series), None) if entry else None
        if "nohold" in known.conditions and entry is not None and spec is not None:
            measures = tuple(
                replace(measure, spec=spec) if measure.points else measure for measure in instance.measures
            )
            return judge(_moved(instance, entry, measures))
    return None


def _moved(instance: Instance, entry: Entry, measures: tuple[Measure, ...]) -> Instance:
    """The instance as one of another entry."""
    match = instance.match._replace(code=entry.code)
    return replace(instance, entry=entry, match=match, title=entry.title[-1].text, measures=measures)
