"""Rows on trust: stitches put in the place of a row whose words cannot be worked, or whose stated count later rows confirm."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby, pairwise

from ..pattern import Count
from ..trade.kinds import FOUNDATION_STITCHES, GROUPS_AS_ONE, HEIGHT, TUNISIAN, base
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
    n, feet = len(counted), stitches.feet

    def alike(i: int) -> tuple[int, int, int, int]:
        foot = feet[i]
        if feet[i + 1] - foot != 1 or stitches.role[i] == Role.START_TOP:
            return stitches.kind[i], stitches.step[i], i, -1
        return stitches.kind[i], stitches.step[i], stitches.foot_back[foot], stitches.foot_how[foot]

    if _all_alike(stitches):
        _, step, back, how = alike(0)
        basket.put_run(stitches.name(0), step, 0, 0, back, [stitches.foot_at[k * n // total] for k in range(total)], How(how))
        return basket.done()
    for (_, step, back, how), run in groupby((counted[k * n // total] for k in range(total)), alike):
        chosen = list(run)
        if how >= 0:
            at = [stitches.foot_at[feet[i]] for i in chosen]
            basket.put_run(stitches.name(chosen[0]), step, 0, 0, back, at, How(how))
            continue
        for i in chosen:
            basket.put(stitches.name(i), Role.STITCH, step, 0, 0, tuple((b, a, int(h)) for b, a, h in stitches.feet_of(i)))
    return basket.done()


def _all_alike(stitches: Stitches) -> bool:
    """Whether every element is the same stitch of the same step on one foot: the row is then one run, however long."""
    n = len(stitches)
    return (
        len(stitches.foot_at) == n
        and stitches.role.count(Role.STITCH) == n
        and all(len(set(part)) == 1 for part in (stitches.kind, stitches.step, stitches.foot_back, stitches.foot_how))
        and stitches.feet[n] == n
        and all(a < b for a, b in pairwise(stitches.feet))
    )


def stated_total(stated: Sequence[Count], size: int) -> Count | None:
    """The count that tells how many stitches the whole row has; one of shells, V-stitches or loops does not."""
    for one in stated:
        whole = not (one.change or one.per or one.approximate or one.running) and (one.number.at(size) or 0) > 0
        if whole and (one.kind in _EACH_A_STITCH or base(one.kind) in HEIGHT):
            return one
    return None


_EACH_A_STITCH = frozenset(("st", *GROUPS_AS_ONE, *TUNISIAN, *FOUNDATION_STITCHES))


def on_trust(told: Count, number: int, main: str, step: int, yarn: str, below: Stitches | None, back: int) -> Stitches:
    """`number` stitches of the stated kind (the part's main stitch where no kind is told), spread over the row `back` rows down."""
    kind = told.kind if told.kind in STITCH_KINDS else (main or "sc")
    basket = Basket(yarn)
    n = len(below) if below is not None else 0
    if n:
        basket.put_run(kind, step, 0, 0, back, [k * n // number for k in range(number)], How.TOP)
    else:
        basket.put_airy(kind, Role.STITCH, step, 0, 0, number)
    return basket.done()


def as_below(below: Stitches, back: int) -> Stitches:
    """A row that nobody could read, taken to be as wide as the row below: one stitch on each."""
    basket = Basket(below.colours[0] if below.colours else "")
    for (_, step), run in groupby(below.counted(), lambda i: (below.kind[i], below.step[i])):
        at = list(run)
        basket.put_run(below.name(at[0]), step, 0, 0, back, at, How.TOP)
    return basket.done()
