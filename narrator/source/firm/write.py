"""Changing a YAML file in place: one value set, added or taken out, every comment and every other line as it was.

Each function gives the whole new text, read again and found to say what was asked for; it writes nothing. Whoever brings
wording from elsewhere uses `set_value` for an edit, and `edit_text` and `entry_text` of `emit` for new files.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import Any, NamedTuple

import yaml

from narrator.errors import NarratorError, stop
from narrator.source.firm.edits import WORDINGS
from narrator.source.firm.emit import item_text, pair, value_text
from narrator.source.positions import Key, load

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def set_value(text: str, key: tuple[str, ...], value: Any, path: str) -> str:
    """The file's text with a value set: `("severity",)`, or `("observation", "measured", "text")` for a wording by its name.

    What is not there yet is added at the end of what holds it. Raises NarratorError when the file cannot be changed so.
    """
    located = load(text, path)
    spot, rest = _spot(located.value, key)
    made = _replaced(text, spot, value) if not rest else _added(text, spot, rest, value)
    return _proved(made, path, key, value)


def without(text: str, spot: Key, path: str) -> str:
    """The file's text without what stands at a path; what would be left empty goes with it, comments stay."""
    value = load(text, path).value
    while len(spot) > 1 and len(_at(value, spot[:-1])) - _names(_at(value, spot[:-1])) <= 1:
        spot = spot[:-1]
    flow = _flow_parent(text, spot)
    if flow is not None:
        holder = _at(value, flow)
        inner = _at(holder, spot[len(flow) : -1])
        del inner[spot[-1]]  # a copy that was just read
        made = _replaced(text, flow, holder)
    else:
        first, last = _region(text, spot)
        lines = text.splitlines(keepends=True)
        if isinstance(spot[-1], str) and lines[first].lstrip().startswith("- "):
            # The first key of a list's item stands behind its mark: the next key moves up to it.
            mark = len(lines[first]) - len(lines[first].lstrip())
            moved = lines[last] if last < len(lines) else ""
            lines[last : last + 1] = [lines[first][: mark + 2] + moved.lstrip()] if moved else []
        made = "".join([*lines[:first], *lines[last:]])
    _readable(made, path)
    return made


def _names(holder: Any) -> int:
    """How many keys of a wording only name it and change nothing."""
    return int(isinstance(holder, dict) and ("name" in holder or "id" in holder))


def _at(value: Any, spot: Key) -> Any:
    for part in spot:
        value = value[part]
    return value


def _spot(value: Any, key: tuple[str, ...]) -> tuple[Key, tuple[str, ...]]:
    """The path in the file as far as it goes, and the names that are not there yet."""
    spot: Key = ()
    for number, name in enumerate(key):
        if isinstance(value, dict) and name in value:
            value, spot = value[name], (*spot, name)
        elif isinstance(value, list):
            found = [
                at
                for at, item in enumerate(value)
                if isinstance(item, dict) and name in (item.get("name", ""), item.get("id"))
            ]
            if not found:
                return spot, key[number:]
            value, spot = value[found[0]], (*spot, found[0])
        else:
            return spot, key[number:]
    return spot, ()


class _Node(NamedTuple):
    start: int
    end: int
    block: bool
    flow: bool
    scalar: bool


def _node(text: str, spot: Key) -> _Node:
    loader = _LOADER(text)
    try:
        node = loader.get_single_node()
    finally:
        loader.dispose()
    for part in spot:
        children = node.value if isinstance(part, int) else {name.value: child for name, child in node.value}
        node = children[part]
    scalar = isinstance(node, yaml.ScalarNode)
    starts = _offsets(text)
    start = starts[node.start_mark.line] + node.start_mark.column
    end = (starts[node.end_mark.line] if node.end_mark.line < len(starts) else len(text)) + node.end_mark.column
    return _Node(start, end, scalar and node.style in ("|", ">"), bool(getattr(node, "flow_style", False)), scalar)


def _offsets(text: str) -> list[int]:
    out = [0]
    for line in text.splitlines(keepends=True):
        out.append(out[-1] + len(line))
    return out


def _flow_parent(text: str, spot: Key) -> Key | None:
    """The outermost `{..}` or `[..]` that a path stands in."""
    for length in range(1, len(spot)):
        if _node(text, spot[:length]).flow:
            return spot[:length]
    return None


def _region(text: str, spot: Key) -> tuple[int, int]:
    """The lines (from 0, end excluded) of what stands at a path in block style; comments behind it are not in it."""
    located = load(text, "")
    lines = text.splitlines()
    first = located.places[spot][0] - 1
    after = [line - 1 for key, (line, _) in located.places.items() if key[: len(spot)] != spot and line - 1 > first]
    last = min(after, default=len(lines))
    inside = located.places[spot][1] - 1
    block = _holds_block(lines[first:last])
    while last > first + 1:
        line = lines[last - 1]
        deep = len(line) - len(line.lstrip()) > inside
        if line.strip() and not (line.lstrip().startswith("#") and not (block and deep)):
            break
        last -= 1
    return first, last


