"""What a written report owes under the chosen standard, and where this one falls short: a review note for each.

Each check reads the report value and answers one rule of `practice/report-writing.yaml` by its id. A rule that names
standards is looked at under those alone; the others are taught widely and are looked at under any.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.assess.wording import CLAIMS, claims
from narrator.compose.coverage import Coverage, Said
from narrator.compose.english import join_list

if TYPE_CHECKING:
    from narrator.report import Finding, Report, Status

COURSES = ("correct", "evaluate", "monitor", "open")
VIEWED = {"roof": "roof", "attic": "attic", "crawl": "crawl space"}
IDENTITY = {"inspector": "the inspector's name", "client": "the client's name", "property": "the address"}
MOST = 4
_LICENCE = re.compile(r"\b(?:licen[cs]e|lic)\b|#\s*\d|\b\d{3,}\b|\bno\.\s*\d", re.IGNORECASE)
_MONEY = re.compile(r"[$€£]\s*\d|\b\d[\d,.]*\s*(?:dollars|usd|bucks)\b", re.IGNORECASE)
_BRACES = re.compile(r"\{\{|\}\}|\{%|\[(?:insert|describe|location|tbd|todo)\b", re.IGNORECASE)

Note = tuple[tuple[int, ...], str]


class Held(NamedTuple):
    """What the checks look at."""

    report: Report
    practice: Mapping[str, Any]
    said: list[Said]
    coverage: Coverage


def duty_notes(held: Held, rules: Mapping[str, Mapping[str, Any]]) -> list[Note]:
    """(lines, text) of everything that the rules ask for and the report does not have, rule by rule."""
    out: dict[Note, None] = {}
    for name, rule in rules.items():
        if held.practice["id"] in rule.get("standards", (held.practice["id"],)):
            check = CHECKS.get(name) if rule["held"] == "draft" else _claim(name) if rule["held"] == "words" else None
            out |= dict.fromkeys(check(held) if check else ())
    return list(out)


def _findings(held: Held) -> list[Finding]:
    return [found for section in held.report["sections"] for found in section["findings"]]


def _statuses(held: Held) -> list[Status]:
    return [status for section in held.report["sections"] for status in section["statuses"]]


def _each(held: Held, lacks: Callable[[Finding], str]) -> Iterator[Note]:
    for found in _findings(held):
        said = lacks(found)
        if said:
            yield tuple(found["lines"]), f"Number {found['number']} ({found['title']}) {said}"


def _four_parts(held: Held) -> Iterator[Note]:
    def lacks(found: Finding) -> str:
        parts = {
            "what is wrong": found["observation"],
            "why it matters": found["implication"] or found["why"],
            "what to do": found["recommendation"],
        }
        missing = [name for name, text in parts.items() if not text.strip()]
        return f"does not say {join_list(missing)}; the standard asks for it." if missing else ""

    return _each(held, lacks)


def _recommend(held: Held) -> Iterator[Note]:
    def lacks(found: Finding) -> str:
        whole = found["course"] in COURSES and found["recommendation"].strip()
        return "" if whole else "does not say whether to repair, to watch or to look further."

    return _each(held, lacks)


def _reason(held: Held) -> Iterator[Note]:
    def lacks(found: Finding) -> str:
        return "" if (found["why"] + found["implication"]).strip() else 'has no reason; type one: because "..."'

    return _each(held, lacks)


def _location(held: Held) -> Iterator[Note]:
    return _each(held, lambda found: "" if found["places"] else "names no place. Where is it?")


def _who(held: Held) -> Iterator[Note]:
    return _each(held, lambda found: "" if found["trades"] else "names no trade; type one, such as: trade plumber")


def _problem_first(held: Held) -> Iterator[Note]:
    def lacks(found: Finding) -> str:
        alone = found["recommendation"].strip() and not found["observation"].strip()
        return "says what to do before it says what is wrong." if alone else ""

    return _each(held, lacks)


def _unit(held: Held) -> Iterator[Note]:
    def lacks(found: Finding) -> str:
        bare = [
            each["name"]
            for one in found["instances"]
            for each in one["measures"]
            if each["value"] is not None and not each["unit"]
        ]
        return f"has a figure without a unit: {join_list(list(dict.fromkeys(bare)))}." if bare else ""

    return _each(held, lacks)


def _classed(held: Held) -> Iterator[Note]:
    return _each(held, lambda found: "" if found["severity"] else "has no grade; type one of the four.")


def _age_alone(held: Held) -> Iterator[Note]:
    if held.practice.get("age_alone") != "not-alone":
        return iter(())

    def lacks(found: Finding) -> str:
        measures = [each for one in found["instances"] for each in one["measures"]]
        aged = bool(measures) and all(each["unit"] in ("year", "month") for each in measures)
        words = any(one["words"] for one in found["instances"])
        return "rests on age alone, which this standard does not count as a defect." if aged and not words else ""

    return _each(held, lacks)


def _typed(held: Held) -> Iterator[Note]:
    """The inspector's own words, which print as typed."""
    for found in _findings(held):
        for one in found["instances"]:
            for words in one["words"]:
                yield tuple(one["lines"]), words
        if found["code"].startswith("own."):
            yield tuple(found["lines"]), found["title"]
        for override in found["overrides"]:
            if override["key"] in ("do", "because"):
                yield tuple(override["lines"]), override["value"]
    for section in held.report["sections"]:
        for row in (*section["descriptions"], *section["results"]):
            for words in row["words"]:
                yield tuple(row["lines"]), words
    for status in _statuses(held):
        yield tuple(status["lines"]), status["reason"] or ""
    for note in held.report["notes"]:
        yield tuple(note["lines"]), note["text"]


