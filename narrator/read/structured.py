"""A checklist in YAML, JSON, CSV or TSV: the same content as the notation, with the file's own line numbers."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import partial
from typing import Any

from narrator.errors import NarratorError, stop
from narrator.read.above import Grammar
from narrator.read.columns import NO_COLUMNS, checked, known_names
from narrator.read.kinds import KINDS as KINDS
from narrator.read.kinds import kind_of as kind_of
from narrator.read.lines import refuse_long
from narrator.read.model import Checklist
from narrator.read.notation import read_checklist

_ENDS = re.compile(r"\r\n|\n|\r")
_NUL = re.compile("\x00")
_LONE = re.compile("[\ud800-\udfff]")
_WORDS: Mapping[str, Any] = {"true": True, "false": False, "null": None, "~": None, "": None}


def read_structured(
    text: str, path: str, kind: str, grammar: Grammar, columns: Mapping[str, str] = NO_COLUMNS
) -> Checklist:
    """A checklist of any kind. `columns` maps a firm's column names to ours. Raises NarratorError with every fault."""
    text = text.removeprefix("\ufeff")
    refuse_long(text, path, len(_ENDS.findall(text)) + 1)
    _refuse_unreadable(text, path)
    if kind in ("yaml", "json"):
        from narrator.read.mapped import read_mapped  # the schema and its checker only when one is read

        return read_mapped(_located(text, path, kind), grammar)
    if kind in ("csv", "tsv"):
        from narrator.read.rows import read_rows
        from narrator.read.table import read_table

        ours = checked(columns)
        table = read_table(text, path, kind, partial(known_names, columns=ours))
        if table.faults:
            raise NarratorError(table.faults)
        return read_rows(table, path, grammar, ours)
    return read_checklist(text, path, grammar)


def _located(text: str, path: str, kind: str) -> Any:
    if kind == "json":
        from narrator.source.json_positions import load_json

        return load_json(text, path)
    from narrator.source.positions import load

    return load(text, path, _as_typed)


def _as_typed(text: str) -> Any:
    """A plain scalar as it is typed: `0.50` and `1998` are texts here; only true, false and nothing are not."""
    lowered = text.lower() if len(text) < 6 else text
    return _WORDS.get(lowered, text)


def _refuse_unreadable(text: str, path: str) -> None:
    """Refuse what is not text: NUL characters, as UTF-16 read as UTF-8 gives them, and halves of characters."""
    utf16 = "NUL characters stand here; the file looks like UTF-16. Save it again as UTF-8 (spreadsheets: CSV UTF-8)."
    for sign, message in ((_NUL, utf16), (_LONE, "Half a character stands here. Save the file again as UTF-8.")):
        match = sign.search(text)
        if match:
            line = len(_ENDS.findall(text[: match.start()])) + 1
            raise stop(path, message, line, 1)
