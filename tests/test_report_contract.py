"""The report value, key by key, on whole drafts: what other programs rely on."""

from __future__ import annotations

import json
from typing import Any

import pytest
from drafting import at, draft, instance, kinds, notes, parts_of

HOUSE = """\
property: 14 Larch Hollow Road
visited: 4 March 2026
inspector: R. Vance
client: Dana Ortiz
client: Lee Ortiz
built: 1994
weather: light rain
review window: 10 days from 4 March 2026, ends 17:00, told by your agent

Walls
stucco tight to roof | front wall, left of entry window; rear | gap 1/4 in, photos 3, 4
stucco tight to roof | garage | gap 1/2 in, x2, "soft below"
stucco moisture | below entry window | 18 21 33 OL no-hold no-hold, photo 9
Kitchen
no gfci, left of sink
gas smell at meter | right side | warned occupant 14:10
Roof
shingles curling | rear slope | photos 20, 21
roof covering = asphalt shingle | main roof | photo 3
tested: GFCI | kitchen, baths | 11 of 12 tripped
ok: soffit, fascia | rear
partly: attic - from the hatch, front third
not inspected: crawl space - hatch painted shut
not present: fireplace
WH 18 yr old | garage
note: The dog was out.
photos 1-4: front elevation
own: Trampoline in yard | rear yard | photo 30
frobnicated widget | shed
-- call the office
"""


@pytest.fixture(scope="module")
def report() -> dict[str, Any]:
    return draft(HOUSE)


def findings(report: dict[str, Any]) -> list[dict[str, Any]]:
    return [finding for section in report["sections"] for finding in section["findings"]]


def finding(text: str) -> dict[str, Any]:
    (found,) = findings(draft(text))
    return found


# Keys.


def test_the_keys_of_the_contract(report: dict[str, Any]) -> None:
    assert report["format"] == "narrator.report/1"
    assert report["state"] == "draft"
    assert set(report) >= {
        "format", "state", "issue", "property", "visited", "inspector", "clients", "conditions", "header_lines",
        "library", "firm", "standard", "narrator", "review_window", "headings", "opening", "sections", "connections",
        "trade_sheets", "unseen", "terms", "coverage", "glossary", "notes", "photos", "charts", "withheld",
        "unresolved", "review_notes",
    }  # fmt: skip
    assert set(report["library"]) >= {"version", "fingerprint"}
    assert set(report["coverage"]) >= {"standard", "reported", "missing"}
    for heading in report["headings"]:
        assert set(heading) >= {"text", "system", "place", "lines"}
    for section in report["sections"]:
        assert set(section) >= {"system", "title", "lines", "descriptions", "results", "statuses", "findings"}
    for item in report["opening"]:
        assert set(item) >= {"kind", "text", "findings"}
    for item in report["unresolved"]:
        assert set(item) >= {"lines", "text", "reason", "nearest"}
    for note in report["review_notes"]:
        assert set(note) >= {"kind", "lines", "text"}


def test_the_keys_of_a_finding(report: dict[str, Any]) -> None:
    for found in findings(report):
        assert set(found) >= {
            "id", "number", "code", "title", "severity", "why", "danger", "course", "trades", "ask", "outcome",
            "basis", "observation", "implication", "recommendation", "limits", "instances", "places", "lines",
            "photos", "trace", "overrides",
        }  # fmt: skip
        for one in found["instances"]:
            assert set(one) >= {
                "place", "lines", "basis", "measures", "count", "photos", "words", "acts", "unit", "matched",
            }  # fmt: skip
            assert set(one["matched"]) >= {"how", "score"}
            for measure in one["measures"]:
                assert set(measure) >= {
                    "name", "value", "unit", "text", "from", "points", "criterion", "verdict",
                }  # fmt: skip
                assert measure["value"] is None or isinstance(measure["value"], int | float)
        for span in found["trace"]:
            assert set(span) >= {"field", "start", "end", "kind", "ref", "file", "line"}
            assert 0 <= span["start"] < span["end"] <= len(found[span["field"]])


def test_every_item_has_text_and_lines(report: dict[str, Any]) -> None:
    for key in ("headings", "notes", "photos", "unseen", "charts", "unresolved"):
        for item in report[key]:
            assert item["text"] is not None
            assert item["lines"]
    for section in report["sections"]:
        for key in ("descriptions", "results", "statuses"):
            for item in section[key]:
                assert item["text"]
                assert item["lines"]


