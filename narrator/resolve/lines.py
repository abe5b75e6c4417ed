"""Every line of the checklist bound to the library: instances of findings, results, loose lines, review notes."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import chain

from narrator.compose.place import Places, class_of
from narrator.read.cells import trim
from narrator.read.model import HEADERS, Checklist, Item, Line
from narrator.resolve.answer import Answer, NoAnswer, answer
from narrator.resolve.bind import Bound, bind
from narrator.resolve.dimensions import dimension_of
from narrator.resolve.figures import Past, bound_to, past_figure
from narrator.resolve.inner import inner_place
from narrator.resolve.instances import instances_of
from narrator.resolve.model import Loose, Near, Remark, Resolved
from narrator.resolve.pairs import OVER, joined, parted
from narrator.resolve.vocabulary import plain_words, written_out
from narrator.resolve.wordings import figures, without_quantities, wordings
from narrator.resolve.words import understand
from narrator.source import index as store
from narrator.source.index import Index
from narrator.source.model import Entry

_PHOTO_LINE = re.compile(r"(?:photo|pic|picture)s?\b\.?\s*#?\d", re.IGNORECASE)
_HEADER_WORD = re.compile(r"(" + "|".join(re.escape(word) for word in HEADERS) + r")\b", re.IGNORECASE)
_NOTHING = Resolved((), (), (), ())

Settled = Mapping[tuple[int, str], str]
"""Codes that a person bound lines to: by line number and the typed `what`, white space collapsed."""


def resolve(checklist: Checklist, index: Index, places: Places, settled: Settled | None = None) -> Resolved:
    """Bind each finding, `own`, `ok` and `tested` line. Lines of other kinds are left as they are for `assess`."""
    found = [_line(line, index, places, settled or {}) for line in checklist.lines]
    return Resolved(
        tuple(chain.from_iterable(one.instances for one in found)),
        tuple(chain.from_iterable(one.results for one in found)),
        tuple(chain.from_iterable(one.loose for one in found)),
        tuple(chain.from_iterable(one.notes for one in found)),
    )


def _line(line: Line, index: Index, places: Places, settled: Settled) -> Resolved:
    if line.kind == "finding":
        return _finding(_labelled(line, index), index, places, settled)
    if line.kind == "own":
        return _own(line, places)
    if line.kind == "unresolved":
        return _loose(line, line.reason)
    if line.kind == "status" and line.key in ("ok", "tested"):
        return _status(_labelled(line, index), index, places)
    return _NOTHING


def _loose(line: Line, reason: str, near: tuple[Near, ...] = ()) -> Resolved:
    """A line without an answer. A repeated `what` is not in the line's own text, so it is put before it."""
    text = line.text if line.what in line.text else f"{line.what} ({line.text})"
    return replace(_NOTHING, loose=(Loose(line, text, reason, near),))


def _finding(line: Line, index: Index, places: Places, settled: Settled) -> Resolved:
    """A finding line: an entry's instances, a result in the inspector's own words, or a loose line."""
    if not plain_words(line.what):
        return _loose(line, "No words stand here that name a thing.")
    in_what = _quantities(line, index, places)
    phrase = without_quantities(line.what, store.vocabulary(index), places)
    if not plain_words(phrase):
        return _loose(line, "Only a figure stands here; name what it measures.")
    values = [*in_what, *_values(line)]
    got = _answered(line, values, index, places)
    code = settled.get((line.number, " ".join(line.what.split()))) if settled else None
    if code is not None and store.entry(index, code) is not None:
        got = _bound_by_hand(got, code, phrase)
    if isinstance(got, NoAnswer):
        if got.fine and not _says_wrong(line, index):
            past = past_figure(line, values, index, places)
            if past is not None:
                return _contradicted(line, past)
            said = f"Read as a thing that went fine, in your words: '{line.what}'."
            result = (_as_told(line), "fine")
            return replace(_NOTHING, results=(result,), notes=(Remark("result", (line.number,), said),))
        return _loose(line, _hint(line, values, got), got.near)
    return _taken(line, got, in_what, index, places)


def _bound_by_hand(got: Answer | NoAnswer, code: str, phrase: str) -> Answer:
    """The answer that a person gave for a phrase. Where it is not the one found, all the typed words are kept as own words."""
    if isinstance(got, Answer) and got.code == code:
        return got._replace(how="settled", score=1.0)
    if isinstance(got, Answer):
        return got._replace(code=code, how="settled", score=1.0, left=tuple(phrase.split()))
    return Answer(code, "settled", 1.0, None, tuple(phrase.split()), False, got.conditions)


