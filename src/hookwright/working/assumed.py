"""Rows on trust: stitches put in the place of a row whose words cannot be worked, or whose stated count later rows confirm."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import Count
from .basket import Basket
from .counting import Comparison
from .fabric import Counted, How, Role, Stitches

STITCH_KINDS = frozenset(("sc", "hdc", "dc", "tr", "dtr", "esc", "edc", "sl st"))


def as_stated(comparison: Sequence[Comparison], counted: Counted, stitches: Stitches, before: int | None, most: int) -> Stitches | None:
    """The row as its stated total would have it: the worked stitches, spread or thinned to that number. None where no total is stated."""
    told = next((c for c in comparison if c.differs), None)
    if told is None or told.worked is None or told.worked == 0:
        return None
    if told.count.kind != "st" and counted.by_kind.get(told.count.kind, 0) != counted.total:
        return None
    total = told.stated if not told.count.change else (before or 0) + told.stated
    return resampled(stitches, total) if 0 < total <= most else None


def resampled(stitches: Stitches, total: int) -> Stitches:
    """`total` stitches of the row's own kinds in its own order."""
    counted = list(stitches.counted())
    if not counted:
        return stitches
    basket = Basket(stitches.colours[0] if stitches.colours else "")
    for k in range(total):
        i = counted[k * len(counted) // total]
        feet = tuple((back, at, int(how)) for back, at, how in stitches.feet_of(i))
        basket.put(stitches.name(i), Role.STITCH, stitches.step[i], 0, 0, feet)
    return basket.done()


def stated_total(stated: Sequence[Count], size: int) -> Count | None:
    """The count that tells how many the whole row has."""
    return next((c for c in stated if not (c.change or c.per or c.approximate or c.running) and (c.number.at(size) or 0) > 0), None)


def on_trust(told: Count, number: int, main: str, step: int, yarn: str, below: Stitches | None) -> Stitches:
    """`number` stitches of the stated kind (the part's main stitch where no kind is told), spread over the row below."""
    kind = told.kind if told.kind in STITCH_KINDS else (main or "sc")
    basket = Basket(yarn)
    n = len(below) if below is not None else 0
    for k in range(number):
        feet = ((1, k * n // number, int(How.TOP)),) if n else ()
        basket.put(kind, Role.STITCH, step, 0, 0, feet)
    return basket.done()


def as_below(below: Stitches) -> Stitches:
    """A row that nobody could read, taken to be as wide as the row below: one stitch on each."""
    basket = Basket(below.colours[0] if below.colours else "")
    for i in below.counted():
        basket.put(below.name(i), Role.STITCH, below.step[i], 0, 0, ((1, i, int(How.TOP)),))
    return basket.done()
