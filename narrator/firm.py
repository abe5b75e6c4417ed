"""A firm's settings as a draft uses them: plain values from the index, which read and checked `firm.yaml` before."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from narrator.errors import nearest


class Person(NamedTuple):
    """Someone of the roster."""

    initials: str
    name: str
    licence: str | None
    signature: str | None


class Firm(NamedTuple):
    """A firm. `instruments`: kind of measure -> uncertainty of a reading and its unit; `grades`: printed words by grade.

    `columns`: a firm's column names -> ours. `statutory`: standard -> sentences. `sections`: systems in printed order, or none.
    """

    name: str
    fingerprint: str
    contact: Mapping[str, str]
    roster: tuple[Person, ...]
    units: str
    dates: str
    standard: str | None
    instruments: Mapping[str, tuple[Fraction, str]]
    sections: tuple[str, ...]
    terms: Mapping[str, str]
    statutory: Mapping[str, str]
    grades: Mapping[str, str]
    deadline: str | None
    columns: Mapping[str, str]
    needs: tuple[str, ...]
    forbid: tuple[str, ...]


def firm_from(data: Mapping[str, Any]) -> Firm | None:
    """From the index's document; None when no firm is laid over the library."""
    if not data:
        return None
    people = (Person(key, who["name"], who["licence"], who["signature"]) for key, who in data["roster"].items())
    return Firm(
        name=data["name"],
        fingerprint=data["fingerprint"],
        contact=data["contact"],
        roster=tuple(people),
        units=data["units"],
        dates=data["dates"],
        standard=data["standard"],
        instruments={kind: (Fraction(figure), unit) for kind, (figure, unit) in data["instruments"].items()},
        sections=tuple(data["sections"]),
        terms=data["terms"],
        statutory=data["statutory"],
        grades=data["grades"],
        deadline=data["deadline"],
        columns=data["columns"],
        needs=tuple(data["needs"]),
        forbid=tuple(data["forbid"]),
    )


def person(firm: Firm, typed: str) -> Person | None:
    """Whom initials or a name stand for (`RV`, `Rhea Vance`, `R. Vance`); case, full stops and spaces do not matter.

    Where two people could be meant, nobody is.
    """
    wanted = _plain(typed)
    exact = [who for who in firm.roster if wanted in (_plain(who.initials), _plain(who.name))]
    found = exact or [who for who in firm.roster if wanted == _plain(f"{who.name[:1]} {who.name.split()[-1]}")]
    return found[0] if len(found) == 1 else None


def near_person(firm: Firm, typed: str) -> str | None:
    """The initials or name of the roster that are spelled most like what was typed."""
    return nearest(typed, [name for who in firm.roster for name in (who.initials, who.name)])


def same_name(one: str, other: str) -> bool:
    """Whether two names are the same but for case, spaces and signs."""
    return _plain(one) == _plain(other)


def _plain(name: str) -> str:
    return "".join(sign for sign in name.lower() if sign.isalnum())
