"""The approved set: which library and which firm may be drafted with, written down by `check --approve`, held by `draft`.

The file is JSON, so that a draft reads it without the YAML reader. Beside the two fingerprints it has one for each entry, list and
figure, so that a refusal can say what differs.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from narrator import __version__
from narrator.errors import NarratorError, stop
from narrator.source import index as store
from narrator.source.index import Index
from narrator.source.text import read_text

FORMAT = "narrator.library-lock/1"
SHOWN = 12
_LAID_OUT = ("file", "why_line", "why_file")


def approved_text(index: Index) -> str:
    """The library and firm of an index as an approved set."""
    return json.dumps({**_names(index), "parts": dict(_parts(index))}, ensure_ascii=False, indent=1) + "\n"


def refuse_others(index: Index, path: str) -> None:
    """Raises NarratorError, saying how they differ, when the library or the firm is not the approved one."""
    wanted = _read(path)
    names = _names(index)
    if all(wanted.get(key) == names[key] for key in ("library", "firm")):
        return
    parts = dict(_parts(index))
    old: Mapping[str, str] = wanted["parts"]
    lines = [f"This is not the approved set. Approved: {_said(wanted)}. Here: {_said(names)}."]
    groups = (
        ("Changed", sorted(key for key in old if key in parts and parts[key] != old[key])),
        ("Not here any more", sorted(key for key in old if key not in parts)),
        ("Not in the approved set", sorted(key for key in parts if key not in old)),
    )
    for what, found in groups:
        if found:
            found.sort(
                key=lambda key: (".yaml" in key or " " in key, key)
            )  # entries first: they are what is printed most
            more = f" and {len(found) - SHOWN} more" if len(found) > SHOWN else ""
            lines.append(f"  {what}: {', '.join(found[:SHOWN])}{more}")
    lines.append("  To approve what is here now: narrator check ... --approve FILE")
    raise stop(path, "\n".join(lines).strip())


def _read(path: str) -> Mapping[str, Any]:
    try:
        data = json.loads(read_text(Path(path), path))
    except json.JSONDecodeError as error:
        raise stop(path, "This is not an approved set: it cannot be read as JSON.", error.lineno, error.colno) from None
    if not isinstance(data, dict) or data.get("format") != FORMAT or not isinstance(data.get("parts"), dict):
        raise stop(
            path,
            f"This is not an approved set ('format' must be '{FORMAT}'). 'narrator check --approve FILE' writes one.",
        )
    if not isinstance(data.get("library"), dict) or not isinstance(data.get("firm"), dict | None):
        raise NarratorError(stop(path, "This approved set is not whole: 'library' or 'firm' cannot be read.").faults)
    return data


def _names(index: Index) -> dict[str, Any]:
    firm = store.document(index, "firm")
    return {
        "format": FORMAT,
        "narrator": __version__,
        "library": {"version": index.version, "fingerprint": index.fingerprint},
        "firm": {"name": firm["name"], "fingerprint": firm["fingerprint"]} if firm else None,
    }


def _said(names: Mapping[str, Any]) -> str:
    library, firm = names["library"], names["firm"]
    one = f"library {library.get('version')} ({library.get('fingerprint')})"
    return f"{one}, {firm.get('name')} ({firm.get('fingerprint')})" if firm else f"{one}, no firm"


def _parts(index: Index) -> Iterator[tuple[str, str]]:
    """A short digest of each entry, list and figure, whatever its place in the files."""
    rows = index.connection.execute("SELECT code, json FROM entry ORDER BY code")
    for code, text in rows:
        yield code, _digest(_bare(json.loads(text)))
    for name, text in index.connection.execute("SELECT name, json FROM document ORDER BY name"):
        data = json.loads(text)
        if name == "firm":
            settings = {key: value for key, value in data.items() if key not in ("edits", "own", "fingerprint")}
            yield from ((f"firm.yaml: {key}", _digest(value)) for key, value in sorted(settings.items()) if value)
        else:
            yield f"{name}.yaml", _digest(data)
    for name, text in index.connection.execute("SELECT id, json FROM criterion ORDER BY id"):
        yield f"figure {name}", _digest(json.loads(text))


def _bare(entry: Mapping[str, Any]) -> dict[str, Any]:
    """An entry without files and lines."""
    plain = {key: value for key, value in entry.items() if key not in _LAID_OUT}
    for field in ("title", "observation", "implication", "recommendation"):
        plain[field] = [variant[:3] for variant in entry[field]]
    return plain


def _digest(value: Any) -> str:
    import hashlib  # only when sets are compared or written

    text = json.dumps(value, ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()[:12]
