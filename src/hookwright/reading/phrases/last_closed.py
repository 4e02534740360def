"""The last of several rounds closed otherwise than those before it: "ending last round with sl st in each of next 2 sc to even round",
"join last round". No stitch of it is counted."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor
from .places import spot

EXAMPLES = (
    ("sc in each sc, ending last round with a sl st in next 2 sc to even round, cut yarn", "sc×rest@next sc, fasten off"),
    ("sc in each sc, join last rnd with sl st", "sc×rest@next sc"),
)

_ENDS = frozenset((",", ";", ".", "", ")"))
_VERBS = frozenset("end ends ending finish finishing close closing join joining".split())  # noqa: SIM905


def last_closed(c: Cursor) -> list[Step] | None:
    """From the verb; None with the cursor unmoved where the last round is not told, or is ended with more than slip stitches."""
    start = c.i
    if c.t[c.i].text.lower() not in _VERBS or not c.out:
        return None
    c.i += 1
    c.drop("the", "at", "end", "of")
    last = c.take("last") or c.t[c.i].text.lower() == "final"
    c.i += c.t[c.i].text.lower() == "final"
    if not last or not c.take("rnd", "row", "around"):
        c.i = start
        return None
    c.drop("with", "by", "a", "n")
    slip = c.kind == "st" and c.t[c.i].val == "sl st"
    c.i += slip
    if slip and c.kind in ("in", "to", "over") and c.look().text.lower() not in _PURPOSE:
        spot(c)
    if slip and c.kind == "to" and c.look().text.lower() in _PURPOSE:
        while c.kind not in _ENDS:
            c.i += 1
    joins = c.t[start].kind == "join"
    if not (slip or joins) or c.kind not in _ENDS:
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


_PURPOSE = frozenset("even join close finish level".split())  # noqa: SIM905
