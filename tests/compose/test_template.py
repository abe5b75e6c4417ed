"""Templates print typed values only: published ways out of the sandbox are refused, and typed text is never parsed."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jinja2 import TemplateError

from narrator.compose.spans import Paragraph
from narrator.compose.template import Untyped, Value, parse, render, value, variables
from narrator.errors import NarratorError
from narrator.pipeline import draft_text
from narrator.source.model import Variant
from narrator.source.store import compile_library, open_library

TINY = Path(__file__).parents[1] / "source" / "check" / "tiny"
ENTRY = "entries/walls/siding/near-roof.yaml"
SENTENCE = "Rain on the roof splashes up and wets the ends of the boards."

# Each name is the source: a published breakout of the jinja2 sandbox.
PUBLISHED = {
    # A format string reaches attributes that the sandbox guards.
    "CVE-2016-10745 str.format": '{{ "{0.__class__.__mro__}".format(place) }}',
    "CVE-2016-10745 str.format by name": '{{ "{x.__class__.__init__.__globals__}".format(x=place) }}',
    # The same by the sister method that was forgotten.
    "CVE-2019-10906 str.format_map": '{{ "{x.__class__.__init__.__globals__}".format_map({"x": place}) }}',
    # An unknown filter's or test's name was put into generated code beside the file's name.
    "CVE-2024-56201 filter in generated code": '{{ place | nosuch("{__import__(0)}") }}',
    "CVE-2024-56201 test in generated code": '{{ place is nosuch("{__import__(0)}") }}',
    "CVE-2024-56201 statement": "{% if place %}{{ place | nosuch }}{% endif %}",
    # The method is kept under another name, or handed to a filter that calls it.
    "CVE-2024-56326 set": '{% set f = "{0.__class__}".format %}{{ f(place) }}',
    "CVE-2024-56326 call of a kept method": '{{ ("{0.__class__}".format)(place) }}',
    "CVE-2024-56326 map": '{{ [place] | map("{0.__class__}".format) | list }}',
    "CVE-2024-56326 with": '{% with f = "{0.__class__}".format %}{{ f(place) }}{% endwith %}',
    # The filter |attr gave the method without asking the sandbox.
    "CVE-2025-27516 attr": '{{ "{0.__class__}" | attr("format")(place) }}',
    "CVE-2025-27516 attr on a value": '{{ place | attr("__class__") }}',
}
# Roads of the same kind that have no number.
OTHERS = {
    "attribute": "{{ place.__class__ }}",
    "private attribute": "{{ place._parts }}",
    "attribute of an attribute": "{{ gap.usual.spans }}",
    "item": '{{ place["__class__"] }}',
    "number of an item": "{{ place.0 }}",
    "call": "{{ place() }}",
    "call of a part": "{{ gap.usual() }}",
    "global": '{{ cycler.__init__.__globals__["os"].popen("id").read() }}',
    "sum": "{{ 7 * 7 }}",
    "text": '{{ "typed" }}',
    "joined": "{{ place ~ gap }}",
    "choice": "{{ place if gap else place }}",
    "list": "{{ [place, gap] }}",
    "loop": "{% for x in place %}{{ x }}{% endfor %}",
    "include": '{% include "/etc/passwd" %}',
    "import": '{% import "os" as os %}{{ os }}',
    "raw": "{% raw %}{{ place }}{% endraw %}",
    "comment": "{# hidden #}",
    "macro": "{% macro m() %}{{ place }}{% endmacro %}{{ m() }}",
}
REFUSED = PUBLISHED | OTHERS


def shown(text: str, values: dict[str, Value], line: int = 7) -> Paragraph:
    """A text filled in."""
    variant = Variant("", {}, text, line, tuple(parse(text)))
    return render(variant, values, "library/entries/a/b/c.yaml", "a.b.c:observation")


@pytest.mark.parametrize("name", REFUSED)
def test_a_way_out_of_the_sandbox_is_refused_before_anything_is_kept(name: str) -> None:
    with pytest.raises((Untyped, TemplateError)):
        parse(REFUSED[name])
    with pytest.raises((Untyped, TemplateError)):
        variables(REFUSED[name])


@pytest.mark.parametrize("name", PUBLISHED)
def test_a_library_with_a_published_breakout_is_refused_with_its_place(name: str, tmp_path: Path) -> None:
    root = tmp_path / "library"
    shutil.copytree(TINY, root)
    entry = root / ENTRY
    text = entry.read_text(encoding="utf-8")
    assert text.count(SENTENCE) == 1
    entry.write_text(text.replace(SENTENCE, PUBLISHED[name]), encoding="utf-8")
    with pytest.raises(NarratorError) as caught:
        compile_library(root)
    (fault,) = caught.value.faults
    assert (fault.pos.path, fault.pos.line) == (f"library/{ENTRY}", 28)
    assert "typed values" in fault.message


def test_a_file_name_is_no_way_in_either(tmp_path: Path) -> None:
    """CVE-2024-56201 needs a file name of the attacker's choosing: here no such path gives a code."""
    root = tmp_path / "library"
    shutil.copytree(TINY, root)
    odd = "{__import__('os').system('id')}.yaml"
    (root / ENTRY).rename((root / ENTRY).with_name(odd))
    with pytest.raises(NarratorError) as caught:
        compile_library(root)
    assert [fault.pos.path for fault in caught.value.faults] == [f"library/entries/walls/siding/{odd}"]


