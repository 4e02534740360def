"""Ends that are joined: of a chain ("make a chain of 120 stitches, and join the two ends together"), of a band worked in rows."""

from __future__ import annotations

from ...pattern import Aside, Chain, Colour, Refer, Ring, Step
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


_WHICH = frozenset(
    "the both two 2 short shorter long narrow cast chain beginning first last and other opposite foundation row your".split()  # noqa: SIM905
)
_EDGES = frozenset("end ends edge edges side sides rows".split())  # noqa: SIM905
_ENDS = frozenset((",", ";", ".", "", ")", "]", "(", "foff", "not"))
_WORK = frozenset(("inc", "dec", "skip", "grp", "rep", "*", "turn"))


def ends_seamed(c: Cursor) -> list[Step] | None:
    """ "Sl st the two short ends together", "join both ends with sl st": a band is closed, and none of its rows is worked; None with the
    cursor unmoved."""
    start = c.i
    if len(c.frames) > 1:
        return None
    joins = c.kind == "join"
    c.i += 1
    begin = c.i
    while c.t[c.i].text.lower() in _WHICH:
        c.i += 1
    edges = c.t[c.i].text.lower() in _EDGES and (c.i > begin or c.t[c.i].text.lower().endswith("s"))
    if not edges or not any(isinstance(step, Refer) or getattr(step, "places", None) == "rest" for step in c.out):
        c.i = start
        return None
    edge = c.i
    c.i += 1
    while c.kind not in _ENDS and c.kind not in _WORK:
        c.i += 1
    kinds = [token.kind for token in c.t[edge : c.i]]
    if c.kind not in _ENDS or not ("tog" in kinds or (joins and "with" in kinds)):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start), kind="note")]
