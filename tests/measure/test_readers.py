"""Figures in the reader's units. Conversions are checked against pint elsewhere; here, which unit and how it is rounded."""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrator.assess.judge import Tools
from narrator.assess.said import said_in
from narrator.measure.readers import in_unit, readers_unit
from narrator.measure.scan import parse_value
from narrator.measure.show import show


def said(text: str, system: str) -> str:
    found = parse_value(text)
    assert found is not None
    return show(in_unit(found, readers_unit(max(abs(found.low), abs(found.high)), found.unit, system)))


@pytest.mark.parametrize(
    ("typed", "metric"),
    [
        ("1/4 in", "6 mm"),
        ("1 in", "25 mm"),
        ("7 3/4 in", "197 mm"),
        ("36 in", "914 mm"),
        ("6 ft", "1,829 mm"),
        ("12 ft", "3.66 m"),
        ("4 to 6 in", "102 to 152 mm"),
        ("~2 in", "about 51 mm"),
        ("<1/16 in", "less than 2 mm"),
        ("138 F", "59 °C"),
        ("64 psi", "441 kPa"),
        ("3 gpm", "11 liters per minute"),
        ("50 gal", "189 liters"),
        ("12 mm", "12 mm"),
        ("18 %", "18 %"),
        ("15 amps", "15 amps"),
        ("4 pCi/L", "148 Bq/m³"),
    ],
)
def test_metric(typed: str, metric: str) -> None:
    assert said(typed, "metric") == metric
    assert said(typed, "as typed") != metric or typed in ("12 mm", "18 %", "15 amps")


@pytest.mark.parametrize(
    ("typed", "us"),
    [
        ("12 mm", "1/2 inch"),
        ("900 mm", "35 7/16 inches"),
        ("2.4 m", "7 feet 10 1/2 inches"),
        ("60 C", "140 °F"),
        ("400 kPa", "58 psi"),
        ("2 in", "2 inches"),
    ],
)
def test_us(typed: str, us: str) -> None:
    assert said(typed, "us") == us


def test_a_roof_is_told_in_degrees_and_a_drain_in_percent() -> None:
    assert readers_unit(Fraction(8), "inch/foot", "metric") == "degree"
    assert readers_unit(Fraction(1, 4), "inch/foot", "metric") == "percent"


def test_a_count_of_some_is_left_alone() -> None:
    found = parse_value("11 of 12")
    assert found is not None and in_unit(found, "millimeter") == found


def drafted(line: str, units: str, instruments: dict[str, tuple[Fraction, str]] | None = None) -> dict[str, object]:
    """The first measure of a line, judged and said in these units."""
    from drafting import LIBRARY

    from narrator.assess.judge import judge_instance
    from narrator.assess.model import Judgement
    from narrator.pipeline import grammar_of, places_of
    from narrator.read.notation import read_checklist
    from narrator.resolve.lines import resolve

    resolved = resolve(read_checklist(line, "x", grammar_of(LIBRARY)), LIBRARY, places_of(LIBRARY))
    seen = judge_instance(resolved.instances[0], LIBRARY, None, Tools(None, instruments or {}))
    made = said_in(Judgement((), (seen,), (), (), (), ()), units).met[0].judged[0]
    return {"verdict": made.verdict, "text": made.text, "unit": made.unit}


def test_a_verdict_is_found_with_the_figure_as_typed() -> None:
    assert drafted("stucco tight to roof | rear | gap 1/4 in", "metric") == {"verdict": "short", "text": "6 mm", "unit": "millimeter"}
    assert drafted("stucco tight to roof | rear | gap 1/4 in", "as typed")["text"] == "1/4 inch"


def test_a_figure_that_fails_never_rounds_to_the_one_it_fails() -> None:
    # 120 °F and 120.4 °F are both 49 °C to the whole degree.
    found = drafted("hot water | kitchen | 120.4 F", "metric")
    assert found == {"verdict": "over", "text": "120.4 °F", "unit": ""}


def test_the_firms_instrument_decides_what_is_too_close() -> None:
    line = "hot water | kitchen | 121 F"
    assert drafted(line, "as typed")["verdict"] == "over"
    assert drafted(line, "as typed", {"temperature": (Fraction(1), "degC")})["verdict"] == "too close"
    assert drafted("hot water | kitchen | 123 F", "as typed", {"temperature": (Fraction(1), "degC")})["verdict"] == "over"
