"""The loop dropped from the hook and drawn through another place: a popcorn told in words, or a motif caught to its neighbour."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Make, Place, Repeat, Step, Together, slips
from .cursor import Cursor
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("5 dc in next sp, drop loop from hook, insert hook in first dc and draw dropped loop through, ch 2", "popcorn@next sp, ch2"),
    ("5 tr in next st, drop st from hook, insert hook in 1st tr, pick up dropped loop and pull through", "popcorn"),
    ("5 dc in next st, drop loop from hook, insert hook in first of the 5 dc, draw dropped loop through", "popcorn"),
    (
        "4 tr in next sp, remove hook from loop, insert hook from front to back in top of first tr of group, pick up loop and pull through",
        "popcorn@next sp",
    ),
    ("3 dc in next sp, drop loop from hook, insert hook in ch-2 sp of first motif, pick up dropped loop and draw through", "3dc@next sp"),
)

FEWEST = 3
"""Stitches that make a popcorn (common practice, no source)."""

_OUT = frozenset(("drop", "dropping", "remove", "removing", "withdraw", "take", "slip", "release", "slide"))
_ENDS = frozenset((".", ";", "", ")", "]", "}", "*", "(", "["))


def dropped(c: Cursor) -> list[Step] | None:
    """ "Drop loop from hook, insert hook in first of the 5 dc, draw dropped loop through": what stands before it is one popcorn."""
    start = c.i
    end = _through(c)
    if end is None:
        return None
    words = [c.t[k] for k in range(start, end)]
    if any(t.kind == "group" and str(t.val).startswith(("motif", "block", "square", "flower", "medallion")) for t in words):
        c.i = end
        return [Aside(id=c.id(), span=c.span(start))]
    group = _before(c)
    if group is None:
        return None
    c.i = end
    _fastened(c)
    return [make(c, start, "popcorn", found=Spot(group))]


def _through(c: Cursor) -> int | None:
    """The token after "… draw dropped loop through"; None where the words tell of something else."""
    if str(c.t[c.i].val) not in _OUT and str(c.t[c.i].text).lower() not in _OUT:
        return None
    k = c.i + 1
    while c.t[k].kind in ("the", "lp", "st", "noun", "idle", "out", "of", "from", "a", "w") and k < c.i + 6:
        k += 1
    if c.t[k].kind != "hook":
        return None
    inserted = False
    while c.t[k].kind not in _ENDS:
        inserted = inserted or c.t[k].kind in ("insert", "in")
        if c.t[k].kind == "over" and inserted:
            k += 1
            while c.t[k].kind in ("st", "noun", "lp", "the", "in", "hook", "it", "idle", "top", "all", "same", "n"):
                k += 1
            return k
        k += 1
        if k > c.i + 45:
            return None
    return None


def _before(c: Cursor) -> Place | None:
    """The place of the group told just before, taken from the steps; None where no group stands there."""
    out = c.out
    if not out:
        return None
    floor = max((mark.index for mark in c.frames[-1].marks if not mark.used), default=0)
    if len(out) <= floor:
        return None
    last = out[-1]
    if isinstance(last, Make) and last.places != "rest" and last.places.values == (1,) and last.closes == 1:
        number = last.each.values[0] or 1
        first = out[-2] if len(out) > floor + 1 else None
        begun = (
            isinstance(first, Chain)
            and not first.foundation
            and (first.number.values[0] or 0) > 1
            and last.at.where in ("same", "next", "ring")
        )
        if number < FEWEST and not begun:
            return None
        out.pop()
        if begun and isinstance(first, Chain) and _opens(out):
            out[-1] = replace(first, counts=False)  # the chain is the first stitch of the popcorn
        elif isinstance(first, Chain) and (first.number.values[0] or 0) == 1 and not first.foundation and _told_chain(c):
            out.pop()  # "ch 1, 5 dc in next st, drop st from hook, insert hook back in ch-1": the chain is drawn shut
        return last.at
    if isinstance(last, Together) and last.name == "" and all(isinstance(step, Make) for step in last.body):
        out.pop()
        return last.at
    return None


def _opens(out: list[Step]) -> bool:
    return len(out) == 1 or all(not isinstance(step, (Make, Together, Repeat)) or slips(step) for step in out[:-1])


def _told_chain(c: Cursor) -> bool:
    """Whether the hook goes back into that chain."""
    k = c.i
    while c.t[k].kind not in _ENDS and k < c.i + 30:
        if c.t[k].kind == "ch" and c.t[k - 1].kind in ("in", "the"):
            return True
        k += 1
    return False


def _fastened(c: Cursor) -> None:
    """ ", ch 1 to fasten", ", ch 1 tightly": the popcorn's own chain."""
    begin = c.i
    c.drop(",", "and")
    if c.kind == "ch" and c.look().kind == "n" and c.look().val == 1:
        c.i += 2
        if c.t[c.i].val in ("tightly", "firmly"):
            c.i += 1
            return
        if c.kind == "to" and c.look().text.lower() in ("fasten", "tighten", "close", "secure"):
            c.i += 2
            return
    c.i = begin
