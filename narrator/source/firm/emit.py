"""Values as lines of YAML that people like to read: long texts under their keys, wordings by name, lists in one line."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from typing import Any

import yaml

from narrator.source.positions import scalar

WIDTH = 110
SHORT = 60  # characters; a longer text stands under its key
ENTRY_ORDER = (
    "format", "title", "names", "element", "trade", "ask", "severity", "why", "danger", "course", "intrusive", "basis", "raise",
    "call", "room", "measures", "observation", "implication", "recommendation", "leads_to", "limits", "sources", "since",
    "replaced_by", "cases",
)  # fmt: skip


class _Dumper(yaml.SafeDumper):
    """YAML's own, with quotes around every text that this product's reader would take for something else, such as `0E0`."""


def _quoted(dumper: yaml.SafeDumper, text: str) -> yaml.ScalarNode:
    plain = isinstance(scalar(text), str)
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style=None if plain else "'")


_Dumper.add_representer(str, _quoted)


def edit_text(changes: Mapping[str, Any], comment: str = "") -> str:
    """A new edit file. `changes`: key -> text or value; wordings by name as `{name: text}` lists of mappings."""
    head = "".join(f"# {line}\n" for line in comment.splitlines())
    return f"{head}format: narrator.edit/1\n" + "".join(pair(key, value, 0) for key, value in changes.items())


def entry_text(entry: Mapping[str, Any], comment: str = "") -> str:
    """A whole entry of the firm's own as a file, its keys in the library's order."""
    head = "".join(f"# {line}\n" for line in comment.splitlines())
    order = [*(key for key in ENTRY_ORDER if key in entry), *(key for key in entry if key not in ENTRY_ORDER)]
    return head + "".join(pair(key, entry[key], 0) for key in order)


def pair(key: str, value: Any, indent: int) -> str:
    """A key and its value as lines of YAML at an indent: a long text under its key, a short one beside it."""
    name = yaml.safe_dump(key, allow_unicode=True, width=10**6).strip("\n").removesuffix("\n...").strip("\n")
    if isinstance(value, list) and value and all(isinstance(item, dict) and "text" in item for item in value):
        items = textwrap.indent("".join(map(item_text, value)), " " * (indent + 2))
        return f"{' ' * indent}{name}:\n{items}"
    if (
        isinstance(value, dict)
        and value
        and any(isinstance(one, dict | list) or _is_long(one) for one in value.values())
    ):
        return f"{' ' * indent}{name}:\n" + "".join(pair(each, one, indent + 2) for each, one in value.items())
    if isinstance(value, list) and value and all(isinstance(item, dict) for item in value):
        return f"{' ' * indent}{name}:\n" + "".join(f"{' ' * indent}  - {_flow(item)}\n" for item in value)
    return f"{' ' * indent}{name}: {value_text(value, indent)}".rstrip("\n") + "\n"


def item_text(item: Mapping[str, Any]) -> str:
    """One wording of a list, its mark at column 0."""
    pairs = "".join(pair(key, one, 2) for key, one in item.items())
    return f"- {pairs[2:]}"


def value_text(value: Any, indent: int) -> str:
    """A value as it stands behind its key at an indent; a long text ends in a line break."""
    if isinstance(value, str) and _is_long(value):
        lines = textwrap.wrap(value, WIDTH, break_long_words=False, break_on_hyphens=False)
        return "|\n" + "".join(f"{' ' * (indent + 2)}{line}\n" for line in lines)
    if isinstance(value, list):
        text = _flow(value)
        wrapped = textwrap.wrap(text, WIDTH, break_long_words=False, break_on_hyphens=False)
        plain = all("'" not in str(one) and '"' not in str(one) for one in value)
        return f"\n{' ' * (indent + 2)}".join(wrapped) if plain else text
    return _flow(value)


def _is_long(value: Any) -> bool:
    """Whether a text stands under its key. White space is folded in print, so one that has more than single spaces may be."""
    return isinstance(value, str) and len(value) > SHORT and value.isprintable() and value[:1] not in (" ", "#")


def _flow(value: Any) -> str:
    text = yaml.dump(value, Dumper=_Dumper, default_flow_style=True, allow_unicode=True, width=10**6, sort_keys=False)
    return text.strip("\n").removesuffix("\n...").strip("\n")
