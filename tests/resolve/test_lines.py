"""Lines bound to the library: what answers, what is measured, where, how it is known, and what stays own words."""

from __future__ import annotations

import pytest
from drafting import at, draft, instance, instances, kinds, notes

from narrator.resolve.lines import slug


def measures(text: str) -> list[tuple[str, object, str]]:
    return [(item["name"], item["value"], item["unit"]) for item in instance(text)["measures"]]


def only(text: str) -> tuple[str, dict]:
    """The place that the last line ended up in, and the part."""
    ((name, part),) = at(draft(text), text.count("\n") + 1)
    return name, part


# What: code, name, shorthand; the heading is a preference, never a filter.


@pytest.mark.parametrize(
    "what", ["walls.stucco.no-roof-gap", "WALLS.Stucco.No-Roof-Gap", "stucco tight to roof", "Stucco  TIGHT to roof"]
)
def test_a_code_or_a_name_is_exact(what: str) -> None:
    found = instance(f"{what} | front wall")
    assert found["finding"]["code"] == "walls.stucco.no-roof-gap"
    assert found["matched"]["how"] in ("code", "name")
    assert found["matched"]["score"] == 1


def test_a_line_matched_by_likeness_is_listed() -> None:
    report = draft("gutters full of leaves | rear")
    (found,) = [part for name, part in at(report, 1) if name == "findings"]
    assert found["matched"]["how"] == "likeness"
    assert [note["lines"] for note in notes(report, "likeness")] == [[1]]


def test_a_heading_of_another_system_does_not_stop_an_answer() -> None:
    assert instance("Plumbing\nshingles curling | rear slope")["finding"]["code"] == "roof.shingles.curled"


def test_an_unknown_line_stays_unresolved_with_at_most_three_nearest() -> None:
    name, part = only("frobnicated gutter thing | rear")
    assert name == "unresolved"
    assert part["text"] == "frobnicated gutter thing | rear"
    assert len(part["nearest"]) <= 3


def test_likeness_never_drops_a_negation() -> None:
    assert kinds(draft("stucco not tight to roof"), 1) != {"findings"}
    assert kinds(draft("handrail not missing"), 1) == {"results"}


# Figures: in the details, in the `what`, alone, of the wrong kind, without a unit, absurd.


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("stucco tight to roof | front | gap 1/4 in", [("gap", 0.25, "inch")]),
        ("stucco tight to roof | front | 1/4 in", [("gap", 0.25, "inch")]),
        ("stucco tight to roof | front | 6 mm", [("gap", 6, "millimeter")]),
        ("stucco tight to roof | gap 1/4 in", [("gap", 0.25, "inch")]),
        ("guard low | rear deck | 34 in", [("height", 34, "inch")]),
        ("guard low, rear deck, 34 in", [("height", 34, "inch")]),
        ("hot water 138F | kitchen", [("temperature", 138, "degF")]),
        ("WH 18 yr old | garage", [("age", 18, "year")]),
    ],
)
def test_a_figure_is_bound_by_its_name_or_where_one_measure_fits(text: str, expected: list[tuple]) -> None:
    assert measures(text) == expected


@pytest.mark.parametrize(
    "detail",
    ["gap 12 psi", "gap 5 lb", "width 3 ft wide open", "gap 400 ft", "gap -3 in", "10 ft to oak tree", "3 psi"],
)
def test_a_figure_that_does_not_fit_is_kept_and_said(detail: str) -> None:
    report = draft(f"stucco tight to roof | front | {detail}")
    ((_, found),) = at(report, 1)
    assert found["measures"] == []
    assert found["words"] == [detail]
    assert any(note["kind"] in ("words", "measure") and note["lines"] == [1] for note in report["review_notes"])


def test_a_figure_without_a_unit_is_not_guessed() -> None:
    found = instance("guard low | rear deck | 34")
    assert (found["measures"], found["words"]) == ([], ["34"])
    name, part = only("hot water 131")
    assert name == "unresolved"
    assert "131" in part["reason"]


@pytest.mark.parametrize(
    "line", ["shingles curling | rear | 3", "shingles curling 3 places | rear", "shingles curling | rear | 3 shingles"]
)
def test_a_bare_number_is_no_age(line: str) -> None:
    found = instance(line)
    assert found["measures"] == []
    assert any("3" in words for words in found["words"])


