"""An edited report in any form that `narrator take` reads: those that narrator writes, and a word processor's DOCX."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from narrator.errors import stop
from narrator.publish.labels import Labels
from narrator.review.reading import load, read_text

if TYPE_CHECKING:
    from narrator.review.pieces import Reading


def load_any(path: str, labels: Labels) -> Reading:
    """The report in a file. Raises NarratorError for a file that is no report of ours."""
    if path == "-" or not Path(path).is_file() or not _is_docx(Path(path)):
        return load(path, labels)
    return read_text(markdown_of(path), path, labels, "md")


def _is_docx(path: Path) -> bool:
    with path.open("rb") as stream:
        return stream.read(4) == b"PK\x03\x04"


def markdown_of(path: str) -> str:
    """A DOCX as the Markdown that narrator writes: headings, paragraphs, lists, tables."""
    try:
        import docx
        from docx.opc.exceptions import PackageNotFoundError
    except ImportError:
        raise stop(
            path,
            "A DOCX needs python-docx, which is not installed. Install it with: pip install python-docx (or save it as text).",
        ) from None
    try:
        document = docx.Document(path)
        blocks = list(_blocks(document))
    except (KeyError, ValueError, zipfile.BadZipFile, PackageNotFoundError):
        raise stop(path, "This is not a whole DOCX. Save it again, or save it as plain text (UTF-8).") from None
    return "\n\n".join(blocks) + "\n"


def _blocks(document: Any) -> Iterator[str]:
    from docx.table import Table

    for block in document.iter_inner_content():
        if isinstance(block, Table):
            rows = [[_escaped(cell.text) for cell in row.cells] for row in block.rows]
            if rows:
                head, *rest = [f"| {' | '.join(' '.join(cell.split()) for cell in row)} |" for row in rows]
                yield "\n".join([head, "|" + " --- |" * len(rows[0]), *rest])
            continue
        for at, line in enumerate(part for part in block.text.split("\n") if part.strip()):
            yield (_mark(block) if not at else "") + _escaped(line.strip())


def _mark(paragraph: Any) -> str:
    name = (paragraph.style.name if paragraph.style is not None else "").lower()
    if name == "title":
        return "# "
    level = name.removeprefix("heading ")
    if name.startswith("heading ") and level.isdigit():
        return "#" * min(int(level), 6) + " "
    listed = name.startswith("list") or (paragraph._p.pPr is not None and paragraph._p.pPr.numPr is not None)
    return "- " if listed else ""


def _escaped(text: str) -> str:
    """Typed signs as signs, not as Markdown."""
    return "".join(f"\\{sign}" if sign in "\\*_[]<>&|`#" else sign for sign in text)
