"""A new base under the example firm: every change of what an edit edits is found, and no change of layout is taken for one.

Two hundred changes of the product's own library are generated from a fixed seed: rewordings, renamed wordings, changed conditions,
retired, renamed and replaced entries. Beside them, for every edit, changes of layout alone.
"""

from __future__ import annotations

import copy
import random
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import yaml

from narrator.source.firm.edits import Edit
from narrator.source.firm.layers import FirmFiles, Layers, layers_of, read_firm
from narrator.source.firm.lock import Lock
from narrator.source.firm.moved import moved_on, remembered
from narrator.source.library import Files, read_files
from narrator.source.positions import Located, load
from narrator.source.store import packaged_root

FIRM = Path(__file__).parents[3] / "examples" / "firms" / "tarn-and-thistle"
CHANGES = 200


class House(NamedTuple):
    """The base, the firm over it, and the lock of its edits."""

    base: Files
    firm: FirmFiles
    layers: Layers
    lock: Lock


@pytest.fixture(scope="module")
def house() -> House:
    base = read_files(packaged_root())
    firm = read_firm(FIRM)
    layers = layers_of(base, firm)
    assert not layers.faults
    return House(base, firm, layers, remembered(layers, Lock("", {}, {}), "1.0"))


def below(base: Files, target: str) -> Located:
    if target in base.lists:
        return base.lists[target]
    return base.entries[target]


def changed_base(base: Files, target: str, text: str | None, as_code: str = "") -> Files:
    """The base with one file's text changed, taken away (None), or standing under another code."""
    if target in base.lists:
        assert text is not None
        return replace(base, lists={**base.lists, target: load(text, base.lists[target].path)})
    entries = dict(base.entries)
    path = entries.pop(target).path
    if text is not None:
        entries[as_code or target] = load(text, path)
    return replace(base, entries=entries)


def found(house: House, base: Files, target: str) -> tuple[set[str], Layers]:
    """What a check says of the edits of one target: names of edits, and `file` for a fault at the firm's file."""
    firm = house.firm
    lists = {name: one for name, one in firm.lists.items() if name == target}
    entries = {code: one for code, one in firm.entries.items() if code == target}
    layers = layers_of(base, firm._replace(lists=lists, entries=entries, criteria={}))
    items = {name: item for name, item in house.lock.items.items() if name.startswith(f"{target}:")}
    moved = moved_on(layers, Lock("1.0", items, {target: house.lock.around.get(target, {})}))
    names = {edit.name for edit, _ in (*moved.changed, *moved.soft)}
    if layers.faults or moved.gone:
        names.add("file")
    return names, layers


def dumped(value: Any) -> str:
    return yaml.safe_dump(value, sort_keys=False, allow_unicode=True, width=100)


def at(value: Any, key: tuple[str, ...]) -> tuple[Any, Any]:
    """(what holds the edited thing, its key or number), by the names of wordings and the ids of rows."""
    holder: Any = value
    for number, name in enumerate(key):
        last = number == len(key) - 1
        step: Any = name
        if isinstance(holder, list):
            step = next(i for i, one in enumerate(holder) if name in (one.get("name", ""), one.get("id")))
        if last:
            return holder, step
        holder = holder[step]
    raise AssertionError(key)


def reword(value: Any, rng: random.Random) -> Any:
    if isinstance(value, list):
        new = copy.deepcopy(value)
        if rng.random() < 0.5 and len(new) > 1 and not isinstance(new[0], dict):
            new.pop(rng.randrange(len(new)))
        else:
            more = f"new thing {rng.random()}"
            new.append({"class": "room", "prep": "in", "names": [more]} if isinstance(value[0], dict) else more)
        return new
    if value in ("act-now", "find-out", "plan", "upkeep"):
        return rng.choice([grade for grade in ("act-now", "find-out", "plan", "upkeep") if grade != value])
    words = str(value).split()
    spot = rng.randrange(len(words))
    how = rng.randrange(4)
    if how == 0:
        words[spot] = "altogether"
    elif how == 1:
        words.insert(spot, "also")
    elif how == 2 and len(words) > 2:
        words.pop(spot)
    else:
        words += ["Look", "twice."]
    return " ".join(words)


