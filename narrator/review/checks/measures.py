"""Figures: the text against what was measured, and against its picture."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.report import Finding
from narrator.review.grounds import Grounds, figures, name
from narrator.review.matter import Matter
from narrator.review.pieces import Found
from narrator.review.plainly import level

_AT = re.compile(r"(\d[\d ./]*\d|\d) ?(?:%|[a-zA-Z]+)? at ([A-Z]+\d+)")
_RIGHT = "Look at the checklist, and write the measured figure everywhere."


def check(grounds: Grounds) -> Iterator[Matter]:
    """Figures that no measure, no picture or no other place of the finding has."""
    for found in grounds.reading.findings:
        yield from _pictures(found)
        value = grounds.values.get(found.number or 0)
        if value is not None:
            yield from _value(found, value, _results(grounds, value["code"]))


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
                yield Matter(
                    "figure",
                    found.line,
                    found.number,
                    f"{measure['name'].capitalize()} of {name(found)} was {said}; the text does not say {figure}.",
                    _RIGHT,
                )
    for span in value["trace"]:
        if span["kind"] == "quantity" and span["field"] == "observation":
            printed = level(value["observation"][span["start"] : span["end"]])
            for figure in sorted(figures(printed) - typed):
                yield Matter(
                    "figure",
                    found.line,
                    found.number,
                    f"The text of {name(found)} says {printed}; no line of the checklist has {figure}.",
                    _RIGHT,
                )


def _same(found: Found, label: str, value: float, unit: str, said: str) -> Iterator[Matter]:
    from narrator.measure.scan import scan

    quantities = [each.quantity for each in scan(said)]
    known = {round(float(end), 4) for each in quantities for end in (each.low, each.high)}
    plain = {round(float(each), 4) for each in re.findall(r"(?<![\d/])\d+(?:\.\d+)?(?![\d/])", said)}
    if quantities and known and round(float(value), 4) not in known | plain and unit:
        yield Matter(
            "figure",
            found.line,
            found.number,
            f"{label.capitalize()} of {name(found)} is {value:g} {unit} as a value and “{said}” in words.",
            _RIGHT,
        )
