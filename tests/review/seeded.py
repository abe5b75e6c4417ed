"""Drafts of generated checklists, and edits seeded into their files as a person would make them by hand.

It knows the printed files only, and nothing of how they are compared. The kinds of error that matter are those which
published studies of dictated reports name: a dropped negation, a wrong side, a wrong number, an omission, a merged or
lowered item (`known_by: memory`). The harmless ones are what an editor does to any text.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Callable, Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

import yaml

ROOT = Path(__file__).parents[2]
SEED = 20260512
FORMATS = ("md", "html", "txt", "json")

PLACES = (
    "front wall", "rear wall, left of the entry window", "kitchen, right of sink", "hall bath", "garage, left wall",
    "basement, front right corner", "second floor hall", "left side", "rear right corner", "bedroom 2", "attic above the entry",
    "upper rear slope", "crawl space", "laundry, rear wall", "north wall",
)  # fmt: skip

HEAD = """property: {number} Larch Hollow Road, Penhallow Falls
visited: {day} March 2026
inspector: R. Vance
client: Dana Ortiz
review window: {days} days from {day} March 2026, ends 17:00
built: {built}
weather: overcast, 52F
method: roof from a ladder at the eaves, walls from the ground
roof covering = asphalt shingle | main roof
partly: attic - from the hatch, front third
not inspected: crawl space - hatch painted shut
ok: soffit, fascia | rear
tested: GFCI | baths | 4 of 4 tripped
"""


class Edit(NamedTuple):
    """An edited file. `kind` is what was done to it, `said` the words it was done to."""

    kind: str
    text: str
    said: str


@cache
def entries() -> tuple[tuple[str, str], ...]:
    """Each entry's code with the details of a case of its own that makes a finding."""
    out = []
    for file in sorted((ROOT / "library" / "entries").rglob("*.yaml")):
        code = ".".join(file.relative_to(ROOT / "library" / "entries").with_suffix("").parts)
        data = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        given = [case["given"] for case in data["cases"] if case.get("result") != "true"]
        out.append((code, max(given, key=len, default="")))
    return tuple(out)


def checklist(number: int) -> str:
    """An invented inspection of 14 to 24 findings."""
    draw = Random(SEED + number)
    head = HEAD.format(
        number=number + 3, day=draw.randint(2, 28), days=draw.randint(5, 20), built=draw.randint(1920, 2018)
    )
    chosen = draw.sample(entries(), draw.randint(14, 24))
    lines = [
        " | ".join(filter(None, (code, draw.choice(PLACES), ", ".join(filter(None, (given, f"photo {at * 3 + 1}"))))))
        for at, (code, given) in enumerate(chosen)
    ]
    return head + "\n".join(lines) + "\n"


# Where prose stands in a file


def prose(text: str, form: str) -> list[tuple[int, int]]:
    """Stretches of running text of the findings, as they lie in the file."""
    pattern = {
        "md": r"(?m)^(?![#*|>-]|Written |Chart )(?=.*[.]$).{60,}$",
        "txt": r"(?m)^(?!Number|Written |Chart )(?=.*[.]$).{60,}$",
        "html": r"(?m)(?<=^<p>)[^<]{60,}(?=</p>$)",
        "json": r'(?<=\n     "observation": ")[^"\\]{20,}(?=",\n)|(?<=\n     "recommendation": ")[^"\\]{20,}(?=",\n)',
    }[form]
    found = [match.span() for match in re.finditer(pattern, text)]
    if form in ("md", "txt"):
        start, end = _body(text, form)
        found = [span for span in found if start <= span[0] < end]
    return found


def _body(text: str, form: str) -> tuple[int, int]:
    """From the first finding to the first sheet: no contract text, no address."""
    mark = "## " if form == "md" else ""
    first = re.search(r"(?m)^(?:### )?\d+ ·", text)
    last = re.search(rf"(?m)^{mark}(?:Photos|Notes for a price.*)$", text)
    assert first and last
    return first.start(), last.start()


def _replaced(text: str, start: int, end: int, by: str) -> str:
    return text[:start] + by + text[end:]


