"""Faults: what is wrong, where, and what would be right. No traceback reaches a user."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple


class Pos(NamedTuple):
    """A place in a file: `line` and `column` count from 1; 0 means the whole file."""

    path: str
    line: int = 0
    column: int = 0


class Fault(NamedTuple):
    """One thing that is wrong. `key` names the part of the file, `message` says what is wrong and what would be right."""

    pos: Pos
    key: str
    message: str
    excerpt: str = ""

    def show(self) -> str:
        """The fault as printed: place and key, message, the line of the file."""
        place = self.pos.path
        if self.pos.line:
            place += f":{self.pos.line}:{max(self.pos.column, 1)}"
        head = f"{place}  {self.key}".rstrip()
        text = f"{head}\n  {self.message}"
        if self.excerpt and self.pos.line:
            text += f"\n  > {self.pos.line:>3} | {self.excerpt}"
        return text


class NarratorError(Exception):
    """Something that could not be done; carries every fault, sorted."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(set(faults)))
        super().__init__("\n".join(fault.show() for fault in self.faults))


def stop(path: str, message: str, line: int = 0, column: int = 0, key: str = "") -> NarratorError:
    """One fault as an error, ready to raise."""
    return NarratorError([Fault(Pos(path, line, column), key, message)])


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """The choice that is spelled most like `word`, or None when nothing is near."""
    from difflib import get_close_matches  # only when something is already wrong

    found = get_close_matches(word, sorted(choices), n=1, cutoff=0.6)
    return found[0] if found else None


def did_you_mean(word: str, choices: Iterable[str]) -> str:
    """` Did you mean 'x'?`, or nothing."""
    near = nearest(word, choices)
    return f" Did you mean '{near}'?" if near else ""
