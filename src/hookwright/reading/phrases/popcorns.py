"""Popcorns told by movements: "5 dc in next sp, drop loop from hook, insert hook in first dc and draw dropped loop through"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Make, Ring, Sized, Step
from .cursor import Cursor

EXAMPLES = (
    ("5 dc in next sp, drop loop from hook, insert hook in first dc and draw dropped loop through, ch 2", "popcorn@next sp, ch2"),
    ("5 tr in next st, drop st from hook, insert hook in 1st tr, pick up dropped loop and pull through", "popcorn"),
)
_FEWEST = 3
_FURTHEST = 30
_AFTER = frozenset(("st", "in", "hook", "lp", "it", "on", "the", "idle", "noun"))


def dropped_loop(c: Cursor) -> list[Step] | None:
    """From "drop loop from hook" to where it is drawn through: the stitches told before it are one popcorn."""
    start = c.i
    end = _drawn_through(c)
    at = next((k for k in range(len(c.out) - 1, -1, -1) if not isinstance(c.out[k], Aside)), None)
    if end is None or at is None:
        return None
    made = c.out[at]
    if not isinstance(made, Make) or not isinstance(made.places, Sized):
        return None
    number = (made.each if made.each != ONE else made.places).values[0] or 0
    if number < _FEWEST - (begun := _begun(c, at)):
        return None
    if begun:
        chain = c.out[at - 1]
        assert isinstance(chain, Chain)
        c.out[at - 1] = replace(chain, counts=False)  # the chain is the popcorn's first stitch
    c.out[at] = replace(made, stitch="popcorn", each=ONE, places=ONE)
    c.i = end
    _fastened(c)
    return [Aside(id=c.id(), span=c.span(start))]


def _drawn_through(c: Cursor) -> int | None:
    """The token after "draw (dropped) loop through"; None where this is no popcorn."""
    if not any(c.look(k).kind == "hook" for k in range(2, 6)):
        return None
    k = c.i + 1
    inserted = False
    while k < min(len(c.t) - 1, c.i + _FURTHEST) and c.t[k].kind not in (".", ";", "*", "rep", "turn"):
        inserted = inserted or c.t[k].kind == "insert"
        if c.t[k].kind == "over" and inserted and any(t.kind in ("pull", "pick") for t in c.t[c.i : k]):
            k += 1
            while c.t[k].kind in _AFTER and not (c.t[k].kind == "in" and c.t[k + 1].kind in ("next", "same", "each", "o")):
                k += 1
            return k
        k += 1
    return None


def _begun(c: Cursor, at: int) -> bool:
    """The row's starting chain stands just before: it is the first of the stitches."""
    before = c.out[at - 1] if at else None
    opens = all(isinstance(step, (Aside, Ring)) or (isinstance(step, Chain) and step.foundation) for step in c.out[: max(at - 1, 0)])
    return isinstance(before, Chain) and not before.foundation and before.counts is None and len(c.frames) == 1 and opens


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
