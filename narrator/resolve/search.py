"""Looking an entry up: the same words and weights as in a draft, but every near answer is shown."""

from __future__ import annotations

from narrator.resolve.answer import ranking, without_quantities
from narrator.resolve.likeness import Scored
from narrator.resolve.words import name_key, understand
from narrator.source import index as store
from narrator.source.index import Index


def search(text: str, index: Index) -> tuple[Scored, ...]:
    """Entries for a phrase, best first; an exact code or name leads with a score of 1."""
    phrase = without_quantities(text) or text
    code = phrase.lower().strip()
    exact = code if "." in code and store.entry(index, code) is not None else store.exact(index, name_key(phrase))
    vocabulary = store.vocabulary(index)
    ranked = ranking(understand(phrase, vocabulary), index, lambda _: True)
    shown = vocabulary.thresholds["shown"]
    found = [item for item in ranked if item.score >= shown and item.code != exact]
    found.sort(key=lambda item: (not item.passes, -item.score, item.code))
    if exact is None:
        return tuple(found)
    title = store.known_of(index, [exact])[exact].title
    own = next((item for item in ranked if item.code == exact), Scored(exact, title, 1.0, True, name_key(phrase)))
    return (own._replace(score=1.0, passes=True), *found)
