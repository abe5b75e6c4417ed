"""Pictures as plain data, with their text in words: a moisture survey by place, the steps of a stair.

One survey is one picture: every place of a code stands in it, also a wall whose readings are no finding and the part
believed dry. What someone else told us never stands beside what we measured.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.compose.chart_text import REASONS, difference, flights, survey
from narrator.compose.english import capital_first
from narrator.measure.units import UNITS

if TYPE_CHECKING:
    from narrator.report import Chart, ChartMark, ChartPoint, ChartRow, Finding, Result

FEWEST = 2
"""Points. A place with fewer stands in no picture."""

_MOISTURE = frozenset({"readings", "reading", "moisture"})
_CONTROL = " control"
_RISER = "stair-riser"
_BANDS = {
    "wood-moisture-decay-stop": "a reason to look for water",
    "wood-moisture-decay-active": "wood this wet usually holds free water",
}


class _Series(NamedTuple):
    """A series of one place. `key`: what stands in one picture; `spread`: largest less smallest, for steps."""

    key: tuple[str, str, str, str]
    finding: str | None
    label: str
    control: bool
    points: list[ChartPoint]
    lines: list[int]
    marks: list[ChartMark]
    spread: Mapping[str, Any] | None


def charts_of(findings: Sequence[Finding], results: Sequence[Result]) -> list[Chart]:
    """The pictures of a report: those of findings in printed order, then those of results alone."""
    found: dict[tuple[str, str, str, str], list[_Series]] = {}
    for finding in findings:
        apart = next((f"~{basis}" for basis in ("told", "inferred") if finding["id"].endswith(f"~{basis}")), "")
        code = finding["code"] + apart
        for one in finding["instances"]:
            for series in _series(one["measures"], code, finding["id"], one["place"], one["lines"]):
                found.setdefault(series.key, []).append(series)
    for result in results:
        for series in _series(result["measures"], result["code"] or "", None, result["place"], result["lines"]):
            found.setdefault(series.key, []).append(series)
    full = {key: _full(group) for key, group in found.items()}
    charts = [_chart(key, group) for key, group in full.items() if any(map(_shows, group))]
    return [chart for chart in charts if chart["finding"]] + [chart for chart in charts if not chart["finding"]]


def _series(
    measures: Sequence[Mapping[str, Any]], code: str, finding: str | None, place: str | None, lines: Sequence[int]
) -> Iterator[_Series]:
    """The series of one place that make a picture."""
    for measure in measures:
        if not measure["points"]:
            continue
        name, unit = measure["name"], measure["unit"]
        spread = next(
            (item for item in measures if item.get("from") == name and item["name"] == f"{name} variation"), None
        )
        if unit == "percent" and name.removesuffix(_CONTROL) in _MOISTURE:
            kind, spread = "moisture", None
        elif spread is not None and _is_rise(measure["points"], spread):
            kind = "risers"
        else:
            continue
        held = [item["criterion"] for item in measures if name in (item["name"], item.get("from"))]
        yield _Series(
            (code, kind, name.removesuffix(_CONTROL), unit),
            finding,
            capital_first(" ".join((place or "").split())),
            name.endswith(_CONTROL),
            [_point(point) for point in measure["points"]],
            list(lines),
            _marks(held) if kind == "moisture" else [],
            spread,
        )


def _is_rise(points: Sequence[Mapping[str, Any]], spread: Mapping[str, Any]) -> bool:
    """Whether points are risers, all in one unit: figures in two would make bars that lie."""
    values = [point["value"] for point in points if point["value"] is not None]
    alike = len(values) >= FEWEST and abs(max(values) - min(values) - spread["value"]) < 1e-4
    return alike and bool(spread["criterion"]) and spread["criterion"]["id"].startswith(_RISER)


def _full(group: Sequence[_Series]) -> list[_Series]:
    """The series of those places that have enough points between them."""
    counts: dict[tuple[str, bool], int] = {}
    for one in group:
        counts[one.label, one.control] = counts.get((one.label, one.control), 0) + len(one.points)
    return [one for one in group if counts[one.label, one.control] >= FEWEST]


def _shows(series: _Series) -> bool:
    """Whether there is a figure to show, beside what is only for comparison: points without any need no picture."""
    return not series.control and any(one["value"] is not None or one["reason"] == "OL" for one in series.points)


def _point(point: Mapping[str, Any]) -> ChartPoint:
    value, reason = point["value"], point["reason"]
    said = point.get("text") or (f"{value:g} %" if value is not None else REASONS.get(reason, reason or "no reading"))
    return {"name": point["name"], "value": value, "reason": reason, "text": said}


def _marks(criteria: Sequence[Mapping[str, Any] | None]) -> list[ChartMark]:
    """Published figures in percent, in words."""
    out: list[ChartMark] = []
    for each in criteria:
        if each is None or each["unit"] != "percent" or isinstance(each["value"], list):
            continue
        says = _BANDS.get(each["id"], "more than the published figure" if each["comparison"] == "max" else "")
        if says:
            out.append({"value": each["value"], "text": f"{each['value']:g} % and up: {says}"})
    return out


def _chart(key: tuple[str, str, str, str], group: Sequence[_Series]) -> Chart:
    """One picture: its rows in order, those for comparison last, and one row for each place."""
    code, kind, name, unit = key
    rows: dict[tuple[str, bool], ChartRow] = {}
    for one in sorted(group, key=lambda item: item.control):
        at = (one.label, one.control) if kind == "moisture" else (f"{one.label} {len(rows)}", False)
        row: ChartRow = {"label": one.label, "control": one.control, "points": [], "spread": None}
        rows.setdefault(at, row)["points"].extend(one.points)
        if one.spread is not None:
            rows[at]["spread"] = difference(one.points, one.spread["text"])
    marks = {mark["value"]: mark for one in group if not one.control for mark in one.marks}
    whose = next((one.finding for one in group if one.finding and not one.control), None)
    units = UNITS[unit].many if unit in UNITS and kind == "risers" else unit
    title = f"Moisture readings, in {unit}" if kind == "moisture" else f"Height of each step, in {units}"
    title += ", as told to us" if code.endswith("~told") else ""
    made: Chart = {
        "id": "-".join(("chart", code, name, unit)),
        "text": "",
        "lines": sorted({number for one in group for number in one.lines}),
        "kind": kind,
        "finding": whose,
        "title": title,
        "unit": unit,
        "rows": list(rows.values()),
        "marks": [mark for _, mark in sorted(marks.items())],
    }
    held = [one.spread["criterion"] for one in group if one.spread is not None]
    said = survey(made) if kind == "moisture" else flights(made, held)
    made["text"] = " ".join(f"{text}." for text in [title, *said] if text)
    return made
