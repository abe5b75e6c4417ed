"""Taking the base's text again: the firm's edit goes out of its file, and what it said is shown once more."""

from __future__ import annotations

from collections.abc import Sequence

from narrator.errors import stop
from narrator.source.firm.edits import Edit
from narrator.source.firm.layers import Layers
from narrator.source.firm.write import without


def taken(layers: Layers, edits: Sequence[Edit], lost: Sequence[str]) -> tuple[dict[str, str], list[str]]:
    """The firm's files without these edits, by path as shown (empty: the file goes), and a line for each.

    `lost`: edits whose target is not in the base any more; all that the file says is shown, for it goes as a whole.
    """
    files: dict[str, str] = {}
    said: list[str] = []
    by_file: dict[str, list[Edit]] = {}
    for edit in edits:
        by_file.setdefault(edit.located.path, []).append(edit)
    for path, group in sorted(by_file.items()):
        text = "\n".join(group[0].located.lines)
        # From the last place to the first, so that what comes before keeps its number.
        for edit in sorted(group, key=lambda one: one.located.pos(one.spot), reverse=True):
            text = without(text, edit.spot, path)
            said.append(f"Taken from the base: {edit.name}. Your text was: {edit.text}")
        files[path] = "" if _is_empty(text) else text
    for target in sorted({name.partition(":")[0] for name in lost} - {edit.target for edit in edits}):
        located = layers.firm.entries.get(target)
        if located is None:
            continue
        if target in layers.base.entries:
            raise stop(
                located.path, f"Mend the edit of {target} by hand: what it edits has another name in the base now."
            )
        files[located.path] = ""
        said.append(f"{located.path} is taken out; it said:")
        said += [f"    {line}" for line in located.lines if line.strip()]
    return files, said


def _is_empty(text: str) -> bool:
    """Whether nothing but a format and comments is left."""
    lines = (line.strip() for line in text.splitlines())
    return not any(line and not line.startswith(("#", "format:")) for line in lines)
