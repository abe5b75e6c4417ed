"""YAML with places: duplicate keys, plain scalars, what is refused, and where each fault stands."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrator.errors import NarratorError, Pos
from narrator.source.positions import Located, load
from narrator.source.text import decode, read_text


def faults(text: str) -> list[tuple[int, int, str, str]]:
    """Line, column, key and message of every fault."""
    with pytest.raises(NarratorError) as caught:
        load(text, "x.yaml")
    return [(fault.pos.line, fault.pos.column, fault.key, fault.message) for fault in caught.value.faults]


def test_every_part_knows_its_line_and_column() -> None:
    located = load("title: Trim\nnames:\n  - rot\n  - {what: soft, where: [rear]}\n", "x.yaml")
    assert located.value == {"title": "Trim", "names": ["rot", {"what": "soft", "where": ["rear"]}]}
    assert located.places[("title",)] == (1, 1)
    assert located.places[("names", 0)] == (3, 5)
    assert located.places[("names", 1, "where", 0)] == (4, 26)
    # A part that is not there stands where the nearest part above it does.
    assert located.pos(("names", 1, "when")) == Pos("x.yaml", 4, 5)


def test_a_fault_shows_the_line_it_stands_on() -> None:
    fault = load("trade: stuco\n", "x.yaml").fault(("trade",), "'stuco' is not a trade.")
    assert fault.show() == "x.yaml:1:1  trade\n  'stuco' is not a trade.\n  >   1 | trade: stuco"


# YAML 1.2 has none of the surprises of 1.1: a country, an hour, a fraction and a date stay what was typed.
@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("no", "no"),
        ("NO", "NO"),
        ("yes", "yes"),
        ("on", "on"),
        ("off", "off"),
        ("12:30", "12:30"),
        ("3/8", "3/8"),
        ("2026-03-04", "2026-03-04"),
        ("0o7", "0o7"),
        ("0x1F", "0x1F"),
        ("1_000", "1_000"),
        ("007", "007"),
        (".inf", ".inf"),
        (".nan", ".nan"),
        ("1e", "1e"),
        ("99999999999999999999", "99999999999999999999"),
        ("'3'", "3"),
        ('"true"', "true"),
        ("true", True),
        ("False", False),
        ("null", None),
        ("~", None),
        ("", None),
        ("3", 3),
        ("-3", -3),
        ("+3", 3),
        ("0", 0),
        ("0.5", 0.5),
        (".5", 0.5),
        ("1.", 1.0),
        ("1e3", 1000.0),
    ],
)
def test_plain_scalars_are_those_of_yaml_1_2(typed: str, read: Any) -> None:
    value = load(f"a: {typed}\n", "x.yaml").value["a"]
    assert (value, type(value)) == (read, type(read))


def test_a_block_text_is_text_whatever_it_holds() -> None:
    assert load("a: |\n  3\nb: >\n  &no\n  !tag\n", "x.yaml").value == {"a": "3\n", "b": "&no !tag\n"}


def test_a_key_that_stands_twice_is_told_with_its_first_line() -> None:
    found = faults("a: 1\nb:\n  c: 1\n  d: 2\n  'c': 3\na: 2\n")
    assert found == [
        (5, 3, "b.c", "'c' stands twice (first on line 3). Keep one."),
        (6, 1, "a", "'a' stands twice (first on line 1). Keep one."),
    ]


def test_lines_are_counted_alike_whatever_ends_them() -> None:
    for end in ("\n", "\r\n", "\r"):
        assert [found[:2] for found in faults(end.join(["a:", "  b: 1", "  b: 2", ""]))] == [(3, 3)]


def test_anchors_aliases_and_tags_are_refused_where_they_stand() -> None:
    anchor = "Write the value by itself: an anchor ('&name') is not read here."
    alias = "Write it out again: an alias ('*name') is not read here."
    tag = "Write the value by itself: a tag ('!name') is not read here."
    assert faults("a: &x 1\nbeside: *x\n") == [(1, 4, "a", anchor), (2, 1, "beside", alias)]
    assert faults("a: &x [1]\nb: *x\n") == [(1, 4, "a", anchor), (2, 1, "b", alias)]
    assert faults("a: !!python/object/apply:os.system [x]\n") == [(1, 4, "a", tag)]
    assert faults("- !!str 1\n") == [(1, 3, "0", tag)]


def test_a_chain_of_aliases_does_not_grow() -> None:
    text = "a: &a [x, x]\n" + "".join(f"{b}: &{b} [*{a}, *{a}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True))
    assert all("is not read here" in message for *_, message in faults(text))


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("a: [1\nb: 2\n", 2, 2, "did not find expected ',' or ']'"),
        ("a: b: c\n", 1, 5, "mapping values are not allowed"),
        ("é: ü: c\n", 1, 5, "mapping values are not allowed"),
        ("\ta: 1\n", 1, 1, "cannot start any token"),
        ("a: |\n  x\n b\n", 3, 2, "did not find expected key"),
        ("a: 1\n---\nb: 2\n", 2, 1, "another document"),
        ("a: *x\n", 1, 4, "undefined alias"),
    ],
)
def test_a_fault_of_syntax_has_line_and_column(text: str, line: int, column: int, said: str) -> None:
    (found,) = faults(text)
    assert found[:2] == (line, column)
    assert said in found[3]
    assert found[3].startswith("This is not YAML:")


def test_a_sign_that_cannot_stand_in_yaml_has_line_and_column() -> None:
    assert faults("é: 1\nb: x\x07y\n") == [(2, 5, "", "The sign #x0007 cannot stand in YAML. Take it out.")]


def test_a_key_must_be_plain_text() -> None:
    assert faults("[a]: b\n")[0][3] == "A key must be plain text."


def test_deep_nesting_is_a_fault_and_no_crash() -> None:
    assert load("[" * 40 + "]" * 40, "x.yaml").value is not None
    assert faults("[" * 60 + "]" * 60)[0][3] == "This is nested too deep."
    # Deeper than the reader itself goes.
    assert faults("[" * 100_000 + "]" * 100_000)[0][3].startswith("This is not YAML:")


def test_an_empty_file_has_no_value() -> None:
    assert load("", "x.yaml").value is None
    assert load("# only a remark\n", "x.yaml").value is None


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path: Path) -> None:
    path = tmp_path / "x.yaml"
    path.write_bytes(b"\xef\xbb\xbfa: 1\na: 2\n")
    text = read_text(path, "x.yaml")
    assert text.startswith("a:")
    assert [found[:2] for found in faults(text)] == [(2, 1)]


@pytest.mark.parametrize("coding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_utf_16_is_told_and_how_to_save_it(coding: str) -> None:
    raw = "a: 1\n".encode(coding)
    raw = raw if coding == "utf-16" else ("\ufeff").encode(coding) + raw
    with pytest.raises(NarratorError) as caught:
        decode(raw, "x.yaml")
    (fault,) = caught.value.faults
    assert (fault.pos.line, fault.pos.column) == (1, 1)
    assert "UTF-16" in fault.message and "Save it again as UTF-8" in fault.message


def test_another_encoding_is_told_at_its_first_byte() -> None:
    with pytest.raises(NarratorError) as caught:
        decode("a: 1\nbé: ".encode() + "gap ½ in\n".encode("latin-1"), "x.yaml")
    (fault,) = caught.value.faults
    assert (fault.pos.line, fault.pos.column) == (2, 9)
    assert "0xbd" in fault.message


@pytest.mark.parametrize(("made", "said"), [("nothing", "There is no such file."), ("folder", "This is a folder")])
def test_what_is_no_file_is_told(made: str, said: str, tmp_path: Path) -> None:
    path = tmp_path / "x.yaml"
    if made == "folder":
        path.mkdir()
    with pytest.raises(NarratorError, match=said):
        read_text(path, "x.yaml")


@given(st.text(alphabet=st.characters(exclude_categories=("Cs",)), max_size=60))
def test_any_text_is_read_or_refused_with_a_place_inside_it(text: str) -> None:
    try:
        located = load(text, "x.yaml")
    except NarratorError as error:
        assert error.faults
        assert all(1 <= fault.pos.line <= text.count("\n") + len(text) + 2 for fault in error.faults)
        assert all(fault.pos.column >= 1 for fault in error.faults)
    else:
        assert isinstance(located, Located)


@given(st.text(alphabet="ab:-[]{}&*!'\"|>?#, \n", max_size=40))
def test_signs_of_yaml_in_any_order_are_read_or_refused(text: str) -> None:
    try:
        load(text, "x.yaml")
    except NarratorError as error:
        assert all(fault.pos.line <= len(text.split("\n")) + 1 for fault in error.faults)