def _answered(line: Line, values: Sequence[Item], index: Index, places: Places) -> Answer | NoAnswer:
    """The answer to the first wording of the line that has one; else why there is none to it."""
    labels = [word for item in line.items if item.kind == "value" for word in plain_words(item.label)]
    first: NoAnswer | None = None
    for phrase in wordings(line.what, store.vocabulary(index), places, labels):
        got = answer(phrase, index, places, line.heading_system, values, line.where, line.heading_place or "")
        if isinstance(got, Answer):
            return got
        first = first or got
    assert first is not None
    return first


def _contradicted(line: Line, past: Past) -> Resolved:
    """Fine words with a figure past the published one: one of the two is wrong."""
    near = (Near(past.entry.code, past.entry.title[-1].text, past.answer.score),)
    reason = f"The words say that it is fine, but the figure ({past.figure}) is past the published one. Which is right?"
    return _loose(line, reason, near)


def _taken(
    line: Line, got: Answer, in_what: Sequence[Item], index: Index, places: Places, tested: bool = False
) -> Resolved:
    """A line that found its entry: an instance for each place typed."""
    entry = store.entry(index, got.code)
    assert entry is not None
    values = [*in_what, *_values(line)]
    bound = bound_to(line, entry, values, index)
    if not got.conditions and got.how not in ("code", "settled"):
        # A series under the plain name of a thing goes to the entry of that thing which takes a series.
        entry, bound = _series_entry(entry, bound, line, values, index)
        got = got._replace(code=entry.code)
        if not bound.measures:
            why = "; ".join(text for _, _, text in bound.said) or "No figure on the line fits."
            near = (Near(entry.code, entry.title[-1].text, got.score),)
            return _loose(line, f"Its words name a thing that is measured. {why}", near)
    notes: list[Remark] = []
    if got.how in ("likeness", "settled"):
        said = f"'{line.what}' was taken for '{entry.title[-1].text}' ({entry.code})."
        notes.append(Remark("likeness", (line.number,), said))
    for kind, column, text in bound.said:
        where = f"line {line.number}, column {column}: " if column else ""
        notes.append(Remark(kind, (line.number,), where + text))
    got = got._replace(place=inner_place(line, got, entry, places))
    made, more = instances_of(line, got, entry, bound, in_what, places, tested)
    return replace(_NOTHING, instances=tuple(made), notes=(*notes, *more))


def _series_entry(entry: Entry, bound: Bound, line: Line, values: Sequence[Item], index: Index) -> tuple[Entry, Bound]:
    """The entry itself, or the one of the same component that has a measure for the typed series."""
    if not any(item.kind == "series" for item in values) or any(spec.series for spec in entry.measures):
        return entry, bound
    for code in store.component_codes(index, entry.code):
        other = store.entry(index, code) if code != entry.code else None
        if other is not None and any(spec.series for spec in other.measures):
            found = bound_to(line, other, values, index)
            if any(measure.points for measure in found.measures):
                return other, found
    return entry, bound


def _own(line: Line, places: Places) -> Resolved:
    """A finding that the library does not have: its figures have no measure, so they stay words."""
    got = Answer(f"own.{slug(line.what)}", "own", 1.0, None, (), False, frozenset())
    bound = bind(_values(line), None, {}, line.number, frozenset())
    made, notes = instances_of(line, got, None, bound, (), places)
    return replace(_NOTHING, instances=tuple(made), notes=tuple(notes))


def slug(title: str) -> str:
    """A title as the last part of a code: small letters and digits of any script, joined by hyphens."""
    plain = "".join(char for char in unicodedata.normalize("NFKD", title.lower()) if not unicodedata.combining(char))
    words = re.sub(r"[\W_]+", "-", re.sub("['’‘]", "", plain)).strip("-")
    return words or "-".join(f"u{ord(char):x}" for char in title)


def _status(line: Line, index: Index, places: Places) -> Resolved:
    """`ok` and `tested`: a result; a `tested` whose outcome has a condition word is a finding, else it stays loose."""
    line = _outcome_first(line, index, places)
    told = [item.text for item in line.items if item.kind in ("words", "value", "series", "quote")]
    outcome = ", ".join([*told, *([line.reason] if line.reason else [])])
    vocabulary = store.vocabulary(index)
    wrong = any(
        understand(without_quantities(text, vocabulary, places), vocabulary, outcome=True).conditions
        for text in (line.what, outcome)
        if text
    )
    if line.key == "tested" and wrong:
        return _failed(line, outcome, index, places)
    in_what = _quantities(line, index, places)
    past = past_figure(line, [*in_what, *_values(line)], index, places)
    if past is not None and line.key == "tested":
        return _taken(replace(line, what=past.phrase), past.answer, in_what, index, places, tested=True)
    if past is not None:
        return _contradicted(line, past)
    notes: tuple[Remark, ...] = ()
    if wrong:
        said = f"'ok' and a word of damage stand on one line: '{line.text}'."
        notes = (Remark("contradiction", (line.number,), said),)
    return replace(_NOTHING, results=((_as_told(line), line.key),), notes=notes)


