"""Trade sheets as CSV (RFC 4180), with a byte order mark so that spreadsheets read it as UTF-8.

Quoting does not stop a spreadsheet from running a cell as a formula. A cell that begins with `=`, `+`, `-`, `@`, a tab or a
return, also in its full-width form, gets an apostrophe before it, as OWASP advises under "CSV Injection".
"""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from narrator.publish.labels import Labels
from narrator.publish.sheets_rows import SHEET_HEAD, lines

if TYPE_CHECKING:
    from narrator.report import Report

RISKY = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def write(report: Report, labels: Labels, unnamed: bool = True) -> str:
    """One row a place, the price columns left empty."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(("Trade", "Grade", *SHEET_HEAD))
    for line in lines(report, labels, unnamed):
        writer.writerow(map(disarmed, (line.trade, line.grade, *line.cells, "", "", "")))
    return "\ufeff" + out.getvalue()


def disarmed(text: str) -> str:
    """The text, never read as a formula."""
    return f"'{text}" if text.lstrip(" ").startswith(RISKY) else text
