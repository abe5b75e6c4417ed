"""The whole library passes its own checks, in a time that an author will wait for."""

from __future__ import annotations

from time import perf_counter

from narrator.source.check.run import check_library
from narrator.source.store import packaged_root

LONGEST = 30.0


def test_the_whole_library_has_no_faults_and_is_checked_in_time() -> None:
    started = perf_counter()
    found = check_library(packaged_root())
    spent = perf_counter() - started
    assert not found.faults, "\n".join(fault.show() for fault in found.faults)
    assert found.entries >= 100
    assert spent < LONGEST
