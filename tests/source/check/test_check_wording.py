"""Checks of a library: what library prose may not print or say."""

from __future__ import annotations

from pathlib import Path

import pytest
from tiny_library import DECAYED, NEAR_ROOF, broken, place

# What is broken: file, piece, what stands there instead; where the fault is found, and what it says.
BROKEN = {
    "unknown-value": (
        NEAR_ROOF,
        "siding comes down to the roof.",
        "siding comes down to {{ gpa }} of the roof.",
        "27:48",
        "'gpa' is not a value of this entry. Did you mean 'gap'?",
    ),
    "no-usual": (
        DECAYED,
        "{{ count }} boards",
        "{{ count.usual }} boards",
        "18:40",
        "'count.usual' is not a value of this entry.",
    ),
    "untyped-measure": (
        NEAR_ROOF,
        "siding comes down to the roof.",
        "siding comes down to {{ gap }} of the roof.",
        "27:48",
        "'gap' is there only when it was typed. Give this wording: when: {gap: typed}",
    ),
    "untyped-count": (
        DECAYED,
        "softened the board.",
        "softened {{ count }} boards.",
        "21:40",
        "'count' is there only when it was typed. Give this wording: when: {count: many}",
    ),
    "untyped-source": (
        DECAYED,
        "{{ place }}, rot has softened the board.",
        "{{ source }} has softened the board.",
        "21:10",
        "Give this wording: when: {basis: told}",
    ),
    "filter": (
        DECAYED,
        "{{ count }} boards",
        "{{ count | upper }} boards",
        "17:5",
        "Only typed values may be printed",
    ),
    "statement": (
        DECAYED,
        "Soft wood lets go of its nails.",
        "{% if x %}Soft wood lets go.{% endif %}",
        "22:1",
        "Only typed values may be printed",
    ),
    "syntax": (
        DECAYED,
        "{{ count }} boards",
        "{{ count boards",
        "17:5",
        "The text is not a template",
    ),
    "brace": (
        DECAYED,
        "{{ place }}, rot has softened the board.",
        "{{ place }}, rot has softened { count } boards.",
        "21:37",
        "A brace stands by itself here.",
    ),
    "nested": (
        DECAYED,
        "{{ count }} boards",
        "{{ " + "(" * 2000 + "count" + ")" * 2000 + " }} boards",
        "17:5",
        "The text is not a template",
    ),
    "endless": (
        DECAYED,
        "{{ count }} boards",
        "{{ " + "9" * 5000 + " }} boards",
        "17:5",
        "The text is not a template",
    ),
    "figure": (
        DECAYED,
        "Soft wood lets go of its nails.",
        "Soft wood lets go of a 2x4.",
        "23:26",
        "'2x4' is a figure in prose.",
    ),
    "figure-in-why": (
        NEAR_ROOF,
        "why: Wet board ends rot.",
        "why: Wet board ends rot in 3 years.",
        "8:28",
        "'3' is a figure in prose.",
    ),
    "never-word": (
        DECAYED,
        "Soft wood lets go of its nails.",
        "Soft wood is never\n  sound, and lets go of its nails.",
        "24:3",
        "'sound' is a word that the report never says.",
    ),
    "never-word-in-limit": (
        "limits.yaml",
        "inside the wall.}",
        "the fine wall.}",
        "3:46",
        "'fine' is a word that the report never says.",
    ),
    "never-word-in-gloss": (
        "glossary.yaml",
        "metal that",
        "adequate metal that",
        "3:51",
        "'adequate' is a word that the report never says.",
    ),
    "never-word-in-story": (
        "stories.yaml",
        "We think water gets in here too.",
        "It appears to be so here too.",
        "11:15",
        "'appears to be' is a word that the report never says.",
    ),
    "untyped-act": (
        NEAR_ROOF,
        "comes down to the roof.",
        "comes down to the roof, as we measured.",
        "27:58",
        "'we measured' is a word that the report never says.",
    ),
    "long-sentence": (
        DECAYED,
        "Soft wood lets go of its nails.",
        (
            "Soft wood lets go of its nails, and once a board hangs by one nail a gust of wind or a "
            "boy with a ball can bring it down on the path below it at any time."
        ),
        "23:3",
        "A sentence of 37 words",
    ),
    "many-sentences": (
        DECAYED,
        "Soft wood lets go of its nails.",
        "Soft wood gives. It lets go. It falls. It hurts.",
        "22:1",
        "This has 4 sentences; the most is 3.",
    ),
    "title-stop": (
        DECAYED,
        "title: Trim has decayed",
        "title: Trim has decayed.",
        "2:1",
        "A title has no full stop.",
    ),
    "title-long": (
        DECAYED,
        "title: Trim has decayed",
        "title: Trim at the edge of the roof has decayed quite badly",
        "2:1",
        "A title of 11 words; the most is 9.",
    ),
    "title-value": (
        DECAYED,
        "title: Trim has decayed",
        "title: Trim has decayed {{ place }}",
        "2:25",
        "A title prints no values",
    ),
    "why-two": (
        NEAR_ROOF,
        "why: Wet board ends rot.",
        "why: Wet board ends rot. They fall.",
        "8:1",
        "The reason is one sentence",
    ),
    "raise-why-two": (
        NEAR_ROOF,
        "A gap this small hides rot.",
        "A gap this small hides rot. It does.",
        "15:40",
        "The reason is one sentence",
    ),
    "limit-two": (
        "limits.yaml",
        "the wall.}",
        "the wall. We looked.}",
        "3:21",
        "A limit is one sentence",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_library_is_told_where_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    file, old, new, at, said = BROKEN[name]
    faults = broken(tmp_path, file, old, new).faults
    found = [place(fault) for fault in faults if said in fault.message]
    assert f"{file}:{at}" in found, "\n".join(fault.show() for fault in faults)
