"""The checklist notation: which of the seven rules decides what a line is, and what a line keeps."""

from __future__ import annotations

import pytest
from drafting import LIBRARY, one, read

from narrator.errors import NarratorError
from narrator.pipeline import grammar_of
from narrator.read.model import HEADERS, Line
from narrator.read.notation import MOST_BYTES, MOST_LINES, read_checklist


def last(text: str) -> Line:
    return read(text)[-1]


def left_out(text: str) -> tuple[int, ...]:
    return read_checklist(text, "notes.txt", grammar_of(LIBRARY)).left_out


# Rule 1 and 2: blank, remark.


@pytest.mark.parametrize("text", ["", "   ", "\t\t", "\u00a0", "\ufeff", "\x0c", "\u2028", "\u3000 "])
def test_a_blank_line_is_nothing(text: str) -> None:
    assert read(text) == ()


@pytest.mark.parametrize("text", ["-- call Bob", "—call Bob", "— call Bob", "  -- call Bob", "--", "- -- call Bob"])
def test_a_remark_to_oneself_never_enters(text: str) -> None:
    assert read(text) == ()
    assert left_out(text) == (1,)


@pytest.mark.parametrize(
    "text",
    ["no gfci | kitchen -- check again", "no gfci | kitchen — check again", "no gfci | kitchen | -- check again"],
)
def test_a_remark_ends_the_public_part_of_a_line(text: str) -> None:
    line = one(text)
    assert (line.kind, line.what, line.where, line.items) == ("finding", "no gfci", "kitchen", ())
    assert "check" not in line.text
    assert left_out(text) == (1,)


def test_a_remark_sign_inside_a_quotation_or_a_note_does_not_count() -> None:
    line = one('no gfci | kitchen | "he said -- no"')
    assert line.items[0].value == "he said -- no"
    assert one("note: he said -- no — never").value == "he said -- no — never"
    assert left_out("note: he said -- no") == ()


def test_a_remark_in_headers_statuses_and_headings() -> None:
    assert one("weather: rain -- heavy").value == "rain"
    assert one("weather: -- heavy").value == ""
    assert one("not inspected: attic - locked -- key later").reason == "locked"
    assert one("ok: soffit | rear -- check").where == "rear"
    assert one("photos 1-4: front -- dark").value == "front"
    assert [line.kind for line in read("Kitchen: -- later")] == ["heading"]
    assert [line.kind for line in read("Kitchen -- later")] == ["heading"]
    assert left_out("Kitchen: -- later") == (1,)


# Rule 3: reserved words.


@pytest.mark.parametrize("word", HEADERS)
def test_every_header(word: str) -> None:
    for typed in (f"{word}: value | x", f"{word.upper()} : value | x", f"  {word.replace(' ', '   ')}  :value | x"):
        line = one(typed)
        assert (line.kind, line.key, line.value) == ("header", word, "value | x")


def test_clients_repeat() -> None:
    assert [line.value for line in read("client: Ana\nclient: Ben")] == ["Ana", "Ben"]


@pytest.mark.parametrize("word", ["ok", "tested", "partly", "not inspected", "not present"])
def test_a_status_takes_what_where_details_and_a_reason(word: str) -> None:
    line = one(f"{word}: soffit, fascia | rear | photo 3 - high up, photo 4")
    assert (line.kind, line.key) == ("status", word)
    assert (line.what, line.where) == ("soffit, fascia", "rear")
    assert line.reason == "high up"
    assert line.photos == (4,)
    assert [item.numbers for item in line.items] == [(3,)]


def test_a_reason_starts_at_the_first_spaced_dash() -> None:
    assert one("partly: attic - from the hatch, front third").reason == "from the hatch, front third"
    assert one("partly: attic – from the hatch - dark").reason == "from the hatch - dark"
    line = one("not inspected: crawl-space")
    assert (line.what, line.reason) == ("crawl-space", "")
    line = one('tested: GFCI | bath | "on - and off" - dead')
    assert (line.items[0].value, line.reason) == ("on - and off", "dead")


@pytest.mark.parametrize("text", ["ok:", "tested:", "partly: |", "own:", "not inspected: | attic"])
def test_a_reserved_word_without_a_thing_is_unresolved(text: str) -> None:
    assert one(text).kind == "unresolved"


