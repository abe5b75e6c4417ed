"""A checklist, its drafts, and a hand that edits them: what the tests of edits share."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from narrator.commands.common import labels_of
from narrator.edits.model import Edits
from narrator.edits.store import read
from narrator.edits.take import Taken, take
from narrator.edits.write import text_of
from narrator.pipeline import draft_checklist, grammar_of
from narrator.publish import publish
from narrator.read.notation import read_checklist
from narrator.review.reading import read_text
from narrator.source.store import open_library

INDEX = open_library()
LABELS = labels_of(INDEX)
PATH = "notes.edits.yaml"
FORMS = ("md", "html", "txt", "json")

NOTES = """\
property: 9 Alder Lane, Quillmere
visited: 4 March 2026
inspector: P. Moss
review window: 10 days from 4 March 2026, ends 17:00, told by your agent

Walls
wall cladding = stucco over wood frame | all sides
stucco tight to roof | front, left of entry window | gap 1/4 in, photos 3, 4
no kickout flashing | front, left of entry window | photo 5
trim decayed | entry window, lower left corner | felt, photo 10, "screwdriver went in 3/4 inch"

Roof
shingles curling | rear slope | photos 20, 21
gutter full | rear
ok: soffit, fascia | front, right side
not inspected: crawl space - hatch painted shut

Electrical
gas smell | meter, right side | warned occupant 14:10
double tapped breaker | main panel | photo 32

own: fountain pump hums | front yard | plan, photo 40
note: Buyers walked the whole house with me.
"""


def draft(notes: str = NOTES, edits: Edits | None = None) -> Any:
    """The report of a checklist, with edits or without."""
    return draft_checklist(read_checklist(notes, "notes.txt", grammar_of(INDEX)), INDEX, edits=edits)


def printed(report: Any, form: str = "md") -> str:
    """The report in a form."""
    return publish(report, form, LABELS)


def taken(text: str, form: str = "md", notes: str = NOTES, old: Edits | None = None, reason: str = "") -> Taken:
    """What is taken from an edited draft. The file is written and read again in between, as the command does."""
    found = take(
        read_text(text, "edited", LABELS, form), old or Edits(PATH), lambda e: draft(notes, e), LABELS, "Jo", reason
    )
    return found._replace(edits=filed(found.edits))


def filed(edits: Edits) -> Edits:
    """The edits as they come back from their file."""
    return read(text_of(edits), PATH)


def swapped(text: str, old: str, new: str) -> str:
    """A text with words changed that must stand in it."""
    assert old in text, old
    return text.replace(old, new)


def finding(report: Any, code: str) -> Any:
    """The finding of a code."""
    return next(each for each in findings(report) if each["id"] == code)


def findings(report: Any) -> Iterator[Any]:
    """Every finding."""
    for section in report["sections"]:
        yield from section["findings"]


def notes_of(report: Any, kind: str = "edit") -> list[str]:
    """The texts of the open review notes of a kind."""
    return [note["text"] for note in report["review_notes"] if note["kind"] == kind and "settled" not in note]
