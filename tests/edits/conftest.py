"""The drafts that the tests read stand beside the tests of everything."""

from __future__ import annotations

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent), str(HERE.parent / "review"), str(HERE.parent / "publish")]
