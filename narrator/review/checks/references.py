"""Numbers: pointers and stories that lead to a finding, each number used once and none left out."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from narrator.publish.text import numbers_read
from narrator.review.grounds import WORDS, Grounds, name, unquoted
from narrator.review.matter import Matter
from narrator.review.pieces import Found
from narrator.review.plainly import level

_POINTER = re.compile(r"\b[Nn]umbers? (\d+(?:(?:, | and | to |, and )\d+)*)")
_MOST = 2000
"""A number above this is a slip of the hand: nobody is told of the hundreds before it."""
_SKIPPED = ("sheet", "terms", "colophon", "danger", "find-out", "counts")


def check(grounds: Grounds) -> Iterator[Matter]:
    """Numbers that lead nowhere, stand twice or are left out."""
    yield from _series(grounds)
    for each in grounds.reading.order:
        role = "finding" if isinstance(each, Found) else each.role
        if role in _SKIPPED or (role == "head"):
            continue
        heading = "" if isinstance(each, Found) else level(each.title)
        texts = [
            (heading, each.line),
            *((level(passage.text), passage.line or each.line) for passage in each.passages),
        ]
        for text, line in texts:
            plain = re.sub(r"not seen here:? as at number \d+", "", unquoted(text))  # limits have their own check
            for match in _POINTER.finditer(plain):
                for number in numbers_read(match[1].replace(" and ", ", ")):
                    if number not in grounds.by_number:
                        yield Matter(
                            "reference",
                            line,
                            number,
                            f"“{match[0]}” is named, but the report has no number {number}.",
                            "Name a number that stands in the report.",
                        )
            if role == "story":
                yield from _story(grounds, text, heading, line)


def _series(grounds: Grounds) -> Iterator[Matter]:
    numbers = [each.number for each in grounds.reading.findings if each.number is not None]
    for each in grounds.reading.findings:
        if each.number is None:
            yield Matter(
                "reference",
                each.line,
                None,
                f"The finding “{level(each.title)}” has no number.",
                "Give each finding its number: people speak of it by that.",
            )
    for number, times in Counter(numbers).items():
        if times > 1:
            titles = [level(each.title) for each in grounds.reading.findings if each.number == number]
            second = [each for each in grounds.reading.findings if each.number == number][1]
            yield Matter(
                "reference",
                second.line,
                number,
                f"Number {number} stands {times} times: “{'”, “'.join(titles)}”.",
                "Give each finding its own number.",
            )
    last = max((each for each in numbers if each <= _MOST), default=0)
    for number in sorted(set(range(1, last)) - set(numbers)):
        after = next((each for each in grounds.reading.findings if (each.number or 0) > number), None)
        line = after.line if after else 0
        yield Matter(
            "missing",
            line,
            number,
            f"Number {number} is not in the report; the numbers before and after it are.",
            "Put the finding back, or say with the new numbers that it was taken out.",
        )


def _story(grounds: Grounds, text: str, heading: str, line: int) -> Iterator[Matter]:
    told = re.findall(r"\(number (\d{1,9})\b[^()]*\)", text)
    headed = set(map(str, numbers_read(heading.split(", told")[0].replace(" and ", ", "))))
    if told and headed and headed != set(told):
        yield Matter(
            "reference",
            line,
            None,
            f"The story’s heading names {', '.join(sorted(headed, key=int))}; its text names {', '.join(told)}.",
            "Name the same findings in both.",
        )
    match = re.match(r"(\w+) findings", text)
    counted = WORDS.get(match[1].lower()) if match else None
    if counted is not None and told and counted != len(told):
        yield Matter(
            "reference",
            line,
            None,
            f"The story counts {counted} findings and names {len(told)}.",
            "Count the findings that it names.",
        )
    for words, number in re.findall(r"([^()]+?) \(number (\d{1,9})\b[^()]*\)", text):
        found = grounds.by_number.get(int(number))
        if found is not None and not words.lower().endswith(level(found.title).lower()):
            said = re.split(r", and |, |: ", words)[-1].strip()
            yield Matter(
                "reference",
                line,
                found.number,
                f"The story calls number {number} “{said}”; the finding is {name(found)}.",
                "Use the finding’s own title and number.",
            )