def test_the_worse_end_of_a_range_is_judged() -> None:
    (measure,) = instance("stucco tight to roof | front | gap 1/4 to 3 in")["measures"]
    assert (measure["verdict"], measure["value"], measure["high"]) == ("short", 0.25, 3)


def test_a_bound_is_kept() -> None:
    (measure,) = instance("stucco tight to roof | front | gap <1/2 in")["measures"]
    assert measure["bound"] == "<"
    assert "1/2" in measure["text"]


def test_a_share_is_a_count() -> None:
    (measure,) = instance("outlet loose | kitchen | 3 of 12")["measures"]
    assert (measure["value"], measure["of"]) == (3, 12)


def test_a_series_has_points_names_and_reasons() -> None:
    found = instance("stucco moisture | below entry window | A1 18, A2 33, A3 OL, A4-A5 no-hold")
    series = found["measures"][0]
    assert series["value"] is None
    assert [(point["name"], point["value"], point["reason"]) for point in series["points"]] == [
        ("A1", 18, None),
        ("A2", 33, None),
        ("A3", None, "OL"),
        ("A4", None, "no-hold"),
        ("A5", None, "no-hold"),
    ]
    derived = [item for item in found["measures"] if item["from"]]
    assert {item["value"] for item in derived} >= {18, 33, 15}


def test_a_control_series_is_a_result_that_the_survey_cites() -> None:
    report = draft("stucco moisture | interior wall | control 11 12 10\nstucco moisture | rear | 22 31 28")
    assert kinds(report, 1) == {"results"}
    assert kinds(report, 2) == {"findings"}


# Ages.


def test_an_age_below_the_typical_life_is_a_description() -> None:
    for text in (
        "WH 5 yr old | garage",
        "furnace age | basement | 8 yr",
        "visited: 4 March 2026\nwater heater made 2019",
    ):
        assert only(text)[0] == "descriptions"
    for text in (
        "WH 18 yr old | garage",
        "furnace age | basement | 22 yr",
        "visited: 4 March 2026\nwater heater made 2001",
    ):
        assert only(text)[0] == "findings"


def test_a_year_without_a_word_is_no_age() -> None:
    name, part = only("WH 2009")
    assert name == "unresolved"
    assert "made 2009" in part["reason"]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("stucco moisture 14 16 22 31 | below bath window", [14, 16, 22, 31]),
        ("stucco moisture: 14,16,22,31 | rear", [14, 16, 22, 31]),
        ("stucco moisture, rear, 14, 16, 22", [14, 16, 22]),
        ("stucco moisture 14, 16, 31", [14, 16, 31]),
        ("uneven risers 7 1/2, 7 3/4, 8 1/4 in | basement stairs", [7.5, 7.75, 8.25]),
    ],
)
def test_readings_typed_in_the_what_are_a_series(text: str, values: list[float]) -> None:
    (part,) = [part for name, part in at(draft(text), 1) if name in ("findings", "results")]
    points = [[point["value"] for point in measure["points"]] for measure in part["measures"] if measure["points"]]
    assert points == [values]
    assert part["words"] == []


# Places.


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("no gfci | left of sink", ["left of sink"]),
        ("no gfci | rear; left side ; porch", ["rear", "left side", "porch"]),
        ("no gfci", [None]),
        ("no gfci kitchen", ["kitchen"]),
        ("no gfci kitchen | left of sink", ["kitchen, left of sink"]),
        ("Garage\nno gfci", ["Garage"]),
        ("Garage\nno gfci | left wall", ["Garage, left wall"]),
        ("Garage\nno gfci | left of sink", ["Garage, left of sink"]),
        ("Garage\nno gfci | kitchen", ["kitchen"]),
        ("Garage\nno gfci | second floor", ["second floor"]),
        ("Garage\nno gfci | shed", ["shed"]),
        ("Garage\nno gfci | rear", ["rear"]),
        ("Garage\nno gfci | left wall; kitchen", ["Garage, left wall", "kitchen"]),
        ("Garage\nno gfci bath", ["bath"]),
        ("Garage\nElectrical\nno gfci", [None]),
        ("Hall bath: no gfci", ["Hall bath"]),
        ("Walls\nstucco tight to roof | front wall", ["front wall"]),
        ("no gfci | under the old oak, 3 ft out", ["under the old oak, 3 ft out"]),
        ("Garage\nno gfci | left wall\nElectrical\nloose outlet | same", ["Garage, left wall"]),
        ("no gfci at kitchen counter", ["kitchen counter"]),
        ("no gfci kitchen left of sink", ["kitchen, left of sink"]),
        ("gas smell at meter", ["meter"]),
        ("gas smell at meter | right side", ["right side, meter"]),
        ("grout cracked at tub", ["tub"]),
        ("Hall bath\ngrout cracked at tub", ["Hall bath, tub"]),
        ("rust on water heater", [None]),
        ("driveway cracked", [None]),
        ("loose outlet rear bedroom | rear wall", ["rear bedroom, rear wall"]),
    ],
)
def test_where(text: str, places: list[str | None]) -> None:
    assert [found["place"] for found in instances(text)] == places


