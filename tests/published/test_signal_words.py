"""What the published signal words ask for, held against every urgent entry.

Source: the signal words of ANSI Z535.4 by a NEMA article on risk severity levels and two label makers' pages that quote the
definitions (known_by: read). By them a serious injury that will or could come if the situation is not avoided is DANGER or
WARNING; minor injury is CAUTION; NOTICE is for no injury at all. The facts are copied, not the sentences; no report prints
the words themselves.
"""

from __future__ import annotations

import re

import pytest
from drafting import LIBRARY, draft

from narrator.source import index as store
from narrator.source.model import Entry

# word: (how certain the harm is if nothing is done, the worst that comes of it)
SIGNALS = {
    "DANGER": ("will", "death or serious injury"),
    "WARNING": ("could", "death or serious injury"),
    "CAUTION": ("could", "minor or moderate injury"),
    "NOTICE": (None, None),
}
ENTRIES = [store.entry(LIBRARY, code) for code in store.codes(LIBRARY)]
URGENT = [entry for entry in ENTRIES if entry.severity == "act-now"]


@pytest.mark.parametrize("entry", URGENT, ids=lambda entry: entry.code)
def test_an_urgent_matter_is_one_of_injury(entry: Entry) -> None:
    injuring = [word for word, (_, harm) in SIGNALS.items() if harm]
    assert injuring == ["DANGER", "WARNING", "CAUTION"]
    assert entry.danger, "a grade that tells people to act at once names a way to be hurt; without one it is a NOTICE"


def test_no_report_prints_a_signal_word() -> None:
    """`act now` is the product's own word: the label words promise a certainty that nobody measured."""
    for entry in URGENT:
        for variant in (*entry.title, *entry.observation, *entry.implication, *entry.recommendation):
            assert not re.search(r"\b(?:DANGER|WARNING|CAUTION|NOTICE)\b", variant.text)


def test_page_one_names_the_way_to_be_hurt_and_whom_to_call() -> None:
    (item,) = draft("gas smell | meter, right side")["opening"][0]["items"]
    assert "Danger: gas and fire." in item["text"] and "Call first: gas utility." in item["text"]
