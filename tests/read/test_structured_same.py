"""The same inspection in the notation, YAML, JSON, CSV and TSV gives the same report, apart from line numbers."""

import csv
import io
import json
import re
from typing import Any

import pytest

from narrator.pipeline import draft_checklist, grammar_of
from narrator.read.notation import read_checklist
from narrator.read.structured import read_structured
from narrator.source.index import Index
from narrator.source.store import open_library

TEXT = """\
property: 12 Elm Street, Springfield
visited: 4 March 2026
inspector: B. Kowalski
client: A. Smith
client: C. Smith
weather: dry, 41 F
moisture meter: pin meter, +/- 2 %
Roof
roof covering = asphalt shingle | main roof | photo 3
shingles curling | rear slope | photos 20, 21
roof slope = 8/12
ok: soffit, fascia | rear
photos 1-4: front elevation
Exterior
stucco tight to roof | left of front door; rear | gap 1/4 in, photos 5, because "wet last week"
" | garage | gap 1/2 in
fence post leaning and odd | same
Kitchen
no gfci; outlet loose | left of sink | tested
tested: GFCI | bath | 11 of 12 tripped
not inspected: crawl space - hatch painted shut, photo 9
partly: attic - from the hatch, front third
own: strange hum | hall | heard, x3, told by seller
note: The seller said: "all new", in May | he thinks - maybe.
-- ask about the key
zorble frammis | rear | gap 3 in
"""

YAML = """\
format: narrator.checklist/1
property: 12 Elm Street, Springfield
visited: 4 March 2026
inspector: B. Kowalski
client: [A. Smith, C. Smith]
weather: dry, 41 F
moisture_meter: pin meter, +/- 2 %
lines:
  - heading: Roof
  - {name: roof covering, value: asphalt shingle, where: main roof, details: photo 3}
  - what: shingles curling
    where: rear slope
    details: photos 20, 21
  - {name: roof slope, value: 8/12}
  - {ok: "soffit, fascia", where: rear}
  - {photos: 1-4, caption: front elevation}
  - Exterior
  - what: stucco tight to roof
    where: [left of front door, rear]
    details: [gap 1/4 in, photos 5, 'because "wet last week"']
  - {what: '"', where: garage, details: gap 1/2 in}
  - {what: fence post leaning and odd, where: same}
  - Kitchen
  - {what: no gfci; outlet loose, where: left of sink, details: tested}
  - {tested: GFCI, where: bath, details: 11 of 12 tripped}
  - {not_inspected: crawl space, reason: "hatch painted shut, photo 9"}
  - {partly: attic, reason: "from the hatch, front third"}
  - {own: strange hum, where: hall, details: [heard, x3, told by seller]}
  - note: 'The seller said: "all new", in May | he thinks - maybe.'
  - remark: ask about the key
  - zorble frammis | rear | gap 3 in
"""

ROWS = [
    ["property", "12 Elm Street, Springfield"],
    ["visited", "4 March 2026"],
    ["inspector", "B. Kowalski"],
    ["client", "A. Smith"],
    ["client", "C. Smith"],
    ["weather", "dry, 41 F"],
    ["moisture meter", "pin meter, +/- 2 %"],
    ["Finding", "Location", "Notes", "Photos", "Status", "Reason"],
    ["Roof"],
    ["roof covering = asphalt shingle", "main roof", "", "3"],
    ["shingles curling", "rear slope", "", "20, 21"],
    ["roof slope = 8/12"],
    ["soffit, fascia", "rear", "", "", "ok"],
    ["photos 1-4: front elevation"],
    ["Exterior"],
    ["stucco tight to roof", "left of front door; rear", 'gap 1/4 in, photos 5, because "wet last week"'],
    ['"', "garage", "gap 1/2 in"],
    ["fence post leaning and odd", "same"],
    ["Kitchen"],
    ["no gfci; outlet loose", "left of sink", "tested"],
    ["tested: GFCI", "bath", "11 of 12 tripped"],
    ["not inspected: crawl space - hatch painted shut, photo 9"],
    ["attic", "", "", "", "partly", "from the hatch, front third"],
    ["own: strange hum", "hall", "heard, x3, told by seller"],
    ['note: The seller said: "all new", in May | he thinks - maybe.'],
    ["-- ask about the key"],
    ["zorble frammis", "rear", "gap 3 in"],
]


def as_json() -> str:
    from narrator.source.positions import load

    return json.dumps(load(YAML, "x", lambda text: text).value, indent=1)


def as_table(sign: str) -> str:
    out = io.StringIO()
    csv.writer(out, delimiter=sign, lineterminator="\r\n").writerows(ROWS)
    return out.getvalue()


FORMS = {
    "yaml": YAML,
    "json": as_json(),
    "csv": as_table(","),
    "semicolon": "\ufeff" + as_table(";"),
    "tsv": as_table("\t"),
}


@pytest.fixture(scope="module")
def index() -> Index:
    return open_library()


def told(value: Any) -> Any:
    """A report without its line numbers and columns; order and everything else stay."""
    if isinstance(value, dict):
        left = ("lines", "line", "header_lines")
        return {key: told(one) for key, one in value.items() if key not in left}
    if isinstance(value, list):
        return [told(one) for one in value]
    if isinstance(value, str):
        return re.sub(r"lines? \d+(, column \d+|(?:, \d+)* and \d+)?", "line N", value)
    return value


@pytest.mark.parametrize("form", sorted(FORMS))
def test_every_form_gives_the_same_report(form: str, index: Index) -> None:
    grammar = grammar_of(index)
    kind = "csv" if form == "semicolon" else form
    wanted = read_checklist(TEXT, "house", grammar)
    found = read_structured(FORMS[form], "house", kind, grammar)
    assert found.notes == ()
    assert [line.kind for line in found.lines] == [line.kind for line in wanted.lines]
    assert len(found.left_out) == len(wanted.left_out) == 1
    assert told(draft_checklist(found, index)) == told(draft_checklist(wanted, index))


@pytest.mark.parametrize("form", sorted(FORMS))
def test_lines_point_into_the_file(form: str, index: Index) -> None:
    text = FORMS[form]
    found = read_structured(text, "house", "csv" if form == "semicolon" else form, grammar_of(index))
    typed = text.split("\n")
    for line in found.lines:
        words = line.text.split(": ")[-1] if line.kind in ("header", "heading") else line.what or line.key or line.value
        first = re.split(r'[ "]', words.strip('"'))[0]
        near = typed[line.number - 1 : line.number + (4 if form == "json" else 1)]
        # A repeat sign shows the words above it.
        assert first in " ".join(near) or "garage" in " ".join(near), (line.number, line.kind, first)
