"""CSV and TSV checklists: dialects, columns, rows of every kind, and where things stand."""

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrator.errors import NarratorError
from narrator.pipeline import grammar_of
from narrator.read.columns import known_names
from narrator.read.model import Checklist
from narrator.read.structured import read_structured
from narrator.read.table import read_table
from narrator.source.store import open_library

GRAMMAR = grammar_of(open_library())


def read(text: str, kind: str = "csv", columns: dict[str, str] | None = None) -> Checklist:
    return read_structured(text, f"house.{kind}", kind, GRAMMAR, columns or {})


def told(found: Checklist) -> list[str]:
    return [f"{line.number} {line.kind}: {line.text}" for line in found.lines]


def test_line_numbers_are_those_of_the_file() -> None:
    found = read('what,details\r\nno gfci,"left\r\nof sink"\r\n\r\nloose panel,\r\n')
    assert told(found) == ["2 finding: no gfci | | left | of sink", "5 finding: loose panel"]


def test_columns_point_at_the_words() -> None:
    text = 'what,where,details\nno gfci,kitchen,"wobbly, ""x"", more"\n'
    line = read(text).lines[0]
    typed = text.split("\n")[1]
    assert typed[line.items[0].column - 1 :].startswith("wobbly")


@pytest.mark.parametrize(
    "text",
    [
        "what,where,details\nno gfci,kitchen,photos 3; 4\n",
        "\ufeffwhat;where;details\r\nno gfci;kitchen;photos 3, 4\r\n",
        "what\twhere\tdetails\nno gfci\tkitchen\tphotos 3, 4\n",
        "sep=|\nwhat|where|details\nno gfci|kitchen|photos 3, 4\n",
        'what , where , details,,\n "no gfci" , kitchen , "photos 3, 4" ,,\n',
        "WHAT,Location,Note:\rno gfci,kitchen,photos 3 and 4\r",
        "no gfci;kitchen;photos 3, 4\nloose panel;garage;photos 5, 6\n",
    ],
)
def test_dialects(text: str) -> None:
    line = read(text).lines[0]
    assert (line.what, line.where, line.items[0].numbers) == ("no gfci", "kitchen", (3, 4))


def test_inches_and_quotations_outside_quoted_cells_are_plain() -> None:
    line = read('what,details\nstucco cracked,gap 3/8"\n"loose" panel,x\n').lines
    assert (line[0].items[0].text, line[1].what) == ('gap 3/8"', '"loose" panel')


@pytest.mark.parametrize(
    ("text", "spot", "said"),
    [
        ('what,where\n"no gfci, kitchen\n', (2, 1), "never closed"),
        ('what,where\nx,"a, b" c\n', (2, 10), "goes on after its closing quotation mark"),
        ('what,where\nx,"a\nb" c\n', (3, 4), "a comma is needed here"),
        ("a,b\n" + "," * 2000, (2, 1000), "more than 1000 cells"),
        ("w\x00h\x00a\x00t\x00", (1, 1), "UTF-16"),
    ],
)
def test_broken_tables(text: str, spot: tuple[int, int], said: str) -> None:
    with pytest.raises(NarratorError) as caught:
        read(text)
    fault = caught.value.faults[0]
    assert (fault.pos.line, fault.pos.column) == spot
    assert said in fault.message


def test_no_row_of_names() -> None:
    found = read("Kitchen,,\nno gfci,left of sink,photo 3\nloose panel,photo 4\ndetials,plaec\n")
    assert told(found)[:3] == [
        "1 heading: Kitchen", "2 finding: no gfci | left of sink | photo 3", "3 finding: loose panel | | photo 4"
    ]  # fmt: skip
    assert found.notes == (("form", 2, "No row of column names was found; the columns were read as what, where, details."),)
    assert "Did you mean 'details', 'place'?" in read("detials,plaec\nno gfci,kitchen\n").notes[0][2]


def test_names_may_stand_under_headers_and_a_title() -> None:
    found = read("Inspection sheet,,\nproperty,12 Elm Street,Springfield\nCLIENT:,A,\n\nItem,Location,\nno gfci,kitchen,\n")
    assert dict(found.headers) == {"property": (("12 Elm Street, Springfield", 2),), "client": (("A", 3),)}
    assert told(found)[-1] == "6 finding: no gfci | kitchen"
    assert found.notes == ()


def test_item_and_condition_make_one_what() -> None:
    assert read("Item,Condition,Location\nOutlet,no gfci,kitchen\n").lines[0].what == "Outlet, no gfci"


def test_unknown_columns_are_kept_and_said() -> None:
    found = read("what,Inspector,,detials\nno gfci,BK,7,wet\n")
    assert [(item.kind, item.text) for item in found.lines[0].items] == [
        ("words", "Inspector: BK"), ("words", "column 3: 7"), ("words", "detials: wet")
    ]  # fmt: skip
    assert [text for _, _, text in found.notes] == [
        "The column 'Inspector' is not known; its cells are kept as your own words.",
        "The column 'detials' is not known; its cells are kept as your own words. Did you mean 'details'?",
    ]


def test_cells_beyond_the_names_are_details() -> None:
    assert [item.kind for item in read("what,details\nno gfci,gap 1 in,photos 3,4\n").lines[0].items] == ["value", "photos"]


