"""Edits laid over a base: what each sign does, where each part then stands, and what is refused, with its place."""

from __future__ import annotations

import json
import tempfile
from pathlib import Path
from typing import Any

import pytest
from firms import BASE, EDIT, NEAR, firm, laid, said
from hypothesis import given, settings
from hypothesis import strategies as st

from narrator.source.entries import stored_entry
from narrator.source.firm.check import check_firm
from narrator.source.firm.layers import layers_of, read_firm
from narrator.source.model import entry_from

NEAR_CODE, DECAYED_CODE = "walls.siding.near-roof", "walls.trim.decayed"


def merged(folder: Path, text: str, file: str = NEAR) -> dict[str, Any]:
    layers = laid(folder, {file: text})
    assert not layers.faults, said(layers)
    code = NEAR_CODE if file == NEAR else DECAYED_CODE
    return dict(layers.files.entries[code].value)


def test_a_bare_key_replaces(tmp_path: Path) -> None:
    new = merged(tmp_path, "why: Wet ends of boards rot.\n")
    assert new["why"] == "Wet ends of boards rot."
    assert new["title"] == BASE.entries[NEAR_CODE].value["title"]


def test_a_wording_is_found_by_its_name_and_the_others_stay(tmp_path: Path) -> None:
    new = merged(tmp_path, "observation:\n  - name: looked\n    text: The siding meets the roof {{ place }}.\n")
    old = BASE.entries[NEAR_CODE].value["observation"]
    assert [item["name"] for item in new["observation"]] == ["meets", "measured", "looked"]
    assert new["observation"][:2] == old[:2]
    assert new["observation"][2]["text"] == "The siding meets the roof {{ place }}."


def test_plus_adds_to_lists_and_a_sentence_to_a_text(tmp_path: Path) -> None:
    new = merged(tmp_path, "names+: [siding on the roof]\nimplication+: They swell first.\nlimits+: [behind-cladding]\n")
    assert new["names"][-1] == "siding on the roof"
    assert new["implication"].endswith("boards. They swell first.")
    assert new["limits"] == ["behind-cladding"]  # what stands there already is not said twice


def test_plus_on_a_text_with_wordings_adds_to_each(tmp_path: Path) -> None:
    new = merged(tmp_path, "observation+: We took a photo.\n")
    assert all(item["text"].endswith("We took a photo.") for item in new["observation"])


def test_new_wordings_come_before_those_of_the_base(tmp_path: Path) -> None:
    text = "observation+:\n  - name: many\n    when: {places: many}\n    text: The siding meets the roof {{ place }}.\n"
    assert [item["name"] for item in merged(tmp_path, text)["observation"]] == ["many", "meets", "measured", "looked"]


def test_minus_takes_away(tmp_path: Path) -> None:
    assert "ask" not in merged(tmp_path, "ask-: [seller]\n")
    new = merged(tmp_path, "names-: [siding roof gap]\nnames+: [roof gap of siding]\n")
    assert "siding roof gap" not in new["names"] and "roof gap of siding" in new["names"]


def test_keys_inside_a_key_are_edited_alone(tmp_path: Path) -> None:
    new = merged(tmp_path, "trade: {with-: [carpenter]}\nmeasures: {gap: {label: clear gap}}\n")
    assert new["trade"] == {"lead": "siding"}
    assert new["measures"]["gap"] == {"kind": "length", "criterion": "siding-above-roof", "label": "clear gap"}


def test_every_wording_keeps_its_own_file_and_line(tmp_path: Path) -> None:
    text = (
        "# ours\nobservation+:\n  - name: many\n    when: {places: many}\n    text: |\n      The siding meets it {{ place }}.\n"
        "observation:\n  - name: looked\n    text: The siding meets the roof {{ place }}.\nimplication+: They swell.\n"
    )
    layers = laid(tmp_path, {NEAR: text})
    assert not layers.faults
    entry = entry_from(stored_entry(layers.files.entries[NEAR_CODE], NEAR_CODE))
    at = [(one.name, one.file or entry.file, one.line) for one in entry.observation]
    ours, base = f"firm/{NEAR}", f"library/{NEAR}"
    assert at == [("many", ours, 7), ("meets", base, 20), ("measured", base, 24), ("looked", ours, 10)]
    assert entry.implication[0].seam == (1, ours, 11)
    assert entry.implication[0].pieces == (
        "Rain on the roof splashes up and wets the ends of the boards.",
        " They swell.",
    )