def _money(held: Held) -> Iterator[Note]:
    for lines, text in _typed(held):
        match = _MONEY.search(text)
        if match:
            yield lines, f"'{match[0]}' is a price. The standard does not ask for one; is it agreed with the client?"


def _claim(rule: str) -> Callable[[Held], Iterator[Note]]:
    """Typed words that say more than an inspection can, or that this rule keeps out of a report."""
    assert rule in CLAIMS, rule

    def check(held: Held) -> Iterator[Note]:
        told = [note["text"] for note in held.report["review_notes"] if note["kind"] == "wording"]
        for lines, text in _typed(held):
            for word in dict.fromkeys(word for name, word in claims(text) if name == rule):
                if any(f"'{word}'" in note and text in note for note in told):
                    continue  # a word that no report says is noted already
                yield lines, f"'{word}' in '{text}' says more than an inspection can. Say what was seen."

    return check


def _placeholders(held: Held) -> Iterator[Note]:
    for lines, text in _typed(held):
        match = _BRACES.search(text)
        if match:
            yield lines, f"'{match[0]}' looks like a blank that nobody filled in."


def _not_inspected(held: Held) -> Iterator[Note]:
    for status in _statuses(held):
        if status["kind"] in ("not inspected", "partly") and not status["reason"]:
            yield tuple(status["lines"]), f"'{status['what']}' has no reason; type one: {status['kind']}: ... - reason"


def _status_words(held: Held) -> Iterator[Note]:
    """Deficient goes with inspected only: a thing not inspected or not present has no finding of its own."""
    against = [tuple(note["lines"]) for note in held.report["review_notes"] if note["kind"] == "contradiction"]
    for status in _statuses(held):
        for lines in against:
            if set(status["lines"]) & set(lines) and status["kind"] in ("not inspected", "not present"):
                yield (
                    lines,
                    f"'{status['what']}' is marked {status['kind']}; the form takes a fault only with inspected.",
                )


def _grounds(held: Held) -> Iterator[Note]:
    departure = held.practice.get("departure")
    if departure is None:
        return
    for status in _statuses(held):
        reason = (status["reason"] or "").lower()
        words = [word for each in departure["grounds"].values() for word in each]
        told = any(re.search(rf"\b{re.escape(word)}\b", reason) for word in words)
        if status["kind"] == "not inspected" and reason and not told:
            grounds = "; ".join(departure["grounds"])
            yield tuple(status["lines"]), f"'{status['reason']}': which ground of the rule is it? {grounds}."


