"""Edits of one file, laid over the base: a bare key replaces, `key+` adds, `key-` takes away.

Items of a list that have an `id` (trades, figures) or a `name` (wordings) are found by it. Every fault has its place in
the firm's file, and nothing is guessed: a target that does not exist is an error.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from narrator.errors import Fault, did_you_mean
from narrator.source.layered import Layered, Seam
from narrator.source.positions import Key, Located

# Texts of an entry that may come as named wordings.
WORDINGS = ("title", "observation", "implication", "recommendation")
# Keys that an entry may lack and a firm may give. Anything else that is not in the base is a slip.
OPTIONAL: Mapping[str, frozenset[str]] = {
    "": frozenset(
        {
            "ask",
            "danger",
            "intrusive",
            "basis",
            "raise",
            "measures",
            "leads_to",
            "limits",
            "replaced_by",
            "call",
            "room",
        }
    ),
    "trade": frozenset({"with"}),
    "measures": frozenset({"criterion", "label", "also", "context", "series", "open", "typical", "hold"}),
    "variant": frozenset({"when"}),
    "row": frozenset({"spread", "doubtful", "existing", "instrument", "inclusive", "note", "fraction", "naics", "who"}),
}


class Edit(NamedTuple):
    """One edit. `target` is the entry's code or the list's name, `key` the path in it, by names; `sign` '', '+' or '-'.

    `base`: what the base says there (None: nothing), `text`: what the firm says, at `spot` of `located`.
    """

    target: str
    key: tuple[str, ...]
    sign: str
    base: Any
    text: Any
    located: Located
    spot: Key

    @property
    def name(self) -> str:
        """`walls.stucco.no-roof-gap:observation.measured`, as people type it after `--keep`."""
        key = self.key[:-1] if len(self.key) > 2 and self.key[-1] == "text" else self.key
        return f"{self.target}:{'.'.join(key)}{self.sign}"


class Laid(NamedTuple):
    """What came of laying edits over a file."""

    located: Layered
    edits: tuple[Edit, ...]
    faults: tuple[Fault, ...]
    notices: tuple[Fault, ...]


class _Work(NamedTuple):
    """What is gathered while one file is laid over another."""

    target: str
    base: Located
    edit: Located
    edits: list[Edit]
    faults: list[Fault]
    notices: list[Fault]
    origins: dict[Key, tuple[Located, Key]]
    seams: dict[Key, Seam]


class _At(NamedTuple):
    """Where the work is: names for people, path in the merged value, path in the edit, path in the base, and what that says."""

    names: tuple[str, ...]
    merged: Key
    spot: Key
    base: Key
    was: Any = None

    def down(self, name: str, spot: str | int | None = None) -> _At:
        raw = name if spot is None else spot
        return _At((*self.names, name), (*self.merged, name), (*self.spot, raw), (*self.base, name))


def lay_over(base: Located, edit: Located, target: str) -> Laid:
    """The base file with the edits of the firm's file in it; `format` is no edit."""
    work = _Work(target, base, edit, [], [], [], {}, {})
    wanted = {key: value for key, value in edit.value.items() if key != "format"}
    value = _mapping(work, base.value, wanted, _At((), (), (), ()))
    made = Layered(base.path, value, base.places, base.lines, {(): (base, ()), **work.origins}, work.seams)
    return Laid(made, tuple(work.edits), tuple(work.faults), tuple(work.notices))


def _mapping(work: _Work, base: Mapping[str, Any], edit: Mapping[str, Any], at: _At) -> dict[str, Any]:
    merged = dict(base)
    seen: dict[str, str] = {}
    known = _optional(at.names)
    for raw, value in sorted(edit.items(), key=lambda item: _ORDER.get(item[0][-1:], 0)):
        name, sign = (raw[:-1], raw[-1]) if raw[-1:] in _ORDER else (raw, "")
        here = at.down(name, raw)
        if name in seen and not _apart(edit[seen[name]], value, bool(seen[name][-1:] in _ORDER)):
            line = work.edit.pos((*at.spot, seen[name])).line
            message = f"'{name}' is edited twice (first on line {line}, as '{seen[name]}'). Keep one edit of a key."
            work.faults.append(work.edit.fault(here.spot, message))
            continue
        seen[name] = raw
        if name not in base and name not in known:
            what = "key" if not at.names else f"key of {'.'.join(at.names)}"
            choices = sorted({*base, *known} - {"format", "since"})
            message = f"'{name}' is not a {what} in the base, so there is nothing to edit.{did_you_mean(name, choices)}"
            work.faults.append(work.edit.fault(here.spot, f"{message} Known here: {', '.join(choices[:16])}."))
            continue
        step = {"": _replace, "+": _add, "-": _take}[sign]
        merged[name] = step(work, merged.get(name), value, here._replace(was=base.get(name)))
        if (merged[name] is None and base.get(name) is None) or (sign == "-" and not merged[name] and name in known):
            del merged[name]  # nothing is left of what an entry need not have
    return merged


