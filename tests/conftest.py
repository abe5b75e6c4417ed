"""One open library for every test, and the helpers that stand beside the tests."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from narrator.source.index import Index
from narrator.source.store import open_library

sys.path.insert(0, str(Path(__file__).parent))


@pytest.fixture(scope="session")
def library() -> Index:
    """The product's own library, compiled."""
    return open_library()
