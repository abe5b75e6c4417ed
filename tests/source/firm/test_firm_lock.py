"""The lock of what the edits replaced: written, held against a new base, settled, and never trusted when altered."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from firms import NEAR, check, firm
from tiny_library import TINY, change

from narrator.errors import NarratorError
from narrator.source.firm.lock import LOCK_FILE, mark_of

CODE = "walls.siding.near-roof"
OURS = (
    "# agreed in March\nrecommendation: |\n  With the seller's written permission, have the boards cut back.  \n"
    "# the short one\nwhy: Wet ends rot.\n"
)
CUT = "have a siding contractor cut the boards back."
NEW = "have a siding contractor cut the boards back. Ask them to seal the ends."


def moved_base(folder: Path, old: str = CUT, new: str = NEW, file: str = NEAR) -> Path:
    root = folder / "new" / "library"
    if not root.exists():
        shutil.copytree(TINY, root)
    change(root, file, old, new)
    return root


def locked(folder: Path, text: str = OURS) -> Path:
    root = firm(folder, {NEAR: text})
    first = check(root)
    assert not first.faults, first.faults
    assert any("A new firm.lock remembers" in line for line in first.said)
    return root


def test_a_first_check_writes_the_lock_and_the_second_leaves_it(tmp_path: Path) -> None:
    root = locked(tmp_path)
    before = (root / LOCK_FILE).read_bytes()
    assert check(root).lock is None
    assert (root / LOCK_FILE).read_bytes() == before
    assert list(json.loads(before)["items"]) == [f"{CODE}:recommendation", f"{CODE}:why"]


def test_a_new_edit_is_remembered_beside_the_old_ones(tmp_path: Path) -> None:
    root = locked(tmp_path)
    path = root / NEAR
    path.write_text(path.read_text(encoding="utf-8") + "names+: [roof gap of siding]\n", encoding="utf-8")
    found = check(root)
    assert found.said == ("firm.lock now remembers what the base says under 1 edit.",)
    assert f"{CODE}:names+" in json.loads((root / LOCK_FILE).read_text(encoding="utf-8"))["items"]


def test_a_base_that_moved_is_shown_beside_the_old_one_with_what_is_left_out(tmp_path: Path) -> None:
    root, base = locked(tmp_path), moved_base(tmp_path)
    (fault,) = check(root, base).faults
    assert (fault.pos.path, fault.pos.line, fault.key) == (f"firm/{NEAR}", 3, "recommendation")
    assert "the base said" in fault.message and "it says now" in fault.message
    assert "Your text leaves out: 'Ask them to seal the ends.'" in fault.message
    assert f"--keep {CODE}:recommendation" in fault.message and f"--take {CODE}:recommendation" in fault.message
    assert len(check(root, base).faults) == 1  # a second check says it again


@pytest.mark.parametrize("name", [CODE, f"{CODE}:recommendation"])
def test_keep_settles_it(name: str, tmp_path: Path) -> None:
    root, base = locked(tmp_path), moved_base(tmp_path)
    ours = (root / NEAR).read_bytes()
    assert not check(root, base, keep=(name,)).faults
    assert (root / NEAR).read_bytes() == ours
    assert not check(root, base).faults
    assert len(check(root).faults) == 1  # held against the old base, the edit was settled for the new one


def test_take_brings_the_base_back_and_keeps_the_comments(tmp_path: Path) -> None:
    root, base = locked(tmp_path), moved_base(tmp_path)
    found = check(root, base, take=(f"{CODE}:recommendation",))
    assert not found.faults
    assert any("have the boards cut back." in line for line in found.said)  # nothing that was typed is lost
    text = (root / NEAR).read_text(encoding="utf-8")
    assert text == "format: narrator.edit/1\n# agreed in March\n# the short one\nwhy: Wet ends rot.\n"
    assert list(json.loads((root / LOCK_FILE).read_text(encoding="utf-8"))["items"]) == [f"{CODE}:why"]


def test_take_of_all_edits_takes_the_file_away(tmp_path: Path) -> None:
    root = locked(tmp_path)
    assert not check(root, take=(CODE,)).faults
    assert not (root / NEAR).exists()


def test_settling_what_is_not_there_says_what_is_near(tmp_path: Path) -> None:
    root = locked(tmp_path)
    with pytest.raises(NarratorError, match=r"Did you mean 'walls\.siding\.near-roof'"):
        check(root, keep=("walls.siding.near-rof",))


def test_changes_around_an_edit_are_notices_until_they_are_seen(tmp_path: Path) -> None:
    root, base = locked(tmp_path), moved_base(tmp_path, "title: Siding nearly touches", "title: Siding all but touches")
    found = check(root, base)
    assert not found.faults
    assert [fault.message for fault in found.notices] == [
        f"Around your edits the base has changed title. Seen: --keep {CODE}"
    ]
    check(root, base, keep=(f"{CODE}:why",))
    assert check(root, base).notices
    check(root, base, keep=(CODE,))
    assert not check(root, base).notices


def test_a_list_that_grew_under_an_addition_is_a_notice(tmp_path: Path) -> None:
    root = locked(tmp_path, "names+: [roof gap of siding]\n")
    base = moved_base(tmp_path, "siding roof gap]", "siding roof gap, siding meets roof]")
    shown = [fault.message for fault in check(root, base).notices]
    assert any(f"--keep {CODE}:names+" in one for one in shown)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("With the seller's written permission, have a", "Have a", "'walls.siding.near-roof:recommendation' is not as it was"),
        ('"mark": "', '"mark": "0', "is not as it was written"),
        ('"library": "1.0"', '"library": "2.0"', "The lock was altered by hand."),
        ('"items": {', '"items": [', "it can no longer be read"),
        ('"around"', '"arund"', "a part of it is missing"),
    ],
)
def test_a_lock_altered_by_hand_is_said_and_left_alone(old: str, new: str, said: str, tmp_path: Path) -> None:
    root = locked(tmp_path)
    path = root / LOCK_FILE
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    altered = path.read_bytes()
    found = check(root, moved_base(tmp_path))
    (fault,) = found.faults
    assert fault.pos.path == "firm/firm.lock" and said in fault.message and found.lock is None
    if "is not as" in said:
        line = text.splitlines()[fault.pos.line - 1]
        assert CODE in line
    with pytest.raises(NarratorError):
        check(root, keep=(CODE,))
    assert path.read_bytes() == altered


def test_a_lost_target_keeps_its_item_and_says_where_the_text_went(tmp_path: Path) -> None:
    root = locked(tmp_path)
    base = tmp_path / "new" / "library"
    shutil.copytree(TINY, base)
    (base / NEAR).rename(base / "entries/walls/siding/meets-roof.yaml")
    change(base, "entries/walls/trim/decayed.yaml", "format:", "format:")
    found = check(root, base)
    shown = [fault.message for fault in found.faults]
    assert any("Its recommendation stands now in walls.siding.meets-roof." in one for one in shown)
    assert f"{CODE}:why" in json.loads((root / LOCK_FILE).read_text(encoding="utf-8"))["items"]
    assert (root / NEAR).is_file()
    done = check(root, base, take=(CODE,))
    assert not done.faults and not (root / NEAR).exists()
    assert any("Wet ends rot." in line for line in done.said)


def test_a_renamed_wording_says_its_new_name(tmp_path: Path) -> None:
    root = locked(tmp_path, "observation:\n  - name: looked\n    text: The siding meets the roof {{ place }}. It comes down, no gap.\n")
    base = moved_base(tmp_path, "name: looked", "name: by-eye")
    assert any("The same text is now called 'by-eye'." in fault.message for fault in check(root, base).faults)


def test_a_retired_entry_says_what_takes_its_place(tmp_path: Path) -> None:
    root = locked(tmp_path)
    base = moved_base(tmp_path, "since: '1.0'\n", "since: '1.0'\nreplaced_by: walls.trim.decayed\n")
    assert any("'walls.trim.decayed' takes its place" in fault.message for fault in check(root, base).faults)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("a  b\n c", "a b c"),
        ("{{place}}, x", "{{ place }}, x"),
        ("caf\u00e9", "cafe\u0301"),
        (["b", "a"], ["a", "b"]),
        ({"x": 1, "y": "2"}, {"y": 2, "x": "1"}),
        ([{"name": "m", "text": "t"}, {"name": "n", "text": "u"}], [{"text": "u", "name": "n"}, {"text": "t", "name": "m"}]),
    ],
)
def test_layout_leaves_a_fingerprint_alone(one: object, other: object) -> None:
    assert mark_of(one) == mark_of(other)


@pytest.mark.parametrize(("one", "other"), [("a b", "a c"), (["a"], ["a", "a b"]), ({"x": "1"}, {"y": "1"}), ("", None)])
def test_words_do_not(one: object, other: object) -> None:
    assert mark_of(one) != mark_of(other)


def test_a_name_that_stands_in_the_base_is_a_fault_wherever_it_is_told(tmp_path: Path) -> None:
    base = (TINY / "entries/walls/trim/decayed.yaml").read_text(encoding="utf-8")
    for code in ("decaying", "zapped"):  # one comes before the base's entry in the alphabet, one behind
        root = firm(tmp_path / code, {f"entries/walls/trim/{code}.yaml": base})
        shown = [fault.message for fault in check(root).faults]
        assert any("'trim rotted' is a name of walls.trim.deca" in one for one in shown), shown


def test_a_word_that_means_something_else_in_the_base_is_a_fault(tmp_path: Path) -> None:
    root = firm(tmp_path, {"words.yaml": "parts: {siding+: [shingles]}\n"})
    assert any("'shingles' stands also in" in fault.message for fault in check(root).faults)
