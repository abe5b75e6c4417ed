"""Review windows against published counting examples.

windows.yaml beside this file says whose they are, and which are derived.

The federal calendars are from memory: they hold the rules of 5 U.S.C. 6103 against common knowledge, no more.
"""

from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
import yaml

from narrator.assess.counting import is_open
from narrator.assess.window import Window, read_window, rules_from

HERE = Path(__file__).parent
RULES = rules_from(yaml.safe_load((HERE.parents[1] / "library" / "windows.yaml").read_text(encoding="utf-8")))
DATA = yaml.safe_load((HERE / "windows.yaml").read_text(encoding="utf-8"))
CASES = [(group["rule"], case) for group in DATA["groups"] for case in group["cases"]]


def window(rule: str, case: dict[str, Any]) -> Window:
    if "ends" in case:
        text = f"ends {case['ends']}" + (", rolls" if case.get("rolls") else "")
    else:
        text = f"{case['n']} days from {case['start']} {case.get('hour', '')}".rstrip()
    found = read_window(f"{text}, counted {rule}", RULES)
    assert isinstance(found, Window), found
    return found


@pytest.mark.parametrize(
    ("rule", "case"), CASES, ids=[f"{rule}-{index}" for index, (rule, _) in enumerate(CASES)]
)
def test_published_counts(rule: str, case: dict[str, Any]) -> None:
    found = window(rule, case)
    if "first" in case:
        assert found.first == date.fromisoformat(case["first"])
        return
    day, _, hour = case["expect"].partition("T")
    assert found.closes == date.fromisoformat(day)
    assert not hour or found.hour == hour


def test_every_rule_has_a_case_and_a_source() -> None:
    assert {rule for rule, _ in CASES} == set(RULES)
    assert all(rule.source and rule.known_by in ("read", "memory") for rule in RULES.values())
    assert {case["kind"] for _, case in CASES} == {"published", "fitted", "derived"}


@pytest.mark.parametrize("year", DATA["federal"]["years"])
def test_federal_holidays_from_memory(year: int) -> None:
    assert DATA["federal"]["known_by"] == "memory"
    days = [date(year, 1, 1) + timedelta(days=step) for step in range(365)]
    closed = [str(day) for day in days if day.weekday() < 5 and not is_open(day)]
    assert closed == DATA["federal"]["years"][year]
