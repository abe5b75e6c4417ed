"""An entry's own cases, run through the real pipeline, and what they reach of it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from narrator.compose.readability import grade
from narrator.errors import Fault
from narrator.pipeline import draft_checklist, grammar_of
from narrator.read.notation import Grammar, read_checklist
from narrator.report import Finding, Report
from narrator.resolve.vocabulary import Vocabulary
from narrator.resolve.words import understand
from narrator.source.check.stock import Stock
from narrator.source.check.texts import PRINTED, variants_of
from narrator.source.model import TEXT_FIELDS, Entry, Variant
from narrator.source.positions import Key, Located

HARDEST = 9.0
WHERE = "rear wall"
# The day of the visit, so that a year of make gives an age.
_VISIT = "visited: 4 March 2026"
_QUOTED = re.compile(r"“[^”]*”")
# A field and the line its wording stands on name a wording, with or without a name of its own.
Reached = set[tuple[str, int]]


@dataclass(frozen=True, slots=True)
class Tried:
    """What came of a case: the texts a reader would see, and the finding, if there is one."""

    text: str
    finding: Finding | None
    faults: tuple[Fault, ...]


def case_faults(stock: Stock) -> list[Fault]:
    """Faults of every case of every well-formed entry, and wordings that no case reaches."""
    draft = partial(_draft, stock, grammar_of(stock.index))
    limits = stock.files.lists["limits"].value["limits"]
    out: list[Fault] = []
    for code, entry in stock.entries.items():
        located = stock.located(code)
        name = typed_name(entry, stock.vocabulary)
        reached: Reached = set()
        raised: set[str] = set()
        for number, case in enumerate(located.value["cases"]):
            # A name says that something is wrong; with a figure that meets, only the code does not speak against it.
            line = case_line(case, code if case.get("result") else name)
            if "beside" in case:  # another condition at the same place, for a grade that it raises
                line += f"\n{case['beside']} | {case.get('where', WHERE)}"
            tried = _try(located, ("cases", number), case, entry, draft(line), limits, reached)
            out += tried.faults
            if tried.finding is not None:
                raised.add(tried.finding["why"])
        out += _unreached(located, entry, reached, raised)
    return out


def _draft(stock: Stock, grammar: Grammar, line: str) -> Report:
    return draft_checklist(read_checklist(f"{_VISIT}\n{line}\n", "case", grammar), stock.index)


def case_line(case: Mapping[str, Any], what: str) -> str:
    """The checklist line of a case: its own `what` or this one, its `where`, its `given`."""
    return f"{case.get('what', what)} | {case.get('where', WHERE)} | {case['given']}"


def typed_name(entry: Entry, vocabulary: Vocabulary) -> str:
    """The entry's first name that says what is wrong, as an inspector would type it; else its code."""
    return next((name for name in entry.names if understand(name, vocabulary).conditions), entry.code)


def _try(
    located: Located,
    key: Key,
    case: Mapping[str, Any],
    entry: Entry,
    report: Report,
    limits: Mapping[str, Any],
    reached: Reached,
) -> Tried:
    finding, result, faults = _outcome(located, key, case, entry, report)
    if finding is not None:
        text = _finding_text(finding, limits)
        faults += _finding_faults(located, key, finding)
        _note_finding(entry, finding, reached)
    elif result is not None:
        text = result
        _note_result(entry, result, reached)
    else:
        return Tried("", None, tuple(faults))
    faults += _said(located, key, case, text, _unglossed(text, finding))
    return Tried(text, finding, tuple(faults))


def _outcome(
    located: Located, key: Key, case: Mapping[str, Any], entry: Entry, report: Report
) -> tuple[Finding | None, str | None, list[Fault]]:
    """The finding or the result that the line became, and whether that is what the case says."""
    findings = [item for section in report["sections"] for item in section["findings"]]
    rows = [item["text"] for section in report["sections"] for item in (*section["results"], *section["descriptions"])]
    wanted = bool(case.get("result", False))
    at: Key = (*key, "result") if "result" in case else key
    if report["unresolved"]:
        loose = report["unresolved"][0]
        return None, None, [located.fault(key, f"The line '{loose['text']}' stays unresolved: {loose['reason']}")]
    findings = [item for item in findings if item["code"] != case.get("beside")]
    others = [item["code"] for item in findings if item["code"] != entry.code]
    if others:
        return None, None, [located.fault(key, f"The line was taken for {others[0]}, not for this entry.")]
    if findings and not wanted:
        return findings[0], None, []
    if findings:
        verdict = ", ".join(_verdicts(findings[0])) or "no figure was read"
        return None, None, [located.fault(at, f"This became a finding ({verdict}), not a result.")]
    if rows and wanted:
        return None, rows[0], []
    if rows:
        message = "This became a result, not a finding; if that is right, add 'result: true'."
        return None, None, [located.fault(at, message)]
    return None, None, [located.fault(at, "Nothing came of this line.")]


