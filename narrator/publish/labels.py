"""The printed words for grades, trades, people to ask and dangers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

SEVERITIES: Mapping[str, str] = {
    "act-now": "act now",
    "find-out": "find out before you decide",
    "plan": "plan the repair",
    "upkeep": "upkeep",
}
NOT_GRADED = "not graded"
NO_TRADE = "no trade named"


@dataclass(frozen=True)
class Labels:
    """Printed words by id, trades and asks from the library. An id without a word prints itself."""

    severities: Mapping[str, str] = field(default_factory=lambda: dict(SEVERITIES))
    trades: Mapping[str, str] = field(default_factory=dict)
    asks: Mapping[str, str] = field(default_factory=dict)
    dangers: Mapping[str, str] = field(default_factory=dict)

    def severity(self, grade: str | None, danger: list[str]) -> str:
        """The grade as it prints; what could hurt someone is named beside the most urgent one."""
        if grade is None:
            return NOT_GRADED
        word = _word(self.severities, grade)
        if grade == "act-now" and danger:
            return f"{word}: {', '.join(_word(self.dangers, each) for each in danger)}"
        return word

    def trade(self, trade: str) -> str:
        """The printed name of a trade."""
        return _word(self.trades, trade)

    def asked(self, who: str) -> str:
        """The printed name of someone to ask who sells nothing."""
        return _word(self.asks, who)


def _word(table: Mapping[str, str], key: str) -> str:
    return table.get(key) or key.replace("-", " ")