def test_details_of_what_was_not_seen_are_part_of_the_reason() -> None:
    line = one("not inspected: crawl space | rear | wet, told by seller, photo 3 - locked")
    assert line.reason == "locked; wet, told by seller"
    assert [item.numbers for item in line.items] == [(3,)]
    assert one("partly: attic | | from the hatch").reason == "from the hatch"


def test_a_reserved_word_needs_its_colon() -> None:
    assert one("tested GFCI in kitchen").kind == "finding"
    assert one("not inspected").kind == "finding"


def test_a_note_is_verbatim() -> None:
    line = one('Note:  He said  "it = dry" | no -- really, 3/8"  ')
    assert (line.kind, line.value) == ("note", 'He said  "it = dry" | no -- really, 3/8"')


def test_own_has_a_title_a_place_and_details() -> None:
    line = one("own: trampoline, rusty | rear yard | photo 3, upkeep")
    assert (line.kind, line.what, line.where) == ("own", "trampoline, rusty", "rear yard")
    assert [item.kind for item in line.items] == ["photos", "override"]
    assert one("own: trampoline?").inferred


@pytest.mark.parametrize(
    ("text", "photos", "caption"),
    [
        ("photos 1-4: front elevation", (1, 2, 3, 4), "front elevation"),
        ("photo 7: panel", (7,), "panel"),
        ("Photos 1-2, 5 : front", (1, 2, 5), "front"),
        ("photos 1 & 3: front", (1, 3), "front"),
        ("photos 101,102: front", (101, 102), "front"),
        ("photos: 1-4 front", (1, 2, 3, 4), "front"),
        ("photos 1-4:", (1, 2, 3, 4), ""),
        ("photos 1-4: front: left | x = y", (1, 2, 3, 4), "front: left | x = y"),
    ],
)
def test_photo_captions(text: str, photos: tuple[int, ...], caption: str) -> None:
    line = one(text)
    assert (line.kind, line.photos, line.value) == ("photos", photos, caption)


@pytest.mark.parametrize("text", ["photos 9-2: front", "photos: front elevation"])
def test_photos_without_readable_numbers_are_unresolved(text: str) -> None:
    assert one(text).kind == "unresolved"


def test_a_reserved_word_wins_over_signs_and_headings() -> None:
    assert one("ok: roof = slate | main roof").kind == "status"
    assert one("note: Kitchen: no gfci").kind == "note"
    assert one("weather: | rain").kind == "header"


# Rule 4 and 6: headings.


@pytest.mark.parametrize(
    ("text", "system", "place"),
    [
        ("Roof", "roof", "Roof"),
        ("ELECTRICAL", "electrical", None),
        ("Plumbing:", "plumbing", None),
        ("Heating and cooling", "heating", None),
        ("Kitchen", "kitchen", "Kitchen"),
        ("kitchen:", "kitchen", "kitchen"),
        ("Hall bath", None, "Hall bath"),
        ("Bedroom 2", None, "Bedroom 2"),
        ("Second floor hall bath", None, "Second floor hall bath"),
        ("Rear deck", None, "Rear deck"),
        ("left wall", None, "left wall"),
        ("rear", None, "rear"),
        ("- Garage", "garage", "Garage"),
        ("1. Garage:", "garage", "Garage"),
        ("** Garage **", "garage", "Garage"),
        ("Garage.", "garage", "Garage"),
        ("[Hall bath]", None, "Hall bath"),
    ],
)
def test_a_line_that_names_a_system_or_a_known_place(text: str, system: str | None, place: str | None) -> None:
    line = one(text)
    assert line.kind == "heading"
    assert (line.key or None, line.where or None) == (system, place)


@pytest.mark.parametrize(
    "text", ["Kitchen sink", "Garage stuff", "The old red barn house", '"Kitchen"', "Roofer", "Bath 2 vanity"]
)
def test_a_line_that_names_none_exactly(text: str) -> None:
    assert all(line.kind != "heading" or line.where == text for line in read(text))


