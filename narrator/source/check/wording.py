"""How the texts read: only typed values printed, no figures in prose, no words of the never-list, short sentences."""

from __future__ import annotations

import re

from narrator.assess.wording import claims, never_words
from narrator.errors import Fault, did_you_mean
from narrator.source.check.stock import Stock, fault_at, listed
from narrator.source.check.texts import PRINTED, entry_texts, list_texts, printed, sentences, variants_of
from narrator.source.model import Entry, Variant
from narrator.source.positions import Key, Located

MOST_WORDS = 28
MOST_TITLE = 9
MOST_SENTENCES = {"observation": 3, "implication": 3, "recommendation": 4}
# What the inspector did, said or used comes from a typed line; what the law asks is not ours to say.
UNTYPED = (
    "we told", "we warned", "we tested", "we measured", "we pressed", "we probed", "we used", "we opened", "we turned",
    "we ran", "when tested", "may result in", "further deterioration", "proper", "properly", "required",
    "qualified professional",
)  # fmt: skip
# Never-words in another sense, by the exact words they may stand in. A material or an insect is never named as a fact;
# what a thing is like, can be, or does in general may be said.
ALLOWED = (
    "can hold asbestos",  # a kind of material, not this one
    "kind that holds asbestos",
    "whether it holds asbestos",  # the question that a laboratory answers
    "as if it holds asbestos",
    "kind termites build",  # a shape, not an animal
    "like those that termites build",
    "termites move between",  # what the animal does anywhere
    "termites can tunnel",
    "gives termites a hidden way",
    "maker's warranty",  # the maker's paper, not a promise of ours
    "can name the years left",  # what a roofer may say, not we
)  # fmt: skip

_UNTYPED = re.compile(r"\b(?:" + "|".join(UNTYPED) + r")\b", re.IGNORECASE)
_ALLOWED = re.compile("|".join(re.escape(words) for words in ALLOWED), re.IGNORECASE)
_FIGURE = re.compile(r"\S*\d\S*")
_BRACE = re.compile(r"[{}]+\s*\w*")


def wording_faults(stock: Stock) -> list[Fault]:
    """Faults of wording over all texts of the library."""
    out: list[Fault] = []
    for code, entry in stock.entries.items():
        located = stock.located(code)
        for place, at, text in entry_texts(stock, code):
            out += _words(place, at, text)
        for field in ("observation", "implication", "recommendation"):
            for key, variant in variants_of(located, field, getattr(entry, field)):
                out += _template(located, key, variant, entry)
                out += _length(located, key, field, variant.text)
        for key, variant in variants_of(located, "title", entry.title):
            out += _title(located, key, variant.text)
        out += _one_sentence(located, ("why",), entry.why, "The reason")
        for number, rule in enumerate(entry.raises):
            out += _one_sentence(located, ("raise", number, "why"), rule.why, "The reason")
    for located, at, text in list_texts(stock):
        out += _words(located, at, text)
        if at[0] in ("limits", "computed"):
            out += _one_sentence(located, at, text, "A limit")
    return out


def _words(located: Located, key: Key, text: str) -> list[Fault]:
    """Figures and words that library prose never has."""
    out: list[Fault] = []
    prose = PRINTED.sub(" ", text)
    for figure in (found.strip(".,;:!?()") for found in _FIGURE.findall(prose)):
        message = f"'{figure}' is a figure in prose. Print a typed value, or write the number as a word."
        out.append(fault_at(located, key, figure, message))
    for brace in _BRACE.findall(prose):
        out.append(fault_at(located, key, brace, "A brace stands by itself here. A value is printed as {{ place }}."))
    plain = _ALLOWED.sub(" ", prose)
    untyped = (match.group(0) for match in _UNTYPED.finditer(plain))
    for word in (*never_words(plain), *(word for _, word in claims(plain)), *untyped):
        message = f"'{word}' is a word that the report never says. Say what was seen instead."
        out.append(fault_at(located, key, word, message))
    return out


def _template(located: Located, key: Key, variant: Variant, entry: Entry) -> list[Fault]:
    """Only typed values, and only those that are there whenever the wording holds."""
    known = known_values(entry)
    out: list[Fault] = []
    for name in sorted(printed(variant)):
        measure = name.split(".", 1)[0]
        if name not in known:
            message = f"'{name}' is not a value of this entry.{did_you_mean(name, known)} Known here: {listed(known)}."
            out.append(fault_at(located, key, name, message))
        elif (need := _need(measure, variant, entry)) is not None:
            message = f"'{measure}' is there only when it was typed. Give this wording: when: {need}"
            out.append(fault_at(located, key, name, message))
    return out


def known_values(entry: Entry) -> list[str]:
    """The values that a text of this entry may print."""
    names = ["place", "count", "source"]
    for spec in entry.measures:
        names.append(spec.name)
        names += [f"{spec.name}.usual"] if spec.criterion or spec.against else []
        names += [f"{spec.name}.count"] if spec.series else []
    return names


def _need(name: str, variant: Variant, entry: Entry) -> str | None:
    """The `when` that a printed value asks for, if the wording does not have it."""
    wanted = variant.when.get("basis" if name == "source" else name)
    options = set(wanted if isinstance(wanted, list) else [wanted] if wanted else [])
    if name == "count":
        return None if options and options <= {"one", "many"} else "{count: many}"
    if name == "source":
        return None if options and options <= {"told", "read"} else "{basis: told}"
    if entry.measure(name) is not None:
        return None if options and "none" not in options else f"{{{name}: typed}}"
    return None


def _length(located: Located, key: Key, field: str, text: str) -> list[Fault]:
    found = sentences(text)
    out: list[Fault] = []
    if len(found) > MOST_SENTENCES[field]:
        message = f"This has {len(found)} sentences; the most is {MOST_SENTENCES[field]}. Say it once, and shorter."
        out.append(located.fault(key, message))
    for sentence in found:
        words = len(sentence.split())
        if words > MOST_WORDS:
            start = sentence.split(" …", 1)[0][:24].rsplit(" ", 1)[0]
            message = f"A sentence of {words} words: '{sentence[:40]}...'. The most is {MOST_WORDS}; make two of it."
            out.append(fault_at(located, key, start, message))
    return out


def _title(located: Located, key: Key, text: str) -> list[Fault]:
    out: list[Fault] = []
    if text.endswith("."):
        out.append(located.fault(key, "A title has no full stop."))
    if len(text.split()) > MOST_TITLE:
        out.append(located.fault(key, f"A title of {len(text.split())} words; the most is {MOST_TITLE}."))
    if "{" in text:
        out.append(fault_at(located, key, "{", "A title prints no values; it is the same in every report."))
    return out


def _one_sentence(located: Located, key: Key, text: str, what: str) -> list[Fault]:
    if len(sentences(text)) == 1 and text.endswith("."):
        return []
    return [located.fault(key, f"{what} is one sentence with its full stop; this is not: '{text[:60]}'")]
