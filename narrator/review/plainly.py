"""Texts as they are compared: one kind of quote, dash and space, so that an editor's typography is no change."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

_SIGNS = str.maketrans(
    {
        "‘": "'", "’": "'", "‚": "'", "‛": "'", "′": "'", "`": "'", "´": "'",
        "“": '"', "”": '"', "„": '"', "‟": '"', "″": '"', "«": '"', "»": '"',
        "‐": "-", "‑": "-", "‒": "-", "–": "-", "—": "-", "−": "-",
        "…": "...", "\u00ad": None, "\u200b": None, "\u200c": None, "\u200d": None, "\u2060": None, "\ufeff": None,
        "⁄": "/",
    }
)  # fmt: skip
_FRACTION = re.compile("(\\d*)([¼½¾⅐-⅞])")
_END = re.compile(r"(?<=[.!?])(?P<close>[\"')\]]*) +(?=[\"'(\[]?[A-Z0-9])")
_INITIAL = re.compile(r"(?:^|[ (])(?:[A-Z]|Mr|Mrs|Ms|Dr|St|No|approx|e\.g|i\.e|[ap]\.m)\.$")


@lru_cache(maxsize=65536)
def level(text: str) -> str:
    """The text with one kind of quote, dash, space and fraction."""
    if not text.isascii():
        text = _FRACTION.sub(_spelled, unicodedata.normalize("NFC", text)).translate(_SIGNS)
    return " ".join(text.split())


def _spelled(found: re.Match[str]) -> str:
    digits = unicodedata.normalize("NFKC", found[2]).replace("⁄", "/")
    return f"{found[1]} {digits}" if found[1] else digits


@lru_cache(maxsize=65536)
def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a text that `level` has levelled. An initial, `No.` and `p.m.` before a small letter end none."""
    out: list[str] = []
    at = 0
    for match in _END.finditer(text):
        piece = text[at : match.end("close")]
        if _INITIAL.search(piece) and not piece.endswith((" a.m.", " p.m.")):
            continue
        out.append(piece)
        at = match.end()
    if text[at:]:
        out.append(text[at:])
    return tuple(out)
