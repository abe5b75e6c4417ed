"""The whole library passes its own checks."""

from __future__ import annotations

from narrator.source.check.run import check_library
from narrator.source.store import packaged_root


def test_the_whole_library_has_no_faults() -> None:
    found = check_library(packaged_root())
    assert not found.faults, "\n".join(fault.show() for fault in found.faults)
    assert found.entries >= 100
