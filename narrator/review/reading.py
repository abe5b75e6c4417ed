"""Loads a report in any of our formats, also after a person edited it or a word processor saved it."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from narrator.errors import NarratorError, did_you_mean, stop
from narrator.publish import LATER, by_suffix
from narrator.publish.labels import Labels
from narrator.review import raw_html, raw_json, raw_md, raw_txt
from narrator.review.headings import opened
from narrator.review.pieces import Found, Piece, Raw, Reading
from narrator.review.plainly import level
from narrator.review.structure import is_mark, structured

if TYPE_CHECKING:
    from narrator.report import Report

MOST_BYTES = 64 * 1024 * 1024
"""A report with its pictures inside is some megabytes."""

_CHARSET = re.compile(rb"(?i)<meta[^>]{0,200}charset\s*=\s*[\"']?([a-z0-9_-]{3,20})")
_HOUSE = re.compile(r"(?i)\bfound at (.+)$")
_SHEET_HOUSE = re.compile(r"The house: (.+?)(?:\. (?:Visited|Inspector:|Draft)\b.*|\.?)$")
_WHOLE = re.compile(r"[.!?:;”\"’')|>\]]\s*$")


def load(path: str, labels: Labels, given: str | None = None) -> Reading:
    """The report in a file, or on standard input for `-`. `given` is a format, else the file's name and text say it.

    Raises NarratorError for an empty file, half a file, a report of another program, and a format that cannot be read.
    """
    shown = "standard input" if path == "-" else path
    return read_text(
        decoded(_raw(path, shown), shown), shown, labels, given or (by_suffix(path) if path != "-" else None)
    )


def read_text(text: str, shown: str, labels: Labels, form: str | None = None) -> Reading:
    """The report in a text. Raises NarratorError as `load` does."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if not text.replace("\ufeff", "").strip():
        raise stop(shown, "The file is empty. Name a report that narrator wrote: md, html, txt or json.")
    form = form or _form_of(text)
    if form in LATER:
        raise stop(shown, f"A {form} cannot be read yet. Save it as HTML or as plain text (UTF-8), and name that file.")
    if form == "json":
        return _from_json(text, shown, labels)
    if form == "html" and not re.search(r"(?i)<(?:html|body|p|h[1-6]|article|div|table)\b", text):
        form = "md" if _form_of(text) == "md" else "txt"
    raws = _blocks(text, form)
    headed = form == "html" or any(raw.kind == "heading" for raw in raws)
    order = _graded(structured(raws, headed), labels)
    draft = any(map(is_mark, raws)) or any(level(raw.text).lower().startswith("draft:") for raw in raws[:3])
    reading = Reading(shown, form, draft, _house(order), order)
    return reading._replace(remarks=_checked(reading, raws, text))


def _graded(order: tuple[Piece | Found, ...], labels: Labels) -> tuple[Piece | Found, ...]:
    """With the grades that a firm prints in words of its own."""
    own = {level(word).lower(): key for key, word in labels.severities.items()}
    return tuple(
        each._replace(grade=own.get(level(each.severity).lower().split(":")[0].strip(), each.grade))
        if isinstance(each, Found)
        else each
        for each in order
    )


def _blocks(text: str, form: str) -> list[Raw]:
    if form == "html":
        return raw_html.blocks(text)
    return list(raw_md.blocks(text) if form == "md" else raw_txt.blocks(text))


def _form_of(text: str) -> str:
    start = text.lstrip()[:400]
    if start.startswith("{"):
        return "json"
    if re.match(r"(?is)<(?:!doctype|html|\?xml|body|!--|head)", start):
        return "html"
    return "md" if re.search(r"(?m)^#{1,3}[ \t]+\S", text) else "txt"


def decoded(raw: bytes, shown: str) -> str:
    """The text of a file. Word processors also save in other encodings, and say so at the start."""
    if raw[:4] in (b"PK\x03\x04", b"%PDF"):
        kind = "PDF" if raw[:1] == b"%" else "word processor’s file"
        raise stop(shown, f"This is a {kind}. Save it as HTML or as plain text (UTF-8), and name that file.")
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return raw.decode("utf-16", "replace")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        if b"\x00" in raw:
            raise stop(shown, "This is not a text. Name a report that narrator wrote: md, html, txt or json.") from None
        named = _CHARSET.search(raw[:4096])
        try:
            return raw.decode(named[1].decode("ascii") if named else "cp1252", "replace")
        except LookupError:
            return raw.decode("cp1252", "replace")


