"""`firm.lock`: what the base said where the firm edits it, so that a base that moves on is seen. Written by narrator alone.

A fingerprint is that of the parsed value: Unicode in NFC, white space collapsed, lists and keys without their order. Layout, comments,
quotes and the order of things never change it.
"""

from __future__ import annotations

import hashlib
import json
import re
import unicodedata
from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple

from narrator.errors import Fault, NarratorError, Pos, did_you_mean
from narrator.source.firm.folder import LOCK_FILE

FORMAT = "narrator.lock/1"
SHOWN = f"firm/{LOCK_FILE}"
_BRACES = re.compile(r"\{\{\s*(.*?)\s*\}\}")


class Item(NamedTuple):
    """One edit: the base's value that it replaced, and its fingerprint."""

    base: Any
    mark: str


class Lock(NamedTuple):
    """`library`: the version it was written with. `items`: by edit. `around`: by target, a fingerprint for each other key."""

    library: str
    items: Mapping[str, Item]
    around: Mapping[str, Mapping[str, str]]


EMPTY = Lock("", {}, {})


def canonical(value: Any) -> Any:
    """A value as it is compared: the same whatever its layout."""
    if isinstance(value, dict):
        return {str(key): canonical(one) for key, one in value.items()}
    if isinstance(value, list):
        return sorted((canonical(one) for one in value), key=lambda one: json.dumps(one, sort_keys=True))
    if value is None or isinstance(value, bool):
        return str(value).lower()
    text = " ".join(unicodedata.normalize("NFC", str(value)).split())
    return _BRACES.sub(lambda match: "{{ " + match.group(1) + " }}", text)


def mark_of(value: Any) -> str:
    """The fingerprint of a value."""
    return _digest(canonical(value))


def _digest(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:16]


def item_of(base: Any) -> Item:
    """The lock's item of an edit that replaces this value."""
    return Item(canonical(base), mark_of(base))


def lock_text(lock: Lock) -> str:
    """The lock as a file: JSON, sorted, with a check sum."""
    body: dict[str, Any] = {
        "format": FORMAT,
        "note": "Written by narrator. Do not edit: use 'narrator check' with --keep or --take.",
        "library": lock.library,
        "items": {name: {"mark": item.mark, "base": item.base} for name, item in sorted(lock.items.items())},
        "around": {target: dict(sorted(keys.items())) for target, keys in sorted(lock.around.items())},
    }
    return json.dumps({**body, "sum": _digest(body)}, ensure_ascii=False, indent=1) + "\n"


def read_lock(root: Path) -> Lock | None:
    """The lock of a firm's folder, None where there is none yet. Raises NarratorError when it was altered by hand."""
    path = root / LOCK_FILE
    if not path.is_file():
        return None
    try:
        raw = path.read_text(encoding="utf-8")
        data = json.loads(raw)
    except UnicodeDecodeError:
        raise NarratorError([_altered(0, "it is no longer UTF-8 text")]) from None
    except json.JSONDecodeError as error:
        raise NarratorError([_altered(error.lineno, "it can no longer be read")]) from None
    try:
        items = {str(name): Item(item["base"], str(item["mark"])) for name, item in data["items"].items()}
        around = {str(target): dict(keys) for target, keys in data["around"].items()}
        if data["format"] != FORMAT:
            message = f"'{data['format']}' is not a lock that this version reads.{did_you_mean(str(data['format']), [FORMAT])}"
            raise NarratorError([Fault(Pos(SHOWN, 1, 1), "format", message)])
        whole = {key: value for key, value in data.items() if key != "sum"}
        if data["sum"] != _digest(whole):
            wrong = next((name for name, item in items.items() if _digest(item.base) != item.mark), "")
            raise NarratorError([_altered(_line(raw, wrong), f"'{wrong}' is not as it was written" if wrong else "")])
        return Lock(str(data["library"]), items, around)
    except (KeyError, TypeError, AttributeError, ValueError):
        raise NarratorError([_altered(0, "a part of it is missing")]) from None


def _line(raw: str, name: str) -> int:
    start = json.dumps(name, ensure_ascii=False)
    return next(
        (number for number, line in enumerate(raw.splitlines(), 1) if name and line.strip().startswith(start)), 1
    )


def _altered(line: int, why: str) -> Fault:
    said = f"The lock was altered by hand{f': {why}' if why else ''}. It is not used, and nothing is written to it."
    mend = " Put back the file as narrator wrote it. If it is lost, delete it: the next check writes a new one for today's base."
    return Fault(Pos(SHOWN, line, 1 if line else 0), "", said + mend)