def _matches(text: str, form: str, pattern: str) -> list[tuple[int, int, str]]:
    """Every place in prose where a pattern fits."""
    return [
        (start + match.start(), start + match.end(), match[0])
        for start, end in prose(text, form)
        for match in re.finditer(pattern, text[start:end])
    ]


def _around(text: str, start: int, end: int) -> str:
    """Some letters of the file beside a place, to know it again."""
    return html.unescape(text[max(0, start - 25) : end + 25])


def _worded(kind: str, pattern: str, by: Callable[[str, Random], str]) -> Callable[[str, str, Random], Edit | None]:
    def edit(text: str, form: str, draw: Random) -> Edit | None:
        found = _matches(text, form, pattern)
        if not found:
            return None
        start, end, said = draw.choice(found)
        return Edit(kind, _replaced(text, start, end, by(said, draw)), _around(text, start, end))

    return edit


SWAPS = {"left": "right", "right": "left", "front": "rear", "rear": "front", "north": "south", "upper": "lower"}
SYNONYMS = (
    ("collects", "gathers"), ("carries", "takes"), ("soaks", "drenches"), ("quick", "speedy"), ("whole", "entire"), ("big", "large"),
    ("begins", "starts"), ("hides", "conceals"), ("reach", "get to"), ("soil", "earth"), ("near", "close to"), ("runs", "flows"),
    ("lets", "allows"), ("pushes", "presses"), ("stays", "remains"), ("spot", "point"), ("gives", "provides"), ("helps", "aids"),
    ("grows", "expands"), ("weak", "feeble"), ("worn", "tired"), ("house", "home"), ("pieces", "bits"), ("people", "persons"),
    ("needs", "requires"), ("fingertip", "finger"), ("edge", "rim"), ("shape", "form"), ("kind", "sort"), ("storm", "downpour"),
    ("rubs", "chafes"), ("strong", "sturdy"), ("slowly", "gradually"), ("foot", "base"), ("wears", "rubs"), ("spreads", "extends"),
    ("catch", "take"), ("rests", "lies"), ("job", "task"), ("child", "youngster"), ("hold", "bear"), ("every", "each"),
    ("makes", "renders"), ("comes", "arrives"), ("goes", "travels"), ("find", "locate"), ("later", "afterwards"), ("ends", "stops"),
)  # fmt: skip
PARAGRAPHS = (
    "Thank you for walking through the house with us.",
    "The seller was at home and kindly moved the boxes in the hallway.",
    "Please call our office if a word in this report is unclear to you.",
    "Many houses of this age in the valley look much the same.",
    "We enjoyed the visit, and the coffee was welcome on a cold morning.",
    "Our office is closed on public holidays.",
    "The street is quiet and lined with old maples.",
    "Keep this report with your other papers about the house.",
    "A colleague came along to carry the ladder.",
    "The listing agent met us on the porch.",
)
LIMITS = tuple(
    each["text"]
    for each in yaml.safe_load((ROOT / "library/limits.yaml").read_text(encoding="utf-8"))["limits"].values()
)


def _typo(word: str, draw: Random) -> str:
    at = draw.randint(1, len(word) - 3)
    turned = word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    return draw.choice(
        [turned if turned != word else word + word[-1], word[:at] + word[at] + word[at:], word[:at] + word[at + 1 :]]
    )


def _digit(figure: str, draw: Random) -> str:
    return draw.choice([each for each in "123456789" if each != figure])


def synonym(text: str, form: str, draw: Random) -> Edit | None:
    pairs = list(SYNONYMS)
    draw.shuffle(pairs)
    for word, other in pairs:
        found = _matches(text, form, rf"\b{word}\b")
        if found:
            start, end, _ = draw.choice(found)
            return Edit("synonym", _replaced(text, start, end, other), _around(text, start, end))
    return None


def reordered(text: str, form: str, draw: Random) -> Edit | None:
    spans = [(*span, re.findall(r"[^.]*?[a-z)]\.(?: |$)", text[span[0] : span[1]])) for span in prose(text, form)]
    spans = [each for each in spans if len(each[2]) >= 3 and "".join(each[2]) == text[each[0] : each[1]]]
    if not spans:
        return None
    start, end, found = draw.choice(spans)
    found = [each.rstrip(" ") for each in found]
    at = draw.randrange(len(found) - 1)
    said = f"{found[at]} {found[at + 1]}"
    found[at], found[at + 1] = found[at + 1], found[at]
    return Edit("reordered", _replaced(text, start, end, " ".join(found)), html.unescape(said))


