"""The first check of every library file: its form, by schema."""

from __future__ import annotations

import re

from narrator.errors import Fault, Pos
from narrator.source.index import WRITING
from narrator.source.library import Files
from narrator.source.schema import schema_faults

_CODE = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*(\.[a-z0-9]+(-[a-z0-9]+)*){2}\Z")


def file_faults(files: Files) -> list[Fault]:
    """Faults of form over lists, entries and criteria; empty when all are well formed."""
    out: list[Fault] = []
    for name, located in files.lists.items():
        out.extend(schema_faults(located, name))
    for code, located in files.entries.items():
        if not _CODE.match(code):
            message = f"The path gives the code '{code}'; it must be system/component/condition.yaml."
            out.append(Fault(Pos(located.path), "", message))
        out.extend(schema_faults(located, "entry"))
    for located in files.criteria.values():
        out.extend(schema_faults(located, "criteria"))
    for name, located in files.practice.items():
        out.extend(schema_faults(located, "writing" if name == WRITING else "practice"))
    return sorted(set(out))