def test_the_headers(report: dict[str, Any]) -> None:
    assert report["property"] == "14 Larch Hollow Road"
    assert report["visited"] == "4 March 2026"
    assert report["inspector"] == "R. Vance"
    assert report["clients"] == ["Dana Ortiz", "Lee Ortiz"]
    assert report["conditions"]["built"] == "1994"
    assert report["conditions"]["weather"] == "light rain"
    assert report["header_lines"] == [1, 2, 3, 4, 5, 6, 7, 8]


def test_where_every_line_of_the_house_ended_up(report: dict[str, Any]) -> None:
    found = {number: kinds(report, number) for number in range(1, HOUSE.count("\n") + 1)}
    assert found == {
        **{number: {"header"} for number in range(1, 9)},
        9: set(),
        10: {"headings"},
        11: {"findings"},
        12: {"findings"},
        13: {"findings"},
        14: {"headings"},
        15: {"findings"},
        16: {"findings"},
        17: {"headings"},
        18: {"findings"},
        19: {"descriptions"},
        20: {"results"},
        21: {"results"},
        22: {"statuses"},
        23: {"statuses"},
        24: {"statuses"},
        25: {"findings"},
        26: {"notes"},
        27: {"photos"},
        28: {"findings"},
        29: {"unresolved"},
        30: set(),
    }


def test_a_line_left_out_is_told_by_its_number_alone(report: dict[str, Any]) -> None:
    (note,) = notes(report, "left-out")
    assert note["lines"] == [30]
    assert "call the office" not in json.dumps(report)


# Sections.


def test_a_system_heading_always_makes_a_section() -> None:
    sections = draft("Plumbing\nElectrical:")["sections"]
    assert [section["system"] for section in sections] == ["electrical", "plumbing"]
    assert all(section["title"] for section in sections)


def test_what_no_system_claims_goes_to_the_heading_else_to_other() -> None:
    report = draft("Plumbing\ncolour scheme = beige")
    assert [s["system"] for s in report["sections"] if s["descriptions"]] == ["plumbing"]
    report = draft("colour scheme = beige")
    assert [s["system"] for s in report["sections"]] == ["other"]


def test_what_a_system_claims_goes_there_whatever_the_heading() -> None:
    report = draft("Plumbing\nok: soffit\nroof covering = slate\nno gfci | kitchen")
    assert {s["system"] for s in report["sections"] if s["results"]} == {"roof"}
    assert {s["system"] for s in report["sections"] if s["descriptions"]} == {"roof"}
    assert {s["system"] for s in report["sections"] if s["findings"]} == {"electrical"}


# Findings told together.


def test_same_code_outcome_and_kind_of_basis_are_told_together() -> None:
    found = finding("no gfci | kitchen\nno gfci | hall bath | photo 3\nno gfci | garage | tested")
    assert (found["id"], found["lines"], found["photos"]) == ("electrical.gfci.missing", [1, 2, 3], [3])
    assert found["places"] == ["kitchen", "hall bath", "garage"]
    assert len(found["instances"]) == 3


def test_told_and_inferred_are_told_apart() -> None:
    report = draft("no gfci | kitchen\nno gfci | bath | told by seller\nno gfci? | garage")
    assert [(f["id"], f["basis"]) for f in findings(report)] == [
        ("electrical.gfci.missing", "seen"),
        ("electrical.gfci.missing~told", "told"),
        ("electrical.gfci.missing~inferred", "inferred"),
    ]


def test_too_close_is_told_apart() -> None:
    report = draft("stucco tight to roof | front | gap 1/4 in\nstucco tight to roof | rear | gap 1 1/2 in")
    assert [(f["id"], f["outcome"]) for f in findings(report)] == [
        ("walls.stucco.no-roof-gap", "fails"),
        ("walls.stucco.no-roof-gap~too-close", "too close"),
    ]


def test_a_second_group_points_to_the_first() -> None:
    first, second = findings(draft("no gfci | kitchen\nno gfci | bath | told by seller"))
    assert str(first["number"]) in second["implication"] + second["recommendation"] + second["observation"]
    assert second["implication"] != first["implication"]


