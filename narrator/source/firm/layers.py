"""A library with a firm's folder laid over it: the same kind of files, each part knowing which layer it stands in."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, NamedTuple

from narrator.errors import Fault, NarratorError, Pos, did_you_mean
from narrator.source.check.files import file_faults
from narrator.source.firm.bounds import bound_faults, list_bounds
from narrator.source.firm.edits import Edit, lay_over
from narrator.source.firm.folder import FIRM_FILE, LISTS, firm_files, shown_firm
from narrator.source.firm.settings import settings_faults, settings_of
from narrator.source.library import Files, entry_code
from narrator.source.positions import Located, load
from narrator.source.text import read_text

EDIT = "narrator.edit/1"


class FirmFiles(NamedTuple):
    """A firm's files as read: its settings, and edits or own files by `glossary`, `criteria/NAME` or an entry's code."""

    root: Path
    settings: Located
    lists: Mapping[str, Located]
    criteria: Mapping[str, Located]
    entries: Mapping[str, Located]


@dataclass(frozen=True, slots=True)
class Layers:
    """The layered library. `own`: codes of the firm's own entries; `touched`: every entry that is not as in the base."""

    files: Files
    base: Files
    firm: FirmFiles
    settings: Mapping[str, Any]
    edits: tuple[Edit, ...]
    own: frozenset[str]
    touched: frozenset[str]
    faults: tuple[Fault, ...]
    notices: tuple[Fault, ...]


def read_firm(root: Path, instead: Mapping[str, str] | None = None) -> FirmFiles:
    """Every file of a firm's folder; raises NarratorError with all faults of syntax.

    `instead`: text to read in place of a file (by its path as shown), or of one that is not there yet; empty: the file is gone.
    """
    faults: list[Fault] = []
    found: dict[str, Located] = {}
    texts = {shown_firm(root, path): None for path in firm_files(root)} | dict(instead or {})
    for shown, text in sorted(texts.items()):
        if text == "":
            continue
        try:
            path = root / shown.removeprefix("firm/")
            located = load(read_text(path, shown) if text is None else text, shown)
        except NarratorError as error:
            faults += error.faults
            continue
        if isinstance(located.value, dict):
            found[shown] = located
        else:
            faults.append(Fault(Pos(shown, 1, 1), "", "The file must hold keys and values, such as 'format: ...'."))
    if f"firm/{FIRM_FILE}" not in texts:
        faults.append(
            Fault(Pos(f"firm/{FIRM_FILE}"), "", "This file is missing, so the folder is not a firm's folder.")
        )
    if faults:
        raise NarratorError(faults)
    lists = {name: found[f"firm/{name}.yaml"] for name in LISTS if f"firm/{name}.yaml" in found}
    inside = {shown: (root / shown.removeprefix("firm/")) for shown in found}
    entries = {
        entry_code(root, path): found[shown] for shown, path in inside.items() if shown.startswith("firm/entries/")
    }
    criteria = {path.stem: found[shown] for shown, path in inside.items() if shown.startswith("firm/criteria/")}
    return FirmFiles(root, found[f"firm/{FIRM_FILE}"], lists, criteria, entries)


def layers_of(base: Files, firm: FirmFiles) -> Layers:
    """The firm laid over a well-formed base. Faults are gathered, sorted, never raised."""
    systems = [item["id"] for item in base.lists["systems"].value["systems"]]
    faults = settings_faults(firm.settings, systems)
    settings = {} if faults else settings_of(firm.settings, systems)
    notices: list[Fault] = []
    edits: list[Edit] = []

    def lay(below: Located, located: Located, target: str) -> Located:
        laid = lay_over(below, located, target)
        edits.extend(laid.edits)
        faults.extend(laid.faults)
        notices.extend(laid.notices)
        faults.extend(list_bounds(laid.edits))
        return laid.located

    lists = dict(base.lists)
    for name, located in firm.lists.items():
        if _is_edit(located, faults, name):
            lists[name] = lay(base.lists[name], located, name)
    criteria = dict(base.criteria)
    for name, located in firm.criteria.items():
        if located.value.get("format") == EDIT and name in base.criteria:
            criteria[name] = lay(base.criteria[name], located, f"criteria/{name}")
        elif located.value.get("format") == EDIT:
            message = f"The base has no criteria/{name}.yaml to edit.{did_you_mean(name, base.criteria)}"
            faults.append(Fault(Pos(located.path, 1, 1), "", message))
        elif name in base.criteria:
            message = (
                f"The base has a criteria/{name}.yaml. To edit it, begin with 'format: {EDIT}'; else rename yours."
            )
            faults.append(located.fault(("format",), message))
        else:
            criteria[name] = located
    entries = dict(base.entries)
    own: set[str] = set()
    for code, located in firm.entries.items():
        below = base.entries.get(code)
        if located.value.get("format") == EDIT:
            if below is None:
                faults.append(_no_target(code, located, base))
                continue
            entries[code] = lay(below, located, code)
        elif below is not None:
            message = (
                f"The base has an entry {code}. To change it, write only what changes and begin with 'format: {EDIT}'; "
                "for a condition of your own give the file another name."
            )
            faults.append(located.fault(("format",), message))
        else:
            own.add(code)
            entries[code] = located
    touched = frozenset(own | {edit.target for edit in edits if edit.target in base.entries})
    files = replace(base, lists=lists, entries=entries, criteria=criteria)
    changed = Files(
        base.root,
        {name: located for name, located in lists.items() if located is not base.lists.get(name)},
        {code: located for code, located in entries.items() if located is not base.entries.get(code)},
        {name: located for name, located in criteria.items() if located is not base.criteria.get(name)},
        {},
    )
    if not faults:
        faults += file_faults(changed)
    if not faults:  # only of what is well formed can it be said whether it goes too far
        for code in sorted(touched - own):
            faults += bound_faults(base.entries[code], entries[code])
    made = (tuple(sorted(set(faults))), tuple(sorted(set(notices))))
    return Layers(files, base, firm, settings, tuple(edits), frozenset(own), touched, *made)


def _is_edit(located: Located, faults: list[Fault], name: str) -> bool:
    if located.value.get("format") == EDIT:
        return True
    message = f"A firm's {name}.yaml holds only what it changes; it begins with 'format: {EDIT}'."
    faults.append(located.fault(("format",), message))
    return False


def _no_target(code: str, located: Located, base: Files) -> Fault:
    message = f"The base has no entry {code}, so there is nothing to edit.{did_you_mean(code, base.entries)}"
    more = " If it was there before, 'narrator check' with the firm's folder says where it went."
    return Fault(Pos(located.path, 1, 1), "", message + more)


def firm_fingerprint(firm: FirmFiles) -> str:
    """A short digest of what the firm's files say, whatever their layout, comments or order of keys."""
    said: dict[str, Any] = {"firm": firm.settings.value, "lists": {}, "criteria": {}, "entries": {}}
    for part in ("lists", "criteria", "entries"):
        said[part] = {name: located.value for name, located in getattr(firm, part).items()}
    text = json.dumps(said, ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def firm_document(layers: Layers) -> dict[str, Any]:
    """What the index keeps of a firm: its settings, its fingerprint, and which keys it edits, where."""
    edited: dict[str, list[list[Any]]] = {}
    for edit in layers.edits:
        pos = edit.located.pos(edit.spot)
        edited.setdefault(edit.target, []).append([edit.name.split(":", 1)[1], pos.path, pos.line])
    own = {code: layers.firm.entries[code].path for code in sorted(layers.own)}
    return {**layers.settings, "fingerprint": firm_fingerprint(layers.firm), "edits": edited, "own": own}
