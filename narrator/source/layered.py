"""A file with a firm's edits laid over it: one value, each part of which knows the file it stands in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from narrator.errors import Fault, Pos
from narrator.source.positions import Key, Located


class Seam(NamedTuple):
    """Where a text goes on in another layer: what stands before, and the place of what was added."""

    before: str
    pos: Pos


@dataclass(frozen=True, slots=True)
class Layered(Located):
    """`value` is the merged one; `origins` says for a key path of it which file and path it has, longest path first.

    Whatever no origin covers stands where the base file has it.
    """

    origins: Mapping[Key, tuple[Located, Key]] = field(default_factory=dict)
    seams: Mapping[Key, Seam] = field(default_factory=dict)

    def home(self, key: Key) -> tuple[Located, Key]:
        """The file that a part stands in, and its key path there."""
        for length in range(len(key), -1, -1):
            found = self.origins.get(key[:length])
            if found is not None:
                return found[0], (*found[1], *key[length:])
        return Located(self.path, self.value, self.places, self.lines), key

    def pos(self, key: Key) -> Pos:
        """The place of a part, in whichever file it stands."""
        located, at = self.home(key)
        return located.pos(at)

    def fault(self, key: Key, message: str) -> Fault:
        """A fault at a part, with the line of the file it stands in."""
        located, at = self.home(key)
        return located.fault(at, message)
