"""Every line of the checklist bound to the library: findings with their instances, results, loose lines, review notes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from narrator.compose.place import Places, combine
from narrator.measure.scan import scan
from narrator.read.cells import trim
from narrator.read.model import Checklist, Item, Line
from narrator.resolve.answer import Answer, NoAnswer, answer, without_quantities
from narrator.resolve.bind import Bound, bind
from narrator.resolve.model import Instance, Loose, Match, Measure, Near, Remark, Resolved
from narrator.resolve.words import plain_words, understand
from narrator.source import index as store
from narrator.source.index import Index
from narrator.source.model import Entry

# Kinds of measure that someone took with an instrument; an age or a count is seen or read, not measured.
INSTRUMENT_KINDS = frozenset(
    "length area volume slope angle temperature moisture percent humidity pressure flow voltage current resistance power"
    " time speed concentration weight".split()
)


@dataclass(slots=True)
class _Out:
    instances: list[Instance] = field(default_factory=list)
    results: list[tuple[Line, str]] = field(default_factory=list)
    loose: list[Loose] = field(default_factory=list)
    notes: list[Remark] = field(default_factory=list)


def resolve(checklist: Checklist, index: Index, places: Places) -> Resolved:
    """Bind each finding, `own` and `tested` line. Lines of other kinds are left as they are for `assess`."""
    out = _Out()
    for line in checklist.lines:
        if line.kind == "finding":
            _finding(line, index, places, out)
        elif line.kind == "own":
            _own(line, index, places, out)
        elif line.kind == "unresolved":
            out.loose.append(Loose(line, line.text, line.reason, ()))
        elif line.kind == "status" and line.key in ("ok", "tested"):
            _status(line, index, places, out)
    return Resolved(tuple(out.instances), tuple(out.results), tuple(out.loose), tuple(out.notes))


def _finding(line: Line, index: Index, places: Places, out: _Out) -> None:
    """A finding line: an entry's instance, a result in the inspector's own words, or a loose line."""
    if not plain_words(line.what):
        out.loose.append(Loose(line, _whole(line), "No words stand here that name a thing.", ()))
        return
    in_what = _quantities(line)
    values = [*in_what, *(item for item in line.items if item.kind in ("value", "series"))]
    phrase = without_quantities(line.what)
    if not plain_words(phrase):
        out.loose.append(Loose(line, _whole(line), "Only a figure stands here; name what it measures.", ()))
        return
    got = answer(phrase, index, places, line.heading_system, values, line.where)
    if isinstance(got, NoAnswer):
        if got.fine and not _says_wrong(line, index):
            out.results.append((line, "fine"))
            out.notes.append(Remark("result", (line.number,), f"Read as a thing that went fine, in your words: '{line.what}'."))
            return
        out.loose.append(Loose(line, _whole(line), got.reason, got.near))
        return
    entry = store.entry(index, got.code)
    assert entry is not None
    _take(line, got, entry, in_what, index, places, out)


def _take(
    line: Line, got: Answer, entry: Entry, in_what: Sequence[Item], index: Index, places: Places, out: _Out, tested: bool = False
) -> None:
    """Instances of a line that found its entry: one for each place typed."""
    if got.how == "likeness":
        said = f"'{line.what}' was taken for '{entry.title[-1].text}' ({entry.code})."
        out.notes.append(Remark("likeness", (line.number,), said))
    criteria = {name: found for spec in entry.measures if (name := spec.criterion or "") and (found := store.criterion(index, name))}
    known = store.known_of(index, [entry.code])[entry.code]
    explained = _entry_words(entry, known.title)
    values = [*in_what, *(item for item in line.items if item.kind in ("value", "series"))]
    bound = bind(values, entry, criteria, line.number, explained)
    if not bound.measures and not got.conditions and got.how != "code":
        why = "; ".join(text for _, _, text in bound.said) or "No figure on the line fits."
        near = (Near(entry.code, entry.title[-1].text, got.score),)
        out.loose.append(Loose(line, _whole(line), f"Its words name a thing that is measured. {why}", near))
        return
    for kind, column, text in bound.said:
        out.notes.append(Remark(kind, (line.number,), f"line {line.number}, column {column}: {text}" if column else text))
    out.instances.extend(_instances(line, got, entry, bound, in_what, places, out, tested))


def _instances(
    line: Line, got: Answer, entry: Entry | None, bound: Bound, in_what: Sequence[Item], places: Places, out: _Out, tested: bool
) -> list[Instance]:
    basis, source, default = _basis(line, got, entry, bound.measures, tested)
    words = _words(line, got, bound, in_what, out)
    wheres = [trim(part) for part in line.where.split(";") if trim(part)] if line.where else []
    extra: list[str] = []
    if not wheres and got.place:
        wheres = [got.place]
    elif wheres and got.place and not any(plain_words(got.place)[0] in plain_words(where) for where in wheres):
        joined = [combine(got.place, where, places) for where in wheres]
        if joined != wheres:
            wheres = joined
        else:
            extra = [got.place]
    heading = line.heading_place
    full = [combine(heading, where, places) if heading else where for where in wheres] or ([heading] if heading else [])
    common = [item for item in line.items if item.kind == "photos"]
    photos = tuple(dict.fromkeys(number for item in common for number in item.numbers))
    sketches = tuple(dict.fromkeys(number for item in line.items if item.kind == "sketch" for number in item.numbers))
    counts = [item.numbers[0] for item in line.items if item.kind == "count"]
    units = [item.value for item in line.items if item.kind == "unit"]
    title = entry.title[-1].text if entry else line.what
    made = Instance(
        line=line,
        match=Match(got.code, got.how, got.score),
        entry=entry,
        title=title,
        place=None,
        basis=basis,
        source=source,
        measures=bound.measures,
        count=counts[0] if counts else None,
        photos=photos,
        sketches=sketches,
        words=(*words, *extra),
        acts=tuple(item for item in line.items if item.kind == "act"),
        unit=", ".join(units) or None,
        overrides=tuple(item for item in line.items if item.kind == "override"),
        default_basis=default,
        says_wrong=bool(got.conditions),
    )
    if len(counts) > 1:
        out.notes.append(Remark("words", (line.number,), "Two counts stand on this line; the first was taken."))
        made = replace(made, words=(*made.words, *(item.text for item in line.items if item.kind == "count")))
    return [replace(made, place=place) for place in full] or [made]


def _words(line: Line, got: Answer, bound: Bound, in_what: Sequence[Item], out: _Out) -> tuple[str, ...]:
    """What is kept as the inspector's own words, verbatim, in the order typed."""
    kept: list[str] = []
    if got.left or any(item in bound.words for item in in_what):
        kept.append(line.what)
    unbound = [item for item in line.items if item in bound.words]
    for item in line.items:
        if item.kind == "quote":
            kept.append(item.value)
        elif item.kind == "words" or item in unbound:
            kept.append(item.text)
            if item.kind == "words":
                said = f"line {line.number}, column {item.column}: '{item.text}' is kept as your own words."
                out.notes.append(Remark("words", (line.number,), said))
    if got.left:
        said = f"line {line.number}, column {line.column}: '{' '.join(got.left)}' is explained by no entry; your words are quoted whole."
        out.notes.append(Remark("words", (line.number,), said))
    return tuple(dict.fromkeys(kept))


