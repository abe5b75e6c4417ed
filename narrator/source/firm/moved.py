"""What moved in the base since the firm's edits were locked: reworded, retired, renamed, and what changed around them."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from narrator.errors import Fault, Pos, did_you_mean
from narrator.source.check.texts import sentences
from narrator.source.firm.edits import WORDINGS, Edit
from narrator.source.firm.layers import Layers
from narrator.source.firm.lock import Item, Lock, canonical, item_of, mark_of
from narrator.source.library import Files

COLUMN = 46
_VALUE = re.compile(r"\{\{ (.*?) \}\}")
_WORD = re.compile(r"[a-z]{4,}")


class Moved(NamedTuple):
    """What the lock and today's base say of each other. `soft`: the list that a firm adds to or takes from changed."""

    changed: tuple[tuple[Edit, Item], ...]
    soft: tuple[tuple[Edit, Item], ...]
    new: tuple[Edit, ...]
    gone: tuple[Fault, ...]
    around: tuple[tuple[str, tuple[str, ...]], ...]


def moved_on(layers: Layers, lock: Lock) -> Moved:
    """The edits whose base is not what it was when they were locked."""
    changed: list[tuple[Edit, Item]] = []
    soft: list[tuple[Edit, Item]] = []
    new: list[Edit] = []
    for edit in layers.edits:
        item = lock.items.get(edit.name)
        if item is None:
            new.append(edit)
        elif item.mark != mark_of(edit.base):
            adds = bool(edit.sign) and not isinstance(edit.base, str) and edit.key[0] not in WORDINGS
            (soft if adds else changed).append((edit, item))
    around = []
    for target in sorted({edit.target for edit in layers.edits} & set(lock.around)):
        old, now = lock.around[target], around_of(layers, target)
        edited = {edit.key[0] for edit in layers.edits if edit.target == target}
        keys = sorted(key for key in {*old, *now} - edited if old.get(key) != now.get(key))
        if keys:
            around.append((target, tuple(keys)))
    return Moved(tuple(changed), tuple(soft), tuple(new), tuple(_gone(layers, lock)), tuple(around))


def around_of(layers: Layers, target: str) -> dict[str, str]:
    """A fingerprint for each key of a base entry; nothing for shared lists, which are many things."""
    located = layers.base.entries.get(target)
    if located is None:
        return {}
    return {key: mark_of(value) for key, value in located.value.items() if key not in ("format", "cases")}


def remembered(layers: Layers, lock: Lock, version: str) -> Lock:
    """The lock with an item for each edit that it does not have yet, by today's base."""
    items = {**{edit.name: item_of(edit.base) for edit in layers.edits}, **lock.items}
    targets = sorted({edit.target for edit in layers.edits})
    around = {**{target: around_of(layers, target) for target in targets}, **lock.around}
    return Lock(lock.library or version, items, around)


def _gone(layers: Layers, lock: Lock) -> Iterator[Fault]:
    """Edits whose target is not in the base any more, or is retired there: where it went."""
    here = {edit.name for edit in layers.edits}
    for target, located in layers.firm.entries.items():
        below = layers.base.entries.get(target)
        if below is not None and "replaced_by" in below.value and target not in layers.own:
            other = below.value["replaced_by"]
            message = (
                f"The base has retired {target}; '{other}' takes its place. Move your file there if it still fits."
            )
            yield Fault(Pos(located.path, 1, 1), "", message)
    for name, item in lock.items.items():
        target, _, path = name.partition(":")
        firm = layers.firm.entries.get(target)
        if name in here or firm is None or target in layers.own:
            continue
        field = path.rstrip("+-").split(".")[0]
        if target not in layers.base.entries:
            where = _same_elsewhere(layers.base, field, item)
            hint = f" Its {field} stands now in {where}." if where else did_you_mean(target, layers.base.entries)
            message = f"The base has no {target} any more; your edit of {path} has lost its target.{hint}"
            yield Fault(Pos(firm.path, 1, 1), path, f"{message} The base said: {_short(item.base)}")
        elif _still_edited(firm.value, field):
            named = _same_wording(layers.base.entries[target].value.get(field), item)
            hint = f" The same text is now called '{named}'." if named else ""
            message = f"The base has changed under your edit of {path}: what it edits is not there any more.{hint}"
            yield Fault(firm.pos((field,)), path, f"{message} The base said: {_short(item.base)}")


def _still_edited(value: Mapping[str, Any], field: str) -> bool:
    return any(field + sign in value for sign in ("", "+", "-"))


def _same_elsewhere(base: Files, field: str, item: Item) -> str | None:
    """The entry that says now what the locked one said."""
    wanted = item.base.get("text") if isinstance(item.base, dict) and "text" in item.base else item.base
    if not isinstance(wanted, str):
        return None
    for code, located in base.entries.items():
        if any(text == wanted for _, text in _texts(located.value.get(field))):
            return code
    return None


def _same_wording(value: Any, item: Item) -> str | None:
    wanted = item.base.get("text") if isinstance(item.base, dict) else None
    return next((name for name, text in _texts(value) if name and text == wanted), None)


def _texts(value: Any) -> list[tuple[str, Any]]:
    if isinstance(value, list):
        return [(str(one.get("name", "")), canonical(one.get("text"))) for one in value if isinstance(one, dict)]
    return [("", canonical(value))]


def side_by_side(edit: Edit, item: Item) -> str:
    """Old and new base beside each other, and what the firm's text leaves out of the new one."""
    old, new = _shown(item.base), _shown(canonical(edit.base))
    left, right = (textwrap.wrap(text, COLUMN) or ["(nothing)"] for text in (old, new))
    rows = [f"  {'the base said':<{COLUMN}}  it says now"]
    for number in range(max(len(left), len(right))):
        one, other = (part[number] if number < len(part) else "" for part in (left, right))
        rows.append(f"  {one:<{COLUMN}}  {other}".rstrip())
    missing = left_out(edit, item)
    if missing:
        rows.append(f"  Your text leaves out: {'; '.join(missing)}")
    return "\n".join(rows)


def left_out(edit: Edit, item: Item) -> list[str]:
    """What is new in the base and not said by the firm's text: values that print, then whole sentences."""
    base, was, ours = _shown(canonical(edit.base)), _shown(item.base), _shown(canonical(edit.text))
    if edit.sign or not isinstance(edit.text, str):
        return []
    out = [f"{{{{ {name} }}}}" for name in dict.fromkeys(_VALUE.findall(base)) if name not in _VALUE.findall(ours)]
    known = set(sentences(was))
    said = set(_WORD.findall(ours.lower()))
    for sentence in sentences(base):
        words = set(_WORD.findall(sentence.lower()))
        if sentence not in known and words and len(words & said) < 0.6 * len(words):
            out.append(f"'{sentence}'")
    return out


def _shown(value: Any) -> str:
    if isinstance(value, dict) and "text" in value:
        when = ", ".join(f"{key}: {one}" for key, one in (value.get("when") or {}).items())
        return f"{value['text']}{f' (when {when})' if when else ''}"
    if isinstance(value, list):
        return "; ".join(_shown(one) for one in value)
    if isinstance(value, dict):
        return "; ".join(f"{key}: {_shown(one)}" for key, one in value.items())
    return str(value)


def _short(value: Any) -> str:
    text = _shown(value)
    return f"'{text[:120]}{'...' if len(text) > 120 else ''}'"
