"""JSON read with every value knowing its line and column. Numbers stay as they are typed: `0.50` is the text 0.50."""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field
from json import JSONDecodeError, JSONDecoder
from typing import Any

from narrator.errors import Fault, NarratorError, Pos
from narrator.source.positions import Key, Located

MOST_DEEP = 40
_ENDS = re.compile(r"\r\n|\n|\r")
_SPACE = re.compile(r"[ \t\r\n]*")
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?(?![\w.+-])")
_WORD = re.compile(r"[^\s,:{}\[\]\"]+")
_HALF = re.compile("[\ud800-\udfff]")
_DECODER = JSONDecoder()
_CONSTANTS = {"true": True, "false": False, "null": None}


@dataclass(slots=True)
class _Reader:
    """The text and what has been found in it so far."""

    text: str
    path: str
    starts: list[int]
    lines: tuple[str, ...]
    places: dict[Key, tuple[int, int]] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)


def load_json(text: str, path: str) -> Located:
    """Text of one JSON document as `Located`; raises NarratorError: the first place that is no JSON, or every fault."""
    reader = _Reader(text, path, [0, *(match.end() for match in _ENDS.finditer(text))], tuple(_ENDS.split(text)))
    at = _skip(reader, 0)
    if at == len(text):
        raise _broken(reader, 0, "it is empty; a checklist starts with `{`.")
    value, at = _value(reader, at, (), 0)
    at = _skip(reader, at)
    if at < len(text):
        raise _broken(reader, at, "what follows belongs to nothing. Is a bracket missing above?")
    if reader.faults:
        raise NarratorError(reader.faults)
    return Located(path, value, reader.places, reader.lines)


def _spot(reader: _Reader, at: int) -> tuple[int, int]:
    """Line and column, from 1, of an offset."""
    line = bisect_right(reader.starts, at)
    return line, at - reader.starts[line - 1] + 1


def _fault(reader: _Reader, at: int, key: Key, message: str) -> Fault:
    line, column = _spot(reader, at)
    excerpt = reader.lines[line - 1].rstrip()[:200]
    return Fault(Pos(reader.path, line, column), ".".join(map(str, key)), message, excerpt)


def _broken(reader: _Reader, at: int, message: str) -> NarratorError:
    return NarratorError([*reader.faults, _fault(reader, at, (), f"This is not JSON: {message}")])


def _skip(reader: _Reader, at: int) -> int:
    match = _SPACE.match(reader.text, at)
    return match.end() if match else at


def _value(reader: _Reader, at: int, key: Key, depth: int) -> tuple[Any, int]:
    reader.places.setdefault(key, _spot(reader, at))
    if depth > MOST_DEEP:
        raise _broken(reader, at, "it is nested too deep.")
    char = reader.text[at : at + 1]
    if char == "{":
        return _object(reader, at, key, depth)
    if char == "[":
        return _array(reader, at, key, depth)
    if char == '"':
        return _string(reader, at, key)
    number = _NUMBER.match(reader.text, at)
    if number:
        return number.group(), number.end()
    word = _WORD.match(reader.text, at)
    if word is None:
        said = f"a value is needed here, not '{char}'" if char else "the file ends where a value is needed"
        raise _broken(reader, at, f"{said}. Is there a comma too many before it?")
    if word.group() in _CONSTANTS:
        return _CONSTANTS[word.group()], word.end()
    raise _broken(reader, at, f"'{word.group()[:30]}' needs double quotation marks around it.{_comment(word.group())}")


def _comment(word: str) -> str:
    return " JSON has no comments." if word.startswith(("//", "/*", "#")) else ""


def _string(reader: _Reader, at: int, key: Key) -> tuple[str, int]:
    try:
        text, end = _DECODER.raw_decode(reader.text, at)
    except JSONDecodeError as error:
        if error.msg.startswith("Unterminated"):
            raise _broken(reader, at, "this quotation mark is never closed.") from None
        if error.msg.startswith("Invalid control"):
            said = "a text must end on its own line; write a new line as \\n and a tab as \\t."
            raise _broken(reader, error.pos, said) from None
        said = 'after a backslash only " \\ / b f n r t or u and four digits may stand; write \\\\ for a backslash.'
        raise _broken(reader, error.pos, said) from None
    half = _HALF.search(text)
    if half:
        said = f"'\\u{ord(half.group()):04x}' is half a character; write the character itself."
        reader.faults.append(_fault(reader, at, key, said))
    return text, end


def _array(reader: _Reader, at: int, key: Key, depth: int) -> tuple[list[Any], int]:
    out: list[Any] = []
    end = _skip(reader, at + 1)
    while reader.text[end : end + 1] != "]":
        value, end = _value(reader, end, (*key, len(out)), depth + 1)
        out.append(value)
        end = _next(reader, end, "]", at)
    return out, end + 1


def _object(reader: _Reader, at: int, key: Key, depth: int) -> tuple[dict[str, Any], int]:
    out: dict[str, Any] = {}
    end = _skip(reader, at + 1)
    while reader.text[end : end + 1] != "}":
        if reader.text[end : end + 1] != '"':
            word = _WORD.match(reader.text, end)
            said = f" '{word.group()[:30]}' is not.{_comment(word.group())}" if word else ""
            raise _broken(reader, end, f"a key in double quotation marks is needed here.{said}")
        start = end
        name, end = _string(reader, start, key)
        end = _skip(reader, end)
        if reader.text[end : end + 1] != ":":
            raise _broken(reader, end, f"a colon is needed after the key '{name[:30]}'.")
        if name in out:
            first = reader.places[(*key, name)][0]
            said = f"'{name[:60]}' stands twice (first on line {first}). Keep one."
            reader.faults.append(_fault(reader, start, (*key, name), said))
        else:
            reader.places[(*key, name)] = _spot(reader, start)
        value, end = _value(reader, _skip(reader, end + 1), (*key, name), depth + 1)
        out.setdefault(name, value)
        end = _next(reader, end, "}", at)
    return out, end + 1


def _next(reader: _Reader, at: int, close: str, opened: int) -> int:
    """The start of the next member after a comma, or the closing bracket."""
    end = _skip(reader, at)
    char = reader.text[end : end + 1]
    if char == close:
        return end
    if char == ",":
        after = _skip(reader, end + 1)
        if reader.text[after : after + 1] == close:
            raise _broken(reader, end, f"take out this comma; nothing follows it before `{close}`.")
        return after
    if not char:
        line, column = _spot(reader, opened)
        raise _broken(reader, end, f"the file ends, but the bracket of line {line}, column {column} is not closed.")
    raise _broken(reader, end, f"a comma or `{close}` is needed before this.")
