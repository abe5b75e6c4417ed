"""A word for another of one sense, by a published list, raises no alarm when two reports are compared."""

from __future__ import annotations

import re
from pathlib import Path

import yaml
from drafting import LIBRARY, draft

from narrator.commands.common import labels_of
from narrator.publish import publish
from narrator.review.compare import compare
from narrator.review.reading import read_text

DATA = yaml.load(Path(__file__).with_name("plain-words.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
ROOT = Path(__file__).parents[2]
LABELS = labels_of(LIBRARY)


def files() -> list[str]:
    """Drafts of the examples, and one of many entries."""
    notes = [
        (ROOT / "examples" / name / "checklist.txt").read_text(encoding="utf-8")
        for name in ("newer-house", "stucco-house")
    ]
    folder = ROOT / "library" / "entries"
    codes = [".".join(file.relative_to(folder).with_suffix("").parts) for file in sorted(folder.rglob("*.yaml"))]
    notes.append("property: 3 Elm Bank\n" + "\n".join(f"{code} | kitchen" for code in codes[::6]))
    return [publish(draft(text), "md", LABELS) for text in notes]


def test_a_word_of_the_same_sense_raises_no_alarm() -> None:
    """At most 2 of 100."""
    tried, alarms = 0, []
    for text in files():
        base = read_text(text, "a", LABELS, "md")
        for plain, other in DATA["pairs"]:
            found = next(
                (m for m in re.finditer(rf"(?<=[a-z] ){plain}(?= [a-z])", text[: text.index("\n## Terms")])), None
            )
            if found:
                tried += 1
                after = read_text(text[: found.start()] + other + text[found.end() :], "b", LABELS, "md")
                told = compare(base, after).mattering()
                alarms += [(plain, other, told[0].kind, told[0].said)] if told else []
    assert tried > 150
    assert len(alarms) <= tried * 0.02, alarms