@pytest.mark.parametrize(
    "text",
    [
        "no gfci | kitchen\nshingles curling | rear",
        "shingles curling | rear\nno gfci | kitchen",
        "no gfci | kitchen\nshingles curling | rear\nguard loose | rear deck\ngas smell | garage",
        "Roof\nshingles curling\nKitchen\nno gfci, left of sink, photo 3",
        "electrical.gfci.missing | kitchen\nshingles cupped | rear",
    ],
)
def test_ids_do_not_move(text: str) -> None:
    assert {"electrical.gfci.missing", "roof.shingles.curled"} <= {f["id"] for f in findings(draft(text))}


def test_numbers_are_the_same_everywhere(report: dict[str, Any]) -> None:
    numbers = {f["id"]: f["number"] for f in findings(report)}
    assert sorted(numbers.values()) == list(range(1, len(numbers) + 1))
    for part in report["opening"]:
        assert set(part["findings"]) <= set(numbers)
        for item in part.get("items", []):
            if item.get("finding"):
                assert item["number"] == numbers[item["finding"]]
    for sheet in report["trade_sheets"]:
        for row in sheet["rows"]:
            assert row["number"] == numbers[row["finding"]]


def test_trades_are_words(report: dict[str, Any]) -> None:
    for found in findings(report):
        for trade in found["trades"]:
            assert trade["id"].isascii()
            assert not trade["id"][0].isdigit()
            assert trade["role"] in ("lead", "with")


def test_the_observation_carries_what_was_typed(report: dict[str, Any]) -> None:
    by_id = {f["id"]: f["observation"] for f in findings(report)}
    stucco = by_id["walls.stucco.no-roof-gap"]
    for word in ("front wall", "left of the entry window", "rear", "garage", "1/4 inch", "1/2 inch", "soft below"):
        assert word in stucco
    damp = by_id["walls.stucco.damp"]
    for word in ("18", "21", "33", "entry window"):
        assert word in damp
    gas = by_id["plumbing.gas.smell"]
    assert "occupant" in gas
    assert "2:10 p.m." in gas


def test_a_source_and_a_count_are_in_the_observation() -> None:
    assert "seller" in finding("no gfci | kitchen | told by seller")["observation"].lower()
    found = finding("outlet loose | kitchen | x3")
    assert "three" in found["observation"].lower() or "3" in found["observation"]
    assert "3 of 12" in finding("outlet loose | kitchen | 3 of 12")["observation"]


def test_the_place_of_a_line_under_a_heading() -> None:
    found = finding("Garage\nno gfci | left wall")
    assert found["places"] == ["Garage, left wall"]
    assert "in the garage, on the left wall" in found["observation"].lower()


def test_acts_come_from_typed_lines_only() -> None:
    for found in findings(draft("gas smell | garage\nguard loose | rear deck")):
        assert "warned" not in found["observation"]
        assert all(one["acts"] == [] for one in found["instances"])


# Results, statuses, what nobody has seen.


def test_a_measure_that_meets_its_figure_is_a_result() -> None:
    report = draft("stucco tight to roof | rear | gap 3 in\nguard height | rear deck | 40 in")
    assert kinds(report, 2) == {"results"}
    assert all("severity" not in part for _, part in parts_of(report))
    assert report["trade_sheets"] == []


def test_what_nobody_has_seen() -> None:
    report = draft("not inspected: crawl space - hatch painted shut\npartly: attic - from the hatch")
    assert [item["lines"] for item in report["unseen"]] == [[1], [2]]
    assert "hatch painted shut" in report["unseen"][0]["text"]


def test_a_status_has_its_words() -> None:
    ((_, part),) = at(draft("not inspected: crawl space | rear | photo 8 - hatch painted shut, photo 9"), 1)
    assert (part["kind"], part["what"], part["place"]) == ("not inspected", "crawl space", "rear")
    assert part["reason"] == "hatch painted shut"
    assert part["photos"] == [9, 8] or part["photos"] == [8, 9]


@pytest.mark.parametrize(
    ("status", "line", "against"),
    [
        ("ok: soffit | rear", "soffit rotted | rear", True),
        ("ok: soffit | rear", "soffit rotted | rear left corner", True),
        ("ok: soffit | rear", "soffit rotted | front", False),
        ("ok: fascia | rear", "soffit rotted | rear", False),
        ("ok: fans | baths", "bath fan noisy | hall bath", True),
        ("ok: fan | bath", "bath fan noisy | hall bath", False),
        ("not inspected: crawl space - locked", "standing water | crawl space, north end", True),
        ("not inspected: attic - locked", "standing water | crawl space", False),
        ("partly: crawl space - front", "standing water | crawl space", False),
        ("tested: GFCI | kitchen | 11 of 12 tripped", "no gfci | kitchen", False),
        ("tested: GFCI | kitchen | did not trip", "no gfci | kitchen", False),
    ],
)
def test_a_status_against_a_finding_on_the_same_part_at_the_same_place(status: str, line: str, against: bool) -> None:
    report = draft(f"{status}\n{line}")
    assert [note["lines"] for note in notes(report, "contradiction")] == ([[1, 2]] if against else [])
    assert kinds(report, 2) == {"findings"}