# Names that jinja2 itself gives a template: here they are values that nobody typed.
@pytest.mark.parametrize("name", ["self", "range", "dict", "lipsum", "cycler", "joiner", "namespace", "caller", "loop"])
def test_a_name_of_the_template_engine_is_only_an_unknown_value(name: str) -> None:
    with pytest.raises(NarratorError) as caught:
        shown(f"The {{{{ {name} }}}} is here.", {"place": value("in the hall", "place", "line 3")})
    (fault,) = caught.value.faults
    assert (fault.pos.path, fault.pos.line, fault.key) == ("library/entries/a/b/c.yaml", 7, "a.b.c:observation")
    assert "Known here: place." in fault.message


@pytest.mark.parametrize("part", ["usual", "format", "spans", "parts", "count"])
def test_a_part_that_a_value_does_not_have_is_told(part: str) -> None:
    with pytest.raises(NarratorError, match=f"'place.{part}' cannot be filled in"):
        shown(f"It is {{{{ place.{part} }}}}.", {"place": value("in the hall", "place", "line 3")})


def test_what_is_printed_knows_its_kind_and_where_it_came_from() -> None:
    usual = value("2 inches", "criterion", "siding-above-roof")
    gap = Value(value("1/4 inch", "quantity", "measure:gap", 3).spans, {"usual": usual})
    values = {"place": value("on the rear wall", "place", "line 3", 3), "gap": gap}
    made = shown("{{ place }}, it stops {{ gap }} short of {{ gap.usual }}.", values)
    assert made.text == "On the rear wall, it stops 1/4 inch short of 2 inches."
    assert [(span.text, span.kind, span.ref) for span in made.spans] == [
        ("On the rear wall", "place", "line 3"),
        (", it stops ", "text", "a.b.c:observation"),
        ("1/4 inch", "quantity", "measure:gap"),
        (" short of ", "text", "a.b.c:observation"),
        ("2 inches", "criterion", "siding-above-roof"),
        (".", "text", "a.b.c:observation"),
    ]
    assert {span.line for span in made.spans if span.kind == "text"} == {7}


@pytest.mark.parametrize(
    ("text", "with_place", "without"),
    [
        ("{{ place }}, the board is soft.", "In the hall, the board is soft.", "The board is soft."),
        ("The board is soft {{ place }}.", "The board is soft in the hall.", "The board is soft."),
        ("It leans. {{ place }}, it is soft.", "It leans. In the hall, it is soft.", "It leans. It is soft."),
        ("The board {{ place }} is soft.", "The board in the hall is soft.", "The board is soft."),
    ],
)
def test_a_place_that_was_not_typed_vanishes_with_its_comma(text: str, with_place: str, without: str) -> None:
    assert shown(text, {"place": value("in the hall", "place", "line 3")}).text == with_place
    assert shown(text, {"place": Value(())}).text == without


TYPED = [
    "{{ 7 * 7 }}",
    "{% set x = 1 %}",
    "{# gone #}",
    "<script>alert(1)</script>",
    "{0.__class__}",
    "%s %(x)s",
    "\ue0000\ue001",
]


@pytest.mark.parametrize("typed", TYPED)
def test_text_that_a_person_typed_is_never_parsed(typed: str) -> None:
    made = shown("{{ place }}, it is soft.", {"place": value(typed, "words", "line 3")})
    assert made.text == f"{typed}, it is soft."


@pytest.mark.parametrize("typed", TYPED)
def test_braces_in_a_checklist_come_out_as_typed(typed: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NARRATOR_CACHE", str(tmp_path))
    report = draft_text(f'siding tight to roof | rear wall | "{typed}"\n', "x.txt", open_library(TINY))
    (finding,) = report["sections"][0]["findings"]
    assert f"“{typed}”" in finding["observation"]
    assert finding["flags"] == []


@given(st.text(alphabet="{}%#|.()[]'\" placegap_", max_size=30))
def test_any_text_is_parsed_to_names_and_texts_or_refused(text: str) -> None:
    try:
        pieces = parse(text)
    except (Untyped, TemplateError):
        return
    for piece in pieces:
        assert isinstance(piece, str) or all(not name.startswith("__") for name in piece)
        assert isinstance(piece, str) or 1 <= len(piece) <= 2