def _holds_block(lines: Sequence[str]) -> bool:
    return any(line.split(" #")[0].rstrip().endswith(("|", ">", "|-", ">-", "|+", ">+")) for line in lines)


def _replaced(text: str, spot: Key, value: Any) -> str:
    flow = _flow_parent(text, spot)
    if flow is not None:
        holder = _at(load(text, "").value, flow)
        inner = _at(holder, spot[len(flow) : -1])
        inner[spot[-1]] = value  # a copy that was just read
        return _replaced(text, flow, holder)
    node = _node(text, spot)
    indent = _indent(text, spot)
    if not node.scalar and not node.flow:
        first, last = _region(text, spot)
        lines = text.splitlines(keepends=True)
        made = pair(str(spot[-1]), value, indent)
        return "".join([*lines[:first], made, *lines[last:]])
    written = value_text(value, indent)
    if node.block:
        first, last = _region(text, spot)
        lines = text.splitlines(keepends=True)
        column = node.start - _offsets(text)[first]
        head, body = lines[first][:column], written.split("\n", 1)
        comment = lines[first][column:].partition(" #")
        tail = f" #{comment[2].rstrip()}" if comment[1] else ""
        return "".join([*lines[:first], head + body[0] + tail + "\n", *body[1:], *lines[last:]])
    end = node.start + len(text[node.start : node.end].rstrip(" \t\r\n"))
    line_end = text.find("\n", end)
    line_end = len(text) if line_end < 0 else line_end
    if "\n" in written:
        first_line, body_text = written.split("\n", 1)
        rest = text[end:line_end]
        return text[: node.start] + first_line + rest + "\n" + body_text.rstrip("\n") + text[line_end:]
    return text[: node.start] + written + text[end:]


def _indent(text: str, spot: Key) -> int:
    """The column at which the key of a path stands."""
    keyed = spot if isinstance(spot[-1], str) else spot[:-1]
    return load(text, "").places[keyed][1] - 1


def _added(text: str, spot: Key, rest: tuple[str, ...], value: Any) -> str:
    """A key, or an item of a list, behind the last one of what holds it."""
    text = text if text.endswith("\n") or not text else text + "\n"
    located = load(text, "")
    holder = _at(located.value, spot) if spot else located.value
    wanted = _nested(rest, value, isinstance(holder, list), spot)
    if spot and (_flow_parent(text, spot) is not None or _node(text, spot).flow):
        grown = [*holder, wanted] if isinstance(holder, list) else {**holder, **wanted}
        return _replaced(text, spot, grown)
    lines = text.splitlines(keepends=True)
    if not spot:
        return text + "".join(pair(key, one, 0) for key, one in wanted.items())
    _, last = _region(text, spot)
    if isinstance(holder, list):
        first = located.places[(*spot, 0)][1] - 3
        made = textwrap.indent(item_text(wanted), " " * max(first, 0))
    else:
        inner = min(column for key, (_, column) in located.places.items() if key[:-1] == spot) - 1
        made = "".join(pair(key, one, inner) for key, one in wanted.items())
    return "".join([*lines[:last], made, *lines[last:]])


def _nested(rest: tuple[str, ...], value: Any, in_list: bool, spot: Key) -> Any:
    """What is to be added, from its first missing name inwards."""
    if in_list:
        label = "name" if spot and spot[0] in WORDINGS else "id"
        return {
            **({label: rest[0]} if rest[0] else {}),
            **(_nested(rest[1:], value, False, spot) if len(rest) > 1 else value),
        }
    if len(rest) == 1:
        return {rest[0]: value}
    if rest[0].rstrip("+") in WORDINGS:
        return {rest[0]: [{"name": rest[1], rest[2]: value}]}
    return {rest[0]: _nested(rest[1:], value, False, (*spot, rest[0]))}


def _readable(text: str, path: str) -> None:
    if text.strip():
        load(text, path)


def _proved(text: str, path: str, key: tuple[str, ...], value: Any) -> str:
    """The text, if it reads back as what was asked for; else a fault, and nothing is written."""
    try:
        found = load(text, path).value
        spot, rest = _spot(found, key)
        same = not rest and _folded(_at(found, spot)) == _folded(value)
    except NarratorError:
        same = False
    if not same:
        raise stop(
            path, f"'{'.'.join(key)}' could not be written into this file as it stands. Write it by hand: {value}"
        )
    return text


def _folded(value: Any) -> Any:
    if isinstance(value, str):
        return " ".join(value.split())
    if isinstance(value, dict):
        return {key: _folded(one) for key, one in value.items()}
    return [_folded(one) for one in value] if isinstance(value, list) else value
