"""A stitch told loop by loop: "yo, insert hook in next st, pull up a loop, … yo, draw through all loops on hook"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Colour, Join, Make, Place, Ring, Sized, Step
from .cursor import Cursor
from .places import spot
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("pull up a loop in each of next 3 sts, yo and draw through all loops on hook", "sc3tog"),
    ("holding back on hook last loop of each dc, make 3 dc in ring, yo and draw through all loops", "cl@ring ring"),
    ("yo, insert hook in next st, yo, pull up a loop, yo, draw through all loops on hook", "hdc"),
)

_STARTS = frozenset(("yo", "insert", "pull"))
_HOLDING = frozenset(("holding", "hold", "keep", "keeping", "retaining", "leaving", "retain", "always"))


def longhand(c: Cursor) -> list[Step] | None:
    """The stitch that a loop-by-loop description makes, or None with the cursor unmoved."""
    start = c.i
    end = _last_pull(c)
    if end is None:
        return None
    held = _held(c, start, end)
    if held is not None:
        return held
    yos = inserts = 0
    found: Spot | None = None
    each: Sized[int] | None = None
    while c.i < end:
        kind = c.kind
        if kind == "yo" and not inserts:
            yos += _times(c)
        elif kind == "insert" or (
            kind == "pull" and c.look().kind != "over" and any(t.kind in ("in", "over") for t in c.t[c.i + 1 : c.i + 5]) and _loop_ahead(c)
        ):
            where = _place_ahead(c)
            if where is not None:
                inserts += 1
                found = found or where
                if where.each and isinstance(where.places, Sized):
                    each = where.places
                continue
        c.i += 1
    c.i = end
    closes = (each.values[0] or 1) if each is not None else max(1, inserts)
    kind = _kind(c, start, end, yos)
    if closes > 1:
        if found is not None and found.at.where == "same":
            return [make(c, start, "cl", found=Spot(found.at))]
        at = found.at if found else Place()
        return [make(c, start, f"{kind}{closes}tog", found=Spot(at), closes=closes)]
    return [make(c, start, kind, found=Spot(found.at if found else Place()))]


def starred(c: Cursor) -> list[Step] | None:
    """ "*yo, insert hook in next st, …; repeat from * twice more in same st, yo, draw through all": one stitch."""
    start = c.i
    rep = next((k for k in range(c.i, min(len(c.t) - 1, c.i + 60)) if c.t[k].kind == "rep"), None)
    if rep is None or any(c.t[k].kind in ("turn", "join", "foff") or _makes_chain(c, k) for k in range(start, rep)):
        return None
    if not any(
        c.t[k].kind == "over" and any(t.kind in ("lp", "all") for t in c.t[k + 1 : k + 5]) for k in range(rep, min(len(c.t) - 1, rep + 25))
    ):
        return None
    yos, found = 0, None
    while c.i < rep:
        if c.kind == "yo" and found is None:
            yos += _times(c)
        elif c.kind == "insert" and found is None:
            found = _place_ahead(c)
            continue
        c.i += 1
    more = 1
    k = rep
    while c.t[k].kind not in ("yo", "pull", "", ".") and k < rep + 14:
        if c.t[k].kind == "n" and isinstance(c.t[k].val, int):
            more = c.t[k].val
        elif c.t[k].kind == "once":
            more = {"once": 1, "twice": 2, "thrice": 3}[str(c.t[k].val)]
        k += 1
    same = any(t.kind == "same" for t in c.t[start:k])
    while k < len(c.t) - 1 and not (c.t[k].kind == "over" and any(t.kind in ("lp", "all") for t in c.t[k + 1 : k + 5])):
        k += 1
    c.i = k
    while c.kind in ("over", "all", "the", "n", "lp", "in", "hook", "rem", "at", "once", "idle", "times"):
        c.i += 1
    at = found.at if found else Place()
    kind = _kind(c, start, rep, yos)
    if same:
        return [make(c, start, "cl", found=Spot(at))]
    return [make(c, start, f"{kind}{more + 1}tog", found=Spot(at), closes=more + 1)]


def _makes_chain(c: Cursor, k: int) -> bool:
    """Whether chains are made here; "insert hook in ch 2 loop" names a place."""
    after = c.t[min(k + 2, len(c.t) - 1)].kind
    return c.t[k].kind == "ch" and c.t[k - 1].kind not in ("in", "the", "next", "each") and after not in ("lp", "sp")


def _times(c: Cursor) -> int:
    """ "yo twice", "yo 3 times": how many wraps."""
    after = c.look()
    if after.kind == "once":
        return {"once": 1, "twice": 2, "thrice": 3}[str(after.val)]
    if after.kind == "n" and c.look(2).kind == "times":
        return int(after.val)
    return 1


def _last_pull(c: Cursor) -> int | None:
    """The token after the last "through all loops" (or the last "through 2 loops") of the description that begins here."""
    if not (c.kind in _STARTS or (c.kind in ("w", "leave") and c.t[c.i].val in _HOLDING)):
        return None
    end: int | None = None
    k = c.i
    limit = min(len(c.t) - 1, c.i + 90)
    while k < limit:
        kind = c.t[k].kind
        if kind in ("turn", "foff", "*", "rep", "join") or (kind in ("(", "[") and c.t[k + 1].kind not in ("n", "yo", "the", "grp")):
            break
        if kind == "over" and any(t.kind in ("lp", "all") for t in c.t[k + 1 : k + 5]):
            j = k + 1
            whole = any(t.kind == "all" or t.val in ("remaining", "both", "rem") for t in c.t[k + 1 : k + 5])
            while (
                j < limit
                and c.t[j].kind in ("n", "all", "both", "the", "rem", "lp", "in", "hook", "at", "idle", "of", "w", "once", "a", "last")
                and c.t[j].val not in ("insert",)
            ):
                j += 1
            end = j
            if whole:
                return end
            k = j
            continue
        k += 1
    return end


def _loop_ahead(c: Cursor) -> bool:
    return any(t.kind == "lp" for t in c.t[c.i + 1 : c.i + 4])


def _place_ahead(c: Cursor) -> Spot | None:
    """The place told with "insert hook in …", "pull up a loop in …"; the cursor then stands behind it."""
    begin = c.i
    c.i += 1
    while c.kind in ("hook", "a", "the", "lp", "up", "along", "color", "idle", "of"):
        c.i += 1
    found = spot(c)
    if found is None:
        c.i = begin
    return found


def _held(c: Cursor, start: int, end: int) -> list[Step] | None:
    """ "holding back last loop of each dc, make 3 dc in ring, yo, draw through all": a cluster, or stitches together."""
    if c.kind not in ("w", "leave") or c.t[c.i].val not in _HOLDING:
        return None
    from .stitches import stitch

    k = c.i + 1
    while k < end and not (c.t[k].kind == "n" and c.t[k + 1].kind == "st"):
        k += 1
    if k >= end:
        k = next((j for j in range(c.i + 6, end) if c.t[j].kind == "st" and c.t[j + 1].kind in ("in", "over")), end)
    if k >= end:
        return None
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
    _with_start(c)
    return [make(c, start, "cl", found=Spot(at))]


def _with_start(c: Cursor) -> None:
    """ "Ch 4, holding back last loop of each dc, make 3 dc in ring, …": the chain is the cluster's first stitch, and none by itself."""
    chain = c.out[-1] if c.out else None
    before = c.out[:-1]
    opens = all(isinstance(s, (Aside, Colour, Ring, Join)) or (isinstance(s, Chain) and s.foundation) or _slips(s) for s in before)
    if isinstance(chain, Chain) and not chain.foundation and chain.counts is None and len(c.frames) == 1 and opens:
        c.out[-1] = replace(chain, counts=False)


def _slips(step: Step) -> bool:
    return isinstance(step, Make) and step.stitch == "sl st"


def _kind(c: Cursor, start: int, end: int, yos: int) -> str:
    """From the wraps before the hook goes in, and whether the end goes through all loops at once."""
    if yos == 0:
        return "sc"
    pulls = sum(1 for k in range(start, end) if c.t[k].kind == "over" and any(t.kind in ("lp", "all") for t in c.t[k + 1 : k + 5]))
    if yos == 1:
        return "hdc" if pulls <= 1 else "dc"
    return {2: "tr", 3: "dtr"}.get(yos, "trtr")