# The review window.


@pytest.mark.parametrize(
    ("typed", "opens", "closes", "hour", "days"),
    [
        ("10 days from 4 March 2026", "2026-03-04", "2026-03-14", None, 10),
        ("10 days from 4 March 2026 09:00", "2026-03-04", "2026-03-14", None, 10),
        ("10 days from 4 March 2026, ends 17:00", "2026-03-04", "2026-03-14", "17:00", 10),
        ("10 days from 4 March 2026, rolls", "2026-03-04", "2026-03-16", None, 10),
        ("5 business days from 4 March 2026", "2026-03-04", "2026-03-11", None, 5),
        ("5 BUSINESS days from March 4, 2026", "2026-03-04", "2026-03-11", None, 5),
        ("10 days from 2026-03-04, counted tx-option", "2026-03-04", "2026-03-14", "17:00", 10),
        ("10 days from 4 March 2026, ends 17:00, rolls, told by agent", "2026-03-04", "2026-03-16", "17:00", 10),
        ("ends 14 March 2026", None, "2026-03-14", None, None),
        ("ends 14 March 2026 17:00", None, "2026-03-14", "17:00", None),
        ("ends 14 March 2026, told by agent", None, "2026-03-14", None, None),
    ],
)
def test_review_windows(typed: str, opens: str | None, closes: str, hour: str | None, days: int | None) -> None:
    window = draft(f"review window: {typed}")["review_window"]
    assert set(window) >= {"opens", "closes", "hour", "days", "counted", "told_by", "text"}
    assert (window["opens"], window["closes"], window["hour"], window["days"]) == (opens, closes, hour, days)
    assert window["told_by"] == ("agent" if "told by" in typed else None)
    assert window["counted"] == ("tx-option" if "counted" in typed else None)
    assert "ask your agent or lawyer" in window["text"].lower()


@pytest.mark.parametrize("typed", ["soon", "10 days", "10 days from 31 February 2026", "10 days from 4 March"])
def test_a_window_that_cannot_be_counted_stays_a_header(typed: str) -> None:
    report = draft(f"review window: {typed}")
    assert report["review_window"] is None
    assert report["header_lines"] == [1]
    assert any(note["lines"] == [1] for note in notes(report, "header"))


def test_doubtful_dates_are_said() -> None:
    report = draft("visited: 3/4/2026\nreview window: 10 days from 3/4/2026, ends 5:00")
    texts = [(note["lines"], note["text"]) for note in notes(report, "header")]
    assert any(lines == [1] and "4 March 2026" in text for lines, text in texts)
    assert any(lines == [2] and "4 March 2026" in text for lines, text in texts)
    assert notes(draft("visited: some day"), "header")


def test_headers_typed_twice() -> None:
    report = draft("property: 1 A Street\nproperty: 2 B Street\nweather: rain\nweather: then sun\nclient:\nclient: Ana")
    assert report["property"] == "1 A Street"
    assert report["conditions"]["weather"] == "rain; then sun"
    assert report["clients"] == ["Ana"]
    assert report["header_lines"] == [1, 2, 3, 4, 5, 6]
    texts = " ".join(note["text"] for note in notes(report, "header"))
    assert "property" in texts
    assert "2 B Street" in texts
    assert "client" in texts


# Overrides.


def test_a_severity_by_hand() -> None:
    found = finding("no gfci | kitchen | act-now")
    assert found["severity"] == "act-now"
    assert found["overrides"][0]["key"] == "severity"
    assert found["overrides"][0]["was"] == "plan"


def test_a_matter_that_could_hurt_someone_is_graded_down_only_by_a_named_person_with_a_reason() -> None:
    assert finding("gas smell | garage | upkeep")["severity"] == "act-now"
    typed = 'gas smell | garage | plan, because "the utility has found and closed it"'
    assert finding(typed)["severity"] == "act-now"  # nobody is named who answers for it
    found = finding(f"inspector: R. Vance\n{typed}")
    assert found["severity"] == "plan"
    assert "the utility has found and closed it" in found["why"]