def _outcome_first(line: Line, index: Index, places: Places) -> Line:
    """The line with its second cell among the details, if that is no place but tells what came of it (`2 did not trip`)."""
    if not line.where or class_of(line.where, places):
        return line
    vocabulary = store.vocabulary(index)
    said = understand(without_quantities(line.where, vocabulary, places), vocabulary, outcome=True)
    if not said.conditions and not said.fine:
        return line
    return replace(line, where="", items=(Item("words", line.where, line.column), *line.items))


def _as_told(line: Line) -> Line:
    """A result's line: its count, source, acts and overrides mean nothing to it, but stay as own words."""
    kinds = ("count", "basis", "act", "override")
    return replace(line, items=tuple(replace(i, kind="words") if i.kind in kinds else i for i in line.items))


def _failed(line: Line, outcome: str, index: Index, places: Places) -> Resolved:
    """A test that failed, told as a finding: its words are explained by the entry, or else all of them are kept."""
    vocabulary = store.vocabulary(index)
    phrase = trim(
        f"{without_quantities(line.what, vocabulary, places)} {without_quantities(outcome, vocabulary, places)}"
    )
    in_what = _quantities(line, index, places)
    got = answer(
        phrase,
        index,
        places,
        line.heading_system,
        [*in_what, *_values(line)],
        line.where,
        line.heading_place or "",
    )
    if isinstance(got, NoAnswer):
        return _loose(line, f"The outcome says that something went wrong. {got.reason}", got.near)
    items = line.items
    if line.reason:
        items = (*items, Item("words", line.reason, line.column))
    if not got.left:
        # The entry says the words, but no figure among them.
        items = tuple(item for item in items if item.kind != "words" or any(map(str.isdigit, item.text)))
    as_finding = replace(line, items=items, what=phrase, reason="")
    return _taken(as_finding, got._replace(left=()), in_what, index, places, tested=True)


def _values(line: Line) -> list[Item]:
    return [item for item in line.items if item.kind in ("value", "series")]


def _labelled(line: Line, index: Index) -> Line:
    """The line with what stands beside its figures written out (`hgt 34 in`)."""
    vocabulary = store.vocabulary(index)
    parts = [part for item in line.items for part in parted(item)]
    items = tuple(replace(one, label=written_out(one.label, vocabulary)) if one.label else one for one in parts)
    return replace(line, items=items) if items != line.items else line


def _quantities(line: Line, index: Index, places: Places) -> tuple[Item, ...]:
    """Figures in the `what` itself, as value items; one without a unit is labelled by the words beside it."""
    out: list[Item] = []
    vocabulary = store.vocabulary(index)
    all_found = figures(line.what, vocabulary, places)
    tied = joined(line.what, all_found)
    edges = [0, *(edge for found in all_found for edge in (found.start, found.end)), len(line.what)]
    for number, found in enumerate(all_found):
        before = line.what[edges[2 * number] : found.start].rpartition(",")[2]
        after = line.what[found.end : edges[2 * number + 3]].partition(",")[0]
        beside = (*plain_words(before)[-2:], *plain_words(after)[:1])
        dimension = dimension_of(line.what, found)
        if number in tied:
            label = OVER
        elif dimension:
            label = dimension.word
        else:
            label = "" if found.quantity.unit else written_out(" ".join(beside), vocabulary)
        column = line.column + found.start
        out.append(Item("value", found.quantity.text, column, label=label, quantity=found.quantity))
    return tuple(out)


def _hint(line: Line, values: Sequence[Item], got: NoAnswer) -> str:
    """Why a line has no answer, in the words that help most."""
    if _PHOTO_LINE.match(line.what):
        return "A caption needs a colon after the photo numbers: `photos 1-4: front`."
    word = _HEADER_WORD.match(line.what)
    if word and not got.conditions:
        return f"If this is a header, it needs a colon: `{word.group(1).lower()}: ...`."
    if line.what.endswith(":"):
        return "This looks like a heading, but no system and no known place has this name."
    bare = next((item for item in values if item.quantity and not item.quantity.unit and not item.quantity.of), None)
    if bare and not got.conditions:
        return f"No word here says what is wrong, and '{bare.text}' has no unit to measure by."
    if values and not got.conditions and not got.fine:
        return f"No word here says what is wrong, nor what '{values[0].text}' measures."
    return got.reason


def _says_wrong(line: Line, index: Index) -> bool:
    """Whether any other part of the line has a condition word that is not a fine one."""
    vocabulary = store.vocabulary(index)
    texts = [item.text for item in line.items if item.kind in ("words", "value", "quote", "series")]
    return any(understand(text, vocabulary).conditions for text in (*texts, line.where) if text)
