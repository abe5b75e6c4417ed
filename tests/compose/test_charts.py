"""Pictures as plain data: what stands in them, beside what, and in which words."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from narrator.compose.chart_text import REASONS
from narrator.pipeline import draft_text
from narrator.report import Chart, Report
from narrator.source.index import Index
from narrator.source.store import open_library

ROOT = Path(__file__).parents[2]
FRONT = "stucco moisture | front, below entry window | B1 18, B2 21, B3 33, B4 OL, B5-B6 no-hold, photos 14-16"
CONTROL = "stucco moisture | right side | control 10 11 12 13"
RISERS = "riser heights | main stairs | 7 1/4, 7 3/4, 7 1/2, 8 in"


@pytest.fixture(scope="module")
def index() -> Index:
    return open_library()


def drafted(index: Index, *lines: str) -> Report:
    return draft_text("\n".join(["visited: 4 March 2026", "moisture meter: pin, +-2", *lines]), "x.txt", index)


def charts(index: Index, *lines: str) -> list[Chart]:
    return drafted(index, *lines)["charts"]


def labels(chart: Chart) -> list[tuple[str, bool]]:
    return [(row["label"], row["control"]) for row in chart["rows"]]


def test_a_survey_is_one_picture_with_the_dry_wall_beside_it(index: Index) -> None:
    (chart,) = charts(index, CONTROL, FRONT, "stucco moisture | rear | 12 14 11")
    assert (chart["kind"], chart["finding"], chart["unit"]) == ("moisture", "walls.stucco.damp", "percent")
    assert labels(chart) == [("Front, below entry window", False), ("Rear", False), ("Right side", True)]
    assert chart["lines"] == [3, 4, 5]
    assert chart["marks"] == [{"value": 20, "text": "20 % and up: a reason to look for water"}]
    points = [(point["name"], point["value"], point["reason"]) for point in chart["rows"][0]["points"]]
    assert points == [
        ("B1", 18, None), ("B2", 21, None), ("B3", 33, None), ("B4", None, "OL"), ("B5", None, "no-hold"),
        ("B6", None, "no-hold"),
    ]  # fmt: skip


def test_the_words_hold_every_figure_name_and_reason(index: Index) -> None:
    (chart,) = charts(
        index, FRONT, "stucco moisture | rear | A1 12.5, A2 void, A3 blocked, A4 too-short, A5 <6", CONTROL
    )
    for row in chart["rows"]:
        assert row["label"] in chart["text"]
        for point in row["points"]:
            said = point["text"] if point["reason"] is None else REASONS[point["reason"]]
            assert said in chart["text"]
            assert point["name"] is None or point["name"] in chart["text"]
    assert "no hold at B5 and B6" in chart["text"] and "less than 6 % at A5" in chart["text"]
    assert "Right side, believed dry, for comparison: 10 %, 11 %, 12 %, 13 %." in chart["text"]
    assert "20 % and up: a reason to look for water." in chart["text"]
    assert "rot" not in chart["text"] and "decay" not in chart["text"]


def test_both_outcomes_of_a_code_stand_in_the_picture_of_the_first(index: Index) -> None:
    report = drafted(index, FRONT, "stucco moisture | left | 16 18 19.5")
    ids = [found["id"] for part in report["sections"] for found in part["findings"]]
    assert ids == ["walls.stucco.damp", "walls.stucco.damp~too-close"]
    (chart,) = report["charts"]
    assert chart["finding"] == ids[0] and len(chart["rows"]) == 2


def test_what_we_were_told_stands_alone(index: Index) -> None:
    ours, told = charts(index, FRONT, CONTROL, "stucco moisture | rear | 22 30, told by seller")
    assert labels(told) == [("Rear", False)] and told["text"].startswith(
        "Moisture readings, in percent, as told to us."
    )
    assert told["finding"] == "walls.stucco.damp~told" and ("Rear", False) not in labels(ours)


def test_readings_that_only_rank_have_no_published_figure(index: Index) -> None:
    (chart,) = charts(index, "drywall damp | hall | 12 15 40")
    assert chart["marks"] == [] and "20 %" not in chart["text"]


@pytest.mark.parametrize(
    "line",
    [
        "stucco moisture | front | 22",
        "stucco moisture | front | A1 22",
        CONTROL,
        "stucco no-hold | front | A1 no-hold, A2 no-hold",
        "riser heights | main stairs | variation 3/4 in",
        "ground slope 6%",
        "gutter full | rear",
    ],
)
def test_what_makes_no_picture(line: str, index: Index) -> None:
    assert charts(index, line) == []


def test_points_of_one_place_on_two_lines_are_one_strip(index: Index) -> None:
    (chart,) = charts(index, "stucco moisture | front | A1 12, A2 25", "stucco moisture | front | A3 22")
    assert [point["name"] for point in chart["rows"][0]["points"]] == ["A1", "A2", "A3"] and len(chart["rows"]) == 1


def test_steps_name_the_largest_difference(index: Index) -> None:
    (chart,) = charts(index, RISERS)
    assert (chart["kind"], chart["finding"], chart["unit"]) == ("risers", "stairs.riser.uneven", "inch")
    spread = chart["rows"][0]["spread"]
    assert spread is not None and spread["figure"] == "3/4 inch"
    assert spread["text"] == "The largest difference is 3/4 inch, between step 4 (8 inches) and step 1 (7 1/4 inches)"
    assert chart["text"] == (
        "Height of each step, in inches. The steps stand in the order noted. Main stairs: step 1, 7 1/4 inches; "
        "step 2, 7 3/4 inches; step 3, 7 1/2 inches; step 4, 8 inches. " + spread["text"] + ". "
        "Stair builders keep the steps of a flight within 3/8 inch of one another."
    )


def test_steps_that_went_fine_are_a_picture_without_a_finding(index: Index) -> None:
    (chart,) = charts(index, "riser heights | main stairs | 180 181 180 180 180 mm")
    assert chart["finding"] is None
    assert "step 2, 181 mm; steps 3 to 5, 180 mm each." in chart["text"] and "within 10 mm" in chart["text"]
    (level,) = charts(index, "riser heights | main stairs | 7 1/2, 7 1/2, 7 1/2 in")
    assert level["rows"][0]["spread"] == {"figure": "", "text": "Every step measured has the same height"}


def test_flights_in_different_units_are_drawn_apart(index: Index) -> None:
    found = charts(index, RISERS, "riser heights | basement stairs | 190 178 165 mm")
    assert [chart["unit"] for chart in found] == ["inch", "millimeter"]
    assert len({chart["id"] for chart in found}) == 2 and {chart["finding"] for chart in found} == {
        "stairs.riser.uneven"
    }


def _asked(checklist: str, to: str, tmp_path: Path, **env: str) -> tuple[str, bytes]:
    """Which of the heavy libraries a draft loaded, and what it wrote."""
    source = tmp_path / "checklist.txt"
    source.write_text(checklist, "utf-8")
    target = tmp_path / f"draft.{to}"
    code = (
        "import sys; from narrator.commands import main\n"
        f"sys.argv = ['narrator', 'draft', {str(source)!r}, '-o', {str(target)!r}]\n"
        "try: main()\n"
        "except SystemExit as done: assert not done.code\n"
        "print(','.join(name for name in ('matplotlib', 'numpy') if name in sys.modules))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], env={**os.environ, **env}, check=True, capture_output=True, text=True, cwd=ROOT
    )
    return done.stdout.strip(), target.read_bytes()


def test_nothing_is_loaded_to_draw_where_there_is_nothing_to_draw(tmp_path: Path) -> None:
    assert _asked("visited: 4 March 2026\ngutter full | rear\n", "html", tmp_path)[0] == ""
    assert _asked(f"visited: 4 March 2026\n{FRONT}\n", "md", tmp_path)[0] == ""


def test_the_same_bytes_twice_and_over_hash_seeds(tmp_path: Path) -> None:
    pytest.importorskip("matplotlib")
    text = "\n".join(["visited: 4 March 2026", FRONT, CONTROL, RISERS])
    pages = [_asked(text, "html", tmp_path, PYTHONHASHSEED=seed) for seed in ("0", "1", "1")]
    assert {loaded for loaded, _ in pages} == {"matplotlib,numpy"}
    figures = [re.findall(b"(?s)<figure.*?</figure>", page) for _, page in pages]
    assert figures[0] == figures[1] == figures[2] and len(figures[0]) == 2 and b"<svg" in figures[0][1]


def test_charts_are_plain_data(index: Index) -> None:
    found = charts(index, FRONT, CONTROL, RISERS)
    assert json.loads(json.dumps(found)) == found
