"""A system of the house: what is there, stories, findings, what went as it should, what was not seen."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from narrator.compose.english import join_list
from narrator.publish.blocks import Block, Condition, Figure, Heading, Meta, Para, Part, Ref
from narrator.publish.labels import Labels
from narrator.publish.text import counted, inline, paragraphs, quoted, run, shown

if TYPE_CHECKING:
    from narrator.report import Chart, Connection, Finding, LimitRef, Result, Section

ONE_PARAGRAPH = 60
"""Words. A finding up to this long is one paragraph; a longer one starts what to do on a new line."""

LOOKED_AT = "What we looked at or tested here"
NOT_SEEN = "What we could not see here"


def section(
    part: Section,
    connections: Sequence[Connection],
    refs: dict[str, Ref],
    told: set[int],
    labels: Labels,
    charts: list[Chart],
    titles: Mapping[str, str],
) -> Part:
    """One system. `told` takes the stories that this one prints, and `charts` gives up the pictures. `titles`: of systems."""
    blocks = list(_running(_extras(each["text"], each["words"], each["photos"]) for each in part["descriptions"]))
    here = {found["id"] for found in part["findings"]}
    for at, connection in enumerate(connections):
        if at not in told and here.intersection(connection["findings"]):
            told.add(at)
            blocks += _story(connection, refs)
    for found in part["findings"]:
        blocks.append(_condition(found, labels))
        blocks += _pictures(charts, [chart for chart in charts if chart["finding"] == found["id"]])
    statuses = [(each["kind"], _extras(each["text"], (), each["photos"])) for each in part["statuses"]]
    went_well = _went_well(part["results"])
    blocks += _headed(LOOKED_AT, went_well + [text for kind, text in statuses if kind == "not present"])
    alone = [chart for chart in charts if chart["finding"] is None and _is_of(chart, part["results"])]
    blocks += _pictures(charts, alone)
    hidden = [text for kind, text in statuses if kind != "not present"]
    blocks += _headed(NOT_SEEN, [*hidden, *_limited(part, titles)])
    return Part("system", (Heading(2, inline(part["title"])), *blocks) if blocks else (), part["system"])


def figure(chart: Chart) -> Figure:
    """A picture as a block."""
    return Figure(chart, inline(chart["text"]))


def _pictures(charts: list[Chart], here: list[Chart]) -> list[Block]:
    """The pictures that belong here; `charts` keeps the others."""
    charts[:] = [chart for chart in charts if chart not in here]
    return [figure(chart) for chart in here]


def _is_of(chart: Chart, results: Sequence[Result]) -> bool:
    """Whether a picture of results shows one of these."""
    return any(each["measures"] and set(each["lines"]) <= set(chart["lines"]) for each in results)


def _limited(part: Section, titles: Mapping[str, str]) -> list[str]:
    """Limits that this system says in full, and one pointer to where the others are said."""
    said = [inline(each["text"]) for each in part["limits"] if each["at"] is None]
    at = list(dict.fromkeys(each["at"] for each in part["limits"] if each["at"]))
    where = [f"under “{inline(titles[name])}”" for name in at if name != "opening"]
    where += ["on the first page"] if "opening" in at else []
    pointer = f"{inline(part['title'])}: more of what limited us stands {join_list(where)}."
    return [*said, pointer] if at else said


def _went_well(results: Sequence[Result]) -> list[str]:
    """Results as sentences; things with nothing more to say than that are told in one."""
    plain = [
        each
        for each in results
        if each["kind"] == "ok" and not each["words"] and ": nothing to report that day." in each["text"]
    ]
    if len(plain) < 2:
        plain = []
    things = [f"{shown(each['thing'])}{_numbered(each['photos'])}" for each in plain]
    merged = [f"Nothing to report that day: {'; '.join(things)}."] if things else []
    return merged + [_extras(each["text"], each["words"], each["photos"]) for each in results if each not in plain]


def _numbered(photos: Sequence[int]) -> str:
    return f" ({counted('photo', photos)})" if photos else ""


def _running(texts: Iterable[str]) -> Iterator[Block]:
    for text in paragraphs(run(texts)):
        yield Para(text)


def _headed(heading: str, texts: list[str]) -> list[Block]:
    prose = list(_running(texts))
    return [Heading(3, heading), *prose] if prose else []


def _extras(text: str, words: Sequence[str], photos: Sequence[int]) -> str:
    """The sentence, with the own words and photos that it does not say itself."""
    text = shown(text)
    own = [quoted(word) for word in map(inline, words) if word and word not in inline(text)]
    numbers = counted("photo", photos) if "photo" not in text else ""
    if not own and not numbers:
        return text
    said = f"{text.removesuffix('.')}: {join_list(own)}" if own else text.removesuffix(".")
    return f"{said} ({numbers})." if numbers else f"{said}."


def _story(connection: Connection, refs: dict[str, Ref]) -> Iterator[Block]:
    told = sorted((refs[each] for each in connection["findings"] if each in refs), key=lambda ref: ref.number)
    numbers = join_list([str(ref.number) for ref in told])
    yield Heading(3, f"Number{'s' if len(told) > 1 else ''} {numbers}, told together", "story", tuple(told))
    for text in paragraphs(connection["text"]):
        yield Para(text, "story")


def _condition(found: Finding, labels: Labels) -> Condition:
    instances = found["instances"]
    meta = Meta(
        severity=inline(labels.severity(found["severity"], found["danger"])),
        leads=tuple(inline(labels.trade(each["id"])) for each in found["trades"] if each["role"] == "lead"),
        # The owner beside a trade is the reader, not someone to call.
        others=tuple(
            inline(labels.trade(each["id"]))
            for each in found["trades"]
            if each["role"] != "lead" and each["id"] != "owner"
        ),
        places=tuple(place for place in map(inline, found["places"]) if place),
        photos=tuple(sorted(set(found["photos"]))),
        sketches=tuple(sorted({number for each in instances for number in each["sketches"]} - set(found["photos"]))),
        urgent=found["severity"] == "act-now",
    )
    seen = _seen(found)
    others = join_list([each for each in map(labels.asked, found["ask"]) if not _asks(found["recommendation"], each)])
    what_to_do = [
        "" if found.get("why_at") is not None or found["why"].strip() in found["implication"] else found["why"],
        found["recommendation"],
        f"Also ask {others}." if others else "",
    ]
    short = len(run(seen + what_to_do).split()) <= ONE_PARAGRAPH
    prose = [run(seen + what_to_do)] if short else [run(seen), run(what_to_do)]
    printed = tuple(text for each in prose for text in paragraphs(each))
    return Condition(Ref(found["number"], found["id"]), inline(found["title"]), meta, printed)


def _asks(recommendation: str, label: str) -> bool:
    """Whether the recommendation itself names `the seller for receipts` by its last word."""
    return label.split()[-1].removesuffix("s").lower() in recommendation.lower() if label.split() else True


def _seen(found: Finding) -> list[str]:
    """What was seen and why it matters, then the limit: in full, or behind the last sentence where it was said before."""
    texts = [text for text in (found["observation"], found["implication"]) if text.strip()]
    full = [limit["text"] for limit in found["limits"] if _in_full(limit)]
    for limit in found["limits"]:
        if not _in_full(limit) and texts:
            first, line_end, added = texts[-1].rstrip().partition("\n")  # a paragraph added by hand stands behind it
            texts[-1] = f"{first.removesuffix('.')} (not seen here: as at number {limit['at']}).{line_end}{added}"
    return [*texts, *dict.fromkeys(full)]


def _in_full(limit: LimitRef) -> bool:
    at = limit["at"]
    return at is None or re.search(rf"(?<!\d){at}(?!\d)", limit["text"]) is not None