def _method(held: Held) -> Iterator[Note]:
    """How the roof, the attic and the crawl space were seen, where the report speaks of them and not of no such thing."""
    method = held.report["conditions"].get("method", "").lower()
    for part, name in VIEWED.items():
        spoken = [one for one in held.said if part in one.parts or part == one.system]
        about = [one for one in spoken if one.kind != "not present"]
        told = part in method or any(one.kind in ("not inspected", "partly") for one in about)
        told = told or any(one.name == "roof method" for one in about)
        if about and not told:
            yield (), f"Nothing says how the {name} was looked at; type it in the header, such as: method: {name} ..."


def _described(held: Held) -> Iterator[Note]:
    # How a part was looked at is asked for by itself, in `_method`.
    methods = {item["id"] for system in held.practice["systems"] for item in system["items"] if "method" in item}
    rows = [row for row in held.coverage.missing if row["must"] == "describe" and row["id"] not in methods]
    missing = [row["what"] for row in rows]
    if missing:
        more = f" and {len(missing) - MOST} more" if len(missing) > MOST else ""
        shown = "; ".join(missing[:MOST])
        yield (), f"Due even where nothing is wrong, and not described: {shown}{more}. Type them with '='."


def _prominent(held: Held) -> Iterator[Note]:
    first = {name for part in held.report["opening"] if part["kind"] == "danger" for name in part["findings"]}
    page = held.report.get("summary")
    for found in _findings(held):
        if found["severity"] == "act-now" and (
            found["id"] not in first or (page and found["id"] not in page["findings"])
        ):
            yield tuple(found["lines"]), f"Number {found['number']} could hurt someone and does not stand up front."


def _notice(held: Held) -> Iterator[Note]:
    page, rule = held.report.get("summary"), held.practice.get("summary", {})
    if page is not None and "sentence" in rule and not page["notice"]:
        yield (
            (),
            f"The summary needs a notice in the words of {rule['sentence']}. The firm gives it for"
            f" '{held.practice['id']}'; none was given, and none was made up.",
        )


def _form(held: Held) -> Iterator[Note]:
    form = held.practice.get("form")
    if form:
        yield (
            (),
            f"This draft is not the form {form['id']} ({form['clause']}). Its texts can go into the form's own spaces.",
        )


def _identity(held: Held) -> Iterator[Note]:
    report = held.report
    given = {"inspector": report["inspector"], "property": report["property"], "client": report["clients"]}
    wanted = held.practice.get("identity", [])
    missing = [text for key, text in IDENTITY.items() if key in wanted and not given[key]]
    on_roster = ((report["firm"] or {}).get("inspector") or {}).get("licence")
    if "licence" in wanted and not on_roster and not _LICENCE.search(report["inspector"] or ""):
        missing.append("the inspector's license number")
    missing += [] if report["visited"] else ["the date of the visit"]
    if missing:
        yield (), f"The standard asks for {join_list(missing)}; type it in the headers."


CHECKS: Mapping[str, Callable[[Held], Iterator[Note]]] = {
    "finding-four-parts": _four_parts,
    "finding-recommend": _recommend,
    "finding-reason": _reason,
    "finding-location": _location,
    "finding-who": _who,
    "finding-problem-first": _problem_first,
    "finding-measure-with-unit": _unit,
    "finding-cost": _money,
    "coverage-not-inspected-reason": _not_inspected,
    "coverage-status-words": _status_words,
    "coverage-departure-grounds": _grounds,
    "coverage-method": _method,
    "coverage-descriptions": _described,
    "threshold-internachi": _age_alone,
    "language-classify-first": _classed,
    "language-property-specific": _placeholders,
    "safety-prominent": _prominent,
    "summary-nc": _notice,
    "report-form-texas": _form,
    "report-identity": _identity,
}
"""The check of each rule that a draft is held to."""