def _basis(
    line: Line, got: Answer, entry: Entry | None, measures: Sequence[Measure], tested: bool
) -> tuple[str, str | None, bool]:
    """(basis, source, whether it is a default): typed words first, then a `?`, then what the line itself shows."""
    typed = [item for item in line.items if item.kind == "basis"]
    if line.inferred or got.hedged:
        return "inferred", None, False
    if typed:
        strongest = next((item for item in typed if item.key in ("told", "inferred")), typed[0])
        return strongest.key, strongest.value or None, False
    if tested:
        return "tested", None, False
    if any(measure.spec.kind in INSTRUMENT_KINDS for measure in measures):
        return "measured", None, False
    return (entry.basis if entry else "seen"), None, True


def _own(line: Line, index: Index, places: Places, out: _Out) -> None:
    """A finding that the library does not have."""
    if not line.what:
        out.loose.append(Loose(line, line.text, "Nothing stands after 'own:'; a title is needed.", ()))
        return
    slug = "-".join(plain_words(line.what))[:60].strip("-") or "untitled"
    got = Answer(f"own.{slug}", "own", 1.0, None, (), False, frozenset())
    bound = bind([item for item in line.items if item.kind in ("value", "series")], None, {}, line.number, frozenset())
    out.instances.extend(_instances(line, got, None, replace(bound, said=()), (), places, out, False))


