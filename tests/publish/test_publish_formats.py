"""The way in: formats, suffixes, JSON, the same bytes."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from house import LABELS, report
from hypothesis import given, settings
from rough import reports

from narrator.publish import FORMATS, LATER, NotYet, by_suffix, publish
from narrator.report import Report

OPEN = {"conditions", "issue", "library", "firm", "items"}
"""Values whose keys the contract leaves open."""


def turned(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: turned(each) if key not in OPEN else each for key, each in reversed(value.items())}
    return [turned(each) for each in value] if isinstance(value, list) else value


def test_what_comes_later_says_so() -> None:
    for to in LATER:
        with pytest.raises(NotYet, match=f"{to} comes later"):
            publish(report(), to, LABELS)
    with pytest.raises(ValueError, match="'rtf' is not a format: md, html, txt, json"):
        publish(report(), "rtf", LABELS)


@pytest.mark.parametrize(
    ("path", "to"),
    [
        ("a.md", "md"), ("b/c.HTML", "html"), ("x.htm", "html"), ("x.y.txt", "txt"), ("r.json", "json"),
        ("r.docx", "docx"), ("r.pdf", "pdf"), ("r", None), ("html", None), (".md", None), ("r.rtf", None),
    ],
)  # fmt: skip
def test_a_suffix_asks_for_a_format(path: str, to: str | None) -> None:
    assert by_suffix(path) == to
    assert by_suffix(Path(path)) == to


def test_json_gives_the_same_value_back_in_the_order_of_the_contract() -> None:
    text = publish(report(), "json", LABELS)
    assert json.loads(text) == report()
    assert text.endswith("}\n") and text.startswith('{\n "format": "narrator.report/1",\n "state": "draft",\n')
    assert list(json.loads(text)) == [key for key in Report.__annotations__ if key not in ("summary", "edits")]
    assert publish(turned(report()), "json", LABELS) == text


@settings(deadline=None, max_examples=40)
@given(reports())
def test_rough_json_gives_the_same_value_back(made: Report) -> None:
    text = publish(made, "json", LABELS)
    assert json.loads(text) == made
    assert text.encode("utf-8")


def test_a_lone_surrogate_survives_json() -> None:
    made = report()
    made["property"] = "a\ud800b"
    assert json.loads(publish(made, "json", LABELS).encode("utf-8")) == made


@pytest.mark.parametrize("to", FORMATS)
def test_the_same_report_gives_the_same_bytes(to: str) -> None:
    code = (
        "import hashlib; from house import report, LABELS; from narrator.publish import publish; "
        f"print(hashlib.sha256(publish(report(), {to!r}, LABELS).encode()).hexdigest())"
    )
    here, root = Path(__file__).parent, Path(__file__).parents[2]
    path = os.pathsep.join([str(here), str(root)])
    marks = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed, "LC_ALL": locale, "PYTHONPATH": path},
            check=True,
            capture_output=True,
            cwd=folder,
        ).stdout
        for seed, locale, folder in (("0", "C", here), ("1", "C.UTF-8", root))
    }
    assert len(marks) == 1


def test_only_html_asks_for_a_template_engine() -> None:
    code = (
        "import sys; from house import report, LABELS; from narrator.publish import publish\n"
        "[publish(report(), to, LABELS) for to in ('md', 'txt', 'json')]\n"
        "print('jinja2' in sys.modules)"
    )
    path = os.pathsep.join([str(Path(__file__).parent), str(Path(__file__).parents[2])])
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONPATH": path},
        check=True,
        capture_output=True,
        text=True,
    )
    assert done.stdout == "False\n"
