"""Rows further down told before the stitches that reach there: "on 2nd row below, …", "behind Rnd 8,", "in front of these"."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor

_BEHIND = frozenset("the last prev next row rnd n ch sp lp - st post noun group grp idle just".split())  # noqa: SIM905


def rows_below(c: Cursor) -> list[Step] | None:
    """ "on 2nd row below, …", "on working row, …", "behind Rnd 8,", "in front of these": where the following stitches reach."""
    start = c.i
    if c.kind in ("in", "over") and c.look().kind == "o" and c.look(2).kind in ("row", "rnd") and c.look(3).kind == "below":
        c.below = max(0, int(c.look().val) - 1)
        c.i += 4
        return [Aside(id=c.id(), span=c.span(start))]
    if c.kind == "in" and c.look().kind == "work" and c.look(2).kind in ("row", "rnd"):
        c.below = 0
        c.i += 3
        return [Aside(id=c.id(), span=c.span(start))]
    front = c.kind == "in" and c.look().kind == "front" and c.look(2).kind == "of"
    if c.kind in ("behind", "before") or front:
        c.i += 3 if front else 1
        while c.kind in _BEHIND:
            if c.kind in ("st", "grp") and c.look().kind in ("around", "in", "over"):
                break
            if c.kind == "n" and c.look().kind in ("st", "grp") and c.t[c.i - 1].kind not in ("last", "prev", "the", "row", "rnd"):
                break
            c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]
    return None
