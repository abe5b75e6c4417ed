"""An invented inspection: a stucco house with eight findings in four systems. No real place or person."""

from __future__ import annotations

import json
from pathlib import Path
from typing import cast

from narrator.publish.labels import Labels
from narrator.report import Report

LABELS = Labels(
    trades={
        "stucco": "stucco contractor",
        "roof": "roofer",
        "carpenter": "carpenter",
        "electric": "electrician",
        "gas-utility": "gas utility",
        "gutter": "gutter contractor",
        "owner": "once the house is yours",
    },
    asks={"seller-receipts": "the seller for receipts", "permit-office": "the local permit office"},
    dangers={"fire": "fire", "shock": "shock"},
)
GAP = "walls.stucco.no-roof-gap"


def report() -> Report:
    """The whole example, new each time."""
    return cast(Report, json.loads(Path(__file__).with_name("stucco-house.json").read_text("utf-8")))
