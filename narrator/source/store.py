"""Opening a library: the stored index if it is whole and of this library, else a new one; without a cache if need be.

The cache holds data only. Its key is the library's folder, its content's signature (names, sizes, times of the files) and the
shape of the index. A cache that is missing, read-only, cut short, altered or of another version is rebuilt or done without.
"""

from __future__ import annotations

import json
import os
import sqlite3
import zlib
from contextlib import suppress
from pathlib import Path

from narrator import __version__
from narrator.errors import NarratorError
from narrator.source import index as shape
from narrator.source.index import INDEX_FORMAT, Index, build, fingerprint, open_file

SHIPPED = "shipped"


def packaged_root() -> Path:
    """The product's own library: in the wheel inside the package, in a clone beside it."""
    inside = Path(__file__).resolve().parent.parent / "_library"
    return inside if inside.is_dir() else Path(__file__).resolve().parents[2] / "library"


def cache_folder() -> Path:
    """Where indexes are kept: NARRATOR_CACHE, else the system's place for caches."""
    named = os.environ.get("NARRATOR_CACHE")
    if named:
        return Path(named)
    base = os.environ.get("LOCALAPPDATA") if os.name == "nt" else os.environ.get("XDG_CACHE_HOME")
    return (Path(base) if base else Path.home() / ".cache") / "narrator"


def open_library(root: Path | None = None, firm: Path | None = None) -> Index:
    """The index of a library folder (None: the product's own), with a firm's folder laid over it if one is given.

    Raises NarratorError when the library or the firm has faults.
    """
    folder = packaged_root() if root is None else root
    if firm is not None:
        return _open_firm(root, folder, firm)
    if root is None:
        shipped = folder.parent / "_index.sqlite"
        found = _open(shipped, SHIPPED) if shipped.is_file() else None
        if found is not None:
            return found
    signature = _signature(folder)
    try:
        path = cache_folder() / f"library-{_crc(str(folder.resolve()).encode())}.sqlite"
        found = _open(path, signature)
    except (OSError, RuntimeError):
        return compile_library(folder)
    if found is not None:
        return found
    made = compile_library(folder)
    _keep(made, path, signature)
    return made


def _open_firm(root: Path | None, folder: Path, firm: Path) -> Index:
    """The library with a firm over it: an index of its own, kept for both contents together."""
    from narrator.source.firm.folder import firm_files

    marks: list[str] = []
    for path in firm_files(firm):
        with suppress(OSError):
            stat = path.stat()
            marks.append(f"{path.relative_to(firm).as_posix()}|{stat.st_size}|{stat.st_mtime_ns}")
    # What a wheel ships is known by its side file; any other library by its files.
    side = _side(folder.parent / "_index.sqlite")
    below = side.read_text(encoding="utf-8") if root is None and side.is_file() else _signature(folder)
    signature = "\n".join([below, "firm", str(firm.resolve()), *marks])
    try:
        path = cache_folder() / f"firm-{_crc(f'{folder.resolve()}|{firm.resolve()}'.encode())}.sqlite"
        found = _open(path, signature)
    except (OSError, RuntimeError):
        return compile_firm(folder, firm)
    if found is not None:
        return found
    made = compile_firm(folder, firm)
    _keep(made, path, signature)
    return made


def compile_firm(root: Path, firm: Path) -> Index:
    """Read, check and compile a library folder with a firm's folder laid over it."""
    from narrator.source.check.files import file_faults
    from narrator.source.firm.layers import firm_document, layers_of, read_firm
    from narrator.source.library import LIBRARY_VERSION, criteria_of, documents_of, entries_of, read_files

    base = read_files(root)
    faults = file_faults(base)
    if faults:
        raise NarratorError(faults)
    layers = layers_of(base, read_firm(firm))
    if layers.faults:
        raise NarratorError(layers.faults)
    mark = fingerprint(documents_of(base), entries_of(base), criteria_of(base))
    documents = {**documents_of(layers.files), "firm": firm_document(layers)}
    connection = sqlite3.connect(":memory:")
    build(connection, documents, entries_of(layers.files), criteria_of(layers.files))
    return shape.Index(connection, LIBRARY_VERSION, mark)


def _signature(root: Path) -> str:
    """Every library file's name, size and time of change: a stat walk, no reading."""
    found: list[str] = []
    stack = [str(root)]
    while stack:
        try:
            with os.scandir(stack.pop()) as items:
                for item in items:
                    if item.is_dir():
                        stack.append(item.path)
                    elif item.name.endswith(".yaml"):
                        stat = item.stat()
                        found.append(f"{item.path[len(str(root)) :]}|{stat.st_size}|{stat.st_mtime_ns}")
        except OSError:
            continue
    found.sort()
    return "\n".join([str(root), *found])


def _crc(data: bytes) -> str:
    """A check sum against damage and slips; the cache is the user's own, so no more is needed."""
    return f"{zlib.crc32(data):08x}-{len(data)}"


def _side(path: Path) -> Path:
    return path.with_suffix(".json")


def _open(path: Path, signature: str) -> Index | None:
    """The stored index, if its side file says that it is this one and its bytes are as they were written."""
    try:
        side = json.loads(_side(path).read_text(encoding="utf-8"))
        if side["index"] != INDEX_FORMAT or side["narrator"] != __version__ or side["signature"] != signature:
            return None
        if _crc(path.read_bytes()) != side["digest"]:
            return None
        return Index(open_file(path), side["version"], side["fingerprint"])
    except (OSError, ValueError, KeyError, TypeError, sqlite3.Error):
        return None


def compile_library(root: Path) -> Index:
    """Read, check and compile a library folder."""
    from narrator.source.check.files import file_faults  # YAML and schemas are heavy: only when something is new
    from narrator.source.library import LIBRARY_VERSION, criteria_of, documents_of, entries_of, read_files

    files = read_files(root)
    faults = file_faults(files)
    if faults:
        raise NarratorError(faults)
    documents, entries, criteria = documents_of(files), entries_of(files), criteria_of(files)
    connection = sqlite3.connect(":memory:")
    build(connection, documents, entries, criteria)
    return shape.Index(connection, LIBRARY_VERSION, fingerprint(documents, entries, criteria))


def _keep(index: Index, path: Path, signature: str) -> None:
    """Write the index beside others in the cache, whole or not at all; a cache that cannot be written is done without."""
    with suppress(OSError, sqlite3.Error):
        path.parent.mkdir(parents=True, exist_ok=True)
        part = path.with_suffix(f".{os.getpid()}.part")
        try:
            write_index(index, part, path, signature)
        finally:
            part.unlink(missing_ok=True)


def write_index(index: Index, part: Path, path: Path, signature: str) -> None:
    """Write an index and its side file."""
    part.unlink(missing_ok=True)
    target = sqlite3.connect(part)
    try:
        index.connection.backup(target)
    finally:
        target.close()
    side = {
        "index": INDEX_FORMAT,
        "narrator": __version__,
        "signature": signature,
        "version": index.version,
        "fingerprint": index.fingerprint,
        "digest": _crc(part.read_bytes()),
    }
    written = _side(part)
    written.write_text(json.dumps(side), encoding="utf-8")
    os.replace(part, path)
    os.replace(written, _side(path))
