"""A hand-edited draft becomes edits: what was taken, what has no place, what deserves a second look."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from narrator.edits.model import Edit, Edits, Unplaced, fingerprint
from narrator.edits.proposed import Proposed, proposed
from narrator.edits.slots import findings_of, slot_of
from narrator.edits.words import same
from narrator.publish import publish
from narrator.publish.labels import Labels
from narrator.review.compare import compare
from narrator.review.kinds import Change
from narrator.review.plainly import level
from narrator.review.reading import read_text

if TYPE_CHECKING:
    from narrator.report import Report
    from narrator.review.pieces import Reading

QUIET = frozenset({"moved", "reordered", "renumbered", "version", "heading"})
"""Changes that have no place in a report that is written anew, and lose no word."""

WHOLE = frozenset({"dropped", "added", "merged", "split"})
"""Changes of whole findings: no edit can make them, so they are always said."""


class Taken(NamedTuple):
    """What a reading gave. `edits` is the whole file as it should be now, `fresh` are those of this reading, `back` those that
    a person took back; `lines` are the checklist's for each finding. `waiting` says why a grade or trade is kept and not printed.
    """

    edits: Edits
    fresh: tuple[Edit, ...]
    back: tuple[Edit, ...]
    unplaced: tuple[Unplaced, ...]
    second: tuple[Change, ...]
    order: bool
    lines: Mapping[str, Sequence[int]]
    waiting: tuple[str, ...] = ()


def take(
    edited: Reading, old: Edits, draft: Callable[[Edits | None], Report], labels: Labels, by: str, reason: str
) -> Taken:
    """What a person changed in `edited`. `draft` drafts the checklist with some edits; `old` are those that it has now."""
    now = draft(old)
    bare = draft(old._replace(edits=(), unplaced=()))
    printed = _read_back(now, edited, labels)
    found = compare(printed, edited)
    alone = _read_back(bare, edited, labels) if old.edits else printed
    wanted = proposed(now, printed, edited, labels, alone, {each.finding for each in old.edits})
    merged, fresh, back = _merged(old, wanted, bare, by, reason)
    then = draft(merged)
    after = _read_back(then, edited, labels)
    left = _left(found.changes, compare(after, edited).changes)
    if old.edits:  # what was never touched in the edited report, and only follows from earlier edits here, is no change
        own = {_mark(each) for each in _flat(compare(alone, edited).changes)}
        left = [each for each in left if _mark(each) in own or each.kind in WHOLE]
    waiting = _waiting(then, merged.edits)
    left = [each for each in left if each.kind not in QUIET and not _waits(each, waiting, now)]
    unplaced = tuple(_unplaced(each, now, by) for each in left if not _is_kept(each, merged.edits))
    known = {each.key for each in old.unplaced}
    unplaced = tuple({each.key: each for each in unplaced if each.key not in known}.values())
    placed = [each for each in _flat(found.changes) if _mark(each) not in {_mark(one) for one in left}]
    second = tuple(each for each in placed if each.matters) if fresh else ()
    order = any(each.kind in ("moved", "reordered") for each in found.changes)
    lines = {each["id"]: each["lines"] for each in findings_of(now)}
    whole = merged._replace(unplaced=(*old.unplaced, *unplaced))
    notes = [note["text"] for note in then["review_notes"] if note["kind"] == "edit"]
    said = tuple(note for note in notes if any(_waiting_on(each, then) in note for each in waiting))
    return Taken(whole, tuple(fresh), tuple(back), unplaced, second, order, lines, said)


def _waiting(report: Report, edits: Sequence[Edit]) -> list[Edit]:
    """Grades and trades that are kept and not printed, each with its reason in the draft's notes."""
    done = {(each["finding"], each["field"]) for each in report.get("edits", ()) if each["applied"]}
    return [each for each in edits if each.field in ("severity", "trades") and (each.finding, each.field) not in done]


def _is_kept(change: Change, edits: Sequence[Edit]) -> bool:
    """Whether words that came are in an edit, and only seem to stand elsewhere."""
    return bool(change.after) and not change.before and any(level(change.after) in level(each.text) for each in edits)


def _waits(change: Change, waiting: Sequence[Edit], report: Report) -> bool:
    kinds = {"severity": "grade", "trades": "trade"}
    names = {each["id"]: f"Number {each['number']}, {each['title']}" for each in findings_of(report)}
    return any(change.kind == kinds[each.field] and change.where == names.get(each.finding) for each in waiting)


