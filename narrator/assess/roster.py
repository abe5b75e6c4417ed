"""The headers in the light of a firm's settings: who the inspector is, the standard, the date, what a report needs."""

from __future__ import annotations

from narrator.assess.headers import House
from narrator.compose.english import join_list, long_date
from narrator.firm import Firm, Person, near_person, person, same_name
from narrator.read.model import Checklist
from narrator.resolve.model import Remark

# Headers that a report can need, as the house holds them; the others stand among its conditions.
_OWN = ("property", "visited", "inspector", "standard")


def with_firm(house: House, firm: Firm, checklist: Checklist) -> tuple[House, Person | None]:
    """The house with initials resolved, the firm's standard where none was typed, the date in the firm's form, and notes."""
    notes: list[Remark] = []
    lines = {key: tuple(number for value, number in values if value) for key, values in checklist.headers.items()}
    if house.firm and not same_name(house.firm, firm.name):
        text = f"'firm: {house.firm}' is typed, and this draft is made with the folder of {firm.name}."
        notes.append(Remark("firm", lines.get("firm", ()), text))
    who = person(firm, house.inspector) if house.inspector else None
    if house.inspector and who is None and firm.roster:
        near = near_person(firm, house.inspector)
        hint = f" Did you mean '{near}'?" if near else ""
        known = join_list([f"{one.initials} ({one.name})" for one in firm.roster])
        text = f"'{house.inspector}' is not on the firm's roster.{hint} It has {known}."
        notes.append(Remark("firm", lines.get("inspector", ()), text))
    made = house._replace(
        inspector=who.name if who else house.inspector,
        firm=firm.name,
        standard=house.standard or firm.standard,
        visited=long_date(house.visited_day, firm.dates) if house.visited_day else house.visited,
    )
    missing = [name for name in firm.needs if not _given(name, made, who)]
    if missing:
        needed = join_list([f"'{name}:'" if name != "licence" else "the inspector's licence" for name in missing])
        notes.append(Remark("firm", (), f"A report of this firm needs {needed}, and nothing gives it."))
    return made._replace(notes=(*house.notes, *notes)), who


def _given(name: str, house: House, who: Person | None) -> bool:
    if name == "licence":
        return who is not None and who.licence is not None
    if name == "client":
        return bool(house.clients)
    if name == "review window":
        return house.window is not None
    if name in _OWN:
        return bool(getattr(house, name))
    return name == "firm" or name in house.conditions