def changes(house: House, edit: Edit, rng: random.Random) -> tuple[str, Files]:
    """One change of the base under an edit: what it is, and the new base."""
    located = below(house.base, edit.target)
    value = copy.deepcopy(located.value)
    kinds = ["reword", "reword", "reword"]
    in_entry = edit.target in house.base.entries
    if in_entry:
        kinds += ["retire", "rename", "replaced"]
    if len(edit.key) > 2 and edit.key[-1] == "text":
        kinds += ["rename wording", "when"] * 3
    kind = rng.choice(kinds)
    if kind == "retire":
        return kind, changed_base(house.base, edit.target, None)
    if kind == "rename":
        return kind, changed_base(house.base, edit.target, dumped(value), f"{edit.target}-{rng.randrange(1000)}")
    if kind == "replaced":
        value["replaced_by"] = rng.choice([code for code in sorted(house.base.entries) if code != edit.target])
    elif kind == "rename wording":
        holder, number = at(value, edit.key[:-1])
        holder[number]["name"] = f"other-{rng.randrange(1000)}"
    elif kind == "when":
        holder, number = at(value, edit.key[:-1])
        holder[number]["when"] = {"basis": rng.choice(["seen", "told", "heard"])}
    elif edit.base is None:  # the firm's own word or term: the base comes to have one of that name
        holder, name = (value, edit.key[0]) if len(edit.key) == 1 else (value[edit.key[0]], edit.key[1])
        holder[name] = ["below-ground"]
    elif edit.sign == "-":  # what the firm takes away is gone already
        holder, name = at(value, edit.key)
        holder[name] = [one for one in holder[name] if one not in edit.base] or ["permit-office"]
    else:
        holder, name = at(value, edit.key)
        holder[name] = reword(holder[name], rng)
    return kind, changed_base(house.base, edit.target, dumped(value))


def test_two_hundred_changes_under_an_edit_are_found_every_time(house: House) -> None:
    rng = random.Random(20260304)
    kinds: dict[str, int] = {}
    missed: list[str] = []
    for number in range(CHANGES):
        edit = house.layers.edits[number % len(house.layers.edits)]
        kind, base = changes(house, edit, rng)
        names, _ = found(house, base, edit.target)
        kinds[kind] = kinds.get(kind, 0) + 1
        if not names & {edit.name, "file"}:
            missed.append(f"{kind} under {edit.name}")
    assert not missed
    assert set(kinds) == {"reword", "retire", "rename", "replaced", "rename wording", "when"}
    assert min(kinds.values()) >= 3


def _reordered(located: Located) -> str:
    value = dict(located.value)
    return dumped({key: value[key] for key in reversed(list(value))})


def _flowed(located: Located) -> str:
    return yaml.safe_dump(located.value, default_flow_style=True, allow_unicode=True, width=10**6)


def _commented(located: Located) -> str:
    lines = [f"# line {number}\n{line}" if line and not line[0].isspace() else line for number, line in enumerate(located.lines)]
    return "\n".join(lines) + "\n# the end\n"


def _spaced(located: Located) -> str:
    def wide(value: Any) -> Any:
        if isinstance(value, Mapping):
            return {key: wide(one) for key, one in value.items()}
        if isinstance(value, list):
            return [wide(one) for one in value]
        return "  " + value.replace(" ", "  ").replace("{{  ", "{{") + "\n" if isinstance(value, str) and " " in value else value

    return dumped(wide(located.value))


def _quoted(located: Located) -> str:
    def text(value: Any) -> Any:
        if isinstance(value, Mapping):
            return {key: text(one) for key, one in value.items()}
        if isinstance(value, list):
            return [text(one) for one in value]
        return str(value).lower() if isinstance(value, bool) else str(value)

    return yaml.safe_dump(text(located.value), default_style='"', allow_unicode=True, width=60)


def _decomposed(located: Located) -> str:
    return unicodedata.normalize("NFD", "\n".join(located.lines))


def _shuffled(located: Located) -> str:
    value = copy.deepcopy(located.value)
    for key in ("names", "ask", "danger", "leads_to", "sources", "cases", "heads", "trades"):
        if isinstance(value.get(key), list):
            value[key] = value[key][::-1]
    return dumped(value)


@pytest.mark.parametrize("layout", [_reordered, _flowed, _commented, _spaced, _quoted, _decomposed, _shuffled])
def test_layout_is_no_change(layout: Callable[[Located], str], house: House) -> None:
    for target in sorted({edit.target for edit in house.layers.edits}):
        text = layout(below(house.base, target))
        base = changed_base(house.base, target, text)
        firm = house.firm
        lists = {name: one for name, one in firm.lists.items() if name == target}
        entries = {code: one for code, one in firm.entries.items() if code == target}
        layers = layers_of(base, firm._replace(lists=lists, entries=entries, criteria={}))
        items = {name: item for name, item in house.lock.items.items() if name.startswith(f"{target}:")}
        moved = moved_on(layers, Lock("1.0", items, {target: house.lock.around.get(target, {})}))
        assert not (moved.changed or moved.soft or moved.gone or moved.around), (target, moved)