def test_what_follows_the_colon_is_read_as_a_line_under_it() -> None:
    head, below = read("Kitchen: no gfci")
    assert (head.kind, head.text) == ("heading", "Kitchen")
    assert (below.kind, below.what, below.heading_place) == ("finding", "no gfci", "Kitchen")
    head, below = read("Hall bath: note: smells -- odd")
    assert (below.kind, below.value, below.heading_place) == ("note", "smells -- odd", "Hall bath")
    assert [line.kind for line in read("Roof: roof slope = 8/12")] == ["heading", "description"]
    assert [line.kind for line in read("Kitchen: ok: sink")] == ["heading", "status"]
    assert [line.kind for line in read("Kitchen: - no gfci | | |")] == ["heading", "finding"]
    assert [line.kind for line in read("Garage: Kitchen: no gfci")] == ["heading", "heading", "finding"]


def test_a_colon_after_anything_else_is_no_heading() -> None:
    line = one("seller said: no gfci")
    assert line.kind == "finding"


def test_headings_stay_in_force() -> None:
    text = "Electrical\nno gfci\nHall bath\nfan noisy\nRoof\nshingles curling\nPlumbing\nleak"
    found = {line.text: (line.heading_system, line.heading_place) for line in read(text) if line.kind == "finding"}
    assert found == {
        "no gfci": ("electrical", None),
        "fan noisy": ("electrical", "Hall bath"),
        "shingles curling": ("roof", "Roof"),
        "leak": ("plumbing", None),
    }


def test_a_system_heading_ends_the_place_heading() -> None:
    assert last("Hall bath\nElectrical\nno gfci").heading_place is None


def test_the_system_of_a_room_ends_with_the_room() -> None:
    assert last("Kitchen\nno gfci\nHall bath\nfan noisy").heading_system is None


def test_an_unknown_heading_ends_the_place_above() -> None:
    line = last("Kitchen\nno gfci\nmisc stuff:\nfan noisy")
    assert (line.heading_place, line.heading_system) == (None, None)


# Rule 5: the first bar, tab or `=`.


def test_a_bar_or_a_tab_makes_a_finding() -> None:
    for text in (
        "no gfci | left of sink | photo 3, x2",
        "no gfci\tleft of sink\tphoto 3, x2",
        "no gfci|left of sink|photo 3|x2",
    ):
        line = one(text)
        assert (line.kind, line.what, line.where) == ("finding", "no gfci", "left of sink")
        assert [item.kind for item in line.items] == ["photos", "count"]
        assert line.barred


def test_pasted_spreadsheet_rows_keep_empty_cells() -> None:
    line = one("no gfci\t\tphoto 3\t\t\t")
    assert (line.what, line.where) == ("no gfci", "")
    assert [item.kind for item in line.items] == ["photos"]
    assert one("no gfci |  | photo 3 | |").where == ""
    assert one("no gfci | - | photo 3").where == ""


def test_nothing_before_the_first_bar_is_unresolved() -> None:
    for text in ("| front", "\u00a0| front", "|"):
        assert one(text).kind == "unresolved"


def test_an_equals_sign_makes_a_description() -> None:
    line = one("roof covering = asphalt shingle | main roof | photo 3, 4")
    assert (line.kind, line.key, line.value, line.where) == (
        "description",
        "roof covering",
        "asphalt shingle",
        "main roof",
    )
    assert line.items[0].numbers == (3, 4)
    assert one("Roof Slope = 8/12").value == "8/12"
    assert one("paint colour = beige = warm").value == "beige = warm"
    assert one("roof covering=asphalt | main").value == "asphalt"


@pytest.mark.parametrize(
    "text", ["shingles curling, rear = bad", "no gfci = kitchen", "loose guard = rear deck", "a, b = c"]
)
def test_a_comma_or_a_condition_word_on_the_left_makes_a_finding(text: str) -> None:
    line = one(text)
    assert line.kind == "finding"
    assert line.text == text


@pytest.mark.parametrize(
    "text", ["= slate", "roof covering =", "roof covering = | main roof", "=", "roof covering = |", " = = "]
)
def test_nothing_on_one_side_of_the_equals_sign_is_unresolved(text: str) -> None:
    assert one(text).kind == "unresolved"


