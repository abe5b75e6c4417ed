"""Faults and contradictions as a hurried hand leaves them in a draft's file, and harmless edits beside them.

It knows the files as they are printed and the value that they were printed from, and nothing of how a review looks for
faults. The kinds are those that published studies of dictated reports name (a wrong side, a wrong number, an omission; `known_by:
memory`) and those that the product itself forbids.
"""

from __future__ import annotations

import copy
import html
import json
import re
from collections.abc import Callable, Iterator
from random import Random
from typing import Any, NamedTuple

NBSP = "\u00a0"
OTHER = {"left": "right", "right": "left", "front": "rear", "rear": "front"}
PLAN, UPKEEP = "plan the repair", "upkeep"


class Fault(NamedTuple):
    """An edited file. `kinds` are the names under which the fault may be told, `numbers` the findings that it touches."""

    name: str
    text: str
    kinds: frozenset[str]
    numbers: frozenset[int]


class Page(NamedTuple):
    """A draft as a file in `md`, `html` or `txt`, with the value it was printed from."""

    text: str
    form: str
    report: dict[str, Any]

    def shown(self, words: str) -> str:
        """Words as this form writes them."""
        if self.form == "html":
            return html.escape(words, quote=False).replace("'", "&#39;")
        return re.sub(r"([\\`*_\[\]#|~{}])", r"\\\1", words) if self.form == "md" else words

    def finding(self, number: int) -> tuple[int, int]:
        """Where a finding stands."""
        if self.form == "html":
            at = re.search(rf'<article (?:(?!<article).)*?<span class="number">{number}</span>', self.text, re.DOTALL)
            start = at.start() if at else -1
            return start, self.text.index("</article>", start) + 10
        head = rf"(?m)^{'### ' if self.form == 'md' else ''}{number} ·{NBSP}"
        at = re.search(head, self.text)
        assert at, (self.form, number)
        ends = re.compile(r"\n#{2,3} " if self.form == "md" else r"\n\n\n").search(self.text, at.end())
        return at.start(), ends.start() if ends else len(self.text)

    def part(self, heading: str) -> tuple[int, int]:
        """Where a part of the report stands, its heading with it."""
        shown = self.shown(heading)
        if self.form == "html":
            at = re.search(rf"<h[23][^>]*>{re.escape(shown)}</h[23]>", self.text)
            ends = re.compile(r"<h2|<article|<footer").search(self.text, at.end()) if at else None
        else:
            at = re.search(rf"(?m)^{'##+ ' if self.form == 'md' else ''}{re.escape(shown)}$", self.text)
            ends = (
                re.compile(r"\n#{2,3} " if self.form == "md" else r"\n\n\n").search(self.text, at.end()) if at else None
            )
        if not at:
            return -1, -1
        return at.start(), ends.start() if ends else len(self.text)

    def swap(self, span: tuple[int, int], old: str, new: str) -> str | None:
        """The file with the first such words in a stretch changed, or None where they do not stand there."""
        start, end = span
        for words, other in ((self.shown(old), self.shown(new)), (old, new)):
            at = self.text.find(words, start, end) if start >= 0 else -1
            if at >= 0:
                return self.text[:at] + other + self.text[at + len(words) :]
        return None

    def added(self, span: tuple[int, int], sentence: str) -> str | None:
        """The file with a sentence behind the last paragraph of a stretch."""
        start, end = span
        if start < 0:
            return None
        block = self.text[start:end].rstrip("\n")
        if self.form == "html":
            at = block.rfind("</p>")
            if at < 0:
                return None
            block = block[:at] + " " + self.shown(sentence) + block[at:]
        else:
            block += " " + self.shown(sentence)
        return self.text[:start] + block + self.text[start + len(self.text[start:end].rstrip("\n")) :]


def findings(report: dict[str, Any]) -> list[dict[str, Any]]:
    return [each for part in report["sections"] for each in part["findings"]]


def sheet_of(page: Page, found: dict[str, Any]) -> tuple[int, int] | None:
    """Where the sheet of a finding stands."""
    for sheet in page.report["trade_sheets"]:
        if any(row["number"] == found["number"] for row in sheet["rows"]):
            return page.part(f"Notes for a price: {sheet['label']}")
    return None


