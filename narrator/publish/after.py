"""What follows the findings, from the photos to the terms and the lines still to settle."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from narrator.compose.english import join_list
from narrator.publish.blocks import Block, Heading, Items, Para, Part, Row
from narrator.publish.labels import Labels
from narrator.publish.sheets_rows import sheet_part
from narrator.publish.text import counted, inline, paragraphs, quoted, run

if TYPE_CHECKING:
    from narrator.report import Report, Unresolved

TO_SETTLE = "Lines still to settle (not for the client)"


def after(report: Report, labels: Labels) -> Iterator[Part]:
    """The parts after the last system, in order."""
    yield _listed("photos", "Photos", _photos(report))
    yield Part("notes", _headed("In the inspector’s words", tuple(_notes(report))))
    yield _listed("unseen", "What nobody has seen, line by line", _unseen(report))
    for sheet in report["trade_sheets"]:
        yield sheet_part(sheet, report, labels)
    words = [Row(f"{inline(each['term'])}: {inline(each['text'])}") for each in report["glossary"]]
    yield _listed("glossary", "Words used here", words)
    terms = tuple(Para(text, "term") for each in report["terms"] for text in paragraphs(each["text"]))
    yield Part("terms", _headed("Terms", terms))
    yield Part("colophon", (Para(_colophon(report), "colophon"),))
    if report["state"] != "issued":
        yield _listed("settle", TO_SETTLE, [Row(_to_settle(each)) for each in report["unresolved"]])


def _headed(heading: str, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    return (Heading(2, heading), *blocks) if blocks else ()


def _listed(role: str, heading: str, rows: list[Row]) -> Part:
    return Part(role, _headed(heading, (Items("", tuple(rows)),) if rows else ()))


def _photos(report: Report) -> list[Row]:
    captions = [(counted("photo", each["photos"]), inline(each["text"])) for each in report["photos"]]
    return [Row(f"{(number or 'photo').capitalize()}: {text}") for number, text in captions if number or text]


def _notes(report: Report) -> Iterator[Para]:
    for note in report["notes"]:
        place = inline(note["place"] or "")
        before = f"{place[0].upper()}{place[1:]}: " if place else ""
        for text in paragraphs(note["text"]):
            yield Para(before + quoted(text), "note")
            before = ""


def _unseen(report: Report) -> list[Row]:
    """What no status of a system and no list of page one has said in the same words."""
    said = {inline(each["text"]) for part in report["sections"] for each in part["statuses"]}
    said |= {inline(str(item.get("text"))) for part in report["opening"] for item in part.get("items", [])}
    said |= {inline(part["text"]) for part in report["opening"]}
    texts = dict.fromkeys(inline(each["text"]) for each in report["unseen"])
    return [Row(text) for text in texts if text and text not in said]


def _colophon(report: Report) -> str:
    version, fingerprint = report["library"].get("version", ""), report["library"].get("fingerprint", "")
    library = f", with library {inline(version)}" if version else ""
    mark = f" ({inline(fingerprint)[:12]})" if fingerprint else ""
    firm = report["firm"] or {}
    wording = (
        f", and the wording of {inline(firm['name'])} ({inline(firm['fingerprint'])[:12]})"
        if "fingerprint" in firm
        else ""
    )
    return run([f"Written with narrator {inline(report['narrator'])}{library}{mark}{wording}"])


def _to_settle(line: Unresolved) -> str:
    under = join_list(list(dict.fromkeys(filter(None, (inline(line["heading"] or ""), inline(line["place"] or ""))))))
    where = counted("line", line["lines"]).capitalize() + (f", under {under}" if under else "")
    nearest = "; ".join(f"{inline(each['title'])} ({inline(each['code'])})" for each in line["nearest"])
    return run(
        [
            f"{where}: {quoted(inline(line['text']))}.",
            inline(line["reason"]),
            f"Nearest: {nearest}" if nearest else "",
        ]
    )
