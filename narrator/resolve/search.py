"""Looking an entry up: the same words and weights as in a draft, but every near answer is shown."""

from __future__ import annotations

from narrator.compose.place import Places, places_from
from narrator.resolve.answer import ranking, readings
from narrator.resolve.likeness import Scored
from narrator.resolve.spelling import spellings
from narrator.resolve.vocabulary import name_key
from narrator.resolve.wordings import without_quantities
from narrator.resolve.words import understand
from narrator.source import index as store
from narrator.source.index import Index

# What a way of reading is worth that leaves out a place with the name of a part in it ("chimney", "steps").
CUT = 0.9


def search(text: str, index: Index) -> tuple[Scored, ...]:
    """Entries for a phrase, best first; an exact code or name leads with a score of 1."""
    places = places_from(store.document(index, "places"))
    phrase = without_quantities(text, store.vocabulary(index), places) or text
    code = phrase.lower().strip()
    exact = code if "." in code and store.entry(index, code) is not None else store.exact(index, name_key(phrase))
    best = _near(phrase, index, places)
    shown = store.vocabulary(index).thresholds["shown"]
    found = [item for item in best.values() if item.score >= shown and item.code != exact]
    found.sort(key=lambda item: (not item.passes, -item.score, item.code))
    if exact is None:
        return tuple(found)
    title = store.known_of(index, [exact])[exact].title
    own = best.get(exact, Scored(exact, title, 1.0, True, name_key(phrase)))
    return (own._replace(score=1.0, passes=True), *found)


def _near(phrase: str, index: Index, places: Places) -> dict[str, Scored]:
    """The best of each entry over the ways the phrase can be read and its doubtful words be written."""
    vocabulary = store.vocabulary(index)
    best: dict[str, Scored] = {}
    for way in spellings(phrase, vocabulary) or (phrase,):
        for text, place in readings(way, places):
            cut = CUT if place and understand(place, vocabulary).parts else 1.0
            for item in ranking(understand(text, vocabulary), index, lambda _: True):
                now = item._replace(score=round(item.score * cut, 4))
                old = best.get(now.code)
                if old is None or (now.passes, now.score) > (old.passes, old.score):
                    best[now.code] = now
    return best