def row_of(page: Page, found: dict[str, Any]) -> tuple[int, int]:
    """Where the first row of a finding stands in its sheet."""
    span = sheet_of(page, found)
    if span is None or span[0] < 0:
        return -1, -1
    n = found["number"]
    pattern = {
        "md": rf"(?m)^\| {n} \|.*$",
        "txt": rf"(?m)^Number: {n};.*$",
        "html": rf"<tr[^>]*>\s*<t[dh][^>]*>(?:<a[^>]*>)?{n}<.*?</tr>",
    }[page.form]
    at = re.compile(pattern, re.DOTALL if page.form == "html" else 0).search(page.text, *span)
    return at.span() if at else (-1, -1)


def one_row(page: Page, n: int) -> tuple[int, int]:
    """Where page one lists a finding."""
    span = next(
        (page.part(each) for each in ("First", "To find out before you decide") if _listed(page, page.part(each), n)),
        None,
    )
    return _listed(page, span, n) or (-1, -1) if span else (-1, -1)


def _listed(page: Page, span: tuple[int, int], n: int) -> tuple[int, int] | None:
    if span[0] < 0:
        return None
    pattern = {
        "md": rf"(?m)^- Number {n}: .*\n",
        "txt": rf"(?m)^Number {n}: .*\n",
        "html": rf"<li[^>]*>(?:(?!</li>).)*?Number {n}\b.*?</li>",
    }[page.form]
    at = re.compile(pattern, re.DOTALL if page.form == "html" else 0).search(page.text, *span)
    return at.span() if at else None


def _cut(page: Page, span: tuple[int, int]) -> str | None:
    return page.text[: span[0]] + page.text[span[1] :] if span[0] >= 0 else None


def _made(name: str, text: str | None, kinds: str, *numbers: int) -> Fault | None:
    return Fault(name, text, frozenset(kinds.split()), frozenset(numbers)) if text is not None else None


CLAIMS = (
    "This is definitely an old leak.",
    "The wall is structurally sound.", "You should not buy this house.", "The repair costs about $2,400.",
    "The stain is black mold.", "This is a code violation.", "The work is guaranteed to last.", "The rest is in good condition.",
    "The flashing has probably failed.", "It is perfectly safe to use until then.", "There is a 90 % chance that water comes in.",
    "Ask the seller for a credit.", "The old tiles are asbestos.", "Termites have been in this board.", "The wiring is not up to code.",
    "The tank is adequate.", "We confirm that nothing else is wrong.", "The part is in satisfactory shape.",
)  # fmt: skip
"""Sentences that nobody may write, one for each kind of over-claim."""


def _side(words: str) -> str | None:
    return next((each for each in re.findall(r"[a-z]+", words.lower()) if each in OTHER), None)


def _sided(page: Page, draw: Random) -> list[dict[str, Any]]:
    out = [each for each in findings(page.report) if len(each["places"]) == 1 and _side(each["places"][0])]
    draw.shuffle(out)
    return out


def side_in_text(page: Page, draw: Random) -> Iterator[Fault | None]:
    for found in _sided(page, draw):
        side = _side(found["places"][0])
        phrase = re.search(rf"(?i)\b(?:at|on) the {side}\b|\b{side} of the\b|\bthe {side}\b", found["observation"])
        if side and phrase:
            new = phrase[0].replace(side, OTHER[side])
            start, end = page.finding(found["number"])
            body = page.text.find(page.shown(found["observation"][:12]), start, end)
            yield _made(
                "side in text", page.swap((body, end), phrase[0], new) if body >= 0 else None, "side", found["number"]
            )


def side_on_sheet(page: Page, draw: Random) -> Iterator[Fault | None]:
    for found in _sided(page, draw):
        side = _side(found["places"][0])
        if side:
            place = found["places"][0]
            new = re.sub(rf"(?i)\b{side}\b", OTHER[side], place, count=1)
            yield _made("side on sheet", page.swap(row_of(page, found), place, new), "side place", found["number"])


def side_on_page_one(page: Page, draw: Random) -> Iterator[Fault | None]:
    for found in _sided(page, draw):
        side, span = _side(found["places"][0]), one_row(page, found["number"])
        title = page.text.find(page.shown(found["title"]), *span) if span[0] >= 0 else -1
        if side and title >= 0:
            yield _made(
                "side on page one",
                page.swap((title + len(found["title"]), span[1]), f" {side}", f" {OTHER[side]}"),
                "side place",
                found["number"],
            )