@pytest.mark.parametrize(
    ("file", "text", "place", "message"),
    [
        (NEAR, "recomendation: Cut.\n", "2:1", "'recomendation' is not a key in the base"),
        (NEAR, "recomendation: Cut.\n", "2:1", "Did you mean 'recommendation'?"),
        (NEAR, "observation:\n  - name: mesured\n    text: X.\n", "3:5", "'mesured' is not a wording of observation"),
        (NEAR, "observation:\n  - name: mesured\n    text: X.\n", "3:5", "Did you mean 'measured'?"),
        (NEAR, "why: One.\nwhy+: Two.\n", "3:1", "'why' is edited twice (first on line 2, as 'why')"),
        (NEAR, "why: One.\nwhy: Two.\n", "3:1", "'why' stands twice"),
        (NEAR, "observation:\n  - {name: looked, text: A.}\n  - {name: looked, text: B.}\n", "4:6", "'looked' is edited twice"),
        (NEAR, "names-: [siding roof gapp]\n", "2:10", "Did you mean 'siding roof gap'?"),
        (NEAR, "measures: {gapp: {label: x}}\n", "2:12", "'gapp' is not a key of measures"),
        (NEAR, "why-: Wet\n", "2:1", "can take nothing away"),
        (NEAR, "why:\n", "2:1", "Nothing stands after 'why:'"),
        (NEAR, "severity: upkeep\n", "2:1", "never graded down"),
        (NEAR, "danger-: [fall]\n", "", "A danger is never taken away"),
        (NEAR, "limits-: [behind-cladding]\n", "", "What was not seen is always said"),
        (NEAR, "limits: []\n", "2:1", "What was not seen is always said"),
        (NEAR, "intrusive: false\n", "2:1", "'intrusive' stays true"),
        (NEAR, "raise:\n  - {when: {gap: short}, to: plan, why: A gap this small hides rot.}\n", "2:1", "The raise to 'find-out' stays"),
        (NEAR, "severity: soon\n", "2:1", "'soon' is not one of: act-now"),
        ("entries/walls/siding/near-rof.yaml", "why: X.\n", "1:1", "Did you mean 'walls.siding.near-roof'?"),
        (NEAR, "format: narrator.entry/1\nwhy: X.\n", "1:1", "begin with 'format: narrator.edit/1'"),
        ("limits.yaml", "limits-: [behind-cladding]\n", "2:1", "can be reworded, not dropped"),
        ("words.yaml", "thresholds: {automatic: 0.1}\n", "2:14", "a firm only adds"),
        ("trades.yaml", "trades:\n  - {id: sidng, label: x}\n", "3:6", "Did you mean 'siding'?"),
        ("glossary.yaml", "terms+: {flashing: {forms: [x], gloss: y}}\n", "2:10", "stands in the base already"),
        ("criteria/wals.yaml", "criteria: []\n", "1:1", "Did you mean 'walls'?"),
    ],
)
def test_what_is_refused_has_its_place(file: str, text: str, place: str, message: str, tmp_path: Path) -> None:
    if "stands twice" in message:  # a fault of the file itself
        from narrator.errors import NarratorError

        with pytest.raises(NarratorError, match=message):
            laid(tmp_path, {file: text})
        return
    found = said(laid(tmp_path, {file: text}))
    assert any(message in one for one in found), found
    if place:
        assert any(one.startswith(f"firm/{file}:{place} ") for one in found), found


def test_a_firm_has_entries_of_its_own(tmp_path: Path) -> None:
    own = BASE.entries[DECAYED_CODE]
    text = "\n".join(own.lines).replace("trim rotted", "trim board gone soft").replace("Trim has decayed", "Trim is soft")
    layers = laid(tmp_path, {"entries/walls/trim/soft.yaml": text})
    assert not layers.faults
    assert layers.own == {"walls.trim.soft"}
    assert layers.files.entries["walls.trim.soft"].path == "firm/entries/walls/trim/soft.yaml"


