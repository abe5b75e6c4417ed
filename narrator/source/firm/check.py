"""The check of a firm's folder: form, targets, wording, cases, then what moved in the base; and settling what moved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple

from narrator.errors import Fault, NarratorError, Pos, did_you_mean
from narrator.source.check.answers import answer_faults
from narrator.source.check.cases import case_faults
from narrator.source.check.duties import duty_faults
from narrator.source.check.files import file_faults
from narrator.source.check.lists import list_faults
from narrator.source.check.names import name_faults
from narrator.source.check.references import reference_faults
from narrator.source.check.stock import Stock, fault_at, stock_of
from narrator.source.check.texts import entry_texts, list_texts
from narrator.source.check.whens import when_faults
from narrator.source.check.wording import wording_faults
from narrator.source.firm.edits import Edit
from narrator.source.firm.folder import stray_files
from narrator.source.firm.layers import Layers, layers_of, read_firm
from narrator.source.firm.lock import EMPTY, Lock, item_of, lock_text, read_lock
from narrator.source.firm.moved import Moved, around_of, moved_on, remembered, side_by_side
from narrator.source.library import LIBRARY_VERSION, Files, read_files

# What a firm's own wording is held to. Two of its texts may be alike: one voice is what a firm is for.
_OF_THE_FIRM = (reference_faults, when_faults, wording_faults, duty_faults, case_faults)
# What stands between the files: a word or name of the firm can be at odds with one of the base, and either may be named.
_OF_ALL = (list_faults, name_faults, answer_faults)


@dataclass(frozen=True, slots=True)
class FirmCheck:
    """What came of it. `lock`: the text to write, None where it stays. `files`: a firm's files as settling leaves them."""

    faults: tuple[Fault, ...]
    notices: tuple[Fault, ...]
    said: tuple[str, ...]
    lock: str | None
    files: Mapping[str, str]
    edits: int
    own: int


def base_files(root: Path) -> Files:
    """The files of the library below; raises NarratorError when it has faults of form."""
    files = read_files(root)
    faults = file_faults(files)
    if faults:
        raise NarratorError(faults)
    return files


def check_firm(base: Files, root: Path, keep: Sequence[str] = (), take: Sequence[str] = ()) -> FirmCheck:
    """Check a firm's folder over a base, after settling the edits named by `keep` and `take` (`CODE` or `CODE:key`)."""
    from narrator.source.firm.settle import taken

    try:
        lock = read_lock(root)
        altered: tuple[Fault, ...] = ()
    except NarratorError as error:
        lock, altered = None, error.faults
        if keep or take:
            raise
    try:
        firm = read_firm(root)
    except NarratorError as error:
        return FirmCheck((*error.faults, *altered), (), (), None, {}, 0, 0)
    said: list[str] = []
    files: dict[str, str] = {}
    layers = layers_of(base, firm)
    if take:
        chosen, lost = _named(layers, lock or EMPTY, take)
        files, removed = taken(layers, chosen, lost)
        said += removed
        layers = layers_of(base, read_firm(root, files))
    kept = {edit.name for edit in _named(layers, lock or EMPTY, keep)[0]}
    before = lock or EMPTY
    if kept:
        items = {**before.items, **{edit.name: item_of(edit.base) for edit in layers.edits if edit.name in kept}}
        targets = {edit.target for edit in layers.edits if edit.target in keep}
        around = {**before.around, **{target: around_of(layers, target) for target in sorted(targets)}}
        before = Lock(LIBRARY_VERSION, items, around)
        said += [f"Kept: {name}." for name in sorted(kept)]
    found = moved_on(layers, before)
    faults = [*altered, *layers.faults, *(found.gone if not altered else ())]
    notices = list(layers.notices)
    if not altered and lock is not None:
        faults += [_changed(edit, side_by_side(edit, item)) for edit, item in found.changed]
        notices += [_soft(edit) for edit, _ in found.soft]
        notices += [_around(layers, target, keys) for target, keys in found.around]
    notices += [Fault(Pos(f"firm/{path.relative_to(root).as_posix()}"), "", why) for path, why in stray_files(root)]
    if not layers.faults:
        worded = wording_of(layers)
        faults += worded.faults
        notices += worded.notices
    text = None if altered else _new_lock(layers, before, found, lock, said)
    return FirmCheck(
        tuple(sorted(set(faults))),
        tuple(sorted(set(notices))),
        tuple(said),
        text,
        files,
        len(layers.edits),
        len(layers.own),
    )


class Worded(NamedTuple):
    """What the checks of wording find: faults of the firm's, and what the base holds worth saying and the firm no longer says."""

    faults: tuple[Fault, ...]
    notices: tuple[Fault, ...]