def _measured(page: Page, draw: Random) -> Iterator[tuple[dict[str, Any], str]]:
    every = findings(page.report)
    draw.shuffle(every)
    for found in every:
        for one in found["instances"]:
            for measure in one["measures"]:
                text = measure.get("text") or ""
                if (
                    re.fullmatch(r"\d+(?:\.\d+)? [a-zA-Z°%]+.*", text)
                    and not measure.get("from")
                    and found["observation"].count(text.split()[0]) == 1
                ):
                    yield found, text


def figure_on_sheet(page: Page, draw: Random) -> Iterator[Fault | None]:
    for found, text in _measured(page, draw):
        yield _made("figure on sheet", page.swap(row_of(page, found), text, f"97{text}"), "figure", found["number"])


def figure_in_text(page: Page, draw: Random) -> Iterator[Fault | None]:
    for found, text in _measured(page, draw):
        if row_of(page, found)[0] >= 0:
            yield _made(
                "figure in text", page.swap(page.finding(found["number"]), text, f"97{text}"), "figure", found["number"]
            )


def grade_lowered(page: Page, draw: Random) -> Iterator[Fault | None]:
    every = [each for each in findings(page.report) if each["severity"] in ("act-now", "find-out")]
    draw.shuffle(every)
    for found in every:
        start, end = page.finding(found["number"])
        match = re.compile(r"act now[a-z :,]*(?= ·|<|\n)|find out before you decide").search(page.text, start, end)
        text = page.text[: match.start()] + PLAN + page.text[match.end() :] if match else None
        yield _made("grade lowered", text, "grade first-page", found["number"])


def page_one_row_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    every = [each for each in findings(page.report) if each["severity"] in ("act-now", "find-out")]
    draw.shuffle(every)
    for found in every:
        yield _made("page one row lost", _cut(page, one_row(page, found["number"])), "first-page", found["number"])


def title_changed(page: Page, draw: Random) -> Iterator[Fault | None]:
    every = [each for each in findings(page.report) if row_of(page, each)[0] >= 0]
    draw.shuffle(every)
    for found in every:
        yield _made(
            "title changed",
            page.swap(page.finding(found["number"]), found["title"], "A part of the house to look at"),
            "sheet first-page reference",
            found["number"],
        )


def count_wrong(page: Page, draw: Random) -> Iterator[Fault | None]:
    match = re.search(r"(?:lists |and )(\w+)(?= (?:repairs? to plan|matters? of upkeep))", page.text)
    if match:
        yield _made("count wrong", page.text[: match.start(1)] + "37" + page.text[match.end(1) :], "first-page")


def sheet_row_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    every = findings(page.report)
    draw.shuffle(every)
    for found in every:
        yield _made("sheet row lost", _cut(page, row_of(page, found)), "sheet place", found["number"])


def limit_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    every = [(each, limit) for each in findings(page.report) for limit in each["limits"] if limit["at"] is None]
    draw.shuffle(every)
    for found, limit in every:
        yield _made(
            "limit lost",
            page.swap(page.finding(found["number"]), f" {limit['text']}", ""),
            "limit",
            *(each["number"] for each in findings(page.report) if limit["id"] in {one["id"] for one in each["limits"]}),
        )


def pointer_wrong(page: Page, draw: Random) -> Iterator[Fault | None]:
    for match in re.finditer(r"not seen here: as at (?:<a[^>]*>)?number (\d+)", page.text):
        yield _made("pointer wrong", page.text[: match.start(1)] + "77" + page.text[match.end(1) :], "limit reference")


def term_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    term = draw.choice(page.report["terms"])
    yield _made("term lost", page.swap((0, len(page.text)), term["text"], "You accept this report."), "term")


def over_claim(page: Page, draw: Random) -> Iterator[Fault | None]:
    found = draw.choice(findings(page.report))
    sentence = CLAIMS[draw.randrange(len(CLAIMS))]
    yield _made(
        f"over-claim: {sentence}",
        page.added(page.finding(found["number"]), sentence),
        "over-claim wording",
        found["number"],
    )


def other_house(page: Page, draw: Random) -> Iterator[Fault | None]:
    sheet = draw.choice(page.report["trade_sheets"])
    span = page.part(f"Notes for a price: {sheet['label']}")
    yield _made("other house", page.swap(span, page.report["property"], "8 Candlewick Row, Lower Dunmere"), "house")


def other_house_in_text(page: Page, draw: Random) -> Iterator[Fault | None]:
    found = draw.choice(findings(page.report))
    yield _made(
        "other house in text",
        page.added(page.finding(found["number"]), "The same was seen at 52 Foxglove Avenue."),
        "house",
        found["number"],
    )


