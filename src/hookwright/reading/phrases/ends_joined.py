"""A chain whose ends are joined, in old books' words: "make a chain of 120 stitches, and join the two ends together"."""

from __future__ import annotations

from ...pattern import Aside, Chain, Colour, Ring, Step
from .cursor import Cursor


def ends_joined(c: Cursor) -> list[Step] | None:
    """From "join": the foundation chain becomes a ring. None with the cursor unmoved elsewhere."""
    start = c.i
    c.i += 1
    c.drop("the", "both", "n", "idle")
    if not c.take("end", "ends"):
        c.i = start
        return None
    c.drop("of", "the", "ch", "with", "a", "idle", "tog", "to", "ring")
    if c.kind == "st" and c.t[c.i].val == "sl st":
        c.i += 1
    chain = next((step for step in reversed(c.out) if not isinstance(step, (Aside, Colour))), None)
    if not isinstance(chain, Chain) or not chain.foundation or c.kind not in (",", ".", ";", "", ")"):
        c.i = start
        return None
    c.in_ring = True
    return [Ring(id=c.id(), span=c.span(start), chains=chain.number)]
