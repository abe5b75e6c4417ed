"""Whose house, for whom, by whom, when: missing at the head, or another one's further on."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrator.review.grounds import Grounds
from narrator.review.matter import Matter
from narrator.review.pieces import Piece
from narrator.review.plainly import level

_STREET = (
    "Street|St|Road|Rd|Avenue|Ave|Lane|Ln|Drive|Dr|Court|Ct|Way|Boulevard|Blvd|Place|"
    "Pl|Terrace|Circle|Trail|Close|Crescent|Hill|Row|Parkway|Pike"
)
_ADDRESS = re.compile(rf"\b\d{{1,5}}[A-Za-z]? (?:[A-Z][\w'.-]+ ){{1,4}}(?:{_STREET})\b(?!\w)")
_HOUSE = re.compile(r"The house: (.+?)\.?(?: Visited \S.*| Inspector: .*| Draft\. .*| Issued \S.*)?$")
_PERSON = re.compile(
    r"\b(?:Dear|Mr\.?|Mrs\.?|Ms\.?|Dr\.?|prepared for|client:) ((?:[A-Z][\w'.-]+ ?(?:and )?){1,5})", re.UNICODE
)
_BY = re.compile(r"\bby ([A-Z][\w'. -]+?)(?: \(| of | for |,|\.?$)")
_LICENCE = re.compile(r"(?i)\b(?:licen[cs]e|lic|certificate|registration|reg)\b[^.;]{0,25}\d")


def check(grounds: Grounds) -> Iterator[Matter]:
    """Names and addresses that differ, and heads that are empty."""
    head = " ".join(level(each.text) for piece in grounds.pieces("head")[:1] for each in piece.passages)
    yield from _missing(grounds, head)
    yield from _houses(grounds)
    yield from _persons(grounds, head)


def _missing(grounds: Grounds, head: str) -> Iterator[Matter]:
    right = "Type it at the head of the checklist, and draft again."
    title = grounds.pieces("head")[:1]
    if not title or " at " not in title[0].title:
        yield Matter("header", 1, None, "The title does not say which house this is.", right)
    if not re.search(r"(?i)\bvisited \S", head):
        yield Matter("header", 1, None, "The date of the visit is not on the report.", right)
    if not _BY.search(head):
        yield Matter("header", 1, None, "The inspector’s name is not on the report.", right)
    if not re.search(r"\bfor [A-Z]", head):
        yield Matter("header", 1, None, "The client’s name is not on the report.", right)
    every = " ".join(
        level(each.text)
        for piece in grounds.pieces("head", "day", "terms", "notes", "colophon", "other")
        for each in piece.passages
    )
    if not _LICENCE.search(every):
        yield Matter(
            "header",
            1,
            None,
            "No licence number of the inspector is on the report.",
            "Where the state asks for one, print it beside the name.",
        )
    if not re.search(r"(?i)\bagreement\b", every):
        yield Matter(
            "header",
            1,
            None,
            "The report does not name the agreement it was made under.",
            "Type it at the head of the checklist, such as: agreement: signed 2 March.",
        )


def _houses(grounds: Grounds) -> Iterator[Matter]:
    house = _plain(level(grounds.reading.house))
    title = next((each for each in grounds.pieces("head") if " at " in each.title), None)
    right = "Look whether the part came from another report."
    if grounds.report and grounds.report["property"] and title:
        house = _plain(level(" ".join(grounds.report["property"].split())))
    for line, text in _texts(grounds):
        match = _HOUSE.search(text)
        if match and house and _plain(match[1]) != house:
            yield Matter(
                "house",
                line,
                None,
                f"A sheet for a trade names the house “{match[1]}”; the title names “{level(grounds.reading.house)}”.",
                right,
            )
        elif not match:
            for found in _ADDRESS.findall(text):
                if house and _plain(found) not in house:
                    yield Matter(
                        "house",
                        line,
                        None,
                        f"“{found}” is named; this report is about “{level(grounds.reading.house)}”.",
                        right,
                    )


def _plain(text: str) -> str:
    return " ".join(re.findall(r"[a-z0-9]+", text.lower()))


def _texts(grounds: Grounds) -> Iterator[tuple[int, str]]:
    for each in grounds.reading.order:
        if isinstance(each, Piece) and each.role in ("head", "colophon"):
            continue
        if isinstance(each, Piece):
            yield each.line, level(each.title)
        for passage in each.passages:
            yield passage.line or each.line, level(passage.text)


def _persons(grounds: Grounds, head: str) -> Iterator[Matter]:
    known = set(re.findall(r"[A-Z][\w'-]+", head))
    if grounds.report:
        known |= set(re.findall(r"\w+", " ".join([*grounds.report["clients"], grounds.report["inspector"] or ""])))
        told = [level(" ".join(each.split())) for each in grounds.report["clients"]]
        for client in told:
            if client and client not in head:
                yield Matter(
                    "house", 1, None, f"The client “{client}” is not named under the title.", "Name every client there."
                )
    for line, text in _texts(grounds):
        for match in _PERSON.finditer(text):
            names = [each for each in re.findall(r"[A-Z][\w'-]+", match[1]) if len(each) > 1]
            if names and known and not known.intersection(names):
                yield Matter(
                    "house",
                    line,
                    None,
                    f"“{match[0].strip()}” is named; the report is for “{_clients(head)}”.",
                    "Look whether the part came from another report.",
                )


def _clients(head: str) -> str:
    match = re.search(r"\bfor ([A-Z].*?)\.?(?: Issued|$)", head)
    return match[1] if match else "nobody named"