def test_a_second_place_is_never_lost() -> None:
    found = instance("no gfci kitchen | hall bath")
    assert found["place"] == "hall bath"
    assert any("kitchen" in words for words in found["words"])


# How it is known.


@pytest.mark.parametrize(
    ("text", "basis", "source"),
    [
        ("shingles curling | rear | seen", "seen", None),
        ("shingles curling | rear | told by seller", "told", "seller"),
        ("shingles curling | rear | inferred", "inferred", None),
        ("shingles curling? | rear", "inferred", None),
        ("stucco tight to roof | front | gap 1/4 in", "measured", None),
        ("stucco tight to roof | front | gap 1/4 in, seen", "seen", None),
        ("furnace not working | basement | tested", "tested", None),
        ("WH 18 yr old | garage | read off data plate", "read", "data plate"),
        ("gas smell | garage", "smelled", None),
    ],
)
def test_basis(text: str, basis: str, source: str | None) -> None:
    found = instance(text)
    assert (found["basis"], found["source"]) == (basis, source)


def test_a_source_beside_a_question_mark_is_kept() -> None:
    found = instance("shingles curling? | rear | told by seller")
    assert found["basis"] == "inferred"
    assert found["words"] == ["told by seller"]


def test_an_act_is_no_source() -> None:
    found = instance("gas smell | right side | told occupant 14:10")
    assert found["basis"] == "smelled"
    assert [(act["what"], act["who"], act["time"]) for act in found["acts"]] == [("told", "occupant", "14:10")]


# Own words.


def test_anything_else_is_quoted_and_listed() -> None:
    report = draft('no gfci | kitchen | beside the fish tank, "he said, twice", photo 3')
    ((_, found),) = at(report, 1)
    assert found["words"] == ["beside the fish tank", "he said, twice"]
    assert found["photos"] == [3]
    assert any("beside the fish tank" in note["text"] for note in notes(report, "words"))


def test_words_of_the_what_that_nothing_explains_are_quoted_whole() -> None:
    found = instance("shingles curling near antenna bracket | rear")
    assert any("antenna bracket" in (words or "") for words in (*found["words"], found["place"]))


def test_two_counts_keep_both() -> None:
    found = instance("no gfci | kitchen | x3, x4")
    assert (found["count"], found["words"]) == (3, ["x4"])


def test_a_unit_and_sketch_photos() -> None:
    found = instance("furnace not working | basement | furnace 2, photo 4, sketch photo 60")
    assert (found["unit"], found["photos"], found["sketches"]) == ("furnace 2", [4], [60])


def test_photos_at_the_end_of_the_what_or_the_place() -> None:
    assert instance("no gfci photo 3, 5")["photos"] == [3, 5]
    found = instance("no gfci | kitchen photo 3 | photo 4")
    assert (found["place"], found["photos"]) == ("kitchen", [3, 4])


# Results: `ok`, `tested`, fine words, measures that meet their figure.


@pytest.mark.parametrize(
    "text",
    [
        "ok: soffit, fascia | rear",
        "tested: GFCI | kitchen, baths | 11 of 12 tripped",
        "tested: furnace | basement | ran 10 minutes",
        "gfci ok",
        "roof new, clean",
        "no leaks under sink",
        "no stains at ceiling",
        "guard height | rear deck | 40 in",
        "tested: hot water | kitchen | 118F",
    ],
)
def test_what_went_fine_is_a_result(text: str) -> None:
    report = draft(text)
    assert kinds(report, 1) == {"results"}
    assert not any(section["findings"] for section in report["sections"])


def test_fine_words_are_listed_in_the_inspectors_own_words() -> None:
    report = draft("attic hatch is tidy and clean | hall")
    ((name, part),) = at(report, 1)
    assert name == "results"
    assert "attic hatch is tidy and clean" in part["text"]
    assert notes(report, "result")