_ORDER = {"-": 1, "+": 2}  # what is reworded is found by its name before anything is taken away or added


def _apart(first: Any, second: Any, signed: bool) -> bool:
    """Whether two edits of one key speak of different items: wordings by name, or a list's `-` and `+`."""
    if isinstance(first, dict):
        return isinstance(second, dict | list)
    return isinstance(first, list) and isinstance(second, list) and (signed or bool(_label(first)))


def _optional(names: tuple[str, ...]) -> frozenset[str]:
    if not names:
        return OPTIONAL[""]
    if names[0] in WORDINGS:
        return OPTIONAL["variant"]
    if names[0] in ("criteria", "trades", "ask"):
        return OPTIONAL["row"]
    return OPTIONAL.get(names[0], frozenset()) if len(names) == (2 if names[0] == "measures" else 1) else frozenset()


def _note(work: _Work, at: _At, sign: str, base: Any, value: Any) -> None:
    work.edits.append(Edit(work.target, at.names, sign, base, value, work.edit, at.spot))


def _replace(work: _Work, base: Any, value: Any, at: _At) -> Any:
    if isinstance(base, dict) and isinstance(value, dict):
        return _mapping(work, base, value, at)
    label = _label(base)
    if label and _label(value) == label and isinstance(value, list):
        return _items(work, base, value, at, label)
    if value is None:
        message = f"Nothing stands after '{at.spot[-1]}:'. Write what it shall be, or take the line out."
        work.faults.append(work.edit.fault(at.spot, message))
        return base
    _note(work, at, "", at.was, value)
    work.origins[at.merged] = (work.edit, at.spot)
    return value


def _label(value: Any) -> str:
    """What the items of a list are found by: `id`, `name`, or nothing."""
    if not isinstance(value, list) or not value or not all(isinstance(item, dict) for item in value):
        return ""
    if all("id" in item for item in value):
        return "id"
    return (
        "name"
        if any("name" in item for item in value) and all("text" in i or "text+" in i or "when" in i for i in value)
        else ""
    )


def _named(items: Sequence[Any], label: str) -> list[str]:
    return [str(item.get(label, "")) if isinstance(item, dict) else "" for item in items]


def _items(work: _Work, base: list[Any], value: list[Any], at: _At, label: str) -> list[Any]:
    """Items of the firm's list laid over those of the same name; the others stay."""
    names = _named(base, label)
    out = list(base)
    first: dict[str, int] = {}
    for number, (item, name) in enumerate(zip(value, _named(value, label), strict=True)):
        spot: Key = (*at.spot, number)
        if name in first:
            line = work.edit.pos((*at.spot, first[name])).line
            message = f"'{name}' is edited twice (first on line {line}). Keep one edit of it."
            work.faults.append(work.edit.fault((*spot, label), message))
            continue
        first[name] = number
        if name not in names:
            known = ", ".join(filter(None, names))
            said = f"'{name}' is not {'a wording' if label == 'name' else 'one'} of {'.'.join(at.names)} in the base."
            add = f" A new one stands under '{at.names[-1]}+:'."
            message = f"{said}{did_you_mean(name, names)} Known here: {known or 'none has a name'}.{add}"
            work.faults.append(work.edit.fault((*spot, label), message))
            continue
        index = names.index(name)
        here = _At((*at.names, name), (*at.merged, index), spot, (*at.base, index))
        start = len(work.edits)
        out[index] = _mapping(work, base[index], {key: one for key, one in item.items() if key != label}, here)
        if label == "name":  # a text is bound to the case it is for: when that changes, the text is to be looked at
            when = base[index].get("when", {})
            for offset, edit in enumerate(work.edits[start:], start):
                if edit.key[-1] == "text":
                    work.edits[offset] = edit._replace(base={"when": when, "text": edit.base})
    return out


