"""Sections: each system with its descriptions, findings, results and statuses."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from narrator.assess.claims import Systems, system_of
from narrator.assess.model import Seen
from narrator.compose import rows
from narrator.compose.english import capital_first
from narrator.compose.facts import Told, place_value
from narrator.compose.plain import measures
from narrator.measure.scan import scan
from narrator.read.model import Checklist, Line
from narrator.resolve.vocabulary import Vocabulary, written_out

if TYPE_CHECKING:
    from narrator.report import Description, Finding, Result, Section, Status


def write_sections(
    checklist: Checklist,
    findings: Sequence[Finding],
    homes: Mapping[str, str],
    results: Sequence[tuple[Line, str]],
    met: Sequence[Seen],
    young: Sequence[Seen],
    systems: Systems,
    vocabulary: Vocabulary,
    told: Told,
) -> list[Section]:
    """Sections in the library's order; a system heading always makes one, and `other` takes what no system claims.

    `homes`: finding id -> system.
    """
    made: dict[str, Section] = {}

    def section(system: str) -> Section:
        name = system if system in systems.titles else "other"
        return made.setdefault(
            name,
            {
                "system": name,
                "title": systems.titles[name],
                "lines": [],
                "descriptions": [],
                "results": [],
                "statuses": [],
                "limits": [],
                "findings": [],
            },
        )

    for line in checklist.lines:
        if line.kind == "heading" and line.key:
            section(line.key)
        elif line.kind == "description":
            section(system_of(line.key, systems, vocabulary, line.heading_system))["descriptions"].append(
                _description(line, told)
            )
        elif line.kind == "status" and line.key not in ("ok", "tested"):
            section(system_of(line.what, systems, vocabulary, line.heading_system))["statuses"].append(
                _status(line, told)
            )
    for line, kind in results:
        section(system_of(line.what, systems, vocabulary, line.heading_system))["results"].append(
            _result(line, kind, told)
        )
    for one in met:
        section(one.instance.match.code.split(".", 1)[0])["results"].append(_met(one, told))
    for one in young:
        section(one.instance.match.code.split(".", 1)[0])["descriptions"].append(_young(one, vocabulary, told))
    for finding in findings:
        section(homes[finding["id"]])["findings"].append(finding)
    out = [made[name] for name in systems.order if name in made]
    for item in out:
        item["results"].sort(key=lambda row: row["lines"])
        found = [*item["descriptions"], *item["results"], *item["statuses"], *item["findings"]]
        item["lines"] = sorted({number for row in found for number in row["lines"]})
    return out


def _description(line: Line, told: Told) -> Description:
    return {
        "name": line.key,
        "value": line.value,
        "place": line.where or None,
        "text": rows.description_text(line, told),
        "lines": [line.number],
        "photos": rows.photos_of(line),
        "words": [
            *rows.words_of(line),
            *(item.text for item in line.items if item.kind not in ("words", "quote", "photos", "sketch")),
        ],
    }


def _young_text(thing: str, figure: str, told: Told, one: Seen) -> str:
    """An age below the typical life, as a description, with everything else that the line told."""
    where = "".join(span.text for span in place_value([one], told).spans)
    typed = any(found.quantity.unit in ("year", "month", "date") for found in scan(thing))
    said = capital_first(thing if typed or figure in thing else f"{thing}: {figure}")
    # A `what` that is quoted whole, for a word no entry explains, is said already.
    kept = replace(one.instance, words=tuple(words for words in one.instance.words if words != one.instance.line.what))
    text = f"{said}{', ' + where if where else ''}."
    return rows.with_extras(text, one._replace(instance=kept), told)


def _young(one: Seen, vocabulary: Vocabulary, told: Told) -> Description:
    line = one.instance.line
    figure = next(item.text for item in one.judged if item.measure.spec.kind == "age")
    return {
        "name": line.what,
        "value": figure,
        "place": one.instance.place,
        "text": _young_text(written_out(line.what, vocabulary), figure, told, one),
        "lines": [line.number],
        "photos": list(one.instance.photos),
        "words": list(one.instance.words),
    }


def _result(line: Line, kind: str, told: Told) -> Result:
    return {
        "kind": kind,
        "text": rows.result_text(line, kind, told),
        "thing": rows.thing_of(line, told),
        "lines": [line.number],
        "code": None,
        "place": line.where or line.heading_place,
        "measures": [],
        "photos": rows.photos_of(line),
        "words": rows.words_of(line),
    }


def _met(one: Seen, told: Told) -> Result:
    return {
        "kind": "measured",
        "text": rows.met_text(one, told),
        "thing": one.instance.line.what,
        "lines": [one.instance.line.number],
        "code": one.instance.match.code,
        "place": one.instance.place,
        "measures": measures(one),
        "photos": list(one.instance.photos),
        "words": list(one.instance.words),
    }


def _status(line: Line, told: Told) -> Status:
    return {
        "kind": line.key,
        "what": line.what,
        "place": line.where or None,
        "reason": line.reason or None,
        "text": rows.status_text(line, told),
        "lines": [line.number],
        "photos": rows.photos_of(line),
    }
