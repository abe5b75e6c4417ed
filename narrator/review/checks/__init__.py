"""The checks of a review, one kind a module. Each takes the grounds and gives what it found."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from narrator.review.checks import (
    basis,
    first_page,
    grades,
    heads,
    limits,
    measures,
    missing,
    photos,
    references,
    sheets,
    sides,
    state,
    statuses,
    wording,
)
from narrator.review.grounds import Grounds
from narrator.review.matter import Matter

CHECKS: tuple[Callable[[Grounds], Iterable[Matter]], ...] = (
    statuses.check,
    first_page.check,
    sheets.check,
    measures.check,
    sides.check,
    limits.check,
    grades.check,
    wording.check,
    heads.check,
    basis.check,
    references.check,
    missing.check,
    photos.check,
    state.check,
)
