"""Lays a report out: Markdown, HTML, plain text or JSON. The same report gives the same bytes."""

from __future__ import annotations

from importlib import import_module
from pathlib import PurePath
from typing import TYPE_CHECKING

from narrator.publish.labels import Labels

if TYPE_CHECKING:
    from narrator.report import Report

FORMATS = ("md", "html", "txt", "json")
"""What can be written now."""

LATER = ("docx", "pdf")
"""What is known by name and cannot be written yet."""

_SUFFIXES = {".md": "md", ".markdown": "md", ".html": "html", ".htm": "html", ".txt": "txt", ".text": "txt"}
_SUFFIXES |= {".json": "json", ".docx": "docx", ".pdf": "pdf"}
_WRITERS = {"md": "md", "html": "html", "txt": "txt", "json": "json_"}


class NotYet(Exception):
    """A format that comes later."""


def publish(report: Report, to: str, labels: Labels) -> str:
    """The report in one of `FORMATS`, as text; `NotYet` for one of `LATER`, `ValueError` for any other."""
    if to in LATER:
        raise NotYet(f"{to} comes later")
    if to not in _WRITERS:
        raise ValueError(f"{to!r} is not a format: {', '.join(FORMATS)}")
    written = import_module(f"narrator.publish.{_WRITERS[to]}").write(report, labels)
    assert isinstance(written, str)
    return written


def by_suffix(path: str | PurePath) -> str | None:
    """The format that a file's name asks for, or None."""
    return _SUFFIXES.get(PurePath(path).suffix.lower())
