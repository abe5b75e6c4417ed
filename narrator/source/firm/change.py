"""One entry changed for the firm: the new text of its file, checked before anything is written."""

from __future__ import annotations

from typing import Any, NamedTuple

from narrator.errors import NarratorError
from narrator.source.firm.check import wording_of
from narrator.source.firm.emit import edit_text
from narrator.source.firm.layers import Layers, layers_of, read_firm
from narrator.source.firm.lock import EMPTY, canonical, lock_text, read_lock
from narrator.source.firm.moved import remembered
from narrator.source.firm.sheet import FIELDS, changes
from narrator.source.firm.write import set_value, without
from narrator.source.library import LIBRARY_VERSION
from narrator.source.positions import Key, load

SHEET = "your text"


class Change(NamedTuple):
    """The file to write, as shown (empty text: it goes), the lock if it changes, and which keys the file now says otherwise."""

    shown: str
    text: str
    lock: str | None
    keys: tuple[str, ...]


def shown_entry(layers: Layers, code: str) -> dict[str, Any]:
    """The keys of an entry that people change in an editor, with the firm's edits in them."""
    value = layers.files.entries[code].value
    return {field: value[field] for field in FIELDS}


def changed_file(layers: Layers, code: str, text: str) -> Change | None:
    """What an edited sheet makes of the firm's file; None when it says nothing new. Raises NarratorError with every fault."""
    found = changes(text, shown_entry(layers, code), SHEET)
    if not found:
        return None
    firm = layers.firm
    shown = firm.entries[code].path if code in firm.entries else f"firm/entries/{code.replace('.', '/')}.yaml"
    made = "\n".join(firm.entries[code].lines) if code in firm.entries else edit_text({})
    base = layers.base.entries[code].value if code not in layers.own else {}
    new = {key: said for key, said in found.items()}
    for field in dict.fromkeys(key[0] for key in found):
        made, more = _unsigned(made, field, layers, code, shown)
        new = {**more, **new}
    for key, said in new.items():
        spot = _spot(load(made, shown).value, key)
        if base and spot is not None and canonical(_of(base, key)) == canonical(said):
            made = without(made, spot, shown)  # it says again what the base says
        elif not base or canonical(_of(base, key)) != canonical(said):
            made = set_value(made, key, said, shown)
    if not [line for line in made.splitlines() if line.strip() and not line.startswith(("#", "format:"))]:
        made = ""
    after = layers_of(layers.base, read_firm(firm.root, {shown: made}))
    wrong = [] if after.faults else wording_of(after, frozenset({code})).faults
    faults = [*after.faults, *(fault for fault in wrong if fault.pos.path == shown)]
    if faults:
        raise NarratorError(faults)
    before = read_lock(firm.root)
    lock = remembered(after, before or EMPTY, LIBRARY_VERSION)
    keys = tuple(".".join(key[:2]) for key in found)
    return Change(shown, made, lock_text(lock) if lock != before and after.edits else None, keys)


def _unsigned(made: str, field: str, layers: Layers, code: str, shown: str) -> tuple[str, dict[tuple[str, ...], str]]:
    """The file without a sentence that it adds to this field, and all texts of the field as they stand with it."""
    signed = f"{field}+"
    value = load(made, shown).value
    if code in layers.own or not isinstance(value.get(signed), str):
        return made, {}
    now = layers.files.entries[code].value[field]
    if isinstance(now, str):
        return without(made, (signed,), shown), {(field,): " ".join(now.split())}
    texts: dict[tuple[str, ...], str] = {
        (field, str(item.get("name", "")), "text"): " ".join(item["text"].split()) for item in now
    }
    return without(made, (signed,), shown), texts


def _of(entry: Any, key: tuple[str, ...]) -> Any:
    """What an entry says at a key path, by the names of its wordings; None where it says nothing."""
    value = entry.get(key[0])
    if len(key) == 1 or not isinstance(value, list):
        return value if len(key) == 1 else None
    return next((item["text"] for item in value if str(item.get("name", "")) == key[1]), None)


def _spot(value: Any, key: tuple[str, ...]) -> Key | None:
    """Where the firm's file says it, if it does."""
    held = value.get(key[0])
    if len(key) == 1:
        return (key[0],) if held is not None else None
    names = [str(item.get("name", "")) for item in held] if isinstance(held, list) else []
    return (key[0], names.index(key[1]), "text") if key[1] in names else None
