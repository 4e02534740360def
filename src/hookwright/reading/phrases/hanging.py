"""A loop to hang the piece up by: "ch 12 and sl st back into the corner to hang it up", "ch 15, sl st back in last sc"."""

from __future__ import annotations

from ...pattern import Chain, Make, Place, Step
from .cursor import Cursor
from .places import spot

EXAMPLES = (
    ("sc in each st across, ch 12 and sl st back into the corner to hang it up", "sc×rest, ch12, sl st@same st"),
    ("sc in each st across, ch 15, sl st back in last sc, fasten off", "sc×rest, ch15, sl st@same st, fasten off"),
)

_ENDS = frozenset((",", ";", ".", "", ")", "]", "(", "[", "foff"))
_WORK = frozenset(("st", "ch", "skip", "inc", "dec", "turn", "join", "grp", "rep", "n"))


def slipped_back(c: Cursor) -> list[Step] | None:
    """A slip stitch "back into" a place, behind a chain: into the place that the chain stands on."""
    start = c.i
    chain = c.out[-1] if c.out else None
    led = c.look().kind == "back" and c.look(2).kind in ("in", "to", "at", "over")
    if c.t[c.i].val != "sl st" or not led or not isinstance(chain, Chain) or chain.foundation:
        return None
    c.i += 2
    if spot(c) is None:
        c.i = start
        return None
    end = c.i
    while c.kind not in _ENDS and c.kind not in _WORK:
        c.i += 1  # "to hang it up", "for a loop"
    c.i = c.i if c.kind in _ENDS else end
    return [Make(id=c.id(), span=c.span(start), stitch="sl st", at=Place(where="same"))]