def _verdicts(finding: Finding) -> list[str]:
    measures = [item for one in finding["instances"] for item in one["measures"]]
    return [f"{item['name']} {item['text']}: {item['verdict'] or 'no verdict'}" for item in measures]


def _finding_text(finding: Finding, limits: Mapping[str, Any]) -> str:
    said = [finding["title"], finding["observation"], finding["implication"], finding["recommendation"], finding["why"]]
    said += [limits[item["id"]]["text"] for item in finding["limits"] if item["id"] in limits]
    return " ".join(said)


def _finding_faults(located: Located, key: Key, finding: Finding) -> list[Fault]:
    """No text fell back, and the three texts together can be read."""
    out = [located.fault(key, f"The draft could not use its wording: {flag}") for flag in finding["flags"]]
    said = _QUOTED.sub("", f"{finding['observation']} {finding['implication']} {finding['recommendation']}".strip())
    hard = grade(said)
    if hard > HARDEST:
        message = f"The texts read at grade {hard:.1f}; the most is {HARDEST:.0f}. Use shorter words: '{said[:50]}...'"
        out.append(located.fault(key, message))
    return out


def _unglossed(text: str, finding: Finding | None) -> str:
    """The text without what the glossary adds at a term's first use, which is no part of the entry."""
    for span in finding["trace"] if finding is not None else ():
        if span["kind"] == "gloss" and finding is not None:
            whole: str = dict(finding)[span["field"]]  # type: ignore[assignment]
            text = text.replace(whole[span["start"] : span["end"]], "")
    return text


def _said(located: Located, key: Key, case: Mapping[str, Any], text: str, bare: str) -> list[Fault]:
    out: list[Fault] = []
    lowered = text.lower()
    for number, wanted in enumerate(case.get("says", [])):
        if str(wanted).lower() not in lowered and str(wanted).lower() not in bare.lower():
            message = f"The text does not say '{wanted}'. It says: {text[:160]}{'...' if len(text) > 160 else ''}"
            out.append(located.fault((*key, "says", number), message))
    for number, never in enumerate(case.get("never", [])):
        at = lowered.find(str(never).lower())
        if at >= 0:
            shown = text[max(0, at - 40) : at + 60]
            out.append(located.fault((*key, "never", number), f"The text says '{never}': ...{shown}..."))
    return out


def _note_finding(entry: Entry, finding: Finding, reached: Reached) -> None:
    """The wordings that the trace names, and the title."""
    prefix = f"{entry.code}:"
    for span in finding["trace"]:
        if span["ref"].startswith(prefix) and span["line"] is not None:
            reached.add((span["ref"].removeprefix(prefix).split(":", 1)[0], span["line"]))
    shown = finding["title"].lower()
    for variant in entry.title:
        if shown.endswith(variant.text.lower()):
            reached.add(("title", variant.line))
            break


def _note_result(entry: Entry, text: str, reached: Reached) -> None:
    """A result has no trace: its wording is the `meets` one whose library words it is made of."""
    for variant in entry.observation:
        if "meets" in variant.when.values() and _made_of(variant, text):
            reached.add(("observation", variant.line))
            return


def _made_of(variant: Variant, text: str) -> bool:
    pieces = [piece.strip(" ,.") for piece in PRINTED.split(variant.text)]
    return re.search(".*?".join(re.escape(piece) for piece in pieces), text, re.IGNORECASE) is not None


def _unreached(located: Located, entry: Entry, reached: Reached, raised: Iterable[str]) -> list[Fault]:
    out: list[Fault] = []
    for field in TEXT_FIELDS:
        for key, variant in variants_of(located, field, getattr(entry, field)):
            if (field, variant.line) not in reached:
                name = f"The wording '{variant.name}'" if variant.name else "The text"
                message = f"{name} of '{field}' is reached by no case. Add one whose line makes it print."
                out.append(located.fault(key, message))
    for number, rule in enumerate(entry.raises):
        if rule.why not in raised:
            message = f"No case reaches this raise to '{rule.to}'. Add one whose figure does."
            out.append(located.fault(("raise", number), message))
    return out
