"""`narrator compare` on the command line: exit codes, forms, kinds to allow, files that cannot be read."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

import jsonschema
import pytest
from drafting import LIBRARY

from narrator.commands.common import labels_of
from narrator.pipeline import draft_text
from narrator.publish import publish
from narrator.review.kinds import KINDS

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "schemas/comparison.schema.json").read_text(encoding="utf-8"))
NOTES = (ROOT / "examples/stucco-house/checklist.txt").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example in two formats, and edited by hand."""
    made = tmp_path_factory.mktemp("compare")
    report = draft_text(NOTES, "x", LIBRARY)
    for form in ("md", "json", "html", "txt"):
        (made / f"a.{form}").write_text(publish(report, form, labels_of(LIBRARY)), encoding="utf-8")
    text = (ROOT / "tests/review/stucco-house.md").read_text(encoding="utf-8")  # words that stay as they are
    (made / "a.md").write_text(text, encoding="utf-8")
    (made / "d.md").write_text(publish(report, "md", labels_of(LIBRARY)), encoding="utf-8")
    (made / "word.md").write_text(text.replace("Rain collects", "Rain gathers", 1), encoding="utf-8")
    left_out = text.replace("We did not see what is below the ground.", "", 1)
    (made / "limit.md").write_text(left_out.replace("Rain collects", "Rain gathers", 1), encoding="utf-8")
    (made / "tags.md").write_text(
        text.replace("Rain collects", "<script>alert(1)</script> Rain collects", 1), encoding="utf-8"
    )
    new = "Because of this, rain ends up standing at the foundation, soaking whatever the builder put there."
    old = "Rain collects at the lowest point, and with this slope that is the foundation."
    (made / "reworded.md").write_text(text.replace(old, new, 1), encoding="utf-8")
    return made


def run(folder: Path, *words: str, given: str = "") -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "narrator", "compare", *words]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1"}
    return subprocess.run(command, cwd=folder, input=given, capture_output=True, encoding="utf-8", env=environment)


def test_one_report_in_two_forms_is_no_change(folder: Path) -> None:
    for form in ("json", "html", "txt"):
        done = run(folder, "d.md", f"a.{form}")
        assert done.returncode == 0 and "Nothing changed." in done.stdout, done.stdout + done.stderr


def test_what_matters_exits_with_one_and_a_word_for_another_does_not(folder: Path) -> None:
    done = run(folder, "a.md", "limit.md")
    assert done.returncode == 1 and "What was not seen" in done.stdout and "line 69" in done.stdout
    assert run(folder, "a.md", "word.md").returncode == 0
    assert run(folder, "a.md", "limit.md", "--allow", "limit").returncode == 0


def test_reworded_matters_until_it_is_allowed(folder: Path) -> None:
    done = run(folder, "a.md", "reworded.md")
    assert done.returncode == 1 and "Put in other words" in done.stdout, done.stdout
    assert run(folder, "a.md", "reworded.md", "--allow", "reworded").returncode == 0


def test_an_unknown_kind_is_answered_with_the_nearest(folder: Path) -> None:
    done = run(folder, "a.md", "word.md", "--allow", "rewordd")
    assert done.returncode == 2 and "Did you mean 'reworded'?" in done.stderr


def test_json_fits_its_schema_and_names_every_kind(folder: Path) -> None:
    assert set(SCHEMA["$defs"]["kind"]["enum"]) == set(KINDS)
    for words in (["a.md", "limit.md"], ["a.md", "limit.md", "--same-house"], ["a.md", "word.md"]):
        done = run(folder, *words, "--to", "json")
        value = json.loads(done.stdout)
        jsonschema.validate(value, SCHEMA, cls=jsonschema.Draft202012Validator)
        assert done.returncode == (1 if value["matters"] else 0)
    assert value["counts"] == {"word": 1} and value["before"]["form"] == "md"


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.ids += [value for name, value in attrs if name == "id" and value]
        self.links += [value for name, value in attrs if name == "href" and value]


def test_html_folds_marks_and_links_without_script_or_colour_alone(folder: Path) -> None:
    done = run(folder, "a.md", "limit.md", "-o", "c.html")
    text = (folder / "c.html").read_text(encoding="utf-8")
    page = _Tags()
    page.feed(text)
    assert done.returncode == 1 and "1 change that matters, 1 beside that." in done.stderr
    assert {"details", "summary", "del", "ins"} <= set(page.tags) and not {"script", "img", "link"} & set(page.tags)
    assert len(page.ids) == len(set(page.ids)) and {each[1:] for each in page.links} <= set(page.ids)
    assert all(each.startswith("#") for each in page.links)
    style = text[text.index("<style>") : text.index("</style>")]
    assert "line-through" in style and "underline" in style and "http" not in style
    hostile = run(folder, "a.md", "tags.md", "--to", "html").stdout
    assert "<script" not in hostile and "&lt;script&gt;" in hostile
    again = run(folder, "a.md", "limit.md", "--to", "html")
    assert again.stdout == text


def test_the_screen_is_folded_to_a_width(folder: Path) -> None:
    done = run(folder, "a.md", "limit.md")
    assert max(map(len, done.stdout.split("\n"))) <= 88 and "\x1b" not in done.stdout
    assert re.search(r"\[-collects-\] \{\+gathers\+\}", done.stdout)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["a.md", "none.md"], "no such file"),
        (["a.md", "."], "folder"),
        (["a.md", "empty.md"], "empty"),
        (["a.md", "half.md"], "in the middle"),
        (["a.md", "other.txt"], "does not look like a report"),
        (["a.txt", "word.md", "-o", "a.txt"], "overwrite"),
        (["a.md", "word.md", "-o", "c.docx"], ".html, .txt or .json"),
        (["a.md", "word.md", "-o", "nowhere/c.html"], "does not exist"),
        (["-", "-"], "standard input"),
    ],
)
def test_what_cannot_be_done_is_said_with_exit_2(folder: Path, words: list[str], said: str) -> None:
    (folder / "empty.md").write_text("", encoding="utf-8")
    text = (folder / "a.md").read_text(encoding="utf-8")
    (folder / "half.md").write_text(text[: text.index("Rain collects") + 8], encoding="utf-8")
    (folder / "other.txt").write_text("Roof: fair\nWalls: good\n", encoding="utf-8")
    done = run(folder, *words)
    assert done.returncode == 2 and said in done.stderr and "Traceback" not in done.stderr
    assert (folder / "a.md").read_text(encoding="utf-8") == text


def test_a_report_may_come_from_standard_input_and_be_of_another_house(folder: Path) -> None:
    text = (folder / "a.md").read_text(encoding="utf-8").replace("14 Larch Hollow", "15 Larch Hollow")
    done = run(folder, "a.md", "-", given=text)
    assert "name different houses" in done.stdout
