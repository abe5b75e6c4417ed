"""`NAME.edits.yaml`: what is written reads back the same, comments stay, and a broken file is a fault with its place."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrator.edits.model import Edit, Edits, Settled, Unplaced, fingerprint
from narrator.edits.store import load, read
from narrator.edits.write import save, text_of
from narrator.errors import NarratorError

TEXT = st.one_of(
    st.text(max_size=60).filter(lambda text: all(not 0xD800 <= ord(sign) <= 0xDFFF for sign in text)),
    st.lists(st.sampled_from(["gap: 1/4", "# no", "“soft”", "- x", "1e3", "no", "\n", "it's"]), max_size=30).map(
        " ".join
    ),
)


def edit(text: str, base: str, name: str = "walls.a.b", field: str = "observation") -> Edit:
    return Edit(text, base, name, field, fingerprint=fingerprint(base), by="Jo")


def bare(edits: Edits) -> list[object]:
    return [each._replace(line=0) for each in (*edits.edits, *edits.settled, *edits.unplaced)]


@given(TEXT, TEXT, TEXT)
def test_what_is_written_reads_back(one: str, other: str, third: str) -> None:
    edits = Edits(
        "x", (edit(one, other),), (Settled(4, one, other, "walls.a.b", "", (third,)),), (Unplaced(one, other, third),)
    )
    again = read(text_of(edits), "x")
    assert bare(again) == bare(edits)
    assert text_of(again) == text_of(edits)


def test_comments_and_hand_written_lines_stay() -> None:
    text = text_of(Edits("x", (edit("one", "two"), edit("three", "four", field="title"))))
    text = text.replace(
        "- finding: walls.a.b\n  field: title", "# the boss asked for this\n- finding: walls.a.b\n  field: title"
    )
    found = read(text, "x")
    more = found._replace(edits=(*found.edits, edit("five", "six", "roof.c.d")), settled=(Settled(3, "gutter full"),))
    written = text_of(more)
    assert written.startswith(text.rstrip("\n"))
    assert bare(read(written, "x")) == bare(more)
    fewer = read(written, "x")
    assert "# the boss asked for this" in text_of(fewer._replace(edits=fewer.edits[:1]))


def test_nothing_is_written_when_nothing_changed(tmp_path: Path) -> None:
    path = tmp_path / "t.edits.yaml"
    save(Edits(str(path), (edit("one", "two"),)))
    path.chmod(0o400)
    before = path.stat().st_mtime_ns
    save(load(path))
    assert path.stat().st_mtime_ns == before


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("format: narrator.edit/1\n", 1, "narrator.edits/1"),
        ("format: narrator.edits/1\nedit:\n", 2, "Did you mean 'edits'?"),
        (
            "format: narrator.edits/1\nedits:\n- finding: a.b.c\n  field: titel\n  text: x\n  base: y\n  fingerprint: '0000000000000000'\n",
            4,
            "title",
        ),
        (
            "format: narrator.edits/1\nedits:\n- finding: a.b.c\n  field: title\n  text: x\n  base: y\n  fingerprint: '0000000000000000'\n",
            7,
            "mark",
        ),
        ("format: narrator.edits/1\nsettled:\n- line: no\n  text: x\n", 3, "whole number"),
        ("format: narrator.edits/1\nedits: [\n", 3, "not YAML"),
        ("", 0, "empty"),
    ],
)
def test_a_broken_file_is_a_fault_with_its_place(text: str, line: int, said: str) -> None:
    with pytest.raises(NarratorError) as stopped:
        read(text, "t.edits.yaml")
    assert any(fault.pos.line == line and said in fault.message for fault in stopped.value.faults), stopped.value


def test_the_same_text_edited_twice_is_a_fault() -> None:
    text = text_of(Edits("x", (edit("one", "two"),)))
    again = text + text[text.index("- finding") :]
    with pytest.raises(NarratorError, match="edited twice"):
        read(again, "x")
