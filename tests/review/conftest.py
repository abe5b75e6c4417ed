"""The invented house and the generator of rough reports stand beside the tests of publishing."""

from __future__ import annotations

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "publish"), str(HERE.parent)]
