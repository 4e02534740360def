"""A cord told as its chain and the way back: "Ch 110 and slip stitch back", "ch 80, then sc back along it", "ch 45, work back in sl st"."""

from __future__ import annotations

from ...pattern import Aside, Chain, Colour, Make, Place, Step, Turn
from .cursor import Cursor

EXAMPLES: tuple[tuple[str, str], ...] = ()
_LOW = frozenset(("sl st", "sc"))
"""Stitches before which one chain turns and nothing else is customary (common practice, no source)."""
_ALONG = frozenset(("along", "across", "over", "to", "the", "ch", "beg", "end", "around", "idle", "all", "of", "back", "row", "on", "o"))
_ENDS = frozenset((",", ";", ".", "", ")", "]", "(", "[", "foff", "=", "-", "turn", "and", "leave", "then"))
SHORTEST = 8
"""A chain no longer than this that is slip-stitched "back to the start" is a ring (from memory)."""


def back_on_chain(c: Cursor) -> list[Step] | None:
    """A low stitch "back" on a foundation chain told alone: one in each chain from the second; None with the cursor unmoved."""
    start = c.i
    told = [step for step in c.out if not isinstance(step, (Aside, Colour, Turn))]
    chain = told[-1] if len(told) == 1 else None
    if len(c.frames) > 1 or not isinstance(chain, Chain) or not chain.foundation or (chain.number.values[0] or 0) <= SHORTEST:
        return None
    c.i += c.kind == "work"
    c.drop("the", "idle", "around") if c.kind != "back" else None
    stitch = c.take("st") if c.kind == "st" else None
    c.drop("idle", "around", "across")
    if not c.take("back"):
        c.i = start
        return None
    if stitch is None and c.take("in", "with"):
        stitch = c.take("st")
    while c.kind in _ALONG or c.t[c.i].text.lower() in ("length", "whole", "entire", "chain"):
        c.i += 1
    if stitch is None or c.us(str(stitch.val)) not in _LOW or c.kind not in _ENDS:
        c.i = start
        return None
    kind, span = c.us(str(stitch.val)), c.span(start)
    first = Make(id=c.id(), span=span, stitch=kind, at=Place(where="from_hook", what="ch", nth=2))
    return [first, Make(id=c.id(), span=span, stitch=kind, places="rest", at=Place(what="ch"))]