def test_the_first_sign_decides() -> None:
    assert one("no gfci | kitchen | a = b").kind == "finding"
    assert one("no gfci, a = b | kitchen | photo 3").kind == "finding"
    line = one('"a = b" | kitchen')
    assert (line.kind, line.what) == ("finding", '"a = b"')
    assert one('roof covering = "slate | old" | main roof').where == "main roof"


# Rule 7: a finding without bars.


@pytest.mark.parametrize(
    ("text", "what", "where", "kinds"),
    [
        ("no gfci", "no gfci", "", []),
        ("no gfci, left of sink", "no gfci", "left of sink", []),
        ("no gfci, kitchen, photo 3, x2", "no gfci", "kitchen", ["photos", "count"]),
        ("no gfci, photo 3", "no gfci", "", ["photos"]),
        ("no gfci, kitchen; hall bath, photo 3", "no gfci", "kitchen; hall bath", ["photos"]),
        ("guard low, rear deck, 34 in", "guard low", "rear deck", ["value"]),
        ("no gfci, old and yellow, photo 3", "no gfci", "", ["words", "photos"]),
        ("furnace not working, furnace 2", "furnace not working", "", ["unit"]),
        ("furnace not working, basement, furnace 2", "furnace not working", "basement", ["unit"]),
    ],
)
def test_a_finding_without_bars(text: str, what: str, where: str, kinds: list[str]) -> None:
    line = one(text)
    assert (line.kind, line.what, line.where) == ("finding", what, where)
    assert [item.kind for item in line.items] == kinds
    assert not line.barred


# The first cell: `;`, `?`, repeats.


def test_a_semicolon_in_the_first_cell_splits_findings_that_share_the_rest() -> None:
    first, second = read("missing handrail; loose guard? | rear deck | photo 4, x2")
    assert (first.what, second.what) == ("missing handrail", "loose guard")
    assert (first.inferred, second.inferred) == (False, True)
    assert first.where == second.where == "rear deck"
    assert first.items == second.items
    assert [line.what for line in read("no gfci; loose outlet, kitchen")] == ["no gfci", "loose outlet"]


def test_each_part_shows_its_own_words() -> None:
    first, second = read("missing handrail; loose guard | rear deck")
    assert (first.text, second.text) == ("missing handrail | rear deck", "loose guard | rear deck")


def test_a_semicolon_inside_a_quotation_does_not_split() -> None:
    assert [line.what for line in read('"wet; soft" | rear')] == ['"wet; soft"']


@pytest.mark.parametrize("sign", ['"', "”", "same", "Same", "SAME"])
def test_a_repeat_sign_alone_repeats_the_what_above(sign: str) -> None:
    line = last(f"stucco tight to roof? | rear | gap 1/4 in\n\n-- mine\nnote: x\n{sign} | left side | gap 1/2 in")
    assert (line.kind, line.what, line.where, line.inferred) == ("finding", "stucco tight to roof", "left side", True)
    assert line.items[0].text == "gap 1/2 in"


def test_a_repeat_sign_repeats_every_part() -> None:
    assert [line.what for line in read('a loose; b loose | rear\n" | front')] == ["a loose", "b loose"] * 2


def test_a_repeat_sign_without_bars() -> None:
    line = last('no gfci, kitchen\n", hall bath, photo 3')
    assert (line.what, line.where) == ("no gfci", "hall bath")


def test_a_repeat_sign_with_nothing_above_is_unresolved() -> None:
    assert one('" | rear').kind == "unresolved"
    assert last('Kitchen\nroof covering = slate\n" | rear').kind == "unresolved"


def test_a_repeat_sign_never_turns_a_status_into_a_finding() -> None:
    assert last('no gfci | bath\ntested: furnace | basement | ran\n" | attic').kind == "unresolved"


def test_a_repeat_sign_after_own_repeats_the_own_finding() -> None:
    line = last('own: trampoline rusty | rear\n" | left side')
    assert (line.kind, line.what, line.where) == ("own", "trampoline rusty", "left side")


def test_words_beside_a_repeat_sign_are_no_repeat() -> None:
    assert last("no gfci | kitchen\nsame old outlet | bath").what == "same old outlet"


@pytest.mark.parametrize(
    ("text", "what"),
    [("loose guard?", "loose guard"), ("loose guard ??", "loose guard"), ("why? loose guard", "why? loose guard")],
)
def test_a_trailing_question_mark_means_inferred(text: str, what: str) -> None:
    line = one(text)
    assert (line.what, line.inferred) == (what, text.endswith("?"))


