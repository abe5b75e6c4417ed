"""The report that is reviewed, read once: the one place where the review meets the reader of edited reports."""

from __future__ import annotations

from pathlib import Path

from narrator.errors import NarratorError, stop
from narrator.publish.labels import Labels
from narrator.review.pieces import Reading
from narrator.review.reading import decoded, load, read_text


def open_report(path: str, labels: Labels, form: str | None = None) -> Reading:
    """The report in a file, or on standard input for `-`. Raises NarratorError for what is no report, or half of one."""
    return load(path, labels, form)


def misshapen(path: str) -> NarratorError:
    """What a hand or another program broke in a report's JSON, with line and column where the file can be read again."""
    said = "A part of this report has another shape than narrator writes. Write it again: narrator draft CHECKLIST -o NAME.json"
    if not Path(path).is_file():
        return stop(path, said)
    from narrator.source.json_positions import load_json  # only when something is already wrong
    from narrator.source.schema import schema_faults

    faults = schema_faults(load_json(decoded(Path(path).read_bytes(), path), path), "report")
    return NarratorError(faults) if faults else stop(path, said)


def open_text(text: str, shown: str, labels: Labels, form: str) -> Reading:
    """The report in a text."""
    return read_text(text, shown, labels, form)