def test_because_trade_and_do() -> None:
    found = finding('no gfci | kitchen | because "a child lives here, now", trade plumbing + electric, do "call today"')
    assert "a child lives here, now" in found["why"]
    assert [(trade["id"], trade["role"]) for trade in found["trades"]] == [("plumbing", "lead"), ("electric", "with")]
    assert "call today" in found["recommendation"]


def test_an_unknown_trade_is_said() -> None:
    report = draft("no gfci | kitchen | trade wizard")
    assert findings(report)[0]["trades"][0]["id"] == "electric"
    assert any("wizard" in note["text"] for note in report["review_notes"])


def test_held_back_with_a_reason() -> None:
    report = draft("inspector: R. Vance\nno gfci | kitchen | hold back - seller will mend it, photo 3")
    assert findings(report) == []
    (held,) = report["withheld"]
    assert (held["lines"], held["reason"]) == ([2], "seller will mend it")
    assert kinds(report, 2) == {"withheld"}
    assert report["trade_sheets"] == []


def test_other_matters_may_be_held_back_without_a_reason() -> None:
    report = draft("toilet loose | hall bath | hold back")
    assert kinds(report, 1) == {"withheld"}
    assert report["withheld"][0]["reason"] is None


def test_a_danger_is_held_back_only_by_a_named_person_with_a_reason() -> None:
    report = draft("gas smell | garage | hold back")
    assert kinds(report, 1) == {"findings"}
    assert any(note["lines"] == [1] for note in notes(report, "held-back"))
    typed = "gas smell | garage | hold back - closed today"
    assert kinds(draft(typed), 1) == {"findings"}
    assert kinds(draft(f"inspector: R. Vance\n{typed}"), 2) == {"withheld"}


def test_an_own_finding_is_told_among_the_find_out_items() -> None:
    report = draft("own: Trampoline in yard | rear yard")
    (part,) = [item for item in report["opening"] if item["kind"] == "find-out"]
    assert part["findings"] == ["own.trampoline-in-yard"]
    assert notes(report, "grade")
    report = draft("own: Trampoline in yard | rear yard | upkeep")
    assert not [item for item in report["opening"] if item["kind"] == "find-out"]
    assert not notes(report, "grade")


# Criteria.


def test_a_criterion_is_named_with_its_source() -> None:
    (measure,) = instance("stucco tight to roof | front | gap 1/4 in")["measures"]
    criterion = measure["criterion"]
    assert set(criterion) >= {"id", "value", "unit", "comparison", "source"}
    assert measure["verdict"] == "short"
    assert criterion["source"]


@pytest.mark.parametrize(
    ("gap", "verdict"),
    [("1/4 in", "short"), ("3 in", "meets"), ("1 1/2 in", "too close"), ("1/4 to 5 in", "short"), ("<1/2 in", "short")],
)
def test_verdicts(gap: str, verdict: str) -> None:
    report = draft(f"stucco gap at roof | front | gap {gap}\nwalls.stucco.no-roof-gap | rear | gap {gap}")
    found = [part["measures"][0]["verdict"] for name, part in at(report, 2) if name in ("findings", "results")]
    assert found == [verdict]


@pytest.mark.parametrize(("meter", "verdict"), [("±2 %", "too close"), ("+/- 0.5 %", "meets"), ("±0.5", "meets")])
def test_a_reading_inside_the_meters_uncertainty_is_too_close(meter: str, verdict: str) -> None:
    report = draft(f"moisture meter: pin type, {meter}\nstucco moisture | rear | 19 %")
    assert [part["measures"][0]["verdict"] for _, part in at(report, 2)] == [verdict]


def test_utilities_that_were_off_are_unseen() -> None:
    report = draft("utilities: gas off")
    assert report["conditions"]["utilities"] == "gas off"
    assert [item["lines"] for item in report["unseen"]] == [[1]]


def test_an_older_house_is_judged_by_todays_figure() -> None:
    for built in ("", "built: 1950\n"):
        found = finding(f"{built}guard low | rear deck | 34 in")
        assert found["instances"][0]["measures"][0]["verdict"] == "short"


# The same bytes.


def test_the_same_bytes_twice(report: dict[str, Any]) -> None:
    assert json.dumps(draft(HOUSE), ensure_ascii=False) == json.dumps(report, ensure_ascii=False)