def _add(work: _Work, base: Any, value: Any, at: _At) -> Any:
    wording = at.names[0] in WORDINGS and len(at.names) == 1
    if isinstance(value, str) and (isinstance(base, str) or (wording and isinstance(base, list))):
        _note(work, at, "+", at.was, value)
        if isinstance(base, str):
            return _appended(work, base, value, at.merged, at.spot)
        return [
            {**item, "text": _appended(work, item["text"], value, (*at.merged, number, "text"), at.spot)}
            for number, item in enumerate(base)
        ]
    if isinstance(base, dict) and isinstance(value, dict):
        for name in value:
            if name in base:
                message = f"'{name}' stands in the base already. To change it, write it under '{at.names[-1]}:'."
                work.faults.append(work.edit.fault((*at.spot, name), message))
            else:
                work.origins[(*at.merged, name)] = (work.edit, (*at.spot, name))
                _note(work, _At((*at.names, name), (*at.merged, name), (*at.spot, name), ()), "+", None, value[name])
        return {**base, **{name: one for name, one in value.items() if name not in base}}
    if (base is None or isinstance(base, list)) and isinstance(value, list):
        return _more(work, base or [], value, at, wording)
    if base is None:
        return _replace(work, base, value, at)
    kind = "a sentence" if isinstance(base, str) else "a list" if isinstance(base, list) else "keys and values"
    work.faults.append(work.edit.fault(at.spot, f"'{at.spot[-1]}' adds {kind} here; this is something else."))
    return base


def _appended(work: _Work, base: Any, value: str, merged: Key, spot: Key) -> str:
    """A text with a sentence more, which keeps its own place."""
    before = str(base).rstrip()
    pos = work.edit.pos(spot)
    at = work.edit.lines[pos.line - 1] if pos.line <= len(work.edit.lines) else ""
    block = at.rstrip().endswith(("|", ">", "|-", ">-"))
    work.seams[merged] = Seam(before, pos._replace(line=pos.line + 1) if block else pos)
    return f"{before} {value.strip()}"


def _more(work: _Work, base: list[Any], value: list[Any], at: _At, wording: bool) -> list[Any]:
    """A list with the firm's items: wordings before the base's (the first that holds wins), all others behind."""
    label = _label(value)
    have = _named(base, label) if label else []
    new: list[Any] = []
    spots: list[Key] = []
    for number, item in enumerate(value):
        spot: Key = (*at.spot, number)
        name = str(item.get(label, "")) if label else ""
        if name and name in have:
            message = f"'{name}' stands in the base already. To change it, write it under '{at.names[-1]}:'."
            work.faults.append(work.edit.fault((*spot, label), message))
        elif not label and item in (*base, *new):
            message = f"'{item}' stands there already; the line can go."
            work.notices.append(work.edit.fault(spot, message))
        else:
            new.append(item)
            spots.append(spot)
    _note(work, at, "+", at.was, value)
    if not base and not wording:
        work.origins[at.merged] = (work.edit, at.spot)
    before = len(new) if wording else 0
    _shift(work, at, {number: number + before for number in range(len(base))})
    for number, spot in enumerate(spots, 0 if wording else len(base)):
        work.origins[(*at.merged, number)] = (work.edit, spot)
    return [*new, *base] if wording else [*base, *new]


def _take(work: _Work, base: Any, value: Any, at: _At) -> Any:
    wanted = value if isinstance(value, list) else [value]
    if not isinstance(base, list | dict):
        what = "a text; write the whole of it without the sign" if isinstance(base, str) else "nothing in the base"
        work.faults.append(
            work.edit.fault(at.spot, f"'{at.spot[-1]}' can take nothing away: '{at.names[-1]}' is {what}.")
        )
        return base
    label = _label(base) if isinstance(base, list) else ""
    have: list[Any] = list(base) if isinstance(base, dict) else _named(base, label) if label else base
    gone: list[Any] = []
    for number, item in enumerate(wanted):
        spot: Key = (*at.spot, number) if isinstance(value, list) else at.spot
        if item not in have:
            known = [str(one) for one in have]
            message = f"'{item}' is not in '{at.names[-1]}' of the base, so it cannot be taken away."
            work.faults.append(work.edit.fault(spot, f"{message}{did_you_mean(str(item), known)}"))
        else:
            gone.append(item)
    if isinstance(base, dict):
        _note(work, at, "-", {name: base[name] for name in gone}, value)
        return {name: item for name, item in base.items() if name not in gone}
    kept = [number for number, name in enumerate(have) if name not in gone]
    _note(work, at, "-", [base[number] for number, name in enumerate(have) if name in gone], value)
    _shift(work, at, {old: number for number, old in enumerate(kept)})
    return [base[number] for number in kept]


def _shift(work: _Work, at: _At, moved: Mapping[int, int]) -> None:
    """The places of a list's items after some came before them or went: `moved` says the new number of each that stays."""
    size = len(at.merged)
    tables: tuple[dict[Key, Any], ...] = (work.origins, work.seams)
    for table in tables:
        inside = {key: table.pop(key) for key in list(table) if len(key) > size and key[:size] == at.merged}
        for key, home in inside.items():
            number = key[size]
            if isinstance(number, int) and number in moved:
                table[(*at.merged, moved[number], *key[size + 1 :])] = home
    for old, new in moved.items():
        work.origins.setdefault((*at.merged, new), (work.base, (*at.base, old)))
