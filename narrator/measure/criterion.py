"""A published figure that a measured value is held against, as the criteria files of the library give it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from narrator.measure.table import UNITS

__all__ = ["COMPARISONS", "ROLES", "Criterion", "from_mapping"]

COMPARISONS = ("min", "max", "range", "equal", "ratio")
ROLES = ("limit", "band", "typical", "factor", "device")
# How many figures a comparison has: two for a range, or for the two sides of an opening.
_COUNTS = {"min": (1, 2), "max": (1, 2), "range": (2,), "equal": (1,), "ratio": (1,)}
_KNOWN_BY = ("read", "memory", "common-practice")


@dataclass(frozen=True, slots=True)
class Criterion:
    """One published figure, in `unit`.

    `comparison` says how a value is held against it; `limit` (`min` or `max`) does so for a `ratio`.
    `value` has one figure, or two for a `range` and for a pair (two sides of an opening, held side by side,
    smaller first). Where `inclusive` is false a value equal to the figure does not meet it. `spread` are
    the published figures for the same thing where they differ. `existing` is the id of the row for older
    houses, which never judges. `instrument` is the usual uncertainty of a reading, in `unit`. `source` is
    the document in print; `edition` and `section` are for explanations only.
    """

    id: str
    system: str
    element: str
    quantity: str
    comparison: str
    limit: str
    value: tuple[Fraction, ...]
    unit: str
    inclusive: bool
    condition: str
    role: str
    source: str
    edition: str
    section: str
    known_by: str
    spread: tuple[tuple[Fraction, ...], ...] = ()
    doubtful: bool = False
    existing: str = ""
    instrument: Fraction | None = None

    @property
    def judges(self) -> bool:
        """Whether a value may be held against it: a limit, and not one for older houses."""
        return self.role == "limit" and not self.id.endswith(("-existing", "-older"))

    @property
    def direction(self) -> str:
        """`min`, `max`, `range` or `equal`: the comparison, with a ratio's limit in its place."""
        return self.limit if self.comparison == "ratio" else self.comparison


def from_mapping(m: Mapping[str, object]) -> Criterion:
    """The criterion that one item of a criteria file says, its figures read as exact fractions.

    Raises:
        ValueError: a key is missing or has a value that it cannot have; the message names both.
    """
    name = _text(m, "id")
    comparison = _one_of(m, "comparison", COMPARISONS)
    limit = _one_of(m, "limit", ("min", "max")) if comparison == "ratio" else ""
    if comparison != "ratio" and m.get("limit"):
        raise ValueError(f"{name}: only a ratio has a 'limit'")
    unit = _text(m, "unit")
    if unit not in UNITS:
        raise ValueError(f"{name}: '{unit}' is not a unit")
    written = m.get("fraction") or m.get("value")
    value = _figures(written, name, "value")
    if len(value) not in _COUNTS[comparison]:
        wanted = " or ".join(map(str, _COUNTS[comparison]))
        raise ValueError(f"{name}: '{comparison}' takes {wanted} in 'value', not {len(value)}")
    spread = m.get("spread", ())
    if isinstance(spread, str) or not isinstance(spread, Sequence):
        raise ValueError(f"{name}: 'spread' must be a list of figures")
    others = tuple(_figures(one, name, "spread") for one in spread)
    if any(len(one) != len(value) for one in others):
        raise ValueError(f"{name}: each figure of 'spread' must have the form of 'value'")
    source = m.get("source")
    if not isinstance(source, Mapping):
        raise ValueError(f"{name}: 'source' must say document, edition and section")
    instrument = m.get("instrument")
    return Criterion(
        id=name,
        system=_text(m, "system"),
        element=_text(m, "element"),
        quantity=_text(m, "quantity"),
        comparison=comparison,
        limit=limit,
        value=value,
        unit=unit,
        inclusive=_flag(m, "inclusive", True),
        condition=_text(m, "condition", needed=False),
        role=_one_of(m, "role", ROLES),
        source=_text(source, "document"),
        edition=_text(source, "edition", needed=False),
        section=_text(source, "section", needed=False),
        known_by=_one_of(m, "known_by", _KNOWN_BY),
        spread=others,
        doubtful=_flag(m, "doubtful", False),
        existing=_text(m, "existing", needed=False),
        instrument=None if instrument is None else _figures(instrument, name, "instrument")[0],
    )


def _text(m: Mapping[str, object], key: str, *, needed: bool = True) -> str:
    value = m.get(key, "")
    text = "" if value is None else str(value).strip()
    if needed and not text:
        raise ValueError(f"{m.get('id', 'a criterion')}: '{key}' is missing")
    return text


def _one_of(m: Mapping[str, object], key: str, choices: Sequence[str]) -> str:
    value = _text(m, key)
    if value not in choices:
        raise ValueError(f"{m.get('id')}: '{key}' is '{value}', not one of {', '.join(choices)}")
    return value


def _flag(m: Mapping[str, object], key: str, default: bool) -> bool:
    value = m.get(key)
    if value is None:
        return default
    flag = {"true": True, "false": False}.get(str(value).lower())
    if flag is None:
        raise ValueError(f"{m.get('id')}: '{key}' must be true or false, not '{value}'")
    return flag


def _figures(value: object, name: str, key: str) -> tuple[Fraction, ...]:
    items = value if isinstance(value, Sequence) and not isinstance(value, str) else (value,)
    try:
        return tuple(Fraction(str(item)) for item in items)
    except (ValueError, ZeroDivisionError):
        raise ValueError(f"{name}: '{key}' must be a figure like 2, 0.5 or '1/150', not '{value}'") from None
