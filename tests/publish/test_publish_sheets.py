"""Trade sheets as HTML, CSV and the client's worksheet: every row there, no formula but ours, the same bytes."""

from __future__ import annotations

import csv
import io
import re
from typing import Any

import pytest
from drafting import LIBRARY, draft
from openpyxl import load_workbook

from narrator.commands.common import labels_of
from narrator.publish import sheets_csv, sheets_html, sheets_xlsx

LABELS = labels_of(LIBRARY)
HOUSE = """property: 14 Alder Lane
visited: 2026-03-04
client: Q. Zzyzx
stucco tight to roof | front; rear | gap 1/4 in, photos 3, 4, "=1+1"
gas smell | right side
leaves in gutter | rear
no gfci | kitchen
own: =HYPERLINK("x") | @yard | +2
"""


@pytest.fixture(scope="module")
def report() -> Any:
    return draft(HOUSE)


def book(report: Any) -> Any:
    return load_workbook(io.BytesIO(sheets_xlsx.write(report, LABELS)))


def findings(report: Any) -> list[Any]:
    return [finding for section in report["sections"] for finding in section["findings"]]


def test_each_finding_stands_in_the_sheets_of_its_priced_leads_and_no_other(report: Any) -> None:
    unpriced = {"gas-utility", "electric-utility", "water-utility", "owner"}
    expected = {
        (trade["id"], finding["number"], instance["place"])
        for finding in findings(report)
        for trade in finding["trades"]
        if trade["role"] == "lead" and trade["id"] not in unpriced
        for instance in finding["instances"]
    }
    rows = [(s["trade"], row["number"], row["place"]) for s in report["trade_sheets"] for row in s["rows"]]
    assert len(rows) == len(expected) and set(rows) == expected
    leads = {trade["id"] for finding in findings(report) for trade in finding["trades"] if trade["role"] == "lead"}
    assert "gas-utility" in leads and {"stucco", "electric"} <= {trade for trade, _, _ in rows}


def test_no_typed_text_is_a_formula_in_the_worksheet(report: Any) -> None:
    items = book(report)["Items"]
    cells = [cell for row in items.iter_rows(min_row=2) for cell in row]
    assert {cell.column for cell in cells if cell.data_type == "f"} == {12}
    risky = [cell for cell in cells if cell.data_type == "s" and cell.value[0] in "=+-@"]
    assert risky and all(cell.quotePrefix for cell in risky)


def test_no_typed_text_is_a_formula_in_csv(report: Any) -> None:
    rows = list(csv.reader(io.StringIO(sheets_csv.write(report, LABELS).removeprefix("\ufeff"))))
    assert len({len(row) for row in rows}) == 1 and len(rows) > 4
    assert not [cell for row in rows for cell in row if cell[:1] in ("=", "+", "-", "@", "\t", "\r")]
    assert any(cell.startswith("'=HYPERLINK") for row in rows for cell in row)


@pytest.mark.parametrize("text", ["=1", "+1", "-1", "@a", "\ta", "\ra", "\na", "  =1", "＝1"])
def test_a_cell_that_begins_like_a_formula_gets_an_apostrophe(text: str) -> None:
    assert sheets_csv.disarmed(text) == f"'{text}"
    assert sheets_csv.disarmed(f"gap {text}") == f"gap {text}"


def test_the_sums_reach_every_row_and_the_price_cells_are_empty(report: Any) -> None:
    made = book(report)
    items, sums = made["Items"], made["Sums"]
    last = items.max_row
    assert [items.cell(at, column).value for at in range(2, last + 1) for column in (9, 10, 11)] == [None] * 3 * (
        last - 1
    )
    assert [items.cell(at, 12).value for at in range(2, last + 1)] == [
        f'=IF(ISNUMBER(I{at}),"","no price yet")' for at in range(2, last + 1)
    ]
    formulas = [cell.value for row in sums.iter_rows() for cell in row if cell.data_type == "f"]
    assert formulas
    for formula in formulas:
        assert set(re.findall(r"Items!\$[A-Z]\$(\d+):\$[A-Z]\$(\d+)", formula)) == {("2", str(last))}


def test_typed_prices_sum_by_trade_and_by_grade(report: Any) -> None:
    made = book(report)
    items, sums = made["Items"], made["Sums"]
    for at in range(2, items.max_row + 1):
        items.cell(at, 9).value = at * 100
    total = sum(at * 100 for at in range(2, items.max_row + 1))
    seen = {"A": 0, "B": 0}
    for row in sums.iter_rows(min_row=4):
        match = re.fullmatch(
            r"=SUMIFS\(Items!\$I\$2:\$I\$(\d+),Items!\$([AB])\$2:\$[AB]\$\1,A(\d+)\)", str(row[2].value)
        )
        if match:
            name = sums.cell(int(match[3]), 1).value
            rows = range(2, int(match[1]) + 1)
            seen[match[2]] += sum(items[f"I{at}"].value for at in rows if items[f"{match[2]}{at}"].value == name)
    assert seen == {"A": total, "B": total}


def test_the_same_sheets_are_the_same_bytes(report: Any) -> None:
    data = sheets_xlsx.write(report, LABELS)
    assert data == sheets_xlsx.write(draft(HOUSE), LABELS)
    assert book(report).properties.modified.year == 2000


def test_a_page_names_the_house_and_the_state_and_no_client(report: Any) -> None:
    html = sheets_html.write(report, LABELS)
    assert html.count('<section class="sheet"') == len(report["trade_sheets"])
    assert (
        "14 Alder Lane" in html and "4 March 2026" in html and "not a design" in html and "has not been issued" in html
    )
    assert "Zzyzx" not in html and "(with roofer)" in html


def test_a_checklist_without_findings_has_honest_empty_sheets() -> None:
    empty = draft("ok: soffit | rear\n")
    assert "No finding asks a contractor for a price." in sheets_html.write(empty, LABELS)
    assert len(sheets_csv.write(empty, LABELS).splitlines()) == 1
    assert book(empty)["Items"].max_row == 1