def other_client(page: Page, draw: Random) -> Iterator[Fault | None]:
    found = draw.choice(findings(page.report))
    yield _made(
        "other client",
        page.added(page.finding(found["number"]), "Mr. Halloran should ask the seller about it."),
        "house",
        found["number"],
    )


def date_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    yield _made("date lost", re.sub(r"Visited \d+ \w+ \d{4} by", "By", page.text, count=1), "header")


def finding_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    every = findings(page.report)[:-1]
    found = draw.choice(every)
    numbers = [each["number"] for each in findings(page.report)]
    yield _made(
        "finding lost", _cut(page, page.finding(found["number"])), "missing first-page sheet reference", *numbers
    )


def number_twice(page: Page, draw: Random) -> Iterator[Fault | None]:
    every = findings(page.report)
    found = draw.choice(every[1:])
    n, other = found["number"], found["number"] - 1
    start, end = page.finding(n)
    head = re.compile(rf"{n}(?= ·{NBSP}|</span>)").search(page.text, start, end)
    yield _made(
        "number twice",
        page.text[: head.start()] + str(other) + page.text[head.end() :] if head else None,
        "reference",
        n,
        other,
    )


def see_nowhere(page: Page, draw: Random) -> Iterator[Fault | None]:
    found = draw.choice(findings(page.report))
    yield _made(
        "see nowhere", page.added(page.finding(found["number"]), "See number 88 too."), "reference", found["number"], 88
    )


def not_inspected(page: Page, draw: Random) -> Iterator[Fault | None]:
    rooms = ("den", "laundry", "hall bath", "bedroom 3", "kitchen", "garage", "Kitchen", "Garage", "Hall bath")
    every = [each for each in findings(page.report) if any(place in rooms for place in each["places"])]
    draw.shuffle(every)
    for found in every:
        room = next(place for place in found["places"] if place in rooms)
        span = page.part("What we could not see here")
        text = page.added(span, f"We did not inspect the {room.lower()}. The reason: locked.")
        yield _made("not inspected", text, "contradiction limit", found["number"])


def nothing_to_report(page: Page, draw: Random) -> Iterator[Fault | None]:
    things = {
        "gutter": "Gutters",
        "toilet": "Toilet",
        "water heater": "Water heater",
        "downspout": "Downspouts",
        "shingles": "Shingles",
        "dishwasher": "Dishwasher",
        "outlet": "Outlets",
        "sump pump": "Sump pump",
        "furnace": "Furnace",
    }
    every = [
        (each, said)
        for each in findings(page.report)
        for word, said in things.items()
        if re.search(rf"(?i)^(?:the |a )?{word}s?\b", each["title"])
    ]
    draw.shuffle(every)
    for found, thing in every:
        place = re.search(r"(?i)\b(?:at|on|in) the [a-z ]+?(?=,|\.| is | has | do)", found["observation"])
        where = f", {place[0].lower()}" if place and found["places"] else ""
        text = page.added(page.part("What we looked at or tested here"), f"{thing}{where}: nothing to report that day.")
        yield _made(
            f"nothing to report: {thing}{where} / {found['title']} {found['places']}",
            text,
            "contradiction",
            found["number"],
        )


def notice_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    for found in findings(page.report):
        match = re.search(r" We (?:warned|told|called|notified) [^.]*(?:\.m)?\.", found["observation"])
        if found["severity"] == "act-now" and match:
            text = found["observation"][match.start() :]
            yield _made("notice lost", page.swap(page.finding(found["number"]), text, ""), "notice", found["number"])


def photo_changed(page: Page, draw: Random) -> Iterator[Fault | None]:
    every = [each for each in findings(page.report) if len(each["photos"]) == 1 and row_of(page, each)[0] >= 0]
    draw.shuffle(every)
    for found in every:
        start, end = page.finding(found["number"])
        match = re.compile(rf"photo{NBSP}(\d+)").search(page.text, start, end)
        yield _made(
            "photo changed",
            page.text[: match.start(1)] + "888" + page.text[match.end(1) :] if match else None,
            "photo",
            found["number"],
        )


