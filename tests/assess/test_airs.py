"""Readings of the air beside a finding. The dew points are those of psychrolib; see tests/published/test_air.py."""

from __future__ import annotations

from typing import Any

import pytest

from narrator.pipeline import draft_text
from narrator.source.index import Index
from narrator.source.store import open_library


@pytest.fixture(scope="module")
def index() -> Index:
    return open_library()


def finding(index: Index, line: str) -> Any:
    report = draft_text(line, "x", index)
    return next(one for section in report["sections"] for one in section["findings"])


def test_a_surface_below_the_dew_point_could_be_wet(index: Index) -> None:
    found = finding(index, "ceiling stained | hall bath | air 70F, RH 60%, surface 50F")
    dew = next(m for m in found["instances"][0]["measures"] if m["name"] == "dew point")
    assert dew["value"] == pytest.approx(55.5, abs=0.2) and dew["from"] == "air"
    assert "could have wet it" in found["observation"] and "60 %" in found["observation"]


def test_a_warm_surface_was_not_wet_from_the_air(index: Index) -> None:
    assert "did not wet it" in finding(index, "ceiling stained | den | air 21 C, RH 40 %, surface 20 C")["observation"]


def test_wood_in_such_air_is_context_and_no_yardstick(index: Index) -> None:
    found = finding(index, "stucco moisture | rear | 18 24 26, air 70 F, RH 65%")
    # 12.0 % at 70 °F and 65 %: Wood Handbook, table of equilibrium moisture content.
    assert "about 12 %" in found["observation"] and "no yardstick" in found["observation"]


def test_humidity_alone_is_told_as_a_figure(index: Index) -> None:
    assert "60 %" in finding(index, "ceiling stained | den | RH 60%")["observation"]


@pytest.mark.parametrize("detail", ["air 70F, RH 0%", "air 70F, RH 140%"])
def test_air_that_cannot_be_stays_words(index: Index, detail: str) -> None:
    found = finding(index, f"ceiling stained | den | {detail}")
    assert any("RH" in words for words in found["instances"][0]["words"])