# The place: `same`.


def test_same_is_the_last_place_typed_above_resolved_or_not() -> None:
    assert last("no gfci | left of sink\nfrobnicated widget | rear deck\nloose guard | same").where == "rear deck"
    assert last("no gfci, hall bath\nloose outlet, same, photo 3").where == "hall bath"
    assert last("roof covering = slate | main roof\nshingles curling | same").where == "main roof"
    assert last("ok: soffit | rear\nfascia rotted | same").where == "rear"
    assert last("own: trampoline | rear yard\nloose guard | SAME").where == "rear yard"
    assert last("no gfci kitchen\nloose outlet | same").where == "kitchen"


def test_same_is_a_whole_place() -> None:
    assert last("no gfci | rear; left of sink\nloose outlet | same").where == "rear; left of sink"
    assert last("no gfci | rear\nloose outlet | same; front").where == "rear; front"


def test_same_under_another_heading_is_still_the_place_above() -> None:
    line = last("Garage\nno gfci | left wall\nElectrical\nloose outlet | same")
    assert (line.where, line.heading_place) == ("left wall", "Garage")


def test_same_after_a_new_place_heading_is_that_place() -> None:
    line = last("loose guard | rear deck\nGarage\nno gfci | same")
    assert (line.where or None, line.heading_place) == (None, "Garage")


def test_same_with_no_place_above_is_unresolved() -> None:
    assert one("no gfci | same").kind == "unresolved"
    assert one("ok: soffit | same").kind == "unresolved"
    assert one("roof covering = slate | same").kind == "unresolved"
    assert one("own: trampoline | same").kind == "unresolved"


# Lines, columns, odd characters, limits.


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends(end: str) -> None:
    found = read(end.join(("Kitchen", "", "no gfci", "loose outlet", "")))
    assert [(line.number, line.text) for line in found] == [(1, "Kitchen"), (3, "no gfci"), (4, "loose outlet")]


@pytest.mark.parametrize("sign", ["\u2028", "\u2029", "\x85", "\x0b", "\x0c", "\x1c"])
def test_other_separators_end_no_line(sign: str) -> None:
    found = read(f"no{sign}gfci\nloose outlet")
    assert [line.number for line in found] == [1, 2]
    assert found[0].text == f"no{sign}gfci"


def test_marks_at_the_edge_are_no_words() -> None:
    assert one("\ufeffKitchen").kind == "heading"
    assert one("\u200bnot\u00a0inspected\u00a0: attic").kind == "status"
    assert one("no gfci\u200b|\u00a0kitchen\u200b").where == "kitchen"


@pytest.mark.parametrize(
    "text", ["gfci 👍 loose", "חלון שבור", "\u202egfci\u202c", "no g\x00fci", "{{ 7*7 }}", "<script>"]
)
def test_odd_characters_stay_as_typed(text: str) -> None:
    assert one(text).what == text.strip("\u202c") or one(text).what == text


def test_a_line_knows_its_column_and_heading() -> None:
    line = last("Garage\n  - no gfci | left wall | photo 3")
    assert (line.number, line.column, line.heading_text) == (2, 5, "Garage")
    assert line.items[0].column == 27


def test_a_very_long_line_is_kept_unresolved() -> None:
    text = "no gfci " * 2_000
    line = one(text)
    assert (line.kind, line.text) == ("unresolved", text.strip())
    assert one("note: " + text).value == text.strip()


def test_a_page_of_text_in_a_cell_is_kept_unresolved() -> None:
    for text in ("kitchen " * 200, "no gfci | " + "kitchen " * 200, "ok: " + "soffit " * 200, "own: " + "swing " * 300):
        assert one(text).kind == "unresolved"
        assert one(text).text == text.strip()
    assert one("no gfci | kitchen | " + "x" * 5_000).kind == "finding"


def test_a_file_too_long_is_refused() -> None:
    with pytest.raises(NarratorError):
        read("x" * (MOST_BYTES + 1))
    with pytest.raises(NarratorError):
        read("\n" * MOST_LINES)
    assert read("\n" * (MOST_LINES - 1)) == ()
