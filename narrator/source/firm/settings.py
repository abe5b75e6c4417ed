"""What `firm.yaml` says, checked and as plain data that a draft reads from the index."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from narrator.errors import Fault, NarratorError, did_you_mean
from narrator.measure.scan import parse_value
from narrator.measure.units import compatible
from narrator.read.columns import checked
from narrator.source.positions import Key, Located
from narrator.source.schema import schema_faults

FORMAT = "narrator.firm/1"


def settings_of(located: Located, systems: Iterable[str]) -> dict[str, Any]:
    """The settings of a valid `firm.yaml`: texts verbatim (outer white space taken off), uncertainties as figure and unit."""
    value = located.value
    grades = value.get("grades", {})
    order = list(value.get("sections", []))
    return {
        "name": value["name"].strip(),
        "contact": {key: str(text).strip() for key, text in value.get("contact", {}).items()},
        "roster": {
            initials: {
                "name": who["name"].strip(),
                "licence": str(who["licence"]).strip() if "licence" in who else None,
                "signature": who["signature"].strip() if "signature" in who else None,
            }
            for initials, who in value.get("roster", {}).items()
        },
        "units": value.get("units", "as typed"),
        "dates": value.get("dates", "day month year"),
        "standard": value.get("standard"),
        "instruments": {
            kind: [str(found.high), found.unit]
            for kind, text in value.get("instruments", {}).items()
            if (found := parse_value(str(text))) is not None
        },
        "sections": [*order, *(name for name in systems if name not in order)] if order else [],
        "terms": {name: _verbatim(text) for name, text in value.get("terms", {}).items()},
        "statutory": {name: _verbatim(text) for name, text in value.get("statutory", {}).items()},
        "grades": {name: text.strip() for name, text in grades.items()},
        "deadline": value["deadline"].strip() if "deadline" in value else None,
        "columns": dict(value.get("columns", {})),
        "needs": list(value.get("needs", [])),
        "forbid": [" ".join(str(phrase).split()) for phrase in value.get("forbid", [])],
    }


def _verbatim(text: Any) -> str:
    """Contract text word for word; only how its lines are broken inside a paragraph is the page's own."""
    return "\n".join(" ".join(part.split()) for part in str(text).strip().split("\n\n"))


def settings_faults(located: Located, systems: Iterable[str]) -> list[Fault]:
    """What is wrong with a `firm.yaml`: its form, then what it names that is not there."""
    if located.value.get("format") != FORMAT:
        said = f"A firm's file begins with 'format: {FORMAT}'. If this file is another program's, draft with --no-firm."
        return [located.fault(("format",), said)]
    faults = schema_faults(located, "firm")
    if faults:
        return faults
    value: Mapping[str, Any] = located.value
    known = sorted(systems)
    for number, name in enumerate(value.get("sections", [])):
        at: Key = ("sections", number)
        if name not in known:
            message = f"'{name}' is not a section.{did_you_mean(name, known)} Known: {', '.join(known)}."
            faults.append(located.fault(at, message))
        elif name in value["sections"][:number]:
            faults.append(located.fault(at, f"'{name}' stands twice in this list. Keep one."))
    for kind, text in value.get("instruments", {}).items():
        found = parse_value(str(text))
        if found is None or not compatible(found.unit, kind) or found.low < 0 or found.is_range:
            message = (
                f"'{text}' is not an uncertainty for {kind}. Write a figure with its unit, such as 2 % or 1/16 in."
            )
            faults.append(located.fault(("instruments", kind), message))
    try:
        checked({str(key): str(text) for key, text in value.get("columns", {}).items()})
    except NarratorError as error:
        faults += [located.fault(("columns", fault.key), fault.message) for fault in error.faults]
    return faults
