"""Texts in pieces: an edit carried over to a text that moved on, and the trace of an edited text."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from narrator.edits.words import merged, pieces, respanned, same, told

WORDS = st.lists(
    st.sampled_from(["the", "gap", "is", "1/4", "inch", "above", "roof,", "below", "(wet)", "“soft”"]),
    min_size=1,
    max_size=12,
)


@given(st.text(max_size=80))
def test_pieces_joined_are_the_text(text: str) -> None:
    assert "".join(each.text for each in pieces(text)) == text


def test_an_edit_is_carried_over_where_another_word_changed() -> None:
    base = "The gap is 1/4 inch above the roof line today."
    assert merged(base, base.replace("above", "over"), base.replace("1/4", "1/2")) == (
        "The gap is 1/2 inch over the roof line today."
    )


def test_an_edit_that_touches_a_changed_word_is_not_carried_over() -> None:
    base = "The gap is 1/4 inch above the roof."
    assert merged(base, base.replace("is", "was"), base.replace("1/4", "1/2")) is None
    assert merged(base, base.replace("1/4", "3/8"), base.replace("1/4", "1/2")) is None


@given(WORDS, st.integers(0, 11), st.integers(0, 11))
def test_what_is_carried_over_holds_both_changes(words: list[str], one: int, other: int) -> None:
    one, other = one % len(words), other % len(words)
    mine, fresh = list(words), list(words)
    mine[one], fresh[other] = "MINE", "FRESH"
    out = merged(" ".join(words), " ".join(mine), " ".join(fresh))
    if out is not None:
        assert "MINE" in out and "FRESH" in out
    else:
        assert abs(one - other) <= 3 or words.count(words[one]) + words.count(words[other]) > 2


@given(WORDS, WORDS)
def test_an_edited_text_is_traced_to_the_last_character(before: list[str], after: list[str]) -> None:
    old, new = " ".join(before), " ".join(after)
    span = {"field": "x", "start": 0, "end": len(old), "kind": "text", "ref": "a", "file": "f", "line": 1}
    spans = respanned(old, [span], new, "x", "notes.edits.yaml", 7)  # type: ignore[list-item]
    assert [each["start"] for each in spans] == [0, *[each["end"] for each in spans[:-1]]]
    assert spans[-1]["end"] == len(new)
    assert {each["line"] for each in spans if each["kind"] == "edit"} <= {7}


def test_a_figure_that_stayed_keeps_its_source() -> None:
    old, new = "It stops 1/4 inch above.", "It ends 1/4 inch above the shingles."
    spans = [
        {"field": "x", "start": 0, "end": 9, "kind": "text", "ref": "a", "file": "f", "line": 1},
        {"field": "x", "start": 9, "end": 17, "kind": "quantity", "ref": "line 3", "file": None, "line": 3},
        {"field": "x", "start": 17, "end": 24, "kind": "text", "ref": "a", "file": "f", "line": 1},
    ]
    found = respanned(old, spans, new, "x", "e", 7)  # type: ignore[arg-type]
    (figure,) = [each for each in found if each["kind"] == "quantity"]
    assert new[figure["start"] : figure["end"]] == "1/4 inch"
    assert [new[each["start"] : each["end"]].strip() for each in found if each["kind"] == "edit"] == [
        "ends",
        "the shingles",
    ]


def test_quotes_dashes_and_spaces_are_no_change() -> None:
    assert same("“soft” – 1/4\u00a0inch", '"soft" - 1/4  inch')
    assert not same("1/4 inch", "1/2 inch")


def test_a_change_is_told_by_its_words() -> None:
    assert told("It is 1/4 inch wide.", "It is 1/2 inch.") == "“1/4” is now “1/2”; “wide” is gone"
