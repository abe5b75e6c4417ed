"""What is learnt from hand edits, returned reports, settled lines and words that people type."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrator.archive.impact import silent
from narrator.archive.learn import Learnt, commonest, learn
from narrator.archive.proposals import for_change, for_name
from narrator.archive.sent import Touch
from narrator.commands.common import labels_of
from narrator.pipeline import draft_text
from narrator.publish import publish
from narrator.source.firm.folder import FIRM_FILE
from narrator.source.index import Index
from narrator.source.store import open_library

OLD = "New trim alone leaves the water where it is."
NEW = "Fresh boards alone leave the water there."
CODE = "walls.trim.decayed"


def house(folder: Path, name: str, lines: str, edits: str = "") -> Path:
    path = folder / name / "checklist.txt"
    path.parent.mkdir(parents=True)
    path.write_text(f"property: {name}\ninspector: R. Vance\nvisited: 4 March 2026\n{lines}", encoding="utf-8")
    if edits:
        (folder / name / "checklist.edits.yaml").write_text(f"format: narrator.edits/1\n{edits}", encoding="utf-8")
    return path


def returned(path: Path, library: Index, form: str, old: str, new: str) -> None:
    report = draft_text(path.read_text(encoding="utf-8"), str(path), library)
    text = publish(report, form, labels_of(library))
    assert old in text
    (path.parent / f"sent.{form}").write_text(text.replace(old, new), encoding="utf-8")


def learnt(folder: Path, library: Index, least: int = 2) -> Learnt:
    return learn([str(folder)], library, labels_of(library), least, silent)


def edit(field: str, base: str, text: str) -> str:
    mark = "0" * 16
    return f"- finding: {CODE}\n  field: {field}\n  base: '{base}'\n  text: '{text}'\n  fingerprint: '{mark}'\n  by: R. Vance\n"


@pytest.mark.parametrize("form", ["md", "html", "txt", "json"])
def test_the_commonest_change_of_returned_reports_is_found(form: str, library: Index, tmp_path: Path) -> None:
    for number, place in enumerate(("rear door", "front porch", "left side")):
        path = house(tmp_path, f"house-{number}", f"trim decayed | {place}\n")
        returned(path, library, form, OLD, NEW if number < 2 else "Do it before the rain.")
    (found,) = learnt(tmp_path, library).edited
    assert (found.code, found.told, found.changed, found.times) == (CODE, 3, 3, 2)
    assert (found.field, found.before, found.after) == ("recommendation", OLD, NEW)
    assert found.proposal.file == "entries/walls/trim/decayed.yaml"


def test_a_proposed_edit_does_what_people_did(library: Index, tmp_path: Path) -> None:
    """The file as proposed, in a firm's folder, prints the words that people put in; the place stays typed."""
    whole = "At the rear door, the wood trim has decayed."
    for number in range(2):
        path = house(tmp_path / "archive", f"house-{number}", "trim decayed | rear door\n")
        returned(path, library, "md", whole, "At the rear door, the wood trim has gone soft.")
    (found,) = learnt(tmp_path / "archive", library).edited
    firm = tmp_path / "firm"
    target = firm / found.proposal.file
    target.parent.mkdir(parents=True)
    target.write_text(found.proposal.text, encoding="utf-8")
    (firm / FIRM_FILE).write_text("format: narrator.firm/1\nname: Elm Row\n", encoding="utf-8")
    report = draft_text("trim decayed | front porch\n", "x", open_library(None, firm))
    (told,) = [each for section in report["sections"] for each in section["findings"]]
    assert told["observation"] == "On the front porch, the wood trim has gone soft."


def test_edits_kept_beside_the_checklist_count_like_those_in_a_report(library: Index, tmp_path: Path) -> None:
    for number in range(2):
        house(tmp_path, f"house-{number}", "trim decayed | rear\n", "edits:\n" + edit("severity", "plan", "find-out"))
    found = learnt(tmp_path, library)
    assert [(each.field, each.before, each.after, each.times) for each in found.edited] == [("severity", "plan", "find-out", 2)]
    assert found.edited[0].proposal.text == "format: narrator.edit/1\nseverity: find-out\n"
    assert "Vance" not in repr(found), "no inspector is named"