def action_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    every = findings(page.report)
    draw.shuffle(every)
    for found in every:
        yield (
            _made(
                "action lost",
                page.swap(
                    page.finding(found["number"]),
                    found["recommendation"].split(" (")[0]
                    if "(" in found["recommendation"]
                    else found["recommendation"],
                    "",
                ),
                "action",
                found["number"],
            )
            if "(" not in found["recommendation"] and found["recommendation"]
            else None
        )


def trade_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    for sheet in page.report["trade_sheets"]:
        n = sheet["rows"][0]["number"]
        yield _made(
            "trade changed", page.swap(page.finding(n), sheet["label"], "circus rigger"), "sheet first-page action", n
        )


def unseen_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    said = [
        each["text"]
        for part in page.report["opening"]
        if part["kind"] == "unseen"
        for each in part["items"]
        if each["text"].startswith(("We did", "We saw"))
    ]
    for text in said:
        start, end = page.part("What nobody has seen")
        at = page.text.find(page.shown(text), start, end)
        if at >= 0:
            from_, to = (
                (page.text.rfind("<li", start, at), page.text.index("</li>", at) + 5)
                if page.form == "html"
                else (page.text.rfind("\n", start, at), page.text.index("\n", at))
            )
            yield _made("unseen lost", page.text[:from_] + page.text[to:], "limit")


def draft_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    yield _made("draft lost", page.text.replace("Draft: what we found", "What we found"), "draft")


def wrong_weekday(page: Page, draw: Random) -> Iterator[Fault | None]:
    match = re.search(r"\b(Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day, \d", page.text)
    if match:
        new = "Fri" if match[1] != "Fri" else "Mon"
        yield _made("wrong weekday", page.text[: match.start(1)] + new + page.text[match.end(1) :], "figure")


def story_number(page: Page, draw: Random) -> Iterator[Fault | None]:
    match = re.search(r"\((?:<a[^>]*>)?number (\d+)(?:</a>)?\)", page.text)
    if match:
        yield _made(
            "story number",
            page.text[: match.start(1)] + str(int(match[1]) + 1) + page.text[match.end(1) :],
            "reference",
        )


def source_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    match = re.search(r"We know this only from the seller", page.text)
    if match:
        yield _made(
            "source lost",
            page.text[: match.start()] + "We know this only from what we were told" + page.text[match.end() :],
            "told",
        )


def sign_lost(page: Page, draw: Random) -> Iterator[Fault | None]:
    for found in findings(page.report):
        match = re.search(r" In the inspector's words: “[^”]*”\.", found["observation"])
        if found["basis"] == "inferred" and match:
            yield _made(
                "sign lost", page.swap(page.finding(found["number"]), match[0], ""), "inferred", found["number"]
            )


def danger_changed(page: Page, draw: Random) -> Iterator[Fault | None]:
    match = re.search(r"Danger: (\w[\w ]*)", page.text)
    if match:
        yield _made("danger changed", page.text[: match.start(1)] + "drafts" + page.text[match.end(1) :], "first-page")


def settle_left(page: Page, draw: Random) -> Iterator[Fault | None]:
    heading = "Lines still to settle (not for the client)"
    row = "Line 14: “gutter thing”. Nothing in the library is like this."
    if page.form == "html":
        at = page.text.rfind("</main>") if "</main>" in page.text else page.text.rfind("</body>")
        text = page.text[:at] + f"<h2>{heading}</h2><ul><li>{row}</li></ul>" + page.text[at:]
    elif page.form == "md":
        text = page.text + f"\n## {heading}\n\n- {row}\n"
    else:
        text = page.text.rstrip("\n") + f"\n\n\n{heading}\n\n{row}\n"
    yield _made("settle left", text, "unsettled")


Maker = Callable[[Page, Random], Iterator[Fault | None]]
PAGE: tuple[Maker, ...] = (
    side_in_text, side_on_sheet, side_on_page_one, figure_on_sheet, figure_in_text, grade_lowered, page_one_row_lost, title_changed,
    count_wrong, sheet_row_lost, limit_lost, pointer_wrong, term_lost, over_claim, other_house, other_house_in_text, other_client,
    date_lost, finding_lost, number_twice, see_nowhere, not_inspected, nothing_to_report, notice_lost, photo_changed, action_lost,
    trade_lost, unseen_lost, draft_lost, wrong_weekday, story_number, source_lost, sign_lost, danger_changed, settle_left,
)  # fmt: skip


def in_page(page: Page, maker: Maker, draw: Random) -> Fault | None:
    """The first fault of this kind that the page has room for."""
    return next((each for each in maker(page, draw) if each is not None and each.text != page.text), None)


