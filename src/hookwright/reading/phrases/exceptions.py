"""What a plain round does otherwise at some places: "sc in each st around, with 3 sc in each corner"."""

from __future__ import annotations

from ...pattern import Aside, Even, Make, Step, Together
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
    c.i = start
    if _of_corners(c):
        c.i += 1
        return []  # a list told before its corner: each of its steps is read in turn
    return None


def _of_corners(c: Cursor) -> bool:
    """Whether the clause names corners before it ends."""
    k = c.i + 1
    while c.t[k].kind not in (";", ".", "") and k < c.i + _FURTHEST:
        if c.t[k].kind == "corner":
            return True
        k += 1
    return False
