"""The columns of a table: which of its names are ours, which a firm maps to ours, and which are nobody's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from narrator.errors import Fault, NarratorError, Pos, did_you_mean

NO_COLUMNS: Mapping[str, str] = MappingProxyType({})
# Our names, and what people call the same column.
ROLES: Mapping[str, tuple[str, ...]] = {
    "what": ("finding", "findings", "item", "component", "defect", "issue", "observation", "condition", "deficiency",
             "description"),
    "where": ("location", "place", "position", "locations", "places"),
    "details": ("detail", "notes", "note", "comment", "comments", "measure", "measures", "measurement", "measurements",
                "reading", "readings", "more", "note 1", "note 2"),
    "status": ("kind", "type", "result"),
    "photos": ("photo", "pictures", "picture", "pics", "pic", "images", "photo numbers", "photo no", "photo nos"),
    "heading": ("section", "system", "systems", "category"),
    "room": ("area", "place heading", "space"),
    "severity": ("grade",),
    "reason": ("why", "because of", "not inspected because"),
    "name": (),
    "value": (),
    "caption": (),
    "remark": (),
}  # fmt: skip
_OURS = {name: role for role, names in ROLES.items() for name in (role, *names)}
# A single one of these names is enough to tell a row of column names from a row of data.
_TELLING = frozenset(("what", *ROLES["what"])) - {"condition", "item", "component"}


@dataclass(frozen=True, slots=True)
class Columns:
    """Each column's role ('' when its name is nobody's) and its name as typed ('' when it has none)."""

    roles: tuple[str, ...]
    names: tuple[str, ...]

    def role(self, index: int) -> str:
        """The role of a column; a cell beyond the named columns is one more detail."""
        return self.roles[index] if index < len(self.roles) else "details"


POSITIONS = Columns(("what", "where"), ("", ""))
"""The columns of a table without names: what, where, and details from there on."""


def checked(columns: Mapping[str, str]) -> Mapping[str, str]:
    """A firm's names (as compared) with ours. Raises NarratorError for every name that is not ours."""
    faults: list[Fault] = []
    out: dict[str, str] = {}
    for theirs, ours in columns.items():
        role = _OURS.get(_compared(ours))
        if role is None:
            said = f"'{ours}' is not a column here.{did_you_mean(ours, ROLES)} Known columns: {', '.join(ROLES)}."
            faults.append(Fault(Pos("columns"), theirs, said))
        else:
            out[_compared(theirs)] = role
    if faults:
        raise NarratorError(faults)
    return out


def known_names(cells: Sequence[str], columns: Mapping[str, str]) -> int:
    """How many of the cells are column names, if the row is a row of names at all."""
    found = [name for cell in cells if (name := _compared(cell)) in columns or name in _OURS]
    alone = len(found) == 1 and (found[0] in columns or found[0] in _TELLING)
    return len(found) if len(found) > 1 or alone else 0


def columns_of(cells: Sequence[str], columns: Mapping[str, str]) -> Columns:
    """The columns that a row of names makes; empty columns at its end are none."""
    names = [" ".join(cell.split()) for cell in cells]
    while names and not names[-1]:
        names.pop()
    roles = [columns.get(_compared(name)) or _OURS.get(_compared(name), "") for name in names]
    return Columns(tuple(roles), tuple(names))


def near_names(cells: Sequence[str], least: int = 1) -> str:
    """` Did you mean 'x'?` for cells that are spelled like names of columns, if there are enough of them."""
    from difflib import get_close_matches  # only when a name is not known

    short = [_compared(cell) for cell in cells if len(cell) < 40]
    near = [name for cell in short for name in get_close_matches(cell, sorted(_OURS), n=1, cutoff=0.75)]
    return f" Did you mean {', '.join(map(repr, near))}?" if len(near) >= least else ""


def _compared(name: str) -> str:
    """A column name as it is compared: case, spaces, hyphens and end signs do not matter."""
    return " ".join(name.lower().replace("_", " ").replace("-", " ").split()).strip(" :.#*")