# The value in JSON, edited by a hand or by another program


def in_json(report: dict[str, Any], draw: Random) -> Iterator[Fault]:
    """Faults in the data itself."""

    def edit(name: str, kinds: str, change: Callable[[dict[str, Any], dict[str, Any]], bool]) -> Iterator[Fault]:
        order = list(range(len(findings(report))))
        draw.shuffle(order)
        for at in order:
            value = copy.deepcopy(report)
            found = findings(value)[at]
            if change(value, found):
                number = findings(report)[at]["number"]
                yield Fault(
                    f"json {name}",
                    json.dumps(value, ensure_ascii=False, indent=1) + "\n",
                    frozenset(kinds.split()),
                    frozenset({number}),
                )
                return

    yield from edit("measure value", "figure", _measure_value)
    yield from edit("figure in text", "figure", _json_figure)
    yield from edit(
        "override",
        "grade",
        lambda _, found: (
            not found["overrides"].append(
                {"key": "severity", "value": found["severity"], "was": "plan", "lines": found["lines"], "reason": None}
            )
        ),
    )
    yield from edit("no action", "action", lambda _, found: found.update(recommendation="") is None)
    yield from edit("no trade", "action sheet first-page", lambda _, found: found.update(trades=[]) is None)
    yield from edit("photo", "photo sheet", lambda _, found: not found["photos"].append(999))
    yield from edit("limits", "limit", lambda _, found: bool(found["limits"]) and found.update(limits=[]) is None)
    yield from edit(
        "told", "told", lambda _, found: found["basis"] == "told" and found["instances"][0].update(source=None) is None
    )
    yield from edit(
        "inferred",
        "inferred",
        lambda _, found: found["basis"] == "inferred" and found["instances"][0].update(words=[], measures=[]) is None,
    )
    yield from edit("state", "draft", lambda value, _: value.update(state="issued") is None)
    yield from edit("terms", "term", lambda value, _: value.update(terms=value["terms"][1:]) is None)
    yield from edit(
        "severity",
        "grade first-page",
        lambda _, found: found["severity"] in ("act-now", "find-out") and found.update(severity="upkeep") is None,
    )
    yield from edit(
        "sheet place",
        "place side",
        lambda value, _: value["trade_sheets"][0]["rows"][0].update(place="over the moon gate") is None,
    )
    yield from edit(
        "claim",
        "over-claim wording",
        lambda _, found: found.update(observation=found["observation"] + " The wall is perfectly safe.") is None,
    )


def _measure_value(_: dict[str, Any], found: dict[str, Any]) -> bool:
    for one in found["instances"]:
        for measure in one["measures"]:
            if (
                isinstance(measure.get("value"), int | float)
                and re.fullmatch(r"[\d./ ]+ \w+", measure.get("text") or "")
                and not measure.get("from")
            ):
                measure["value"] = measure["value"] + 41
                return True
    return False


def _json_figure(_: dict[str, Any], found: dict[str, Any]) -> bool:
    for one in found["instances"]:
        for measure in one["measures"]:
            text = measure.get("text") or ""
            if re.fullmatch(r"\d+ \w+", text) and text in found["observation"]:
                found["observation"] = found["observation"].replace(text, f"9{text}")
                return True
    return False


# Harmless edits


def harmless(page: Page, draw: Random) -> Iterator[str]:
    """Edits that change no fact: an editor's quotes, spaces and line ends, a synonym, a typo, a courteous sentence."""
    text = page.text

    def in_prose(old: str, new: str) -> str:
        """Changed in the running text of findings only: long lines."""
        return re.sub(r"(?m)^(?:<p>)?(?!Number)[A-Z][^|·\n“]{120,}$", lambda match: match[0].replace(old, new), text)

    yield text.replace("’", "'").replace("“", '"').replace("”", '"')
    yield text.replace("\n", "\r\n")
    yield in_prose("the price", "the written price")
    yield text.replace("Have a ", "Please have a ").replace("Ask a ", "Please ask a ")
    yield in_prose("stays wet", "stays damp")
    yield in_prose(" water ", " watter ")
    added = page.added(
        page.finding(draw.choice(findings(page.report))["number"]), "We are glad to talk it over with you on the phone."
    )
    yield added or text
    yield (
        page.added(
            page.finding(draw.choice(findings(page.report))["number"]), "Keep the written answer with your papers."
        )
        or text
    )
