"""Pictures as plain data, with their text in words: a moisture survey by place, the steps of a stair.

One survey is one picture: every place of a code stands in it, also a wall whose readings are no finding and the part
believed dry. What someone else told us never stands beside what we measured.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.compose.english import capital_first, join_list
from narrator.measure.show import show_value
from narrator.measure.units import UNITS, convert

if TYPE_CHECKING:
    from narrator.report import Chart, ChartMark, ChartPoint, ChartRow, ChartSpread, Finding, Result

FEWEST = 2
"""Points. A series of fewer makes no picture."""

_MOISTURE = frozenset({"readings", "reading", "moisture"})
_CONTROL = " control"
_RISER = "stair-riser"
_BANDS = {
    "wood-moisture-decay-stop": "a reason to look for water",
    "wood-moisture-decay-active": "wood this wet usually holds free water",
}
_REASONS = {
    "OL": "past the top of the scale",
    "no-hold": "no hold (the pins met nothing firm)",
    "void": "void (no reading)",
    "blocked": "blocked (no reading)",
    "too short": "no reading (the pins were too short)",
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
        told = finding["id"].partition("~")[2]
        code = finding["code"] + (f"~{told}" if told in ("told", "inferred") else "")
        for one in finding["instances"]:
            for series in _series(one["measures"], code, finding["id"], one["place"], one["lines"]):
                found.setdefault(series.key, []).append(series)
    for result in results:
        for series in _series(result["measures"], result["code"] or "", None, result["place"], result["lines"]):
            found.setdefault(series.key, []).append(series)
    charts = [_chart(key, group) for key, group in found.items() if any(map(_shows, group))]
    return [chart for chart in charts if chart["finding"]] + [chart for chart in charts if not chart["finding"]]


def _series(
    measures: Sequence[Mapping[str, Any]], code: str, finding: str | None, place: str | None, lines: Sequence[int]
) -> Iterator[_Series]:
    """The series of one place that make a picture."""
    for measure in measures:
        if len(measure["points"]) < FEWEST:
            continue
        name, unit = measure["name"], measure["unit"]
        spread = next((item for item in measures if item.get("from") == name and item["name"] == f"{name} variation"), None)
        if unit == "percent" and name.removesuffix(_CONTROL) in _MOISTURE:
            kind, spread = "moisture", None
        elif spread is not None and spread["criterion"] and spread["criterion"]["id"].startswith(_RISER):
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


def _shows(series: _Series) -> bool:
    """Whether there is a figure to show, beside what is only for comparison: points without any need no picture."""
    return not series.control and any(one["value"] is not None or one["reason"] == "OL" for one in series.points)


def _point(point: Mapping[str, Any]) -> ChartPoint:
    value, reason = point["value"], point["reason"]
    said = point.get("text") or (f"{value:g} %" if value is not None else _REASONS.get(reason, reason or "no reading"))
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
            rows[at]["spread"] = _difference(one.points, one.spread["text"])
    marks = {mark["value"]: mark for one in group if not one.control for mark in one.marks}
    whose = next((one.finding for one in group if one.finding and not one.control), None)
    units = UNITS[unit].many if unit in UNITS and kind == "risers" else unit
    title = f"Moisture readings, in {unit}" if kind == "moisture" else f"Height of each step, in {units}"
    title += ", as told to us" if code.endswith("~told") else ""
    said = [title] if kind == "moisture" else [f"{title}, in the order noted"]
    for row in rows.values():
        said += [_moisture(row)] if kind == "moisture" else [_steps(row), row["spread"]["text"] if row["spread"] else ""]
    said += [mark["text"] for _, mark in sorted(marks.items())]
    usual = {_usual(one.spread["criterion"], unit) for one in group if one.spread is not None}
    said += [f"Stair builders keep the steps of a flight within {figure} of one another" for figure in sorted(usual)]
    return {
        "id": "-".join(("chart", code, name, unit)),
        "text": " ".join(f"{text}." for text in said if text),
        "lines": sorted({number for one in group for number in one.lines}),
        "kind": kind,
        "finding": whose,
        "title": title,
        "unit": unit,
        "rows": list(rows.values()),
        "marks": [mark for _, mark in sorted(marks.items())],
    }


def _moisture(row: ChartRow) -> str:
    """`Front: B1 18 %, B2 21 %, B3 and B4 no hold (the pins met nothing firm)`."""
    said = []
    for reason, points in groupby(row["points"], key=lambda point: point["reason"] if point["name"] else None):
        alike = list(points)
        if reason:
            said.append(f"{join_list([point['name'] or '' for point in alike])} {alike[0]['text']}")
        else:
            said += [f"{point['name'] or ''} {point['text']}".strip() for point in alike]
    label = row["label"] or ("A part" if row["control"] else "Readings")
    return f"{label}{', believed dry, for comparison' if row['control'] else ''}: {', '.join(said)}"


def step_names(points: Sequence[ChartPoint]) -> list[str]:
    """The steps as typed, or counted from one."""
    return [point["name"] or str(at) for at, point in enumerate(points, 1)]


def _steps(row: ChartRow) -> str:
    """`Main stairs: step 1, 7 1/4 inches; step 2, 8 inches`, each with its unit."""
    names = step_names(row["points"])
    said = [f"step {name}, {point['text']}" for name, point in zip(names, row["points"], strict=True)]
    return f"{row['label'] or 'Steps'}: {'; '.join(said)}"


def _difference(points: Sequence[ChartPoint], figure: str) -> ChartSpread:
    """`The largest difference is 3/4 inch, between step 4 (8 inches) and step 1 (7 1/4 inches)`."""
    typed = [(point["value"], name, point["text"]) for name, point in zip(step_names(points), points, strict=True)]
    known = [(value, name, text) for value, name, text in typed if value is not None]
    low, high = min(known, key=lambda one: one[0]), max(known, key=lambda one: one[0])
    if low[0] == high[0]:
        return {"figure": "", "text": "Every step measured has the same height"}
    text = f"The largest difference is {figure}, between step {high[1]} ({high[2]}) and step {low[1]} ({low[2]})"
    return {"figure": figure, "text": text}


def _usual(criterion: Mapping[str, Any], unit: str) -> str:
    """The published figure, metric where metric was typed."""
    value = Fraction(criterion["value"]).limit_denominator(64)
    metric = unit in ("millimeter", "centimeter", "meter")
    return show_value(convert(value, criterion["unit"], unit), unit) if metric else show_value(value, criterion["unit"])
