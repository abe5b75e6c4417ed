"""How a checklist is written: as said, else by its file's ending."""

from __future__ import annotations

from pathlib import PurePath

from narrator.errors import did_you_mean, stop

KINDS = ("text", "yaml", "json", "csv", "tsv")
_SUFFIXES = {".yaml": "yaml", ".yml": "yaml", ".json": "json", ".csv": "csv", ".tsv": "tsv", ".tab": "tsv"}


def kind_of(path: str, given: str | None = None) -> str:
    """How a checklist is written: as said, else by its suffix; anything else, and standard input, is the notation."""
    if given is None or not given.strip():
        return _SUFFIXES.get(PurePath(path).suffix.lower(), "text")
    name = given.strip().lower()
    kind = name if name in KINDS else _SUFFIXES.get(f".{name.lstrip('.')}", "")
    if not kind:
        said = f"'{given}' is not a way to write a checklist. Use one of: {', '.join(KINDS)}."
        raise stop(path, said + did_you_mean(name, KINDS), key="--from")
    return kind
