"""An impact equals what drafting the whole archive finds, change for change, over many kinds of change."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from archive_houses import archive, changed_library, checklists
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrator.archive.changes import changes
from narrator.archive.impact import Impact, contents_of, impact, impact_of_all, run, silent
from narrator.archive.kept import open_kept
from narrator.pipeline import draft_text
from narrator.source.index import Index
from narrator.source.store import open_library

TRIM = "entries/walls/trim/decayed.yaml"
TREE = ("entries/roof/tree/overhanging.yaml", ", roof.valley.debris]", "]")
KINDS = {
    "a sentence less": ([(TRIM, "New trim alone leaves the water where it is. A", "A")], []),
    "grade": ([(TRIM, "severity: plan", "severity: find-out")], []),
    "trade of an entry": ([(TRIM, "lead: carpenter", "lead: painter")], []),
    "a name that moves likeness": ([(TRIM, "names: [trim decayed", "names: [siding cracked, trim decayed")], []),
    "a name less": ([(TRIM, "trim soft, trim rot, ", "")], []),
    "title": ([(TRIM, "title: Decayed wood trim", "title: Rotten wood trim")], []),
    "published figure": ([("criteria/guards.yaml", "  value: 36\n", "  value: 42\n")], []),
    "entry retired": ([TREE], ["entries/roof/valley/debris.yaml"]),
    "gloss": ([("glossary.yaml", "metal or membrane that turns water away", "metal that keeps the rain out")], []),
    "a trade word more": ([("glossary.yaml", "terms:\n", "terms:\n  trim: {forms: [trim], gloss: the boards at an opening}\n")], []),
    "label of a trade": ([("trades.yaml", "label: roofer", "label: roofing contractor")], []),
    "name of a trade": ([("trades.yaml", "names: [plumbing, plumber]", "names: [plumbing]")], []),
    "limit of an entry": ([("limits.yaml", "We did not see inside the wall.", "We could not look inside the wall.")], []),
    "computed limit": ([("limits.yaml", "    of: [water, all, everything]", "    of: [all, everything]")], []),
    "place": ([("places.yaml", "idioms: [by,", "idioms: [alongside, by,")], []),
    "part word": ([("words.yaml", "parts:\n", "parts:\n  gizmo: [gizmo, kick]\n")], []),
    "terms": ([("terms.yaml", "terms:\n", "terms:\n  more: One term more.\n")], []),
    "title of a system": ([("systems.yaml", "title: Outside walls", "title: Walls outside")], []),
}  # fmt: skip


def both(old: Index, new: Index, top: Path) -> tuple[Impact, Impact]:
    names = [str(top)]
    kept = open_kept(names)
    try:
        read = contents_of(names)
        return impact(old, new, read, kept, silent), impact_of_all(old, new, read, silent)
    finally:
        kept.connection.close()


@pytest.fixture(scope="module")
def houses(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("archive")
    texts = list(checklists(24, 8))
    texts += ["trim soft | rear\nsiding cracked | front\nguard height 38 in | rear deck\nvalley full of leaves | rear\n"]
    texts += ["cracked siding | left side | trade plumber\ntrim rotted | rear | told by seller\nguard low 30 in | deck\n"]
    return archive(folder, texts)


@pytest.fixture(autouse=True, scope="module")
def _own_cache(tmp_path_factory: pytest.TempPathFactory) -> object:
    old = os.environ.get("NARRATOR_CACHE")
    os.environ["NARRATOR_CACHE"] = str(tmp_path_factory.mktemp("cache"))
    yield
    if old is None:
        del os.environ["NARRATOR_CACHE"]
    else:
        os.environ["NARRATOR_CACHE"] = old


@pytest.mark.parametrize("kind", KINDS)
def test_an_impact_is_what_drafting_everything_finds(kind: str, houses: Path, library: Index, tmp_path: Path) -> None:
    texts, gone = KINDS[kind]
    new = open_library(changed_library(tmp_path, texts, gone))
    few, everything = both(library, new, houses)
    assert few.altered == everything.altered
    if kind not in ("a name less", "place", "part word", "name of a trade"):
        assert everything.altered, "the change alters nothing here, so the test shows nothing"
    if kind in ("a sentence less", "grade", "a name that moves likeness", "title", "published figure", "entry retired"):
        assert few.drafted < few.inspections / 2


_PIECES = [piece for texts, gone in KINDS.values() if not gone for piece in texts]


@settings(max_examples=6, deadline=None, database=None, suppress_health_check=list(HealthCheck))
@given(pieces=st.lists(st.sampled_from(_PIECES), min_size=2, max_size=4, unique=True), seed=st.integers(0, 10_000))
def test_any_changes_together_are_all_found(
    pieces: list[tuple[str, str, str]], seed: int, library: Index, tmp_path_factory: pytest.TempPathFactory
) -> None:
    folder = tmp_path_factory.mktemp("any")
    new = open_library(changed_library(folder, pieces))
    few, everything = both(library, new, archive(folder / "houses", list(checklists(8, 10, seed))))
    assert few.altered == everything.altered


def test_what_was_kept_for_an_older_library_still_holds(houses: Path, library: Index, tmp_path: Path) -> None:
    first = open_library(changed_library(tmp_path / "one", KINDS["a name that moves likeness"][0]))
    second = open_library(changed_library(tmp_path / "two", KINDS["title"][0]))
    one, _ = both(library, first, houses)
    assert one.traced == 0 or one.traced == one.inspections
    few, everything = both(first, second, houses)
    assert few.altered == everything.altered
    assert few.traced < few.inspections / 2, "only what the first change touched is drafted again"
    back, all_back = both(second, library, houses)
    assert back.altered == all_back.altered


def test_a_damaged_index_of_the_archive_is_built_again(houses: Path, library: Index, tmp_path: Path) -> None:
    new = open_library(changed_library(tmp_path, KINDS["grade"][0]))
    one, everything = both(library, new, houses)
    for path in Path(os.environ["NARRATOR_CACHE"]).glob("archive-*.sqlite"):
        path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])
    again, _ = both(library, new, houses)
    assert again.traced == again.inspections
    assert again.altered == one.altered == everything.altered


def test_an_archive_that_grows_drafts_only_what_is_new(library: Index, tmp_path: Path) -> None:
    texts = list(checklists(4, 6))
    top = archive(tmp_path / "houses", texts[:3])
    assert both(library, library, top)[0].traced == 3
    archive(tmp_path / "houses", texts)
    assert both(library, library, top)[0].traced == 1


def meanings(old: str, new: str, line: str, tmp_path: Path, library: Index, file: str = TRIM) -> list[tuple[str, str]]:
    other = open_library(changed_library(tmp_path, [(file, old, new)]))
    found = changes(draft_text(line, "x", library), draft_text(line, "x", other))
    return [(change.entry, change.kind) for change in found]


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ("severity: plan", "severity: upkeep", "grade"),
        ("lead: carpenter", "lead: painter", "trade"),
        ("the wood trim has decayed.", "the wood trim has not decayed.", "negation"),
        ("limits: [behind-cladding]", "limits: [behind-finish]", "limit"),
        ("New trim alone leaves the water where it is. A", "A", "omitted"),
        ("of the wall which\n  the trim covers", "of the wall that\n  the trim covers", "word"),
    ],
)
def test_changes_are_told_by_meaning(old: str, new: str, kind: str, tmp_path: Path, library: Index) -> None:
    assert ("walls.trim.decayed", kind) in meanings(old, new, "trim decayed | rear", tmp_path, library)


def test_a_line_taken_for_something_else_is_told_as_such(tmp_path: Path, library: Index) -> None:
    found = meanings("names: [trim decayed", "names: [trim is odd", "trim decayed | rear", tmp_path, library)
    assert all(kind in ("elsewhere", "unresolved", "word") for _, kind in found)


def test_a_line_that_no_entry_answers_any_more_is_unresolved_now(tmp_path: Path, library: Index) -> None:
    other = open_library(changed_library(tmp_path, [TREE], ["entries/roof/valley/debris.yaml"]))
    line = "roof.valley.debris | rear slope"
    found = changes(draft_text(line, "x", library), draft_text(line, "x", other))
    assert [(change.kind, change.entry, change.lines) for change in found if change.field == "line"] == [
        ("unresolved", "roof.valley.debris", (1,))
    ]


def test_an_index_that_another_run_holds_is_done_without(library: Index, tmp_path: Path) -> None:
    top = archive(tmp_path / "houses", ["trim decayed | rear\n"])
    new = open_library(changed_library(tmp_path, KINDS["grade"][0]))
    held = open_kept([str(top)])
    held.save()
    held.connection.execute("BEGIN EXCLUSIVE")
    there = sorted(Path(os.environ["NARRATOR_CACHE"]).glob("archive-*.sqlite"))
    try:
        found = run(library, new, [str(top)])
    finally:
        held.connection.close()
    assert sorted(Path(os.environ["NARRATOR_CACHE"]).glob("archive-*.sqlite")) == there
    assert [change.kind for each in found.altered for change in each.changes] == ["grade"]