def _status(line: Line, index: Index, places: Places, out: _Out) -> None:
    """`ok` and `tested`: a result; a `tested` whose outcome has a condition word is a finding, else it stays unresolved."""
    vocabulary = store.vocabulary(index)
    told = [item.text for item in line.items if item.kind in ("words", "value", "series", "quote")]
    outcome = ", ".join([*told, *([line.reason] if line.reason else [])])
    wrong = [text for text in (line.what, outcome) if text and understand(without_quantities(text), vocabulary, outcome=True).conditions]
    if not line.what:
        out.loose.append(Loose(line, line.text, f"Nothing stands after '{line.key}:'.", ()))
        return
    if not wrong:
        out.results.append((line, line.key))
        return
    if line.key == "ok":
        out.results.append((line, line.key))
        said = f"'ok' and a word of damage stand on one line: '{line.text}'."
        out.notes.append(Remark("contradiction", (line.number,), said))
        return
    phrase = trim(f"{without_quantities(line.what)} {without_quantities(outcome)}")
    got = answer(phrase, index, places, line.heading_system, _quantities(line))
    if isinstance(got, NoAnswer):
        reason = f"The outcome says that something went wrong. {got.reason}"
        out.loose.append(Loose(line, line.text, reason, got.near))
        return
    entry = store.entry(index, got.code)
    assert entry is not None
    # The outcome's own words are explained by the entry; what is not is kept whole.
    kept = [item for item in line.items if item.kind not in ("words", "value")]
    values = [item for item in line.items if item.kind == "value"]
    as_finding = replace(line, items=tuple(kept), what=phrase)
    quoted = tuple(Item("quote", item.text, item.column, value=item.text) for item in values)
    _take(replace(as_finding, items=(*kept, *quoted)), got._replace(left=()), entry, (), index, places, out, tested=True)


def _quantities(line: Line) -> tuple[Item, ...]:
    """Figures that stand in the `what` itself, as value items; its words are their label only where they name a measure."""
    out = []
    for found in scan(line.what):
        out.append(Item("value", found.quantity.text, line.column + found.start, quantity=found.quantity))
    return tuple(out)


def _entry_words(entry: Entry, title: str) -> frozenset[str]:
    words: set[str] = set(plain_words(title))
    for name in entry.names:
        words.update(plain_words(name))
    return frozenset(words)


def _says_wrong(line: Line, index: Index) -> bool:
    """Whether any other part of the line has a condition word that is not a fine one."""
    vocabulary = store.vocabulary(index)
    texts = [item.text for item in line.items if item.kind in ("words", "value", "quote")]
    return any(understand(text, vocabulary).conditions for text in (*texts, line.where) if text)


def _whole(line: Line) -> str:
    """The words of a loose line; a part split by `;` says which part."""
    return line.text if line.what in line.text else f"{line.what} ({line.text})"


def nearest_three(got: NoAnswer) -> tuple[Near, ...]:
    """The three nearest entries of a line without an answer."""
    return got.near[:3]
