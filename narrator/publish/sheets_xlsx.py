"""The client's worksheet (XLSX): every row of the trade sheets, and sums that follow the prices as they are typed.

Typed text is stored as text, with the sign that keeps it text when its cell is edited. Formulas are only ours, and hold
references and fixed words. SUMIFS, COUNTIFS, IF and ISNUMBER are in all common spreadsheets; nothing spills.
"""

from __future__ import annotations

import io
import re
import zipfile
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from narrator.publish.labels import Labels
from narrator.publish.sheets_rows import NOTHING, Line, heading_note, lines

if TYPE_CHECKING:
    from narrator.report import Report

HEAD = (
    "Trade", "Grade", "Number", "Item", "Place", "Figures", "Photos", "What we could not see",
    "Price", "Date of the price", "Firm", "Still to do",
)  # fmt: skip
WIDTHS = (20, 17, 9, 32, 26, 26, 11, 32, 12, 13, 18, 14)
LINE = 15  # points
OPEN = "no price yet"
ONCE = "One price for several rows? Type it in one of them, and 0 in the others."
CLOCK = "2000-01-01T00:00:00Z"
"""The time in the file: always the same, so that the same sheets are the same bytes."""


def write(report: Report, labels: Labels, unnamed: bool = True) -> bytes:
    """The worksheet's bytes. Raises ImportError where openpyxl is not installed."""
    from openpyxl import Workbook

    book = Workbook()
    rows = lines(report, labels, unnamed)
    items, sums = book.active, book.create_sheet("Sums")
    items.title = "Items"
    _items(items, rows)
    _sums(sums, rows, heading_note(report), labels)
    out = io.BytesIO()
    book.save(out)
    return _settled(out.getvalue())


def _items(sheet: Any, rows: list[Line]) -> None:
    from openpyxl.worksheet.datavalidation import DataValidation

    for column, head in enumerate(HEAD, 1):
        _put(sheet, 1, column, head, bold=True)
    for at, line in enumerate(rows, 2):
        values: tuple[str | int, ...] = (line.trade, line.grade, line.number, *line.cells[1:])
        for column, value in enumerate(values, 1):
            _put(sheet, at, column, value)
        for column in (9, 10, 11):
            _put(sheet, at, column, None)
        sheet.cell(at, 9).number_format = "#,##0.00"
        sheet.cell(at, 10).number_format = "yyyy-mm-dd"
        _put(sheet, at, 12, None).value = f'=IF(ISNUMBER(I{at}),"","{OPEN}")'
        sheet.row_dimensions[at].height = _height([str(value) for value in values])
    sheet.row_dimensions[1].height = 2 * LINE
    last = max(len(rows) + 1, 2)
    check = DataValidation(type="decimal", operator="greaterThanOrEqual", formula1="0", allow_blank=True)
    check.errorTitle, check.error = "Price", "Type the price as a plain number, without a currency sign."
    sheet.add_data_validation(check)
    check.add(f"I2:I{last}")
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = f"A1:L{last}"
    _print(sheet, WIDTHS)
    sheet.print_title_rows = "1:1"


def _height(texts: list[str]) -> float:
    """Points for a row of wrapped cells: not every program works this out when it opens the file."""
    most = max(len(wrap(text, max(width - 3, 4))) for text, width in zip(texts, WIDTHS, strict=False))
    return LINE * max(most, 1) + 3


def _sums(sheet: Any, rows: list[Line], note: str, labels: Labels) -> None:
    last = max(len(rows) + 1, 2)
    _put(sheet, 1, 1, note)
    _put(sheet, 2, 1, ONCE if rows else NOTHING)
    for at in (1, 2):
        sheet.merge_cells(start_row=at, start_column=1, end_row=at, end_column=4)
        sheet.row_dimensions[at].height = 46 if at == 1 else 18
    grades = [labels.severity(grade, []) for grade in [*labels.severities, None]]
    used = {line.grade for line in rows}
    kinds = (
        ("Trade", "A", list(dict.fromkeys(line.trade for line in rows))),
        ("Grade", "B", [grade for grade in grades if grade in used] + sorted(used - set(grades))),
    )
    at = 4
    for head, column, names in kinds:
        for number, text in enumerate((head, "Rows", "Sum of prices", "Rows with no price yet"), 1):
            _put(sheet, at, number, text, bold=True)
        where = f"Items!${column}$2:${column}${last}"
        for each in names:
            at += 1
            _put(sheet, at, 1, each)
            _formula(sheet, at, 2, f"=COUNTIFS({where},A{at})")
            _formula(sheet, at, 3, f"=SUMIFS(Items!$I$2:$I${last},{where},A{at})")
            _formula(sheet, at, 4, f'=COUNTIFS({where},A{at},Items!$L$2:$L${last},"{OPEN}")')
        at += 2
    _put(sheet, at, 1, "All", bold=True)
    _formula(sheet, at, 2, f"=COUNT(Items!$C$2:$C${last})")
    _formula(sheet, at, 3, f"=SUM(Items!$I$2:$I${last})")
    _formula(sheet, at, 4, f'=COUNTIFS(Items!$L$2:$L${last},"{OPEN}")')
    _print(sheet, (36, 10, 18, 24))


def _formula(sheet: Any, row: int, column: int, text: str) -> None:
    cell = _put(sheet, row, column, None)
    cell.value = text
    cell.number_format = "#,##0.00" if column == 3 else "0"


def _put(sheet: Any, row: int, column: int, value: str | int | None, bold: bool = False) -> Any:
    """A value as it is; text stays text, whatever sign it begins with."""
    from openpyxl.styles import Alignment, Border, Font, Side

    cell = sheet.cell(row, column)
    cell.value = value
    if isinstance(value, str):
        cell.data_type = "s"
        cell.quotePrefix = value.lstrip(" ")[:1] in ("=", "+", "-", "@")
    cell.font = Font(bold=bold)
    cell.alignment = Alignment(
        wrap_text=True, vertical="top", horizontal="left" if column == 3 and sheet.title == "Items" else None
    )
    cell.border = Border(bottom=Side("thin", color="C9CCD0"))
    return cell


def _print(sheet: Any, widths: tuple[int, ...]) -> None:
    for number, width in enumerate(widths):
        sheet.column_dimensions["ABCDEFGHIJKL"[number]].width = width
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.oddFooter.right.text = "&P of &N"


def _settled(data: bytes) -> bytes:
    """The same file with every clock in it set to one time."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = re.sub(rb"(<dcterms:\w+[^>]*>)[^<]*", rb"\g<1>" + CLOCK.encode(), content)
            info = zipfile.ZipInfo(name, (2000, 1, 1, 0, 0, 0))
            info.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(info, content)
    return out.getvalue()
