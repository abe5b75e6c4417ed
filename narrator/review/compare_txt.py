"""A comparison for the terminal: plain text without colour, folded to a width."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby

from narrator.publish.text import shown
from narrator.review.kinds import KINDS, Change, Comparison, Report, Word

AROUND = 6
"""Words of the unchanged text that are shown before and behind a change."""


_WHOLE = ("dropped", "added", "missed", "extra")


def write(found: Comparison, allowed: frozenset[str] = frozenset(), width: int = 88) -> str:
    """The comparison as text: what matters first, each with its place; `[-left out-]` and `{+put in+}` mark words."""
    width = max(40, width)
    lines = [_report("First: ", found.before, width), _report("Second:", found.after, width), ""]
    lines += [line for note in found.notes for line in _folded(note, width, "")]
    lines += [""] if found.notes else []
    if not found.changes:
        lines.append("Nothing stands apart." if found.same_house else "Nothing changed.")
        return "\n".join(lines) + "\n"
    matters = found.mattering(allowed)
    others = tuple(each for each in found.changes if each not in matters)
    words = ("that stands apart", "that stand apart") if found.same_house else ("that matters", "that matter")
    lines += _section(_counted(matters, *words), matters, width)
    lines += _section(_counted(others, "beside that", "beside that"), others, width) if others else []
    return "\n".join(lines).rstrip("\n") + "\n"


def summary(found: Comparison, allowed: frozenset[str]) -> str:
    """One line for the screen where the comparison went to a file."""
    matters = found.mattering(allowed)
    words = ("that stands apart", "that stand apart") if found.same_house else ("that matters", "that matter")
    return f"{_counted(matters, *words)}, {len(found.changes) - len(matters)} beside that."


def _counted(changes: Sequence[Change], one: str, many: str) -> str:
    thing = "thing" if "apart" in one else "change"
    if not changes:
        return f"No {thing} {one}"
    return f"1 {thing} {one}" if len(changes) == 1 else f"{len(changes)} {thing}s {many}"


def _report(label: str, report: Report, width: int) -> str:
    house = f": {report.house}" if report.house else ""
    counted = f"{report.findings} finding{'' if report.findings == 1 else 's'}"
    return "\n".join(_folded(f"{label} {report.path}{house} ({counted})", width, ""))


def _section(title: str, changes: Sequence[Change], width: int) -> Iterator[str]:
    yield title
    for kind, group in groupby(changes, lambda each: each.kind):
        yield ""
        yield f"{KINDS[kind].label} ({kind})"  # the name is what --allow takes
        for change in group:
            yield from _told(change, width)
    yield ""


def _told(change: Change, width: int) -> Iterator[str]:
    lines = [f"line {line}" for line in (change.before_line, change.after_line) if line]
    at = (
        f" ({lines[0]}, then {change.after_line})"
        if len(lines) == 2 and change.before_line != change.after_line
        else ""
    )
    at = at or (f" ({lines[0]})" if lines else "")
    yield from _folded(f"{change.where}{at}", width, "  ")
    yield from _folded(change.said, width, "    ")
    if any(word.state != "same" for word in change.words):
        yield from _folded(marked(change.words), width, "    ")
    elif bool(change.before) != bool(change.after) and change.kind not in _WHOLE:
        yield from _folded(f"“{change.before or change.after}”", width, "    ")
    if change.also:
        yield from _folded(f"Also: {', '.join(KINDS[each].label.lower() for each in change.also)}.", width, "    ")
    for where in dict.fromkeys(each.where for each in change.follows):
        yield from _folded(f"so also: {where}", width, "      ")


def marked(words: Sequence[Word]) -> str:
    """The changed words with some of their neighbours: `stops [-1/4-] {+3/4+} inch above`."""
    out: list[str] = []
    for at, word in enumerate(words):
        text = " ".join(word.text.split())
        if word.state == "removed":
            out.append(f"[-{text}-]")
        elif word.state == "added":
            out.append(f"{{+{text}+}}")
        else:
            out.append(_short(text.split(), at == 0, at == len(words) - 1))
    return " ".join(filter(None, out))


def _short(words: list[str], first: bool, last: bool) -> str:
    """The part of an unchanged stretch that stands beside a change."""
    head = [] if first else words[:AROUND]
    tail = [] if last else words[-AROUND:]
    if len(words) <= len(head) + len(tail) + 1:
        return " ".join(words)
    return " ".join([*head, "…", *tail])


def _folded(text: str, width: int, indent: str) -> list[str]:
    clean = " ".join(shown(text).split())
    return textwrap.wrap(
        clean, width, initial_indent=indent, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    ) or [""]
