"""Writing the edits so that a person can read them, and so that a person's own lines and comments stay as they are."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence
from pathlib import Path

from narrator.edits.model import FORMAT, Edit, Edits, Settled, Unplaced
from narrator.edits.store import read
from narrator.errors import NarratorError

HEAD = f"""\
# What was changed by hand in the draft of this inspection. narrator applies it at each draft; --no-edits leaves it out.
# `text` is what prints, `base` what narrator wrote. Take an item out to have narrator's own words back.
format: {FORMAT}
"""
WIDTH = 100
SHORT = 70
_SECTIONS = ("edits", "settled", "unplaced")
_KEYS = {
    "edits": ("finding", "field", "part", "of", "text", "base", "fingerprint", "by", "reason"),
    "settled": ("number", "text", "what", "code", "answer", "notes", "by"),
    "unplaced": ("where", "said", "text", "before", "finding", "by"),
}
_ALWAYS = frozenset({"text", "base", "fingerprint", "number", "where", "said"})

Item = Edit | Settled | Unplaced


def text_of(edits: Edits) -> str:
    """The file's text. What stood in `edits.source` and did not change keeps its lines and comments."""
    kept = _patched(edits) if edits.source else ""
    return kept or _whole(edits)


def save(edits: Edits) -> None:
    """Write the file, whole or not at all; nothing is written when nothing changed."""
    from narrator.commands.common import write_whole

    text = text_of(edits)
    if text != edits.source and (edits.source or edits.edits or edits.settled or edits.unplaced):
        write_whole(Path(edits.path), text)


def _whole(edits: Edits) -> str:
    out = [HEAD]
    for section in _SECTIONS:
        items: Sequence[Item] = getattr(edits, section)
        if items:
            out.append(f"\n{section}:\n")
            out += [_item(section, item) for item in items]
    return "".join(out)


def _item(section: str, item: Item) -> str:
    """One item of a list, its mark at column 0. An empty text that must stand is written as ''."""
    lines: list[str] = []
    for key in _KEYS[section]:
        value = getattr(item, key)
        if key == "text" and section == "unplaced" and not value:
            continue
        if value or (key in _ALWAYS and not (key == "base" and section != "edits")):
            name = "line" if key == "number" else key
            lines += _pair(name, value)
    return "".join(f"{'- ' if at == 0 else '  '}{line}\n" if line else "\n" for at, line in enumerate(lines))


def _pair(key: str, value: object) -> Iterator[str]:
    if isinstance(value, tuple):
        yield f"{key}:"
        for each in value:
            first, *rest = _value(str(each))
            yield f"- {first}"
            yield from (f"  {line}" if line else line for line in rest)
        return
    if isinstance(value, int):
        yield f"{key}: {value}"
        return
    first, *rest = _value(str(value))
    yield f"{key}: {first}"
    yield from rest


def _value(text: str) -> list[str]:
    """A text as it stands behind its key: short ones beside it, long ones folded, odd ones in quotes."""
    for made in (_plain(text), _folded(text)):
        if made and _reads(made) == text:
            return made
    return [_quoted(text)]


def _plain(text: str) -> list[str]:
    fits = (
        len(text) <= SHORT and text.isprintable() and re.match(r"[^\W\d_]", text) and not re.search(r": |:$| #", text)
    )
    return [text] if fits else []


def _folded(text: str) -> list[str]:
    if "\n" in text:
        # Each line break of the text is a blank line in the folded form.
        blocks = [
            textwrap.wrap(line, WIDTH, break_long_words=False, break_on_hyphens=False) for line in text.split("\n")
        ]
        lines = [line for block in blocks for line in [*block, ""]][:-1]
        return [">-", *(f"  {line}" if line else "" for line in lines)]
    lines = textwrap.wrap(text, WIDTH, break_long_words=False, break_on_hyphens=False)
    return [">-", *(f"  {line}" for line in lines)] if len(text) > SHORT else []


def _quoted(text: str) -> str:
    import yaml

    made = str(yaml.safe_dump(text, default_style='"', allow_unicode=True, width=10**9))
    return made.strip().removesuffix("\n...").strip()


def _reads(lines: Sequence[str]) -> object:
    from narrator.source.positions import load

    try:
        value = load("x: " + "\n".join(lines) + "\n", "edits").value
    except NarratorError:
        return None
    return value.get("x") if isinstance(value, dict) else None


def _patched(edits: Edits) -> str:
    """The old text with only the items changed that did; nothing where that would not read back as meant."""
    try:
        old = read(edits.source, edits.path)
    except NarratorError:
        return ""
    lines = edits.source.splitlines(keepends=True)
    if lines and not lines[-1].endswith("\n"):
        lines[-1] += "\n"
    heads = {name: at for at, line in enumerate(lines) if (name := line.rstrip().removesuffix(":")) in _SECTIONS}
    first = min(heads.values(), default=len(lines))
    out = ["".join(lines[:first])]
    for section in sorted(_SECTIONS, key=lambda name: (heads.get(name, len(lines)), _SECTIONS.index(name))):
        items: Sequence[Item] = getattr(edits, section)
        before: Sequence[Item] = getattr(old, section)
        if section not in heads:
            if items:
                out.append(f"\n{section}:\n" + "".join(_item(section, item) for item in items))
            continue
        end = min((at for at in heads.values() if at > heads[section]), default=len(lines))
        starts = [item.line - 1 for item in before]
        kept = {
            item._replace(line=0): "".join(lines[start:stop]).rstrip("\n") + "\n"
            for item, start, stop in zip(before, starts, [*starts[1:], end], strict=True)
        }
        body = [kept.pop(item._replace(line=0), "") or _item(section, item) for item in items]
        lost = [
            line for chunk in kept.values() for line in chunk.splitlines(keepends=True) if line.lstrip().startswith("#")
        ]
        lead = lines[heads[section] : starts[0] if starts else end]
        if items:
            out += [*lead, *body, *lost]
        else:
            out += [*lead[1:], *lost]
    text = re.sub(rf"\n+(?=(?:{'|'.join(_SECTIONS)}):\n)", "\n\n", "".join(out))
    try:
        again = read(text, edits.path)
    except NarratorError:
        return ""
    return text if _bare(again) == _bare(edits) else ""


def _bare(edits: Edits) -> tuple[list[Item], ...]:
    return tuple([item._replace(line=0) for item in getattr(edits, section)] for section in _SECTIONS)
