"""`narrator sheets`: what contractors price from, and the client's worksheet."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any, cast

import click

from narrator.commands.common import (
    FIRM,
    KINDS,
    NO_FIRM,
    checklist_text,
    draft_of,
    firm_for,
    labels_of,
    library,
    write_whole,
)
from narrator.errors import did_you_mean, stop
from narrator.publish.labels import Labels
from narrator.report import Report
from narrator.source import index as store
from narrator.source.index import Index

FORMS = ("html", "csv", "xlsx")


@click.command("sheets")
@click.argument("checklist")
@click.option("--trade", metavar="ID", help="Only this trade's sheet: a page to hand to that contractor.")
@click.option("-o", "--output", metavar="FILE", help="Write to this file; its ending (.html, .csv, .xlsx) says how.")
@click.option("--to", type=click.Choice(FORMS), help="How to write it, whatever the file is called.")
@click.option("--from", "kind", type=click.Choice(KINDS), help="How the checklist is written.")
@click.option("--no-edits", is_flag=True, help="Leave out the hand edits that lie beside the checklist.")
@FIRM
@NO_FIRM
@click.option("--library", "folder", metavar="DIR", help="Another library folder than narrator's own.")
def command(
    checklist: str,
    trade: str | None,
    output: str | None,
    to: str | None,
    kind: str | None,
    no_edits: bool,
    firm: str | None,
    no_firm: bool,
    folder: str | None,
) -> int:
    """Write the trade sheets of CHECKLIST: a row for each place, with room for price, date and firm.

    CHECKLIST is a checklist, or a report that `narrator draft --to json` wrote. A .xlsx file is the client's own worksheet,
    with sums that follow the prices.
    """
    to_file = output if output != "-" else None
    form = _form(to_file, to)
    if to_file and checklist != "-" and Path(to_file).absolute() == Path(checklist).absolute():
        raise click.UsageError("The sheets would overwrite the checklist. Give -o another name.")
    index = library(folder, firm_for(firm, no_firm, checklist))
    report = _report(checklist, kind, index, with_edits=not no_edits)
    if trade is not None:
        report = _only(report, trade, index)
    made = _written(report, form, labels_of(index), unnamed=trade is None)
    if to_file:
        write_whole(Path(to_file), made)
    else:
        sys.stdout.write(cast(str, made))
        sys.stdout.flush()
    count = len(report["trade_sheets"])
    where = f" in {to_file}" if to_file else ""
    click.echo(f"Sheets{where}: {count} {'trade' if count == 1 else 'trades'}.", err=True)
    return 0


def _form(output: str | None, to: str | None) -> str:
    """The form to write: `--to`, else the file's ending, else HTML."""
    form = to or (Path(output).suffix.lower().lstrip(".") if output else "html")
    if form not in FORMS:
        raise click.UsageError(f"'{output}' ends in none of .html, .csv and .xlsx; use one of them, or say --to.")
    if form == "xlsx" and not output:
        raise click.UsageError("A worksheet cannot be printed here. Name its file: -o prices.xlsx")
    return form


def _report(path: str, kind: str | None, index: Index, with_edits: bool) -> Report:
    """A report file as it is, or the draft of a checklist."""
    if path != "-" and path.lower().endswith(".json"):
        try:
            value: Any = json.loads(checklist_text(path))
        except (ValueError, RecursionError):
            value = None  # the checklist's own reader says what is wrong, with line and column
        if isinstance(value, dict) and str(value.get("format", "")).startswith("narrator.report/"):
            return _checked(value, path)
    return draft_of(path, kind, index, with_edits)


def _checked(value: dict[str, Any], path: str) -> Report:
    """The report, if it has the form of one."""
    from narrator.source.schema import report_fault

    fault = report_fault(value)
    if fault:
        raise stop(path, f"This is not a whole report: {fault} Write it again with narrator draft --to json.")
    return cast(Report, value)


def _only(report: Report, trade: str, index: Index) -> Report:
    """The report with one trade's sheet left. Raises a usage error with the nearest name, or with the trades that have one."""
    trades = store.document(index, "trades")["trades"]
    named = {str(name).lower(): item for item in trades for name in (item["id"], item["label"], *item["names"])}
    item = named.get(" ".join(trade.lower().split()))
    if item is None:
        raise click.UsageError(f"'{trade}' is not a trade that the library knows.{did_you_mean(trade.lower(), named)}")
    sheets = [sheet for sheet in report["trade_sheets"] if sheet["trade"] == item["id"]]
    if not sheets:
        others = ", ".join(sheet["trade"] for sheet in report["trade_sheets"]) or "none"
        raise click.UsageError(f"No finding asks for a price from '{item['label']}'. Trades with a sheet: {others}.")
    return cast(Report, {**report, "trade_sheets": sheets})


def _written(report: Report, form: str, labels: Labels, unnamed: bool) -> str | bytes:
    if form == "html":
        from narrator.publish import sheets_html

        return sheets_html.write(report, labels)
    if form == "csv":
        from narrator.publish import sheets_csv

        return sheets_csv.write(report, labels, unnamed)
    from narrator.publish import sheets_xlsx

    try:
        return sheets_xlsx.write(report, labels, unnamed)
    except ImportError:
        raise click.UsageError(
            "A worksheet needs openpyxl, which is not installed. Install it with: pip install openpyxl"
            "  (or use --to csv)"
        ) from None
