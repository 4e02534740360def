"""Stitches whose last loops are kept on the hook and drawn off together: "holding back last loop of each dc, make 3 dc in ring, …"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Colour, Join, Make, Place, Ring, Sized, Step, slips
from .cursor import Cursor
from .places import PREPS
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("holding back on hook last loop of each dc, make 3 dc in ring, yo and draw through all loops", "cl@ring ring"),
    ("dc in next 2 sts, keeping last loop of each dc on hook, yo and draw through all loops", "dc2tog"),
)

MOST = 200
"""Tokens a description may run to."""
STARTS = frozenset(("yo", "insert", "pull"))
HOLDING = frozenset(("holding", "hold", "keep", "keeping", "retaining", "leaving", "retain", "always"))
OFF = frozenset(("n", "all", "both", "the", "rem", "lp", "in", "hook", "at", "idle", "of", "once", "a", "last", "same", "together"))


def held(c: Cursor, start: int) -> list[Step] | None:
    """ "holding back last loop of each dc, make 3 dc in ring, yo, draw through all": a cluster, or stitches together."""
    end = _drawn_off(c)
    if end is None:
        return None
    from .stitches import stitch

    counted = next((j for j in range(c.i + 1, end) if c.t[j].kind == "n" and c.t[j + 1].kind == "st"), end)
    placed = (j for j in range(c.i + 2, end) if c.t[j].kind == "st" and c.t[j + 1].kind in PREPS and not _on_hook(c, j + 1))
    k = min(counted, next(placed, end))  # "make 4 tr in next sc", "make tr in next 4 sc"
    if k >= end:
        return _told_before(c, start, end)
    c.i = k
    got = stitch(c)
    if not got:
        c.i = start
        return None
    step = got[-1]
    c.i = end
    stitch_name = getattr(step, "stitch", "dc")
    places = getattr(step, "places", ONE)
    at = getattr(step, "at", Place())
    if isinstance(places, Sized) and (places.values[0] or 1) > 1 and at.where in ("next", "first", "last"):
        closes = places.values[0] or 2
        return [make(c, start, f"{stitch_name}{closes}tog", found=Spot(at), closes=closes)]
    with_start(c)
    return [make(c, start, "cl", found=Spot(at))]


def _on_hook(c: Cursor, k: int) -> bool:
    """Whether the place here is the hook: "keeping last loop of each dc on hook"."""
    while c.t[k].kind in ("in", "the", "idle", "w"):
        k += 1
    return c.t[k].kind == "hook"


def _told_before(c: Cursor, start: int, end: int) -> list[Step] | None:
    """ "2 tr in same place, keeping last loop of each tr on hook, yo and draw through all loops": the stitches told before are one."""
    before = c.out[-1] if c.out else None
    if not isinstance(before, Make) or before.places == "rest":
        return None
    c.out.pop()
    c.i = end
    n = before.places.values[0] or 1
    if n > 1 and before.each == ONE:
        return [make(c, start, f"{before.stitch}{n}tog", found=Spot(before.at), closes=n)]
    with_start(c)
    return [make(c, start, "cl", found=Spot(before.at))]


def _drawn_off(c: Cursor) -> int | None:
    """The token after "(yo and) draw through all loops on hook", "yo and complete as for a cluster" of the description that begins here."""
    limit = min(len(c.t) - 1, c.i + MOST)
    k = c.i
    while (
        k < limit and c.t[k].kind not in ("turn", "foff", "*", "rep", "join") and not (c.t[k].kind == "." and c.t[k + 1].kind not in STARTS)
    ):
        if c.t[k].kind == "over" and any(t.kind in ("lp", "all") for t in c.t[k + 1 : k + 5]):
            j = k + 1
            while j < limit and (c.t[j].kind in OFF or c.t[j].val in ("time", "one")):
                j += 1
            return j
        if c.t[k].val in ("complete", "finish") and any(t.kind == "grp" for t in c.t[k + 1 : k + 4]):
            j = k + 1
            while j < limit and c.t[j].kind not in (",", ".", ";", "(", ")", "*"):
                j += 1
            return j  # "and complete a cluster as before"
        if c.t[k].kind == "yo" and any(t.val in ("complete", "finish", "completed") for t in c.t[k + 1 : k + 4]):
            j = k + 1
            while j < limit and c.t[j].kind not in (",", ".", ";", "(", ")", "*"):
                j += 1
            return j
        k += 1
    return None


def with_start(c: Cursor) -> None:
    """ "Ch 4, holding back last loop of each dc, make 3 dc in ring, …": the chain is the cluster's first stitch, and none by itself."""
    chain = c.out[-1] if c.out else None
    before = c.out[:-1]
    opens = all(isinstance(s, (Aside, Colour, Ring, Join)) or (isinstance(s, Chain) and s.foundation) or slips(s) for s in before)
    if isinstance(chain, Chain) and not chain.foundation and chain.counts is None and len(c.frames) == 1 and opens:
        c.out[-1] = replace(chain, counts=False)


def past_finger(c: Cursor) -> int:
    """Behind ", wind yarn round first finger of left hand" of a loop stitch, where it stands here: the loop hangs free."""
    k = c.i
    while c.t[k].kind in (",", "and", "idle", "then"):
        k += 1
    end = next(j for j in range(k, len(c.t)) if c.t[j].kind in (",", ";", ".", ""))
    words = {token.text.lower() for token in c.t[k:end]}
    return end if words & {"finger", "fingers", "pencil", "ruler", "card"} and words & _WINDS else c.i


_WINDS = frozenset("wind wound winding wrap wrapping pass passing bring bringing put throw throwing".split())  # noqa: SIM905
