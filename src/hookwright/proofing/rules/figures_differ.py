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
from ...working import How, Role, Stitches
from ...working.counting import number_of
from .fits import misfits, softened
from .rule import At, Case, Rule, at_row

FIGURES = {"petal": 3, "shell": 3, "fan": 3, "point": 3, "tentacle": 3, "group": 2}
"""What is counted so, and how many stitches in one place are the least that may be called one (common practice, no source)."""
SLIP, LEAST = 2, 3
"""A count is a slip up to so far from the groups made, of which there are so many at the least; what lies farther counts something else."""


def check(case: Case) -> Iterator[Finding]:
    """A finding for each count of figures that lies beside the number made."""
    for at in case.worked():
        if at.row.worked != "yes" or misfits(at):
            continue
        for count in at.row.stated:
            if count.kind in FIGURES and not (count.running or count.per or count.change or count.approximate):
                yield from _told(at, count)


def _told(at: At, count: Count) -> Iterator[Finding]:
    stated, counted = count.number.at(at.fabric.size), at.row.counted
    if stated is None or number_of(counted.by_kind, count.kind) is not None or stated in (counted.total, *counted.by_kind.values()):
        return
    made, each = groups_alike(at.row.stitches, FIGURES[count.kind])
    if made < LEAST or not 0 < abs(made - stated) <= SLIP:
        return
    message = f"{at.name} makes {made} groups of {each} stitches in one place, and {stated} {_several(count.kind, stated)} stated."
    yield softened(at_row(RULE, at, count.span if count.span.end > count.span.start else at.row.written.span, message), at)


def _several(kind: str, number: int) -> str:
    return f"{kind} is" if number == 1 else f"{kind}s are"


def groups_alike(stitches: Stitches, least: int) -> tuple[int, int]:
    """(groups, stitches in each) of the groups of `least` or more stitches that share their place; (0, 0) where they are not all alike."""
    places: dict[tuple[int, int], list[str]] = {}
    for i in stitches.counted():
        feet = tuple(stitches.feet_of(i))
        if len(feet) == 1 and feet[0][2] != How.RING and stitches.role[i] in (Role.STITCH, Role.START_TOP):
            places.setdefault((feet[0][0], feet[0][1]), []).append(stitches.name(i))
    groups = [sorted(names) for names in places.values() if len(names) > 1]
    if not groups or any(group != groups[0] for group in groups) or len(groups[0]) < least:
        return 0, 0
    return len(groups), len(groups[0])


RULE = Rule("figures-differ", "warning", check)
