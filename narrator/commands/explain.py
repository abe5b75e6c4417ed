"""`narrator explain`: where each sentence came from."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

from narrator.commands.common import FIRM, KINDS, NO_FIRM, draft_of, firm_for, library
from narrator.errors import did_you_mean, stop
from narrator.source import index as store
from narrator.source.index import Index
from narrator.source.model import TEXT_FIELDS, Entry, Variant

if TYPE_CHECKING:
    from narrator.report import Finding, TraceSpan


@click.command("explain")
@click.argument("subject", metavar="CODE-or-CHECKLIST")
@click.argument("which", required=False, metavar="[ID]")
@click.option(
    "--from", "kind", type=click.Choice(KINDS), help="How the checklist is written, if its ending does not say."
)
@FIRM
@NO_FIRM
@click.option("--library", "folder", metavar="DIR", help="Another library folder than narrator's own.")
def command(
    subject: str, which: str | None, kind: str | None, firm: str | None, no_firm: bool, folder: str | None
) -> int:
    """Show where wording came from.

    With a CODE (walls.stucco.no-roof-gap): the entry, its file, its wordings and when each is used, its published figures.

    With a CHECKLIST and the ID or number of a finding: each sentence of that finding, with the file and line of the wording,
    the figure it is held against, and the checklist line behind every value.
    """
    code = which is None and subject != "-" and not Path(subject).is_file()
    index = library(folder, firm_for(firm, no_firm, None if code else subject))
    if code:
        return _explain_code(subject, index)
    if which is None:
        raise click.UsageError(
            f"Say which finding of {subject}: its number or its code, such as: narrator explain {subject} 3"
        )
    report = draft_of(subject, kind, index)
    findings = [finding for section in report["sections"] for finding in section["findings"]]
    ids = {finding["id"]: finding for finding in findings}
    numbers = {str(finding["number"]): finding for finding in findings}
    chosen = ids.get(which) or numbers.get(which)
    if chosen is None:
        known = f" It has numbers 1 to {len(findings)}." if findings else " It has no findings."
        raise stop(subject, f"No finding is called '{which}'.{did_you_mean(which, ids)}{known}")
    _explain_finding(chosen, index)
    return 0


def _explain_code(code: str, index: Index) -> int:
    entry = store.entry(index, code)
    if entry is None:
        raise click.UsageError(
            f"'{code}' is neither a code of the library nor a checklist file.{did_you_mean(code, store.codes(index))}"
        )
    click.echo(f"{entry.code}  {entry.title[-1].text}")
    click.echo(f"  file      {entry.file}")
    click.echo(f"  grade     {entry.severity}: {entry.why} ({_why_at(entry)})")
    click.echo(f"  trade     {', '.join((entry.lead, *entry.beside))}")
    click.echo(f"  element   {entry.element}")
    click.echo(f"  names     {'; '.join(entry.names)}")
    for spec in entry.measures:
        click.echo(
            f"  measure   {spec.name} ({spec.kind})" + ("" if spec.criterion else ": no published figure judges it")
        )
        if spec.criterion:
            click.echo(f"            {_criterion(spec.criterion, index)}")
    for field in TEXT_FIELDS:
        for variant in getattr(entry, field):
            click.echo(f"  {field}{_variant(variant)}  {variant.file or entry.file}:{variant.line}")
            click.echo(f"      {variant.text}")
            if variant.seam:
                click.echo(f"      its end stands in {variant.seam[1]}:{variant.seam[2]}")
    firm = store.document(index, "firm")
    for key, file, line in firm.get("edits", {}).get(code, ()) if firm else ():
        click.echo(f"  edited    {key} by {firm['name']}  {file}:{line}")
    return 0


def _why_at(entry: Entry) -> str:
    return f"line {entry.why_line}" if entry.why_file == entry.file else f"{entry.why_file}:{entry.why_line}"


def _variant(variant: Variant) -> str:
    when = ", ".join(f"{key}: {value}" for key, value in variant.when.items())
    name = f" '{variant.name}'" if variant.name else ""
    return f"{name}{f' when {when}' if when else ''}"


def _criterion(name: str, index: Index) -> str:
    """A criterion with its document, edition and clause; a figure known from memory says so."""
    found = store.criterion(index, name)
    if found is None:
        return f"{name}: not in the library"
    value = " to ".join(f"{float(item):g}" for item in found.value)
    doubt = {
        "memory": " (from memory: confirm before relying on it)",
        "common-practice": " (common practice, no numbered clause)",
    }
    spread = (
        f"; also published: {', '.join(' to '.join(f'{float(item):g}' for item in figure) for figure in found.spread)}"
        if found.spread
        else ""
    )
    return (
        f"{name}: {found.comparison} {value} {found.unit}{spread}. {found.source}, {found.edition}, {found.section}"
        f"{doubt.get(found.known_by, '')}"
    )


def _explain_finding(finding: Finding, index: Index) -> None:
    entry = store.entry(index, finding["code"])
    click.echo(f"{finding['number']} · {finding['title']}  [{finding['id']}]")
    click.echo(f"  checklist lines {', '.join(str(number) for number in finding['lines'])}")
    for one in finding["instances"]:
        how = one["matched"]
        click.echo(
            f"  line {one['lines'][0]}: '{how['typed']}' found by {how['how']} ({how['score']:g}); known as {one['basis']}"
        )
        for measure in one["measures"]:
            if measure["criterion"]:
                click.echo(
                    f"    {measure['name']} {measure['text']}: {measure['verdict']}; {_criterion(measure['criterion']['id'], index)}"
                )
    click.echo(f"  grade {finding['severity'] or 'none'}: {finding['why']}" + _reason_place(finding, entry))
    if entry is not None:
        click.echo(f"  title {_title_place(finding, entry)}")
    for field in ("observation", "implication", "recommendation"):
        spans = [span for span in finding["trace"] if span["field"] == field]
        if not spans:
            continue
        click.echo(f"  {field}")
        text = str(finding[field])
        for start, end in _sentences(text):
            click.echo(f"    {text[start:end].strip()}")
            within = [one for one in spans if one["start"] < end and one["end"] > start]
            said = [_source(one) for one in within if text[max(one["start"], start) : min(one["end"], end)].strip(" .")]
            for source in dict.fromkeys(said):
                click.echo(f"        {source}")
    for limit in finding["limits"]:
        click.echo(f"  limit {limit['id']}: {limit['text']}  ({_limit_place(limit['id'], index)})")


def _sentences(text: str) -> list[tuple[int, int]]:
    """Where each sentence starts and ends; a full stop inside `5 p.m.` ends none that goes on in lower case."""
    ends = [match.end() for match in _END.finditer(text)] + [len(text)]
    return [(start, end) for start, end in zip([0, *ends[:-1]], ends, strict=True) if text[start:end].strip()]


def _title_place(finding: Finding, entry: Entry) -> str:
    shown = finding["title"].lower()
    variant = next((one for one in entry.title if shown.endswith(one.text.lower())), entry.title[-1])
    file = variant.file or entry.file
    return f"{_layer(file)} {file}:{variant.line}"


def _limit_place(name: str, index: Index) -> str:
    for key, file, line in store.document(index, "firm").get("edits", {}).get("limits", ()):
        if key.split(".")[1].rstrip("+") == name:
            return f"{_layer(file)} {file}:{line}"
    return "library library/limits.yaml"


def _layer(file: str) -> str:
    """The layer of a file: the library's or the firm's."""
    return "firm   " if file.startswith("firm/") else "library"


def _reason_place(finding: Finding, entry: Entry | None) -> str:
    if any(override["key"] == "because" for override in finding["overrides"]):
        return "  (set by hand)"
    return f"  ({entry.why_file}:{entry.why_line})" if entry else ""


_END = re.compile(r"[.!?][”\"]?\s+(?=[A-Z“\"])")
_ENGINE: Mapping[str, str] = {"engine": "narrator's own sentence"}


def _source(span: TraceSpan) -> str:
    """Where a span came from, in a few words."""
    if span["kind"] == "text":
        variant = span["ref"].split(":", 2)[2] if span["ref"].count(":") > 1 else ""
        at = f":{span['line']}" if span["line"] else ""
        wording = f"  wording '{variant}'" if variant else ""
        return f"{_layer(str(span['file']))} {span['file']}{at}{wording}"
    if span["kind"] == "gloss":
        line = f":{span['line']}" if span["line"] else ""
        return f"gloss   {span['file']}{line}  {span['ref']}"
    if span["kind"] == "edit":
        return f"edited by hand: {span['file']}:{span['line']}"
    if span["kind"] in _ENGINE:
        return _ENGINE[span["kind"]]
    named = span["ref"] if span["ref"].startswith(("measure:", "derived:")) else ""
    place = f"checklist line {span['line']}" if span["line"] else span["ref"]
    return f"{span['kind']}: {f'{named}, ' if named else ''}{place}"
