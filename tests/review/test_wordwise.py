"""Alignment and word differences against the standard library's difflib and against slow, plain ways to say the same."""

from __future__ import annotations

from difflib import SequenceMatcher
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from narrator.review.lines import Line, displaced, pair
from narrator.review.plainly import level, sentences
from narrator.review.wordwise import differences, marked, misspelled, tokens

WORDS = st.lists(
    st.sampled_from(["the", "roof", "leaks", "at", "left", "right", "wall", "1/4", "inch", "not", "dry", ",", "."]),
    max_size=12,
).map(" ".join)
LINES = st.lists(st.sampled_from("abcdefgh"), max_size=8)


@settings(deadline=None)
@given(WORDS, WORDS)
def test_what_is_marked_gives_both_texts_back(one: str, other: str) -> None:
    """As difflib's own opcodes do, put together again."""
    words = marked(one, other)
    before = " ".join(" ".join(each.text for each in words if each.state != "added").split())
    after = " ".join(" ".join(each.text for each in words if each.state != "removed").split())
    assert before.lower() == level(one).lower() and after == level(other)


@settings(deadline=None)
@given(WORDS, WORDS)
def test_differences_are_those_of_difflib(one: str, other: str) -> None:
    a, b = [each.lower() for each in tokens(one)], [each.lower() for each in tokens(other)]
    codes = SequenceMatcher(None, a, b, autojunk=False).get_opcodes()
    assert [(list(p.lost), list(p.gained)) for p in differences(one, other)] == [
        (a[i:j], b[k:m]) for tag, i, j, k, m in codes if tag != "equal"
    ]


@settings(deadline=None)
@given(LINES, LINES)
def test_pairs_hold_at_least_what_difflib_matches(one: list[str], other: list[str]) -> None:
    before = [Line(f"{each} words of sentence {each}{each}", 1) for each in one]
    after = [Line(f"{each} words of sentence {each}{each}", 1) for each in other]
    pairings = pair(before, after)
    same = [each for each in pairings if each.before and each.after and each.before.text == each.after.text]
    blocks = SequenceMatcher(None, one, other, autojunk=False).get_matching_blocks()
    assert len(same) >= sum(block.size for block in blocks)
    assert sorted(each.before.text for each in pairings if each.before) == sorted(each.text for each in before)
    assert [each.after.text for each in pairings if each.after] == [each.text for each in after]


@given(st.lists(st.integers(0, 9), unique=True, max_size=8))
def test_what_is_displaced_leaves_a_longest_run(order: list[int]) -> None:
    """Against every choice of places, tried out."""
    out = displaced(order)
    kept = [value for at, value in enumerate(order) if at not in out]
    assert kept == sorted(kept)
    best = next(
        size for size in range(len(order), -1, -1) if any(list(c) == sorted(c) for c in combinations(order, size))
    )
    assert len(kept) == best


def distance(one: str, other: str) -> int:
    """Letters put in, left out, changed or turned around: the plain table of it (optimal string alignment)."""
    table = [[max(a, b) if not min(a, b) else 0 for b in range(len(other) + 1)] for a in range(len(one) + 1)]
    for a in range(1, len(one) + 1):
        for b in range(1, len(other) + 1):
            same = one[a - 1] == other[b - 1]
            table[a][b] = min(table[a - 1][b] + 1, table[a][b - 1] + 1, table[a - 1][b - 1] + (not same))
            if a > 1 < b and one[a - 1] == other[b - 2] and one[a - 2] == other[b - 1]:
                table[a][b] = min(table[a][b], table[a - 2][b - 2] + 1)
    return table[-1][-1]


@given(st.text("abcd", min_size=3, max_size=6), st.text("abcd", min_size=3, max_size=6))
def test_a_slip_is_one_letter(one: str, other: str) -> None:
    assert misspelled(one, other) == (distance(one, other) <= 1)


def test_figures_are_never_slips() -> None:
    assert not misspelled("1998", "1989") and not misspelled("2", "3")


def test_sentences_end_where_people_end_them() -> None:
    text = level("It ends at 5 p.m. We saw J. Okafor there. The gap is 1.5 inches. “Why?” she said. No. 5 is new.")
    assert sentences(text) == (
        "It ends at 5 p.m.", "We saw J. Okafor there.", "The gap is 1.5 inches.", '"Why?" she said.', "No. 5 is new.",
    )  # fmt: skip


def test_typography_is_no_change() -> None:
    assert level("the owner’s “½ inch” – a guess…") == level('the owner\'s "1/2  inch" - a guess...')
    assert differences("the owner’s “word”", 'the owner\'s "word"') == []
