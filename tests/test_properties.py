"""Both conservations, no traceback on any text, and the same bytes twice."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any

from drafting import LIBRARY, at, draft, kinds, read
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrator.measure.scan import scan
from narrator.resolve.vocabulary import plain_words
from narrator.resolve.words import understand
from narrator.source import index as store

SLOW = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow], max_examples=120)

# What a thumb may type, glued in any order: signs, reserved words, things, figures, odd characters.
ATOMS = (
    "no gfci", "stucco tight to roof", "shingles curling", "Kitchen", "Garage", "Roof", "Walls", "Hall bath", "left of sink",
    "rear", "front wall", "same", '"', "”", "“it leaks”", '"said, so"', "|", " | ", ",", ", ", ";", "; ", " -- ", " — ", "--",
    "—", "=", " = ", ":", ": ", "note:", "ok:", "tested:", "own:", "partly:", "not inspected:", "property:", "visited:",
    "review window:", "photos 1-4:", "photo 3", "3", "12-14", "x3", "gap 1/4 in", '3/8"', "18 22 OL", "A1 11", "A7-A8 no-hold",
    "control", "warned occupant 14:10", "told by seller", 'because "x, y"', 'do "z"', "hold back - r", "hold back", "act-now",
    "plan", "trade plumber + engineer", "?", "\t", "-", "- ", "1. ", "• ", "1,200", "5'10\"", "WH 18 yr old", "hot water 138F",
    "guard low", "40 in", "11 of 14", "made 2005", "furnace 2", "panel B", "did not trip", "ok", "10 days from 4 March 2026",
    "{{ place }}", "{% for %}", "<b>", "&amp;", "é", "👍", "שלום", "\u202e", "\u2028", "\u200b", "\ufeff", "\x0c", "\xa0", "\x00",
    "٣", "%", "$5", "½", "~4", "<1/16", "10000000000000000000000", "1/0", "9999-99-99", "roof covering", "  ",
)  # fmt: skip
GLUED = st.lists(st.tuples(st.sampled_from(ATOMS), st.sampled_from(("", " "))), min_size=1, max_size=9).map(
    lambda parts: "".join(atom + gap for atom, gap in parts)
)
TEXTS = st.one_of(
    st.text(max_size=300),
    st.lists(st.one_of(GLUED, st.text(max_size=40)), min_size=1, max_size=6).map("\n".join),
)
ENDS = re.compile(r"\r\n|\n|\r")
LIST_MARK = re.compile(r"[-*•–]\s+|\d{1,3}[.)](?:\s+|(?=[^\W\d]))")
INVISIBLE = "\u200b\u200e\u200f\u2060\ufeff\xad"


def bare(line: str) -> str:
    """A line without what is stripped first, as a reader of the design would strip it."""
    text = line.strip().strip(INVISIBLE).strip()
    while text != (text := text.strip().strip(INVISIBLE)):
        pass
    mark = LIST_MARK.match(text)
    return text[mark.end() :].strip().strip(INVISIBLE).strip() if mark else text


@SLOW
@given(TEXTS)
def test_every_line_that_is_no_blank_and_no_remark_ends_up_in_exactly_one_place(text: str) -> None:
    report = draft(text)
    parts: dict[int, int] = {}
    for line in read(text):
        parts[line.number] = parts.get(line.number, 0) + 1
    for number, typed in enumerate(ENDS.split(text), 1):
        words = bare(typed)
        if not words or words.startswith(("--", "—")):
            assert at(report, number) == []
            continue
        found = {(name, part["finding"]["id"] if name == "findings" else id(part)) for name, part in at(report, number)}
        assert 1 <= len(found) <= parts[number], (number, typed, found)


@SLOW
@given(TEXTS)
def test_no_traceback_and_the_same_bytes_twice(text: str) -> None:
    first = json.dumps(draft(text), ensure_ascii=False)
    assert first == json.dumps(draft(text), ensure_ascii=False)


# The second conservation: a finding line, put together from parts whose fate is known.

WHATS = (
    "no gfci", "stucco tight to roof", "shingles curling", "curled shingles", "gutters full of leaves", "loose handrail",
    "guard loose", "outlet loose", "toilet loose", "gas smell", "window sill rotted", "flashing rusted", "faucet dripping",
    "handrail missing", "furnace not working", "no kickout flashing",
)  # fmt: skip
PLACES = (
    "kitchen",
    "hall bath",
    "Bedroom 2",
    "rear deck",
    "left of sink",
    "front wall",
    "rear",
    "under the old oak",
    "shed",
)
ODD = ("mossy stump", "beside Fred", "zigzag", "quite unlike last year", "Oakmont pattern", "since the storm")

Check = Callable[[dict[str, Any]], bool]


def _words(text: str) -> tuple[str, Check]:
    # Without bars a relation after the place is part of it (`kitchen, beside Fred`).
    return text, lambda one: text in one["words"] or text in (one["place"] or "")


def _quote(text: str) -> tuple[str, Check]:
    return f'"{text}, {text}"', lambda one: f"{text}, {text}" in one["words"]


def _photos(first: int, more: int) -> tuple[str, Check]:
    typed = f"photos {first}-{first + 2}, {more}"
    return typed, lambda one: {first, first + 1, first + 2, more} <= set(one["photos"])


def _told(who: str) -> tuple[str, Check]:
    return f"told by {who}", lambda one: one["source"] == who or f"told by {who}" in one["words"]


def _act(who: str) -> tuple[str, Check]:
    return (
        f"warned {who} 14:10",
        lambda one: ("warned", who, "14:10") in [(act["what"], act["who"], act["time"]) for act in one["acts"]],
    )


def _figure(number: int, unit: str) -> tuple[str, Check]:
    typed = f"{number} {unit}"
    return (
        typed,
        lambda one: (
            typed in one["words"]
            or any(
                measure["value"] == number or number in [point["value"] for point in measure["points"]]
                for measure in one["measures"]
            )
        ),
    )


DETAILS = st.one_of(
    st.sampled_from(ODD).map(_words),
    st.sampled_from(ODD).map(_quote),
    st.tuples(st.integers(1, 500), st.integers(600, 900)).map(lambda pair: _photos(*pair)),
    st.sampled_from(("seller", "the tenant", "Mr. Oak")).map(_told),
    st.sampled_from(("occupant", "listing agent")).map(_act),
    st.tuples(st.integers(2, 60), st.sampled_from(("in", "psi", "lb", "widgets", "mm"))).map(
        lambda pair: _figure(*pair)
    ),
    st.just(("furnace 2", lambda one: one["unit"] == "furnace 2")),
    st.integers(2, 40).map(lambda n: (f"x{n}", lambda one: one["count"] == n or f"x{n}" in one["words"])),
)


@SLOW
@given(st.sampled_from(WHATS), st.sampled_from(PLACES), st.lists(DETAILS, max_size=5), st.booleans())
def test_no_detail_of_a_finding_line_is_lost(
    what: str, place: str, details: list[tuple[str, Check]], barred: bool
) -> None:
    shared = [text for text, _ in details]
    sign = " | " if barred else ", "
    report = draft(sign.join([what, place, *([", ".join(shared)] if shared else [])]))
    found = at(report, 1)
    assert {name for name, _ in found} <= {"findings", "unresolved", "results"}
    for name, part in found:
        if name != "findings":
            assert all(text in part["text"] for text in shared) or name == "results"
            continue
        for text, check in details:
            assert check(part), (text, part)
        told = f"{part['place']} {' '.join(part['words'])} {part['unit']}"
        assert all(word in plain_words(told) for word in plain_words(place)), (place, told)


def explained(part: dict[str, Any]) -> set[str]:
    """The words and word groups that an instance accounts for: its entry's, its place's, its own."""
    vocabulary = store.vocabulary(LIBRARY)
    entry = store.entry(LIBRARY, part["finding"]["code"])
    assert entry is not None
    texts = [*entry.names, *(variant.text for variant in entry.title), part["place"] or "", *part["words"]]
    out: set[str] = set()
    for text in texts:
        out |= set(plain_words(text))
        out |= {token.canon for token in understand(text, vocabulary).tokens}
    return out


@SLOW
@given(
    st.sampled_from(WHATS),
    st.lists(st.sampled_from((*ODD, *PLACES, "18 yr old", "photo 7", "3")), max_size=3),
    st.booleans(),
)
def test_no_word_of_a_first_cell_is_lost(what: str, more: list[str], before: bool) -> None:
    typed = " ".join([*more, what] if before else [what, *more])
    report = draft(typed)
    vocabulary = store.vocabulary(LIBRARY)
    for name, part in at(report, 1):
        if name != "findings":
            assert name != "unresolved" or part["text"] == typed
            continue
        known = explained(part)
        for token in understand(typed, vocabulary).tokens:
            if token.kind == "filler" or token.canon in vocabulary.hedges or any(map(str.isdigit, token.words)):
                continue
            told = {token.canon, *token.words} & known or set(token.words) <= {"photo", "yr", "old"}
            assert told, (typed, token, part)
        for found in scan(typed):
            figure = found.quantity.text
            kept = any(figure in words for words in part["words"]) or (part["place"] or "").find(figure) >= 0
            measured = any(found.quantity.low in (measure["value"], measure.get("of")) for measure in part["measures"])
            assert kept or measured or int(found.quantity.low) in part["photos"], (typed, figure, part)


@SLOW
@given(st.lists(st.sampled_from(WHATS), min_size=2, max_size=4), st.sampled_from(PLACES))
def test_every_part_split_by_a_semicolon_has_its_place(whats: list[str], place: str) -> None:
    report = draft(f"{'; '.join(whats)} | {place} | photo 3")
    told = [part for _, part in at(report, 1)]
    assert len(told) == len(whats)
    assert kinds(report, 1) <= {"findings", "unresolved", "results"}


@SLOW
@given(st.text(max_size=200))
def test_a_note_is_kept_verbatim(words: str) -> None:
    line = ENDS.split(words)[0]
    kept = [part["text"] for name, part in at(draft(f"note: {line}"), 1) if name == "notes"]
    assert len(kept) == 1
    assert kept[0].strip() in line
    assert plain_words(kept[0]) == plain_words(line)


@SLOW
@given(st.text(alphabet="0123456789/.,'\"-~<>½¼ %", max_size=24))
def test_any_figure_is_measured_or_kept(figure: str) -> None:
    report = draft(f"stucco tight to roof | front | gap {figure} in")
    for name, part in at(report, 1):
        if name == "findings" and not part["measures"]:
            digits = re.sub(r"\D", "", figure)
            kept = re.sub(r"\D", "", "".join(part["words"])) + "".join(map(str, part["photos"]))
            assert sorted(digits) == sorted(kept), (figure, part)