def limit_removed(text: str, form: str, draw: Random) -> Edit | None:
    if form == "json":
        value = json.loads(text)
        held = [
            found
            for found in _findings(value)
            if any(each["text"] in LIMITS and each["at"] is None for each in found["limits"])
        ]
        if not held:
            return None
        found = draw.choice(held)
        gone = next(each for each in found["limits"] if each["text"] in LIMITS and each["at"] is None)
        found["limits"].remove(gone)
        return Edit("limit removed", _dumped(value), gone["text"])
    places = _matches(text, form, r" ?(?:" + "|".join(map(re.escape, LIMITS)) + r")(?= |$)")
    if not places:
        return None
    start, end, said = draw.choice(places)
    return Edit("limit removed", _replaced(text, start, end, ""), said.strip())


LOWER = {
    "act now": "plan the repair", "find out before you decide": "upkeep", "plan the repair": "upkeep",
}  # fmt: skip
LOWER_KEY = {"act-now": "plan", "find-out": "upkeep", "plan": "upkeep"}


def grade_lowered(text: str, form: str, draw: Random) -> Edit | None:
    if form == "json":
        value = json.loads(text)
        found = draw.choice([each for each in _findings(value) if each["severity"] in LOWER_KEY])
        found["severity"] = LOWER_KEY[found["severity"]]
        return Edit("grade lowered", _dumped(value), found["title"])
    pattern = {
        "md": r"(?m)^\*(act now(?:: [^·*]*?)?|find out before you decide|plan the repair)(?= ·)",
        "txt": r"(?m)^(act now(?:: [^·*]*?)?|find out before you decide|plan the repair)(?= ·)",
        "html": r'<span class="severity(?: urgent)?">(act now(?:: [^<]*)?|find out before you decide|plan the repair)(?=</span>)',
    }[form]
    match = draw.choice(list(re.finditer(pattern, text)))
    title = _titles(text, form)[sum(each[0] < match.start() for each in _titles(text, form)) - 1][1]
    return Edit("grade lowered", _replaced(text, *match.span(1), LOWER[match[1].split(":")[0]]), title)


def _titles(text: str, form: str) -> list[tuple[int, str]]:
    """Where each finding begins, and its title."""
    pattern = {
        "md": r"(?m)^### \d+ ·\s(.*)$",
        "txt": r"(?m)^\d+ ·\s(.*)$",
        "html": r'<article class="finding"[^>]*>\n<h3>.*?<span class="title">([^<]*)</span></h3>',
    }[form]
    return [(match.start(), html.unescape(match[1])) for match in re.finditer(pattern, text)]


def _blocks(text: str, form: str) -> list[tuple[int, int, str]]:
    """Each finding with all that belongs to it, from its title to its last paragraph."""
    out = []
    for start, title in _titles(text, form):
        if form == "html":
            end = text.index("</article>", start) + len("</article>\n")
        else:
            stop = re.compile(r"(?m)^(?:#{1,6} |---)" if form == "md" else r"\n\n(?=\n)")
            found = stop.search(text, start + 4)
            assert found
            end = found.start() + (0 if form == "md" else 2)
        out.append((start, end, title))
    return out


