"""Words that lead in a phrase and say no more than it: "keep repeating row 2", "widening by working 2 dc in …", "but mark …"."""

from __future__ import annotations

from ...pattern import Step
from . import more_rows, references, unit_repeats
from .cursor import Cursor


def going_on(c: Cursor) -> list[Step] | None:
    return (unit_repeats.go_on(c) or more_rows.proceed(c)) if c.t[c.i].val in ("go", "proceed") else None


def again(c: Cursor) -> list[Step] | None:
    """ "Keep repeating row 2", "continue alternating rows 2 and 3": the verb before it says no more."""
    start = c.i
    if c.look().kind in ("rep", "alt"):
        c.i += 1
        got = references.refer(c)
        if got is not None:
            return got
    c.i = start
    return None


def by_working(c: Cursor) -> list[Step] | None:
    """ "(Dc across,) widening by working 2 dc in every 6th st": how it is shaped, told as it is told elsewhere."""
    start = c.i
    if c.look().kind != "by" or c.look(2).kind != "work" or c.look(3).kind != "n":
        return None
    c.i += 3
    from .one_phrase import one

    got = one(c)
    if got is None:
        c.i = start
    return got


def but(c: Cursor) -> list[Step] | None:
    """ "(Do not join rnds) but mark beg of each with a thread": what follows is told as it is elsewhere."""
    start = c.i
    c.i += 1
    if c.kind in ("across", "along", "around") and c.look().kind in ("the", "end", "ends", "side"):
        edge = next((k for k in range(1, 5) if c.look(k).kind == "work"), 0)
        c.i += edge  # "but across the end work 1 sc on the first"
    from .one_phrase import one

    got = one(c)
    if got is None:
        c.i = start
    return got
