"""YAML read once, with every value knowing its line and column.

The C loader composes nodes; they are walked into plain data and a table of places. Scalars follow YAML 1.2: `no`,
`12:30`, `3/8` and dates stay text. A duplicate key, an anchor, an alias or a tag is a fault.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import yaml

from narrator.errors import Fault, NarratorError, Pos, stop

Key = tuple[str | int, ...]

_INT = re.compile(r"[-+]?(0|[1-9][0-9]*)\Z")
# A point or an exponent makes a number of it: `007` stays text.
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+\.[0-9]*|[0-9]+(?=[eE]))([eE][-+]?[0-9]+)?\Z")
DEEPEST = 40
# What YAML counts as the end of a line.
_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
_WORDS: Mapping[str, Any] = {"true": True, "false": False, "null": None, "~": None, "": None}
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Located:
    """Plain data and where each part of it stands: `places` maps a key path to (line, column), both from 1."""

    path: str
    value: Any
    places: Mapping[Key, tuple[int, int]]
    lines: tuple[str, ...]

    def home(self, key: Key) -> tuple[Located, Key]:
        """The file that a key path stands in, and its path there: this one, unless a layer gives another."""
        return self, key

    def pos(self, key: Key) -> Pos:
        """The place of the nearest known part of a key path."""
        while key and key not in self.places:
            key = key[:-1]
        line, column = self.places.get(key, (1, 1))
        return Pos(self.path, line, column)

    def fault(self, key: Key, message: str) -> Fault:
        """A fault at a key path, with the line it stands on."""
        pos = self.pos(key)
        excerpt = self.lines[pos.line - 1].rstrip()[:200] if 0 < pos.line <= len(self.lines) else ""
        return Fault(pos, ".".join(str(part) for part in key)[:120], message, excerpt)


def scalar(text: str) -> Any:
    """A plain scalar of YAML 1.2's core schema, without octal, hex, infinity: text unless plainly something else."""
    lowered = text.lower() if len(text) < 6 else text
    if lowered in _WORDS:
        return _WORDS[lowered]
    if _INT.match(text):
        return int(text) if len(text) < 19 else text
    if _FLOAT.match(text):
        return float(text)
    return text


def load(text: str, path: str, read: Callable[[str], Any] = scalar) -> Located:
    """Text of one YAML document as `Located`, with every fault at once. `read` reads plain scalars."""
    faults: list[Fault] = []
    lines = tuple(_BREAK.split(text))
    places: dict[Key, tuple[int, int]] = {}
    try:
        loader = _LOADER(text)
        try:
            node = loader.get_single_node()
        finally:
            loader.dispose()
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        excerpt = lines[line - 1].rstrip()[:200] if line <= len(lines) else ""
        problem = (error.problem or "the text cannot be read").strip()
        message = f"This is not YAML: {problem}. Check the indent, the colon and the quotes here."
        raise NarratorError([Fault(Pos(path, line, column), "", message, excerpt)]) from None
    except yaml.reader.ReaderError as error:
        sign = chr(error.character)
        before = _BREAK.split(text[: text.find(sign)])
        message = f"The sign #x{error.character:04x} cannot stand in YAML. Take it out."
        raise stop(path, message, len(before), len(before[-1]) + 1) from None
    except yaml.YAMLError as error:
        message = str(error).splitlines()[0]
        raise stop(path, f"This is not YAML: {message}.", 1, 1) from None

    seen: set[int] = set()

    def refused(item: Any, mark: Any, depth: int) -> str:
        """Why a node is not read, or nothing."""
        if depth > DEEPEST:
            return "This is nested too deep."
        if id(item) in seen:
            return "Write it out again: an alias ('*name') is not read here."
        sign = lines[mark.line][mark.column : mark.column + 1] if mark.line < len(lines) else ""
        if sign and sign in "&!":
            kind = "an anchor ('&name')" if sign == "&" else "a tag ('!name')"
            return f"Write the value by itself: {kind} is not read here."
        return ""

    def walk(item: Any, key: Key, depth: int) -> Any:
        mark = item.start_mark
        places.setdefault(key, (mark.line + 1, mark.column + 1))
        why = refused(item, mark, depth)
        # The node that an alias gives stands where its anchor is; the alias stands by its key.
        line, column = places[key] if id(item) in seen else (mark.line + 1, mark.column + 1)
        seen.add(id(item))
        if why:
            excerpt = lines[line - 1].rstrip()[:200] if line <= len(lines) else ""
            faults.append(Fault(Pos(path, line, column), ".".join(str(part) for part in key[:6]), why, excerpt))
            return None
        if isinstance(item, yaml.ScalarNode):
            # Quoted and block styles are text; only a plain one (style None or "") may be something else.
            return read(item.value) if not item.style else item.value
        if isinstance(item, yaml.SequenceNode):
            return [walk(child, (*key, index), depth + 1) for index, child in enumerate(item.value)]
        data: dict[str, Any] = {}
        for name, child in item.value:
            if not isinstance(name, yaml.ScalarNode):
                faults.append(Fault(Pos(path, name.start_mark.line + 1, 1), "", "A key must be plain text."))
                continue
            spot = (name.start_mark.line + 1, name.start_mark.column + 1)
            if name.value in data:
                where = places[(*key, name.value)][0]
                faults.append(
                    Fault(
                        Pos(path, *spot),
                        ".".join(str(part) for part in (*key, name.value)),
                        f"'{name.value}' stands twice (first on line {where}). Keep one.",
                        lines[spot[0] - 1].rstrip(),
                    )
                )
                continue
            places[(*key, name.value)] = spot
            data[name.value] = walk(child, (*key, name.value), depth + 1)
        return data

    value = None if node is None else walk(node, (), 0)
    if faults:
        raise NarratorError(faults)
    return Located(path, value, places, lines)
