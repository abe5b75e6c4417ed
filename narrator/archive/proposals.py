"""The firm edit that would settle what keeps coming up: YAML to put into the firm's folder, or why a person has to write it."""

from __future__ import annotations

import re
from difflib import SequenceMatcher
from typing import TYPE_CHECKING, Any, NamedTuple

from narrator.assess.model import RANK
from narrator.assess.wording import never_words
from narrator.review.meaning import alone
from narrator.review.plainly import level
from narrator.source import index as store
from narrator.source.index import Index
from narrator.source.model import Entry, Variant

if TYPE_CHECKING:
    from narrator.archive.sent import Touch

_TEXTS = frozenset({"title", "observation", "implication", "recommendation"})


class Proposal(NamedTuple):
    """A file of the firm's folder and what it would say; or, where there is none, `why`."""

    file: str
    text: str
    why: str = ""


def file_of(code: str) -> str:
    """The firm's file for an entry."""
    return f"entries/{code.replace('.', '/')}.yaml"


def for_name(what: str, code: str, index: Index) -> Proposal:
    """A name more for an entry."""
    if store.entry(index, code) is None:
        return Proposal("", "", f"The library has no entry {code} any more.")
    from narrator.pipeline import places_of
    from narrator.resolve.vocabulary import name_key
    from narrator.resolve.wordings import without_quantities
    from narrator.resolve.words import understand

    name = name_key(without_quantities(what, store.vocabulary(index), places_of(index)))
    if not name:
        return Proposal("", "", "Without its figure no word is left for a name.")
    other = store.exact(index, name)
    if other is not None:
        return Proposal("", "", f"{other} has this name already.")
    phrase = understand(name, store.vocabulary(index))
    known = phrase.parts and phrase.conditions
    comment = (
        "" if known else "words.yaml of the firm needs these words first: which part it is, and what is wrong with it."
    )
    return _made(code, {"names+": [name]}, comment)


def _made(code: str, changes: dict[str, Any], comment: str = "") -> Proposal:
    from narrator.source.firm.emit import edit_text  # YAML is heavy: only where something is proposed

    return Proposal(file_of(code), edit_text(changes, comment))


def for_change(touch: Touch, index: Index) -> Proposal:
    """The firm edit that makes a change of one sentence, grade or trade the rule."""
    entry = store.entry(index, touch.code)
    if entry is None:
        return Proposal("", "", "The library does not have this entry.")
    if touch.field == "severity":
        return _graded(touch, entry)
    if touch.field == "trades":
        return _traded(touch, entry, index)
    if touch.field in ("limits", "finding", "text") or touch.field.startswith("limits."):
        return Proposal("", "", "What was left out or added here is for a person to judge; narrator proposes nothing.")
    words = sorted(set(never_words(touch.after)) - set(never_words(touch.before)))
    if words:
        return Proposal("", "", f"The new words say '{words[0]}', which no report should say.")
    if touch.field == "why":
        return _made(entry.code, {"why": touch.after}) if level(entry.why) == touch.before else _by_hand()
    if touch.field not in _TEXTS:
        return _by_hand()
    return _worded(touch, entry)


def _by_hand() -> Proposal:
    return Proposal("", "", "It cannot be put into the entry's wording by itself; use narrator edit.")


def _graded(touch: Touch, entry: Entry) -> Proposal:
    if touch.after not in RANK:
        return Proposal("", "", "This is no grade of narrator's.")
    if entry.danger and RANK[touch.after] > RANK.get(entry.severity, 1):
        return Proposal("", "", "It could hurt someone, so a firm cannot grade it down.")
    return _made(entry.code, {"severity": touch.after})


def _traded(touch: Touch, entry: Entry, index: Index) -> Proposal:
    trades = store.document(index, "trades")["trades"]
    ids = {str(name).lower(): item["id"] for item in trades for name in (item["id"], item["label"], *item["names"])}
    words = [word for word in re.split(r",| with | and |;", touch.after.lower()) if word.strip()]
    found = [ids.get(word.strip()) for word in words]
    if not found or None in found:
        return Proposal("", "", "Not every trade there is one of the library's.")
    lead, *beside = found
    return _made(entry.code, {"trade": {"lead": lead, "with": beside} if beside else {"lead": lead}})


def _worded(touch: Touch, entry: Entry) -> Proposal:
    variants: tuple[Variant, ...] = getattr(entry, touch.field)
    if not touch.before:
        named = any(variant.name for variant in variants)
        return _by_hand() if named or touch.field == "title" else _made(entry.code, {f"{touch.field}+": touch.after})
    if not touch.after and (
        entry.danger or alone(touch.before, "finding") in ("limit", "act", "stance", "measure", "criterion")
    ):
        return Proposal(
            "", "", "The sentence that was left out is a caution, a limit or a figure; a person has to judge it."
        )
    for variant in variants:
        text = _replaced(variant.text, touch.before, touch.after)
        if text is not None and text.strip():
            value: Any = [{"name": variant.name, "text": text}] if variant.name else text
            return _made(entry.code, {touch.field: value})
    return _by_hand()


def _replaced(template: str, before: str, after: str) -> str | None:
    """The wording with the change in it: the whole sentence where it stands there, else each changed stretch where it stands once."""
    plain = level(template)
    if plain.count(before) == 1:
        return " ".join(plain.replace(before, after).split())
    one, other = before.split(), after.split()
    out = plain
    for tag, a, b, c, d in SequenceMatcher(None, one, other, autojunk=False).get_opcodes():
        if tag == "equal":
            continue
        # An inserted word is held by the word before it.
        start, to = (a - 1, c - 1) if tag == "insert" and a else (a, c)
        old, new = " ".join(one[start:b]), " ".join(other[to:d])
        if not old or len(re.findall(rf"(?<!\w){re.escape(old)}(?!\w)", out)) != 1:
            return None
        out = re.sub(rf"(?<!\w){re.escape(old)}(?!\w)", lambda _, new=new: new, out)  # type: ignore[misc]
    return " ".join(out.split()) if out != plain else None