def wording_of(layers: Layers, only: frozenset[str] | None = None) -> Worded:
    """What the firm says, held to the checks of the library; its banned phrases are looked for everywhere.

    `only`: look at these entries alone.
    """
    stock, faults = stock_of(layers.files, frozenset())
    wanted = layers.touched if only is None else only
    mine = replace(stock, entries={code: one for code, one in stock.entries.items() if code in wanted})
    found = list(faults)
    for check in _OF_THE_FIRM:
        found += check(mine)
    out = [fault for check in (_OF_ALL if only is None else ()) for fault in check(stock)]
    out += [fault for fault in found if fault.pos.path.startswith("firm/")]
    out += _banned(layers, stock if only is None else mine)
    cases = [fault for fault in found if fault.key.startswith("cases.") and not fault.pos.path.startswith("firm/")]
    return Worded(tuple(out), tuple(map(_of_the_base, cases)))


def _of_the_base(fault: Fault) -> Fault:
    """A case of the base that the firm's wording no longer meets."""
    return fault._replace(message=f"The base holds this worth saying; with your wording: {fault.message}")


def _banned(layers: Layers, stock: Stock) -> list[Fault]:
    """Banned phrases in any text that could print, the firm's own and the base's."""
    phrases = layers.settings.get("forbid", [])
    if not phrases:
        return []
    from narrator.compose.firm import banned

    pattern = banned(phrases)
    texts = [(code, *text) for code in stock.entries for text in entry_texts(stock, code)]
    texts += [("", *text) for text in list_texts(stock)]
    out: list[Fault] = []
    for code, located, key, text in texts:
        match = pattern.search(text)
        if match:
            mend = f" Reword it: narrator edit {code}" if code else ""
            out.append(
                fault_at(located, key, match.group(0).split()[0], f"'{match.group(0)}' is banned by firm.yaml.{mend}")
            )
    return out


def _named(layers: Layers, lock: Lock, wanted: Sequence[str]) -> tuple[list[Edit], list[str]]:
    """The edits that `CODE` or `CODE:key` names, and names in the lock whose target is lost. Raises NarratorError for none."""
    found: list[Edit] = []
    lost: list[str] = []
    for name in wanted:
        here = [edit for edit in layers.edits if _fits(edit.name, name)]
        gone = [item for item in lock.items if _fits(item, name) and item not in {edit.name for edit in layers.edits}]
        if not here and not gone:
            known = [*(edit.name for edit in layers.edits), *(edit.target for edit in layers.edits)]
            message = f"The firm has no edit called '{name}'.{did_you_mean(name, known)}"
            raise NarratorError([Fault(Pos(str(layers.firm.root)), "", message)])
        found += here
        lost += gone
    return found, lost


def _fits(name: str, wanted: str) -> bool:
    target, _, key = name.partition(":")
    plain = key.rstrip("+-")
    code, _, path = wanted.partition(":")
    return code == target and (not path or path in (key, plain) or plain.startswith(f"{path}."))


def _changed(edit: Edit, shown: str) -> Fault:
    how = f"Settle it: --keep {edit.name} (your text stays) or --take {edit.name} (the base's comes back)."
    return edit.located.fault(edit.spot, f"The base has changed here since you wrote this. {how}\n{shown}")


def _soft(edit: Edit) -> Fault:
    message = f"The base's list has changed; your change of it still holds. Seen: --keep {edit.name}"
    return edit.located.fault(edit.spot, message)


def _around(layers: Layers, target: str, keys: Sequence[str]) -> Fault:
    located = layers.firm.entries[target]
    message = f"Around your edits the base has changed {', '.join(keys)}. Seen: --keep {target}"
    return Fault(Pos(located.path, 1, 1), "", message)


def _new_lock(layers: Layers, before: Lock, found: Moved, lock: Lock | None, said: list[str]) -> str | None:
    """The lock as it is to be written, or None where nothing changes. While an edit is at fault no item is dropped."""
    made = remembered(layers, before, LIBRARY_VERSION)
    if not layers.faults and not found.gone:
        here = {edit.name for edit in layers.edits}
        targets = {edit.target for edit in layers.edits}
        made = made._replace(
            items={name: item for name, item in made.items.items() if name in here},
            around={target: keys for target, keys in made.around.items() if target in targets},
        )
    if lock is not None and made == lock:
        return None
    if not made.items and lock is None:
        return None
    if found.new:
        said.append(
            f"{'A new firm.lock remembers' if lock is None else 'firm.lock now remembers'} what the base says under "
            f"{len(found.new)} {'edit' if len(found.new) == 1 else 'edits'}."
        )
    return lock_text(made)
