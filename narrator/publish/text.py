"""Texts as they print, with nothing hidden that could change the page; numbers, lists and days in words."""

from __future__ import annotations

import re
from collections.abc import Iterable

NBSP, NARROW = "\u00a0", "\u202f"
"""Our own separators end in a no-break space, and no text of a report has one after a middle dot."""

DOT = f" ·{NBSP}"

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July",
    "August", "September", "October", "November", "December",
)  # fmt: skip

_BREAKS = re.compile("\r\n|[\n\v\f\r\x1c-\x1e\x85\u2028\u2029]")
_HIDDEN = re.compile(
    "[\x00-\x08\x0e-\x1b\x1f\x7f-\x84\x86-\x9f\u202a-\u202e\u2066-\u206f"
    "\ufeff\ufff9-\ufffb\ufdd0-\ufdef\ufffe\uffff"
    "\ud800-\udfff" + "".join(chr(plane << 16 | end) for plane in range(1, 17) for end in (0xFFFE, 0xFFFF)) + "]"
)
_LONGEST_RANGE = 10_000


def _visible(match: re.Match[str]) -> str:
    code = ord(match[0])
    if code < 0x20:
        return chr(0x2400 + code)
    return "\u2421" if code == 0x7F else f"[U+{code:04X}]"


def shown(text: str) -> str:
    """The text with controls made visible, runs of spaces closed up, and every line break as `\\n`."""
    if text.isascii() and text.isprintable() and "  " not in text:
        return text.strip()  # nearly every text: nothing to mend
    text = text.replace(NARROW, NBSP)
    lines = (
        re.sub(rf"·[ \t{NBSP}]+", "· ", re.sub("[ \t]+", " ", _HIDDEN.sub(_visible, line))).strip()
        for line in _BREAKS.split(text)
    )
    return "\n".join(line for line in lines if line)


def inline(text: str) -> str:
    """The text on one line, every kind of space as a plain one: for titles, places and cells."""
    return " ".join(shown(text).split())


def paragraphs(text: str) -> tuple[str, ...]:
    """The text as printed paragraphs, each on one line."""
    return tuple(shown(text).split("\n")) if shown(text) else ()


def sentence(text: str) -> str:
    """The text with a full stop, where it ends in a letter or a figure."""
    return f"{text}." if text and text[-1].isalnum() else text


def run(parts: Iterable[str]) -> str:
    """Sentences run on as prose."""
    return " ".join(sentence(part) for part in map(str.strip, parts) if part)


def numbers(values: Iterable[int]) -> str:
    """`3, 7 to 9`: sorted, once each, three or more in a row as a range."""
    out: list[str] = []
    chain: list[int] = []
    for value in [*sorted(set(values)), None]:
        if chain and value != chain[-1] + 1:
            out += [f"{chain[0]} to {chain[-1]}"] if len(chain) > 2 else map(str, chain)
            chain = []
        if value is not None:
            chain.append(value)
    return ", ".join(out)


def numbers_read(text: str) -> list[int]:
    """The numbers that `numbers` printed."""
    out: list[int] = []
    for first, last in re.findall(r"([0-9]{1,9})(?:\s*(?:to|-|–)\s*([0-9]{1,9}))?", text):
        low, high = int(first), int(last or first)
        out += range(low, high + 1) if 0 <= high - low <= _LONGEST_RANGE else [low, high]
    return out


def counted(word: str, values: Iterable[int]) -> str:
    """`photo 3`, `photos 3, 7 to 9`; nothing without numbers."""
    found = set(values)
    return f"{word}{'s' if len(found) > 1 else ''}{NBSP}{numbers(found)}" if found else ""


def day(text: str) -> str:
    """`4 March 2026` for `2026-03-04`; any other text as it is."""
    match = re.fullmatch(r"(\d{4})-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])", text)
    return f"{int(match[3])} {MONTHS[int(match[2]) - 1]} {match[1]}" if match else text


def quoted(text: str) -> str:
    """Someone's own words, marked as such."""
    return f"“{text}”"
