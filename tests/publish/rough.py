"""Reports of hostile texts: signs of Markdown and HTML, separators of our own, controls, other scripts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, cast

from house import report
from hypothesis import strategies as st

from narrator.report import Report

PIECES = [
    "*", "**bold**", "_", "__x__", "`code`", "``", "```", "~~", "#", "# title", "### 7 · no", "###", "- ",
    "+ ", "* item", "1. one", "2) two", "> quote", ">", "---", "===", "***", "|", "| a | b |", "|---|---|",
    "[a](http://b.c)", "![x](y)", "[ref]: /x", "[^1]", "<b>", "</p>", "<script>alert(1)</script>",
    "<!-- -->", '<article class="finding">', "&amp;", "&lt;", "&#35;", "&", "&copy", "\\", "\\*", "\\n",
    "http://a.b", "www.a.b", "a@b.cd", "·", " · ", "\u00a0\xb7 ", ";", ";\u00a0", " with\u00a0roofer",
    " and ", "photos 3, 7 to 9", "photo\u00a04", "sketch 2", "number 7", "numbers 3, 4 and 5",
    "no trade named", "not graded", "{{ 7 }}", "{% if %}", "{# #}", "“", '"', "'", "’", "\n", "\r\n",
    "\n\n\n", "\t", "    ", "\u2028", "\x0b", "\x1f", "\x00", "\x07", "\x7f", "\x85", "\x9b", "\u202e",
    "\u2066", "\ufeff", "\ufffe", "\ue000", "\U000f0000", "👩‍🔧", "🏠", "שלום", "مرحبا", "漢字", "é", "é",
    "\xad", "\u3000", "word", "two words", "1/4 inch", "18 %", "7", " \xb7\u00a0",
    " \xb7\u00a0photos\u00a03", "\xb7\u00a0",
]  # fmt: skip

texts = st.lists(st.one_of(st.sampled_from(PIECES), st.text(max_size=6)), min_size=1, max_size=5).map("".join)

KEPT = {
    "format", "state", "kind", "system", "role", "severity", "basis", "id", "issue", "findings",
    "danger", "ask", "outcome", "course", "code", "library", "narrator", "closes", "opens", "fingerprint",
    "finding",
}  # fmt: skip
"""Keys whose texts mean something to the machine."""


def _spoiled(value: Any, stream: Iterator[str], key: str = "") -> Any:
    if key in KEPT and not (isinstance(value, list) and value and isinstance(value[0], dict)):
        return value
    if isinstance(value, dict):
        return {name: _spoiled(each, stream, name) for name, each in value.items()}
    if isinstance(value, list):
        return [_spoiled(each, stream, key) for each in value]
    return next(stream) if isinstance(value, str) else value


@st.composite
def reports(draw: st.DrawFn) -> Report:
    """The example with rough words wherever a person's words stand, and other photos and places."""
    pool = draw(st.lists(texts, min_size=1, max_size=12))
    turn = draw(st.integers(0, 10))

    def stream() -> Iterator[str]:
        at = turn
        while True:
            yield pool[at % len(pool)]
            at += 1

    made = cast(Report, _spoiled(report(), stream()))
    for part in made["sections"]:
        for found in part["findings"]:
            found["photos"] = draw(st.lists(st.integers(0, 120), max_size=8))
            found["places"] = draw(st.lists(texts, max_size=4))
    made["state"] = draw(st.sampled_from(["draft", "issued"]))
    return made