def _raw(path: str, shown: str) -> bytes:
    try:
        if path == "-":
            return sys.stdin.buffer.read(MOST_BYTES)
        file = Path(path)
        if file.is_dir():
            raise stop(shown, "This is a folder; name the report in it.")
        if not file.exists():
            names = [each.name for each in file.parent.iterdir()] if file.parent.is_dir() else []
            raise stop(shown, f"There is no such file.{did_you_mean(file.name, names)}")
        if file.stat().st_size > MOST_BYTES:
            raise stop(shown, "The file is longer than 64 MiB. Is this the right file?")
        return file.read_bytes()
    except OSError as error:
        raise stop(shown, f"The file could not be read: {error.strerror or error}.") from None


def _from_json(text: str, shown: str, labels: Labels) -> Reading:
    try:
        value: Any = json.loads(text)
    except RecursionError:
        raise stop(shown, "This is no report: it is nested too deep.") from None
    except json.JSONDecodeError as error:
        half = error.pos >= len(text.rstrip()) - 1 or "Unterminated" in error.msg
        said = "The file ends in the middle; half of it is missing." if half else f"This is not JSON: {error.msg}."
        raise stop(
            shown, f"{said} Write it again with: narrator draft CHECKLIST -o NAME.json", error.lineno, error.colno
        ) from None
    known = isinstance(value, dict) and value.get("format")
    if known != "narrator.report/1":
        says = f"its format is {known!r}" if isinstance(known, str) else "it has no format of ours"
        raise stop(shown, f"This is JSON, but no report of narrator ({says}; 'narrator.report/1' is expected).")
    report = cast("Report", value)
    try:
        order = _graded(structured(list(raw_json.blocks(report, labels, text))), labels)
    except (KeyError, TypeError, AttributeError, ValueError, IndexError):
        raise _not_whole(text, shown) from None
    return Reading(
        shown, "json", report["state"] != "issued", " ".join((report["property"] or "").split()), order, report
    )


def _not_whole(text: str, shown: str) -> NarratorError:
    """What a hand edit of the JSON broke, with line and column."""
    from narrator.source.json_positions import load_json  # only when something is already wrong
    from narrator.source.schema import schema_faults

    faults = schema_faults(load_json(text, shown), "report")
    return (
        NarratorError(faults)
        if faults
        else stop(shown, "A part of this report has another shape than narrator writes.")
    )


def _house(order: tuple[Piece | Found, ...]) -> str:
    """The address: from the title, else from a trade sheet."""
    for each in order:
        if isinstance(each, Piece) and each.role == "head" and (title := _HOUSE.search(each.title)):
            return " ".join(title[1].split())
    for each in order:
        if isinstance(each, Piece) and each.role == "sheet":
            for passage in each.passages:
                if match := _SHEET_HOUSE.search(passage.text):
                    return " ".join(match[1].split())
    return ""


def _checked(reading: Reading, raws: list[Raw], text: str) -> tuple[str, ...]:
    """Stops at another program's report and at half a file; says what else looks odd."""
    known = {
        each.role
        for each in reading.pieces
        if each.role != "system" and (opened(each.title) or each.role == "colophon")
    }
    graded = [each for each in reading.findings if each.grade or (each.number is not None and each.severity)]
    if not graded and len(known) < 2:
        raise stop(
            reading.path,
            "This does not look like a report that narrator wrote: no finding and no part of one is in it. "
            "Name the md, html, txt or json file of a draft or of an issued report.",
        )
    closed = "colophon" in known or any(is_mark(raw) for raw in raws[-3:])
    if (
        reading.form == "html"
        and re.search(r"(?i)<html\b", text)
        and not re.search(r"(?i)</(?:body|html)\s*>", text[-2000:])
    ):
        raise _half(reading.path, text)
    if not closed and not _WHOLE.search(text):
        raise _half(reading.path, text)
    return (
        ()
        if closed
        else (f"{reading.path}: the last lines of a report are not in it (“Written with narrator …”). Is it whole?",)
    )


def _half(path: str, text: str) -> NarratorError:
    return stop(
        path, "The file ends in the middle; the rest of the report is missing.", text.rstrip().count("\n") + 1, 1
    )
