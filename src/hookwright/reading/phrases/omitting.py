"""The last repeat told by what it lacks: "rep from * around, omitting last 2 dc"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...pattern import Aside, Chain, Make, Sized, Step, Together
from .cursor import Cursor, Frame, Mark

EXAMPLES = (("*dc in next 3 sts, ch 2, skip 2; rep from * around, omitting last ch 2", "[dc×3, ch2, skip2]×rest cut 2"),)


def omitted(c: Cursor, frame: Frame, mark: Mark) -> tuple[tuple[Step, ...], int | None]:
    """ "omitting last ch 2", "omitting the last sc on last rep": the body without its last steps, or with fewer of its last stitch."""
    c.drop("the", "last")
    from .one_phrase import one

    if c.kind == "corner" and (at := corner_of(frame.out[mark.index :])) is not None:
        c.i += 1
        _which(c)
        return ((), at)
    got = one(c) or []
    while got and c.kind == "and" and c.look().kind in ("st", "ch", "n", "last", "the"):
        begin = c.i
        c.i += 1
        c.drop("the", "last")
        more = one(c)
        if not more or not isinstance(more[-1], (Make, Chain)):
            c.i = begin
            break
        got += more
    if c.kind == "after":
        while c.kind not in (",", ";", ".", "", ")", "turn"):
            c.i += 1  # "omitting the ch 3 after the last dc"
    _which(c)
    told = [k for k in range(mark.index, len(frame.out)) if not isinstance(frame.out[k], Aside)]
    cut = told[max(0, len(told) - len(got))] - mark.index if told and got else len(frame.out) - mark.index
    if len(got) == 1 and told and (fewer := _fewer(frame.out[told[-1]], got[0])) is not None:
        return ((fewer,), cut)
    return ((), cut)


def _which(c: Cursor) -> None:
    """ "… on the last repeat of the round": which unit is told of, which is always the last."""
    while c.kind in ("on", "in", "at", "last", "rep", "of", "the", "rnd", "around", "row", "idle", "end"):
        c.i += 1


def corner_of(unit: Sequence[Step]) -> int | None:
    """Where a unit's last group with a chain amid it stands, "[3 dc, ch 2, 3 dc] in corner sp": its corner; what comes after it ("ch 1")
    is left out as well, for it led away from there. None where nothing stands before it, or the unit has no such group."""
    for k in range(len(unit) - 1, 0, -1):
        step = unit[k]
        if isinstance(step, Together) and any(isinstance(one, Chain) for one in step.body[1:-1]):
            return k
    return None


def _fewer(step: Step, omitted: Step) -> Step | None:
    """ "dc in next 4 dc" with its last dc omitted is "dc in next 3 dc"; None where the whole step is meant."""
    if not (isinstance(step, Make) and isinstance(omitted, Make) and step.stitch == omitted.stitch):
        return None
    if step.places == "rest" or omitted.places == "rest" or step.places.many or omitted.places.many or step.each.values != (1,):
        return None
    left = (step.places.values[0] or 0) - (omitted.places.values[0] or 0) * (omitted.each.values[0] or 1)
    return replace(step, places=Sized((left,))) if left > 0 else None