def test_a_firm_maps_its_columns() -> None:
    found = read("Mangel;Ort;what\nno gfci;kitchen;x\n", columns={"mangel": "what", "ORT": "Where", "Foto": "photos"})
    assert (found.lines[0].what, found.lines[0].where) == ("no gfci, x", "kitchen")
    assert [text for _, _, text in found.notes] == ["The firm's column 'foto' is not among the columns here."]


def test_a_firm_maps_to_a_wrong_column() -> None:
    with pytest.raises(NarratorError) as caught:
        read("a,b\n", columns={"Ort": "wher", "Foto": "fotos"})
    assert [fault.key for fault in caught.value.faults] == ["Foto", "Ort"]
    assert "Did you mean 'where'?" in caught.value.faults[1].message


@pytest.mark.parametrize(
    ("row", "kind", "text"),
    [
        ("ok: soffit,rear", "status", "ok: soffit | rear"),
        ("ok,soffit,rear", "status", "ok: soffit | rear"),
        ("soffit,rear,,OK", "status", "ok: soffit | rear"),
        ("crawl space,,hatch shut,not_inspected", "status", "not inspected: crawl space - hatch shut"),
        (",crawl space,,not inspected", "status", "not inspected: crawl space"),
        ("partly: attic - from the hatch,,", "status", "partly: attic - from the hatch"),
        ("note: a | b,,c", "note", "note: a | b, c"),
        ("a,rear,c,note", "note", "note: a, rear, c"),
        ("own: hum,hall,heard", "own", "own: hum | hall | heard"),
        ("photos 1-3: front,,", "photos", "photos 1-3: front"),
        ("Kitchen,,", "heading", "Kitchen"),
        ("Kitchen:,,", "heading", "Kitchen"),
        ("Kitchen,,,heading", "heading", "Kitchen"),
        ("roof covering = slate,main roof", "description", "roof covering = slate | main roof"),
        ("cracked stucco = yes,rear", "finding", "cracked stucco = yes | rear"),
        ("built: 1998,,", "header", "built: 1998"),
        ("built,1998,", "header", "built: 1998"),
        ("no gfci,kitchen,wet,Defective", "finding", "no gfci | kitchen | wet | status: Defective"),
        (",,only this", "unresolved", "| | only this"),
        ("—,rear,x", "finding", "— | rear | x"),
    ],
)
def test_rows(row: str, kind: str, text: str) -> None:
    found = read(f"what,where,details,status\n{row}\n")
    assert told(found) == [f"2 {kind}: {text}"]


def test_rooms_make_headings_and_carry_on() -> None:
    found = read("Room,what\nKitchen,no gfci\n,loose panel\nPump house,pipe leaks\nKitchen,\n")
    assert told(found) == [
        "2 heading: Kitchen", "2 finding: no gfci", "3 finding: loose panel", "4 heading: Pump house", "4 finding: pipe leaks",
        "5 heading: Kitchen",
    ]  # fmt: skip
    assert [line.heading_place for line in found.lines if line.kind == "finding"] == ["Kitchen", "Kitchen", "Pump house"]
    assert [(line, text.split(":")[-1]) for _, line, text in found.notes] == [(3, " rows on lines 3.")]


def test_photos_severity_and_parts() -> None:
    found = read("what,photos,severity\nno gfci; loose panel,\"3, 5-6\",Act now\nx y,IMG_4,high\n")
    assert [line.what for line in found.lines] == ["no gfci", "loose panel", "x y"]
    assert found.lines[0].items[0].numbers == (3, 5, 6)
    assert (found.lines[0].items[1].kind, found.lines[0].items[1].value) == ("override", "act-now")
    assert [item.kind for item in found.lines[2].items] == ["words", "words"]


def test_repeats() -> None:
    found = read('what,where\nno gfci,kitchen\n"""",garage\nsame,same\n')
    assert [(line.what, line.where) for line in found.lines][1:] == [("no gfci", "garage"), ("no gfci", "garage")]


def test_remarks_never_enter() -> None:
    found = read("what,where,remark\n-- ask him,x,\nno gfci,kitchen,ask him\nremark: ask him,,\nno gfci,hall -- ask,\n")
    assert told(found) == ["3 finding: no gfci | kitchen", "5 finding: no gfci | hall -- ask"]
    assert found.left_out == (2, 3, 4)
    assert [line for _, line, _ in found.notes] == [5]


def test_bars_in_a_table_are_said() -> None:
    assert "Is the file a text?" in read("no gfci | kitchen\nloose panel | hall\n").notes[0][2]


@settings(max_examples=300, deadline=None)
@given(
    st.lists(st.lists(st.text(alphabet='ab",;\t\n\r ', max_size=6), min_size=2, max_size=4), min_size=1, max_size=5),
    st.sampled_from(",;\t"),
)
def test_quoted_tables_are_read_as_others_read_them(rows: list[list[str]], sign: str) -> None:
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=sign, quoting=csv.QUOTE_ALL).writerows(rows)
    table = read_table(f"sep={sign}\r\n{out.getvalue()}", "x", "csv", lambda cells: known_names(cells, {}))
    assert [[cell.text for cell in record.cells] for record in table.records[:-1]] == rows
    assert not table.faults