def test_lists_are_edited_by_their_ids(tmp_path: Path) -> None:
    files = {
        "trades.yaml": "trades:\n  - {id: siding, label: cladding firm}\n",
        "glossary.yaml": "terms: {flashing: {gloss: a strip that turns water away}}\n"
        "terms+: {eave: {forms: [eave], gloss: the low edge of a roof}}\n",
        "criteria/walls.yaml": "criteria:\n  - {id: siding-above-roof, value: 3}\n",
    }
    layers = laid(tmp_path, files)
    assert not layers.faults, said(layers)
    assert layers.files.lists["trades"].value["trades"][0]["label"] == "cladding firm"
    assert layers.files.lists["trades"].value["trades"][0]["names"] == ["siding contractor"]
    assert list(layers.files.lists["glossary"].value["terms"]) == ["flashing", "eave"]
    row = next(row for row in layers.files.criteria["walls"].value["criteria"] if row["id"] == "siding-above-roof")
    assert row["value"] == 3 and row["unit"]


@pytest.mark.parametrize(
    ("settings", "message"),
    [
        ("unit: metric\n", "'unit' is not a key here. Did you mean 'units'?"),
        ("units: metrics\n", "Did you mean 'metric'?"),
        ("sections: [wals]\n", "Did you mean 'walls'?"),
        ("columns: {Defect: wat}\n", "'wat' is not a column here"),
        ("instruments: {moisture: two}\n", "'two' is not an uncertainty for moisture"),
        ("grades: {urgent: now}\n", "'urgent' is not a key here"),
        ("needs: [agrement]\n", "Did you mean 'agreement'?"),
    ],
)
def test_a_setting_that_cannot_be_has_its_place(settings: str, message: str, tmp_path: Path) -> None:
    found = said(laid(tmp_path, {}, settings))
    assert any(message in one and one.startswith("firm/firm.yaml:3:") for one in found), found


def test_a_file_of_another_program_says_what_to_do(tmp_path: Path) -> None:
    root = firm(tmp_path)
    (root / "firm.yaml").write_text("version: 2\n", encoding="utf-8")
    (found,) = said(layers_of(BASE, read_firm(root)))
    assert found.startswith("firm/firm.yaml:1:1") and "draft with --no-firm" in found


def test_files_that_nobody_reads_are_said(tmp_path: Path) -> None:
    from firms import check

    root = firm(tmp_path, {"entries/walls/siding/near-roof.yml": "why: X.\n", "glosary.yaml": "terms: {}\n"})
    (root / "terms.yaml").write_text(EDIT, encoding="utf-8")
    notices = [f"{fault.pos.path} {fault.message}" for fault in check(root).notices]
    assert any("near-roof.yml" in one and "must end in .yaml" in one for one in notices)
    assert any("Did you mean 'glossary.yaml'?" in one for one in notices)
    assert any("terms stand in firm.yaml" in one for one in notices)


_TEXTS = st.sampled_from(["", "x", "looked", "gap", "{{ gap }}", "act-now", "{% x %}"])
_SCALARS = st.one_of(st.none(), st.booleans(), st.integers(-3, 3), _TEXTS)
_KEYS = st.sampled_from(
    ["name", "id", "text", "text+", "when", "when-", "lead", "with+", "with-", "gap", "flashing", "siding", "roof+", "forms"]
)
_VALUES = st.recursive(
    _SCALARS, lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(_KEYS, inner, max_size=3)), max_leaves=8
)
_TOP = st.sampled_from([*BASE.entries[NEAR_CODE].value, "ask", "danger", "basis"])


@settings(max_examples=300, deadline=None)
@given(
    st.dictionaries(st.tuples(_TOP, st.sampled_from(["", "+", "-"])).map("".join), _VALUES, min_size=1, max_size=3),
    st.sampled_from(["entry", "glossary", "limits", "trades", "words", "places", "firm"]),
    _VALUES,
)
def test_whatever_is_written_gives_faults_and_never_a_crash(edit: dict[str, Any], what: str, more: Any) -> None:
    with tempfile.TemporaryDirectory() as folder:
        root = firm(Path(folder))
        if what == "entry":
            name, data = NEAR, edit
        elif what == "firm":
            name, data = "firm.yaml", {"format": "narrator.firm/1", "name": "X", "roster": more, "terms": more, "columns": more}
        else:
            key = {"glossary": "terms", "limits": "limits", "trades": "trades", "words": "parts", "places": "heads"}[what]
            name, data = f"{what}.yaml", {f"{key}{sign}": more for sign in ("", "+", "-")[: len(edit)]}
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(json.dumps({"format": "narrator.edit/1", **data}), encoding="utf-8")  # JSON is YAML too
        layers = layers_of(BASE, read_firm(root))
        if not layers.faults:
            check_firm(BASE, root)