def test_words_that_stay_unresolved_are_counted_and_the_settled_ones_get_their_name(library: Index, tmp_path: Path) -> None:
    settled = f"settled:\n- line: 4\n  text: flooble gone off\n  what: flooble gone off\n  code: {CODE}\n"
    house(tmp_path, "one", "flooble gone off | rear\n", settled)
    house(tmp_path, "two", "Flooble gone off | front\nzargle blorp\n")
    house(tmp_path, "three", "zargle blorp | deck\n")
    found = {each.what.lower(): each for each in learnt(tmp_path, library).open}
    assert found["flooble gone off"].times == 2
    assert "names+: [flooble gone off]" in found["flooble gone off"].proposal.text
    assert found["zargle blorp"].proposal.text == ""
    assert found["zargle blorp"].proposal.why.startswith("Nobody has settled it")


def test_names_that_people_type_are_proposed_for_their_entry(library: Index, tmp_path: Path) -> None:
    for number in range(3):
        house(tmp_path, f"house-{number}", "window trim quite rotted | front\n")
    (found,) = learnt(tmp_path, library).called
    assert (found.what, found.code, found.times) == ("window trim quite rotted", CODE, 3)
    assert "names+: [window trim quite rotted]" in found.proposal.text


def test_what_comes_up_once_is_not_told(library: Index, tmp_path: Path) -> None:
    path = house(tmp_path, "one", "trim decayed | rear\nzargle blorp\n")
    returned(path, library, "md", OLD, NEW)
    found = learnt(tmp_path, library)
    assert (found.edited, found.open, found.called) == ((), (), ())
    assert learnt(tmp_path, library, 1).edited


def test_a_report_of_another_library_is_skipped_by_name(library: Index, tmp_path: Path) -> None:
    path = house(tmp_path, "one", "trim decayed | rear\n")
    returned(path, library, "md", library.fingerprint[:12], "0123456789ab")
    (skipped,) = learnt(tmp_path, library).skipped
    assert skipped.shown.endswith("sent.md")
    assert skipped.why == "It was drafted with another library. Name that one with --library."


def test_a_broken_file_of_edits_is_skipped_by_name_and_the_rest_is_read(library: Index, tmp_path: Path) -> None:
    house(tmp_path, "one", "trim decayed | rear\n", "edits: [\n")
    house(tmp_path, "two", "trim decayed | rear\n")
    found = learnt(tmp_path, library)
    assert found.inspections == 2
    assert [Path(each.shown).name for each in found.skipped] == ["checklist.edits.yaml"]


def test_edits_that_are_alike_are_one_change() -> None:
    rows = [
        (0, Touch(CODE, "observation", "At the rear, the trim has decayed.", "At the rear, the trim has gone soft.")),
        (1, Touch(CODE, "observation", "In the hall, the trim has decayed.", "In the hall, the trim has gone soft.")),
        (2, Touch(CODE, "recommendation", "Ask a carpenter.", "Ask a painter.")),
    ]
    assert [at for at, _ in commonest(rows)] == [0, 1]


@pytest.mark.parametrize(
    ("touch", "why"),
    [
        (Touch("electrical.gfci.none", "severity", "act-now", "upkeep"), "cannot grade it down"),
        (Touch(CODE, "limits", "We did not see inside the wall.", ""), "for a person to judge"),
        (Touch(CODE, "finding", "Decayed wood trim", ""), "for a person to judge"),
        (Touch(CODE, "recommendation", OLD, "The wall is perfectly safe."), "which no report should say"),
        (Touch("no.such.entry", "why", "a", "b"), "does not have this entry"),
    ],
)
def test_nothing_is_proposed_that_a_person_must_judge(touch: Touch, why: str, library: Index) -> None:
    if touch.code.startswith("electrical"):
        from narrator.source import index as store

        danger = (code for code in store.codes(library) if (one := store.entry(library, code)) and one.danger and one.severity == "act-now")
        touch = touch._replace(code=next(danger))
    proposal = for_change(touch, library)
    assert proposal.text == ""
    assert why in proposal.why


def test_a_name_that_an_entry_has_is_not_proposed_again(library: Index) -> None:
    assert for_name("trim decayed", CODE, library).why == f"{CODE} has this name already."