def _waiting_on(edit: Edit, report: Report) -> str:
    slot = slot_of(report, edit)
    return f"{slot.name}:" if slot else edit.finding


def _read_back(report: Report, edited: Reading, labels: Labels) -> Reading:
    """The report as it reads from the form that the edited one came in."""
    return read_text(publish(report, edited.form, labels), "the draft", labels, edited.form)


def _merged(
    old: Edits, wanted: Sequence[Proposed], bare: Report, by: str, reason: str
) -> tuple[Edits, list[Edit], list[Edit]]:
    """The edits with the new ones in; and the new ones, and those that a person took back."""
    edits = dict(old.by_key())
    fresh: list[Edit] = []
    back: list[Edit] = []
    for each in wanted:
        before = next((one for one in edits.values() if _is_of(one, each)), None)
        base = _base(each, before, bare)
        made = Edit(each.text, base, each.finding, each.field, each.part, each.of, fingerprint(base), by, reason)
        if before is not None and not by and not reason:
            made = made._replace(by=before.by, reason=before.reason)
        if same(each.text, base):
            # Narrator's own words: an edit is taken back, or they stood there all the time and only follow from another here.
            everywhere = sum(one[:-1] == each[:-1] for one in wanted) >= each.prints
            if before is not None and before.key in edits and everywhere:
                back.append(edits.pop(before.key))
            continue
        if before is not None and made._replace(line=before.line) == before:
            continue  # it is kept already, and what keeps it from being printed is said in the draft's notes
        if before is not None and before.key != made.key:
            edits.pop(before.key)
        edits[made.key] = made
        fresh.append(made)
    return old._replace(edits=tuple(edits.values())), fresh, back


def _is_of(edit: Edit, wanted: Proposed) -> bool:
    """Whether an edit that is there is of the text that was changed again."""
    if wanted.finding:
        return (edit.finding, edit.field) == (wanted.finding, wanted.field)
    return edit.part == wanted.part and (edit.of == wanted.of if wanted.of else same(edit.text, wanted.shown))


def _base(wanted: Proposed, before: Edit | None, bare: Report) -> str:
    """What narrator alone says there."""
    base = before.base if before is not None else wanted.shown
    ask = Edit("", base, wanted.finding, wanted.field, wanted.part, wanted.of, fingerprint(base))
    slot = slot_of(bare, ask)
    return slot.text if slot is not None else base


def _flat(changes: Sequence[Change]) -> Iterator[Change]:
    for each in changes:
        yield each
        yield from _flat(each.follows)


def _mark(change: Change) -> tuple[object, ...]:
    return (change.after_line, change.after) if change.after else (change.before, change.where)


def _left(found: Sequence[Change], after: Sequence[Change]) -> list[Change]:
    """What a person changed and the redraft does not have. What they left alone and the redraft brought in line is no change."""
    made = {_mark(each): each for each in _flat(found)}
    left = {
        _mark(each): made.get(_mark(each), each) for each in _flat(after) if _mark(each) in made or each.kind in WHOLE
    }
    return list(left.values())


_HINTS: Mapping[str, str] = {
    "dropped": "To leave a finding out, type on its line: hold back - why.",
    "added": "To add a finding, type a line for it, such as: own: title | where | details.",
    "merged": "Findings are put together by their lines in the checklist.",
    "split": "Findings are parted by their lines in the checklist.",
    "place": "Places come from the checklist; change the line.",
    "photo": "Photo numbers come from the checklist; change the line.",
    "header": "House, people and day come from the checklist's first lines.",
    "deadline": "The deadline comes from the line `review window`.",
    "added-text": "To add your own words, type a line in the checklist: note: your words.",
}


def _unplaced(change: Change, report: Report, by: str) -> Unplaced:
    hint = _HINTS.get(change.kind, "Change the line in the checklist.")
    found = next(
        (each for each in findings_of(report) if change.where == f"Number {each['number']}, {each['title']}"), None
    )
    return Unplaced(
        change.where,
        f"{change.said} {hint}",
        change.after,
        change.before if not change.after or change.kind in ("dropped",) else "",
        found["id"] if found else "",
        by,
    )
