"""The report that is reviewed, read once: the one place where the review meets the reader of edited reports."""

from __future__ import annotations

from narrator.publish.labels import Labels
from narrator.review.pieces import Reading
from narrator.review.reading import load, read_text


def open_report(path: str, labels: Labels, form: str | None = None) -> Reading:
    """The report in a file, or on standard input for `-`. Raises NarratorError for what is no report, or half of one."""
    return load(path, labels, form)


def open_text(text: str, shown: str, labels: Labels, form: str) -> Reading:
    """The report in a text."""
    return read_text(text, shown, labels, form)
