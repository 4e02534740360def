"""What a plain round does otherwise at some places: "sc in each st around, with 3 sc in each corner"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Even, Make, Place, Sized, Step, Together
from .cursor import Cursor

EXAMPLES = (
    ("sc in each st around, with 3 sc in each corner", "sc×rest, 3sc×rest@next corner"),
    ("dc in each st around, with (2 dc, ch 2, 2 dc) in each corner sp", "dc×rest, {dc×2, ch2, dc×2}×rest@next corner"),
)


_FURTHEST = 24


def exception(c: Cursor) -> list[Step] | None:
    """ "with 3 sc in each corner", "having 2 dc, ch 2 and 2 dc in each corner" after a run to the end; None, unmoved, elsewhere."""
    start = c.i
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not (isinstance(before, Even) or (isinstance(before, Make) and before.places == "rest")):
        return None
    if c.look().kind not in ("n", "a", "(", "[", "st", "grp"):
        return None
    from .sentences import one

    c.i += 1
    got = one(c)
    if got and isinstance(got[-1], (Make, Together)) and (got[-1].places == "rest" or got[-1].at.what == "corner"):
        return got
    middle = _at_centre(c, before, got)
    if middle is not None:
        return middle
    c.i = start
    if _of_corners(c):
        c.i += 1
        return []  # a list told before its corner: each of its steps is read in turn
    return None


def _at_centre(c: Cursor, before: Step, got: list[Step] | None) -> list[Step] | None:
    """ "Dc in each st across, having 5 dc in center dc": the run goes up to the middle, and on from there."""
    if not got or len(got) != 1 or not isinstance(before, Make) or before.upto or before.but != Sized((0,)):
        return None
    once = got[0]
    if not isinstance(once, (Make, Together)) or once.at.where != "next" or once.at.nth != 0 or once.at.of:
        return None
    c.out[max(k for k, step in enumerate(c.out) if step is before)] = replace(before, upto="center")
    return [once, replace(before, id=c.id(), span=once.span, at=Place(where="next", what=before.at.what))]


def _of_corners(c: Cursor) -> bool:
    """Whether the clause names corners before it ends."""
    k = c.i + 1
    while c.t[k].kind not in (";", ".", "") and k < c.i + _FURTHEST:
        if c.t[k].kind == "corner":
            return True
        k += 1
    return False
