"""Build hook: the wheel ships the library's compiled index, so that a first draft needs no cache."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class IndexHook(BuildHookInterface):  # type: ignore[type-arg]
    """Compiles `library/` for a wheel; an editable install reads the folder itself."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        if self.target_name != "wheel" or version == "editable":
            return
        sys.path.insert(0, self.root)
        from narrator.source.store import SHIPPED, compile_library, write_index

        folder = Path(tempfile.mkdtemp())
        made = folder / "_index.sqlite"
        write_index(compile_library(Path(self.root) / "library"), folder / "part.sqlite", made, SHIPPED)
        build_data["force_include"][str(made)] = "narrator/_index.sqlite"
        build_data["force_include"][str(made.with_suffix(".json"))] = "narrator/_index.json"