@pytest.mark.parametrize(
    "text", ["tested: furnace | basement | {}", "ok: furnace | basement | {}", "furnace ok | basement | {}"]
)
def test_no_detail_of_a_result_is_lost(text: str) -> None:
    name, part = only(
        text.format('photo 3, x2, told by seller, warned owner 14:10, furnace 2, plan, blue flame, "so he said"')
    )
    assert name == "results"
    assert part["photos"] == [3]
    for words in ("x2", "told by seller", "warned owner 14:10", "furnace 2", "plan", "blue flame", "so he said"):
        assert words in part["text"]


def test_a_test_that_failed_is_a_finding() -> None:
    found = instance("tested: GFCI | kitchen | did not trip, photo 3")
    assert found["finding"]["code"] == "electrical.gfci.does-not-trip"
    assert (found["basis"], found["place"], found["photos"]) == ("tested", "kitchen", [3])
    assert instance("tested: GFCI | kitchen - did not trip, photo 4")["photos"] == [4]
    assert instance("tested: GFCI | kitchen | 3 of 5 did not trip")["measures"][0]["of"] == 5


def test_a_test_that_failed_in_unknown_words_stays_unresolved() -> None:
    name, part = only("tested: GFCI | kitchen | did not trip, sparks flew out of the wall")
    assert name == "unresolved"
    assert part["text"].endswith("sparks flew out of the wall")


def test_a_figure_past_the_published_one_is_not_fine() -> None:
    found = instance("tested: hot water | kitchen | 138F")
    assert (found["finding"]["code"], found["basis"]) == ("plumbing.water-heater.too-hot", "tested")
    for text in ("ok: hot water | kitchen | 138F", "hot water ok | kitchen | 138F"):
        name, part = only(text)
        assert name == "unresolved"
        assert "138" in part["reason"]


def test_words_against_a_number_stay_unresolved_with_that_reason() -> None:
    name, part = only("guard low | rear deck | 40 in")
    assert name == "unresolved"
    assert "40 inches" in part["reason"]
    assert part["text"] == "guard low | rear deck | 40 in"


def test_a_fine_word_beside_damage_is_no_result() -> None:
    assert kinds(draft("vents ok | rear | one blocked"), 1) != {"results"}
    assert kinds(draft("roof clean but leaks"), 1) != {"results"}


# Own findings.


def test_own() -> None:
    report = draft("own: Kid's trampoline, rusty | rear yard | photo 3, no net, gap 2 in")
    ((_, found),) = at(report, 1)
    finding = found["finding"]
    assert (finding["code"], finding["severity"]) == ("own.kids-trampoline-rusty", None)
    assert (found["place"], found["photos"], found["matched"]["how"]) == ("rear yard", [3], "own")
    assert found["words"] == ["no net", "gap 2 in"]
    assert any(note["lines"] == [1] for note in notes(report, "grade"))


def test_own_with_a_typed_severity() -> None:
    finding = instance("own: trampoline | rear | upkeep")["finding"]
    assert finding["severity"] == "upkeep"


@pytest.mark.parametrize(
    ("title", "expected"),
    [
        ("Trampoline in yard", "trampoline-in-yard"),
        ("Kid's A/C unit", "kids-a-c-unit"),
        ("Café  chairs!", "cafe-chairs"),
        ("蹦床", "蹦床"),
        ("12' swing", "12-swing"),
    ],
)
def test_slug(title: str, expected: str) -> None:
    assert slug(title) == expected


def test_two_titles_without_letters_do_not_fall_together() -> None:
    assert slug("👍") != slug("👎")


# Splits and repeats.


def test_parts_end_up_apart() -> None:
    report = draft("missing handrail; frobnicated widget; gutters ok | rear deck | photo 4")
    assert kinds(report, 1) == {"findings", "unresolved", "results"}
    texts = [part["text"] for name, part in at(report, 1) if name == "unresolved"]
    assert texts == ["frobnicated widget | rear deck | photo 4"]


def test_a_repeated_line_shows_what_it_repeats() -> None:
    _, part = only('frobnicated widget | rear\n" | front')
    assert "frobnicated widget" in part["text"]


# Hints that help a tired person.


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("property 88 Alder Court", "property:"),
        ("photos 1-4 front elevation", "photos 1-4:"),
        ("gadgets:", "heading"),
    ],
)
def test_hints(text: str, hint: str) -> None:
    name, part = only(text)
    assert name == "unresolved"
    assert hint in part["reason"]
