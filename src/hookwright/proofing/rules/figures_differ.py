"""A row makes another number of petals, shells, fans or points than it says.

What it checks: counts told in figures that the pattern never defined, against the groups of stitches that the row works in one place
each. Only where all those groups are alike, and where the stated number lies beside theirs: what a maker calls a point or a petal may
be another thing altogether.

Why: figures are what the eye counts; the next round is told by them.

Example:

    Rnd 3: *Sc in next st, skip 1 st, 5 dc in next st, skip 1 st; rep from * around, join. (9 petals)

after a round of 40: there are ten groups of 5.

Message: Rnd 3 makes 10 groups of 5 stitches in one place, and 9 petals are stated.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Count, Finding
from ...working.counting import number_of
from ...working.figures import FIGURES, groups_alike
from .fits import misfits, softened
from .rule import At, Case, Rule, at_row

SLIP, LEAST = 2, 3
"""A count is a slip up to so far from the groups made, of which there are so many at the least; what lies farther counts something else."""
_OF_SEVERAL = frozenset(("shell", "fan"))
"""What is never one stitch (common practice, no source): "4 shells" counts no sc, though a row of 3 shells has 4 between them."""


def check(case: Case) -> Iterator[Finding]:
    """A finding for each count of figures that lies beside the number made."""
    for at in case.worked():
        for count in at.row.stated:
            if count.kind not in FIGURES or at.row.worked != "yes" or misfits(at):
                continue
            if not (count.running or count.per or count.change or count.approximate):
                yield from _told(at, count)


def _told(at: At, count: Count) -> Iterator[Finding]:
    stated, counted = count.number.at(at.fabric.size), at.row.counted
    if stated is None or number_of(counted.by_kind, count.kind) is not None:
        return
    if count.kind not in _OF_SEVERAL and stated in (counted.total, *counted.by_kind.values()):
        return
    made, each = groups_alike(at.row.stitches, FIGURES[count.kind])
    if made < LEAST or not 0 < abs(made - stated) <= SLIP:
        return
    message = f"{at.name} makes {made} groups of {each} stitches in one place, and {stated} {_several(count.kind, stated)} stated."
    yield softened(at_row(RULE, at, count.span if count.span.end > count.span.start else at.row.written.span, message), at)


def _several(kind: str, number: int) -> str:
    return f"{kind} is" if number == 1 else f"{kind}s are"


RULE = Rule("figures-differ", "warning", check)
