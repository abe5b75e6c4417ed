"""Holding a measured value against a published figure.

A verdict is `meets`, `short` (below a least figure), `over` (above a most) or `too close`: inside the
uncertainty of the reading, not decided by `<` or `>`, or meeting one published figure and not another.
"""

from __future__ import annotations

from fractions import Fraction

from narrator.measure import units
from narrator.measure.criterion import Criterion, from_mapping
from narrator.measure.quantity import Quantity
from narrator.measure.show import show_range

__all__ = ["Criterion", "from_mapping", "judge", "usual"]

MEETS, SHORT, OVER, TOO_CLOSE = "meets", "short", "over", "too close"


def judge(q: Quantity, c: Criterion, uncertainty: Fraction = Fraction(0)) -> str:
    """The verdict on `q`: `meets`, `short`, `over` or `too close`.

    A range is judged at its worse end. `uncertainty` is that of the reading, in the unit of the criterion;
    a value no further than that from a figure is too close to it. An approximate value (`~`) equal to a
    figure is too close. A value with `<` or `>` is judged only where the bound decides. Against a pair,
    `low` and `high` are the two sides; a single figure decides only where it is below the smaller.

    Raises:
        ValueError: the criterion is no limit (or one for older houses), or the units do not convert.
    """
    if not c.judges:
        raise ValueError(f"{c.id} is no limit to judge by")
    low, high = _in_unit(q, c)
    published = (c.value, *c.spread)
    verdicts = {_against(low, high, q, c, tuple(sorted(figure)), uncertainty) for figure in published}
    return verdicts.pop() if len(verdicts) == 1 else TOO_CLOSE


def usual(c: Criterion, unit: str = "") -> str:
    """The published figures in plain words, no clause: `2 inches`, `34 to 38 inches`, `less than 4 inches`.

    Where several are published, from the least to the greatest: `1 to 2 inches`. With `unit`, converted to
    it.

    Raises:
        ValueError: the figures do not convert to `unit`.
    """
    said = unit or c.unit
    figures = sorted(
        {tuple(sorted(units.convert(one, c.unit, said) for one in figure)) for figure in (c.value, *c.spread)}
    )
    if len(figures[0]) == 2:
        words = " or ".join(show_range(low, high, said, said == c.unit) for low, high in figures)
        return words if c.direction == "range" else words.replace(" to ", " by ")
    words = show_range(figures[0][0], figures[-1][0], said, said == c.unit)
    if c.inclusive or c.direction not in ("min", "max"):
        return words
    return f"{'less' if c.direction == 'max' else 'more'} than {words}"


def _in_unit(q: Quantity, c: Criterion) -> tuple[Fraction, Fraction]:
    """Low and high of `q` in the unit of the criterion."""
    target = units.UNITS[c.unit]
    if q.of is not None and target.base == "one":
        share = q.low / q.of / target.factor
        return share, share
    unit = q.unit
    if not unit:
        if not units.compatible("", target.dimension):
            raise ValueError(f"{q.text or q.low} has no unit, and {c.id} is a {target.dimension}")
        unit = c.unit
    elif target.base == "delta kelvin" and unit in ("degF", "degC"):
        unit = f"delta_{unit}"  # a difference of temperatures is typed like a temperature
    low, high = units.convert(q.low, unit, c.unit), units.convert(q.high, unit, c.unit)
    return min(low, high), max(low, high)


def _against(
    low: Fraction, high: Fraction, q: Quantity, c: Criterion, figure: tuple[Fraction, ...], margin: Fraction
) -> str:
    """The verdict on `low` to `high` against one published figure, sorted."""
    least: Fraction | None = None
    most: Fraction | None = None
    if len(figure) == 2 and c.direction in ("min", "max"):
        return _pair(low, high, q, c, figure, margin)
    if c.direction in ("min", "range", "equal"):
        least = figure[0]
    if c.direction in ("max", "range", "equal"):
        most = figure[-1]
    under = _below(low, q.bound, least, c.inclusive, margin) if least is not None else MEETS
    above = _above(high, q.bound, most, c.inclusive, margin) if most is not None else MEETS
    if under == SHORT and above == OVER and least is not None and most is not None:
        return SHORT if least - low >= high - most else OVER
    for verdict in (SHORT, OVER, TOO_CLOSE):
        if verdict in (under, above):
            return verdict
    return MEETS


def _below(value: Fraction, bound: str, least: Fraction, inclusive: bool, margin: Fraction) -> str:
    """`short`, `meets` or `too close` against a least figure."""
    if (margin and abs(value - least) <= margin) or (bound == "~" and value == least):
        return TOO_CLOSE
    if bound == "<":
        return SHORT if value <= least else TOO_CLOSE
    met = value > least or (value == least and (inclusive or bound == ">"))
    if bound == ">":
        return MEETS if met else TOO_CLOSE
    return MEETS if met else SHORT


def _above(value: Fraction, bound: str, most: Fraction, inclusive: bool, margin: Fraction) -> str:
    """`over`, `meets` or `too close` against a greatest figure: the mirror image of a least one."""
    mirrored = {"<": ">", ">": "<"}.get(bound, bound)
    verdict = _below(-value, mirrored, -most, inclusive, margin)
    return OVER if verdict == SHORT else verdict


def _pair(
    low: Fraction, high: Fraction, q: Quantity, c: Criterion, figure: tuple[Fraction, ...], margin: Fraction
) -> str:
    """Two sides against two figures, smaller with smaller."""
    side = _below if c.direction == "min" else _above
    failed = SHORT if c.direction == "min" else OVER
    if not q.is_range:
        # One side alone: hopeless below the smaller figure (or above the greater), else the other decides.
        limit = figure[0] if c.direction == "min" else figure[-1]
        return failed if side(low, q.bound, limit, c.inclusive, margin) == failed else TOO_CLOSE
    first = side(low, q.bound, figure[0], c.inclusive, margin)
    second = side(high, q.bound, figure[1], c.inclusive, margin)
    return next((one for one in (failed, TOO_CLOSE) if one in (first, second)), MEETS)
