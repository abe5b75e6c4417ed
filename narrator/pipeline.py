"""From text to report: read, resolve, assess, compose. Each stage takes one value and returns the next."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING

from narrator import __version__
from narrator.assess.claims import Systems, system_of, systems_from
from narrator.assess.connect import clusters
from narrator.assess.contradictions import against_descriptions, contradictions
from narrator.assess.group import Means, assess
from narrator.assess.headers import read_headers
from narrator.assess.judge import Tools
from narrator.assess.limits import computed_limits
from narrator.assess.wording import typed_words
from narrator.compose.facts import Told
from narrator.compose.place import Places, places_from
from narrator.compose.report import Library, compose
from narrator.read.model import Checklist, Line
from narrator.read.notation import Grammar, read_checklist
from narrator.resolve.lines import resolve
from narrator.resolve.model import Remark
from narrator.resolve.vocabulary import Vocabulary
from narrator.resolve.words import understand
from narrator.source import index as store
from narrator.source.index import Index

if TYPE_CHECKING:
    from narrator.edits.model import Edits
    from narrator.firm import Firm
    from narrator.report import Report


def grammar_of(index: Index) -> Grammar:
    """What the reader must know of this library."""
    systems = systems_of(index)
    return Grammar(
        systems=systems.names,
        places=places_of(index),
        descriptions=frozenset(systems.described),
        has_condition=partial(_has_condition, store.vocabulary(index)),
    )


def _has_condition(vocabulary: Vocabulary, text: str) -> bool:
    return bool(understand(text, vocabulary).conditions)


def _home(systems: Systems, vocabulary: Vocabulary, line: Line) -> str:
    return system_of(line.what, systems, vocabulary, line.heading_system)


def systems_of(index: Index) -> Systems:
    """The systems of this library."""
    if "made:systems" not in index.cache:
        made = systems_from(store.document(index, "systems"), store.document(index, "descriptions"))
        firm = firm_of(index)
        if firm is not None and firm.sections:
            made = made._replace(order=(*firm.sections, *made.order[len(firm.sections) :]))
        index.cache["made:systems"] = made
    found: Systems = index.cache["made:systems"]
    return found


def firm_of(index: Index) -> Firm | None:
    """The firm whose folder is laid over this library, or None."""
    if "made:firm" not in index.cache:
        index.cache["made:firm"] = None
        if store.document(index, "firm"):
            from narrator.firm import firm_from  # only where a firm is laid over the library

            index.cache["made:firm"] = firm_from(store.document(index, "firm"))
    found: Firm | None = index.cache["made:firm"]
    return found


def places_of(index: Index) -> Places:
    """The known places of this library."""
    if "made:places" not in index.cache:
        index.cache["made:places"] = places_from(store.document(index, "places"))
    found: Places = index.cache["made:places"]
    return found


def draft_text(
    text: str, path: str, index: Index, standard: str | None = None, notices: Mapping[str, str] | None = None
) -> Report:
    """The draft of a checklist in the notation. Raises NarratorError only for a text that cannot be read at all."""
    return draft_checklist(read_checklist(text, path, grammar_of(index)), index, standard, notices)


def draft_checklist(
    checklist: Checklist,
    index: Index,
    standard: str | None = None,
    notices: Mapping[str, str] | None = None,
    edits: Edits | None = None,
) -> Report:
    """The draft of a checklist that has been read, from whatever form.

    `standard`: the firm's standard of practice, by id or name, where no header chooses one. `notices`: the sentence that
    a standard asks for on its summary page, verbatim, by the standard's id (`nc-11ncac08-1100`). `edits`: what was changed
    by hand in an earlier draft, and what was settled.
    """
    if edits:
        from narrator.edits.redraft import answered, codes, edited  # only where there are edits
    places, systems, vocabulary = places_of(index), systems_of(index), store.vocabulary(index)
    house = read_headers(checklist, store.document(index, "windows"))
    firm, who = firm_of(index), None
    if firm is not None:
        from narrator.assess.roster import with_firm

        house, who = with_firm(house, firm, checklist)
    resolved = resolve(checklist, index, places, codes(edits, checklist) if edits else None)
    trades = store.document(index, "trades")["trades"]
    names = {str(name).lower(): item["id"] for item in trades for name in (item["id"], item["label"], *item["names"])}
    year = house.visited_day.year if house.visited_day else None
    judged = assess(
        resolved.instances,
        index,
        Means(
            year,
            Tools(house.uncertainty, firm.instruments) if firm else Tools(house.uncertainty),
            names,
            systems.order,
            partial(_home, systems, vocabulary),
            "built" in house.conditions,
            house.inspector is not None,
        ),
    )
    if firm is not None:
        from narrator.assess.said import said_in

        judged = said_in(judged, firm.units)
    failed = {number for finding in judged.findings for number in finding.lines}  # a `tested` that failed is no status
    statuses = [line for line in checklist.lines if line.kind == "status" and line.number not in failed]
    against = contradictions(statuses, judged.findings, dict(systems.names), places, vocabulary)
    absent = against_descriptions(checklist.lines, places, vocabulary)
    readers = [Remark(kind, (number,), text) for kind, number, text in checklist.notes]
    notes = [
        *readers,
        *house.notes,
        *resolved.notes,
        *judged.notes,
        *against,
        *absent,
        *typed_words(checklist, judged.findings),
    ]
    documents = {name: store.document(index, name) for name in ("trades", "glossary", "limits", "terms", "firm")}
    library = Library(systems, vocabulary, documents, index.version, index.fingerprint, __version__, firm, who)
    groups = clusters(judged.findings, index, store.document(index, "stories")["topics"])
    kinds: dict[str, frozenset[str]] = {}
    for instance in resolved.instances:
        for measure in instance.measures:
            system = instance.match.code.split(".", 1)[0]
            kinds[measure.spec.kind] = kinds.get(measure.spec.kind, frozenset()) | {system}
    rules = documents["limits"].get("computed", {})
    limits = computed_limits(checklist.headers, checklist.lines, kinds, rules)
    report = compose(checklist, house, resolved, judged, groups, notes, limits, library, Told(places))
    if edits:
        report = edited(report, edits, index, places)
    chosen = house.standard or standard
    if chosen:
        notices = notices or (firm.statutory if firm is not None else {})
        from narrator.compose.practice import by_standard  # only a report with a standard is held against one

        report = by_standard(report, chosen, checklist.headers, index, notices, vocabulary, places)
    return answered(report, edits, checklist, index) if edits else report
