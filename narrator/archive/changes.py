"""What differs between two drafts of one checklist, by meaning and by the entry that it comes from.

The drafts are of the same lines, so they are held together by line, id and field; sentences are then compared as
`narrator compare` does. What page one and the trade sheets say otherwise counts only where the finding itself did not change.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.archive.changes_lists import lists_changed, repeats_changed
from narrator.archive.sentences import IMPACT_KINDS, Change, sentences_changed

if TYPE_CHECKING:
    from narrator.report import Finding, Report

_TEXTS = ("title", "why", "observation", "implication", "recommendation")


class _Home(NamedTuple):
    """Where a line ended up: `kind` finding, result, description, withheld or unresolved."""

    kind: str
    id: str
    code: str
    title: str


def changes(before: Report, after: Report) -> tuple[Change, ...]:
    """Everything that differs between two drafts of the same checklist, in a fixed order."""
    if {**before, "library": None, "firm": None} == {**after, "library": None, "firm": None}:
        return ()
    moved = list(_moved(before, after))
    ones, others = _findings(before), _findings(after)
    out = [*moved]
    for name in ones.keys() & others.keys():
        out += _finding(ones[name], others[name])
    out += _results(before, after)
    changed = {change.entry for change in out}
    out += lists_changed(before, after)
    out += [each for each in repeats_changed(before, after, ones) if each.entry not in changed]
    return tuple(sorted(set(out), key=lambda each: (each.entry, _rank(each.kind), each.lines, each.field, each[4:])))


def _rank(kind: str) -> int:
    return list(IMPACT_KINDS).index(kind)


def _findings(report: Report) -> dict[str, Finding]:
    return {found["id"]: found for section in report["sections"] for found in section["findings"]}


def _homes(report: Report) -> dict[int, set[_Home]]:
    """Where each line ended up."""
    out: dict[int, set[_Home]] = {}
    for found in _findings(report).values():
        for number in found["lines"]:
            out.setdefault(number, set()).add(_Home("finding", found["id"], found["code"], found["title"]))
    for section in report["sections"]:
        for row in section["results"]:
            for number in row["lines"]:
                out.setdefault(number, set()).add(_Home("result", "", row["code"] or "", row["thing"]))
        for each in section["descriptions"]:
            for number in each["lines"]:
                out.setdefault(number, set()).add(_Home("description", "", "", each["text"]))
    for each in report["withheld"]:
        for number in each["lines"]:
            out.setdefault(number, set()).add(_Home("withheld", "", each["code"], each["title"]))
    for item in report["unresolved"]:
        for number in item["lines"]:
            out.setdefault(number, set()).add(_Home("unresolved", "", "", item["text"]))
    return out


def _moved(before: Report, after: Report) -> Iterator[Change]:
    """Lines that are taken for something else, are unresolved now, or are told another way."""
    ones, others = _homes(before), _homes(after)
    for number in sorted(ones.keys() | others.keys()):
        keys = [{home[:3] for home in homes.get(number, ())} for homes in (ones, others)]
        if keys[0] == keys[1]:
            continue
        left = sorted(home for home in ones.get(number, ()) if home[:3] not in keys[1])
        came = sorted(home for home in others.get(number, ()) if home[:3] not in keys[0])
        entry = next((home.code for home in (*left, *came) if home.code), "")
        kind = _moved_kind(left, came)
        yield Change(kind, entry, "line", (number,), _told(left), _told(came))


def _moved_kind(left: Sequence[_Home], came: Sequence[_Home]) -> str:
    if any(home.kind == "unresolved" for home in came):
        return "unresolved"
    if any(home.kind == "unresolved" for home in left):
        return "resolved"
    same = {home.code for home in left} == {home.code for home in came}
    return "criterion" if same and left and came else "elsewhere"  # told as too close, or as a result, of one entry


def _told(homes: Sequence[_Home]) -> str:
    shown = {"unresolved": "unresolved: ", "result": "a result: ", "withheld": "held back: "}
    close = (f"{home.title} ({home.id or home.code or 'no entry'})" for home in homes)
    return "; ".join(f"{shown.get(home.kind, '')}{text}" for home, text in zip(homes, close, strict=True))


def _finding(one: Finding, other: Finding) -> Iterator[Change]:
    code, lines = one["code"], tuple(one["lines"])

    def change(kind: str, field: str, before: object, after: object) -> Change:
        return Change(kind, code, field, lines, _shown(before), _shown(after))

    if one["severity"] != other["severity"]:
        yield change("grade", "severity", one["severity"], other["severity"])
    if one["danger"] != other["danger"]:
        yield change("grade", "danger", one["danger"], other["danger"])
    for field in ("trades", "ask"):
        if one[field] != other[field]:
            yield change("trade", field, _people(one[field]), _people(other[field]))
    limits = [{each["id"]: each["text"] for each in found["limits"]} for found in (one, other)]
    for name in dict.fromkeys((*limits[0], *limits[1])):
        if limits[0].get(name) != limits[1].get(name):
            yield change("limit", "limits", limits[0].get(name, ""), limits[1].get(name, ""))
    same_lines = one["lines"] == other["lines"]
    worded = []
    for field in _TEXTS if same_lines else ("title", "why", "implication", "recommendation"):
        texts = _unexplained(one, field), _unexplained(other, field)
        worded += [change(kind, field, a, b) for kind, a, b in sentences_changed(*texts, "finding")]
    yield from worded
    held = [_held(found) for found in (one, other)]
    if same_lines and held[0] != held[1] and not any(each.kind in ("criterion", "measure") for each in worded):
        yield change("criterion", "criterion", held[0], held[1])


def _unexplained(found: Finding, field: str) -> str:
    """A text of a finding without the meanings of trade words: they are told once, as words of the glossary."""
    text = str(found[field])  # type: ignore[literal-required]
    glosses = [span for span in found["trace"] if span["field"] == field and span["kind"] == "gloss"]
    for span in sorted(glosses, key=lambda each: -each["start"]):
        text = text[: span["start"]] + text[span["end"] :]
    return text


def _people(rows: Sequence[Any]) -> list[str]:
    return [row["id"] if isinstance(row, dict) else str(row) for row in rows]


def _shown(value: object) -> str:
    if isinstance(value, list | tuple):
        return ", ".join(map(str, value))
    return "" if value is None else str(value)


def _held(found: Finding) -> list[str]:
    """Each figure of a finding with what it is held against and the verdict."""
    out = []
    for one in found["instances"]:
        for each in one["measures"]:
            against = each.get("criterion")
            if against:
                out.append(
                    f"{each['name']} {each['text']} against {against['value']} {against['unit']}: {each['verdict']}"
                )
    return out


def _results(before: Report, after: Report) -> Iterator[Change]:
    """Results of one entry and line whose text is another."""
    rows = [
        {(tuple(row["lines"]), row["code"] or "", row["place"] or "", row["kind"]): row["text"]
         for section in report["sections"] for row in section["results"]}
        for report in (before, after)
    ]  # fmt: skip
    for key in rows[0].keys() & rows[1].keys():
        for kind, one, other in sentences_changed(rows[0][key], rows[1][key], "finding"):
            yield Change(kind, key[1] or "results", "result", key[0], one, other)
