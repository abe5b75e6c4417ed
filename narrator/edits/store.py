"""Reading the edits that lie beside a checklist."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from narrator.edits.model import Edit, Edits, Settled, Unplaced, fingerprint
from narrator.errors import NarratorError, stop

MOST_BYTES = 16 * 1024 * 1024


def load(path: Path) -> Edits:
    """The edits in a file. Raises NarratorError with line and column of everything that is wrong in it."""
    from narrator.source.text import decode

    try:
        if path.stat().st_size > MOST_BYTES:
            raise stop(str(path), "The file is longer than 16 MiB. Is this the file of edits that narrator wrote?")
        text = decode(path.read_bytes(), str(path))
    except OSError as error:
        raise stop(str(path), f"The file could not be read: {error.strerror or error}.") from None
    return read(text, str(path))


def read(text: str, path: str) -> Edits:
    """The edits in a text; see `load`."""
    from narrator.source.positions import load as located_in
    from narrator.source.schema import schema_faults

    if not text.strip():
        raise stop(path, "The file of edits is empty. Delete it, or put back what narrator wrote.")
    located = located_in(text, path)
    faults = schema_faults(located, "edits")
    if faults:
        raise NarratorError(faults)
    value: Mapping[str, Any] = located.value

    def items(section: str) -> list[tuple[Mapping[str, Any], int]]:
        return [(item, located.pos((section, at)).line) for at, item in enumerate(value.get(section) or [])]

    found = Edits(
        path,
        tuple(Edit(**item, line=line) for item, line in items("edits")),
        tuple(_settled(item, line) for item, line in items("settled")),
        tuple(Unplaced(**item, line=line) for item, line in items("unplaced")),
        text,
    )
    twice = _twice(found)
    wrong = [
        located.fault(
            ("edits", at, "fingerprint"),
            "This is not the mark of the base text below it. Put back what narrator wrote.",
        )
        for at, each in enumerate(found.edits)
        if each.fingerprint != fingerprint(each.base)
    ]
    wrong += [
        located.fault(("edits", at), "This text is edited twice in this file. Keep one of the two.") for at in twice
    ]
    if wrong:
        raise NarratorError(wrong)
    return found


def _settled(item: Mapping[str, Any], line: int) -> Settled:
    rest = {key: value for key, value in item.items() if key not in ("line", "notes")}
    return Settled(number=item["line"], **rest, notes=tuple(item.get("notes", ())), line=line)


def _twice(edits: Edits) -> list[int]:
    seen: set[tuple[str, ...]] = set()
    out = []
    for at, each in enumerate(edits.edits):
        if each.key in seen:
            out.append(at)
        seen.add(each.key)
    return out
