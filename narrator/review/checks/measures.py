"""Figures: the text against what was measured, and against its picture."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.measure.verdict import usual
from narrator.report import Finding
from narrator.review.checks.sheets import rows
from narrator.review.grounds import Grounds, figures, name, prose, unquoted
from narrator.review.matter import Matter, of_finding
from narrator.review.pieces import Found
from narrator.review.plainly import level
from narrator.source import index as store

_AT = re.compile(r"(\d[\d ./]*\d|\d) ?(?:%|[a-zA-Z]+)? at ([A-Z]+\d+)")
_WITH_UNIT = re.compile(
    r"(\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*)[ -](?:inch(?:es)?|f(?:oo|ee)t|mm|cm|m|%|psi|degrees|°[FC]|amps?|volts?|years?|"
    r"ppm|gallons?)(?!\w)"
)
_UNITS = ("", "millimeter", "centimeter", "meter", "meter**2", "degC", "delta_degC", "kilopascal")
_FEW = 2
_RIGHT = "Look at the checklist, and write the measured figure everywhere."


def check(grounds: Grounds) -> Iterator[Matter]:
    """Figures that no measure, no picture or no other place of the finding has."""
    on_sheets: dict[int, str] = {}
    for row in rows(grounds):
        if row.number is not None:
            on_sheets[row.number] = f"{on_sheets.get(row.number, '')} {row.cells.get('Figures', '')}"
    for found in grounds.reading.findings:
        yield from _pictures(found)
        yield from _stray(grounds, found, on_sheets)
        value = grounds.values.get(found.number or 0)
        if value is not None:
            yield from _value(found, value, _results(grounds, value["code"]))


def _stray(grounds: Grounds, found: Found, on_sheets: dict[int, str]) -> Iterator[Matter]:
    """Figures with a unit that neither the sheet nor a published figure of this entry has.

    Where several were taken the text also says what was reckoned from them, so such findings are left alone.
    """
    entry = grounds.entry(found)
    if entry is None or not grounds.same_library or any(each.kind == "chart" for each in found.passages):
        return
    told = on_sheets.get(found.number or 0)
    if told is None or len(figures(unquoted(told))) > _FEW * max(1, len(found.places)) or "; " in unquoted(told):
        return
    known = figures(told) | figures(level("; ".join(found.places)))
    for spec in entry.measures:
        known |= _published(grounds, spec.criterion or "") | _published(grounds, spec.typical or "")
    for match in _WITH_UNIT.finditer(unquoted(prose(found))):
        for figure in sorted(figures(match[1]) - known):
            text = (
                f"The text of {name(found)} says “{match[0]}”; neither its sheet nor the published figure has {figure}."
            )
            yield of_finding("figure", found, text, _RIGHT)


def _published(grounds: Grounds, criterion: str) -> set[str]:
    found: set[str] = set()
    for each in ("", "-existing", "-older"):
        row = store.criterion(grounds.index, f"{criterion}{each}")
        if row is not None:
            for unit in _UNITS:
                try:
                    found |= figures(level(usual(row, unit)))
                except ValueError:
                    continue
    return found


def _results(grounds: Grounds, code: str) -> set[str]:
    """Figures of readings that went as they should: a survey compares with them."""
    sections = grounds.report["sections"] if grounds.report else []
    results = [each for part in sections for each in part["results"] if each["code"] == code]
    return figures(level(" ".join([each["text"] for each in results])))


def _pictures(found: Found) -> Iterator[Matter]:
    charts = " ".join(level(each.text) for each in found.passages if each.kind == "chart")
    if not charts:
        return
    shown = {point: figure for figure, point in _AT.findall(charts)}
    for each in found.passages:
        if each.kind != "chart":
            for figure, point in _AT.findall(level(each.text)):
                if point in shown and shown[point] != figure:
                    yield Matter(
                        "figure",
                        each.line or found.line,
                        found.number,
                        f"The text of {name(found)} says {figure} at {point}; its picture says {shown[point]}.",
                        _RIGHT,
                    )


def _value(found: Found, value: Finding, beside: set[str]) -> Iterator[Matter]:
    """The value in JSON: each measure in the text, and each printed quantity a measure."""
    text = level(value["observation"])
    typed = set(beside)
    for one in value["instances"]:
        for measure in one["measures"]:
            said = level(measure.get("text") or "")
            typed |= figures(said)
            if measure.get("value") is not None and said and not measure.get("from"):
                yield from _same(found, measure["name"], measure["value"], measure.get("unit", ""), said)
            for figure in sorted(figures(said) - figures(text)) if said and not measure.get("from") else ():
                yield of_finding(
                    "figure",
                    found,
                    f"{measure['name'].capitalize()} of {name(found)} was {said}; the text does not say {figure}.",
                    _RIGHT,
                )
    for span in value["trace"]:
        if span["kind"] == "quantity" and span["field"] == "observation":
            printed = level(value["observation"][span["start"] : span["end"]])
            for figure in sorted(figures(printed) - typed):
                yield of_finding(
                    "figure",
                    found,
                    f"The text of {name(found)} says {printed}; no line of the checklist has {figure}.",
                    _RIGHT,
                )


def _same(found: Found, label: str, value: float, unit: str, said: str) -> Iterator[Matter]:
    from narrator.measure.scan import scan

    quantities = [each.quantity for each in scan(said)]
    known = {round(float(end), 4) for each in quantities for end in (each.low, each.high)}
    plain = {round(float(each), 4) for each in re.findall(r"(?<![\d/])\d+(?:\.\d+)?(?![\d/])", said)}
    if quantities and known and round(float(value), 4) not in known | plain and unit:
        yield of_finding(
            "figure",
            found,
            f"{label.capitalize()} of {name(found)} is {value:g} {unit} as a value and “{said}” in words.",
            _RIGHT,
        )