def merged(text: str, form: str, draw: Random) -> Edit | None:
    """The title and the line under it are taken out, so that the text runs on under the finding before."""
    if form == "json":
        value = json.loads(text)
        parts = [part for part in value["sections"] if len(part["findings"]) > 1]
        if not parts:
            return None
        part = draw.choice(parts)
        at = draw.randrange(1, len(part["findings"]))
        into, found = part["findings"][at - 1], part["findings"].pop(at)
        into["observation"] = " ".join(
            [into["observation"], found["observation"], found["implication"], found["why"], found["recommendation"]]
        )
        into["limits"] += found["limits"]
        into["ask"] += found["ask"]
        into["places"] += [each for each in found["places"] if each not in into["places"]]
        return Edit("finding merged", _dumped(value), found["title"])
    blocks = _blocks(text, form)
    pairs = [(a, b) for a, b in pairwise(blocks) if not text[a[1] : b[0]].strip()]
    if not pairs:
        return None
    _, (start, end, title) = draw.choice(pairs)
    block = text[start:end]
    if form == "html":
        said = block[block.index("</p>\n") + 5 :].removesuffix("</article>\n")
        before = text[:start].rstrip().removesuffix("</article>")
        return Edit("finding merged", f"{before}{said}</article>\n{text[end:]}", title)
    lines = block.split("\n")
    skip = 3 if form == "md" else 2
    return Edit(
        "finding merged", text[:start].rstrip("\n") + "\n\n" + "\n".join(lines[skip:]).lstrip("\n") + text[end:], title
    )


def moved(text: str, form: str, draw: Random) -> Edit | None:
    """A finding is cut out and put before another one, further up or down."""
    if form == "json":
        value = json.loads(text)
        parts = [part for part in value["sections"] if part["findings"]]
        one, other = draw.sample(parts, 2)
        found = one["findings"].pop(draw.randrange(len(one["findings"])))
        other["findings"].insert(0, found)
        return Edit("finding moved", _dumped(value), found["title"])
    blocks = _blocks(text, form)
    at = draw.randrange(len(blocks))
    to = draw.choice([each for each in range(len(blocks)) if each not in (at, at + 1)])
    start, end, title = blocks[at]
    block, place = text[start:end], blocks[to][0]
    without = text[:start] + text[end:]
    place -= end - start if place > start else 0
    gap = "\n" if form == "txt" and not block.endswith("\n\n\n") else ""
    return Edit("finding moved", without[:place] + block + gap + without[place:], title)


def extra(text: str, form: str, draw: Random) -> Edit | None:
    said = draw.choice(PARAGRAPHS)
    if form == "json":
        value = json.loads(text)
        found = draw.choice(list(_findings(value)))
        key = draw.choice(["observation", "recommendation"])
        found[key] = f"{found[key]} {said}"
        return Edit("extra paragraph", _dumped(value), said)
    _, end = draw.choice(prose(text, form))
    added = {"md": f"\n\n{said}", "txt": f"\n\n{said}", "html": f"</p>\n<p>{said}"}[form]
    return Edit("extra paragraph", _replaced(text, end, end, added), said)


def _findings(value: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for part in value["sections"]:
        yield from part["findings"]


def _dumped(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, indent=1) + "\n"


NEGATION = r"\b(?:did|do|does|is|are|was|has|have|could|can|must|should) not\b|\bcannot\b"
MATTERS = {
    "dropped not": _worded(
        "dropped not", NEGATION, lambda said, _: "can" if said == "cannot" else said.removesuffix(" not")
    ),
    "swapped side": _worded(
        "swapped side",
        r"\b(?:left|right|front|rear|north|upper)(?= (?:side|wall|of|corner|right|slope|of the))",
        lambda said, _: SWAPS[said],
    ),
    "changed digit": _worded("changed digit", r"(?<![\d/.])[1-9](?=\b| )", _digit),
    "grade lowered": grade_lowered,
    "limit removed": limit_removed,
    "finding merged": merged,
}
HARMLESS = {
    "finding moved": moved,
    "synonym": synonym,
    "typo": _worded("typo", r"(?<![\w'-])[a-z]{7,}(?![\w'-])", _typo),
    "reordered": reordered,
    "extra paragraph": extra,
}
EXPECTED = {
    "dropped not": {"negation"},
    "swapped side": {"side"},
    "changed digit": {"measure", "criterion", "number"},
    "grade lowered": {"grade"},
    "limit removed": {"limit"},
    "finding merged": {"merged"},
    "finding moved": {"moved"},
    "synonym": {"word"},
    "typo": {"spelling"},
    "reordered": {"reordered"},
    "extra paragraph": {"added-text"},
}
"""What a right answer calls each of them, in the words of the product's own list of kinds."""
