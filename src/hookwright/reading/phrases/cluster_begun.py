"""A round's first cluster, which its starting chain begins: "ch 4, tr in next sc (counts as first cluster)"."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from ...pattern import ONE, Aside, Chain, Make, Step, slips
from ...trade.kinds import HEIGHT
from .cursor import Cursor

EXAMPLES = (
    ("ch 4, tr in next sc (this counts as first cluster), ch 5, sc in next sc", "ch4 not counted, tr2tog@next sc, ch5, sc@next sc"),
    ("ch 3, dc in next st (counts as dc2tog), ch 4, sc in next st", "ch3 not counted, dc2tog, ch4, sc"),
    ("ch 3, dc in next sc for first cluster, ch 4", "ch3 not counted, dc2tog@next sc, ch4"),
)
_SAYS = frozenset(("the", "counts", "as", "a", "for", "idle", "-", "is"))


def cluster_begun(c: Cursor) -> list[Step] | None:
    """From the bracket, from "for", or from "first" behind a dash: the chain and the one stitch behind it are a stitch of two worked
    together, over the chain's place and the next. None with the cursor unmoved."""
    start = c.i
    made = [k for k, step in enumerate(c.out) if not isinstance(step, Aside)]
    chain, last = (c.out[made[-2]], c.out[made[-1]]) if len(made) > 1 else (None, None)
    if not isinstance(chain, Chain) or chain.foundation or not isinstance(last, Make) or last.stitch not in HEIGHT:
        return None
    if last.each != ONE or last.places != ONE or last.at.where != "next" or len(c.frames) > 1:
        return None
    if any(isinstance(c.out[k], (Chain, Make)) and not slips(c.out[k]) for k in made[:-2]):
        return None
    close = c.close.get(start) if c.kind == "(" else None
    c.i += c.kind != "o"
    c.drop(*_SAYS)
    first = c.take("o", "beg") is not None
    named = _cluster(c, last.stitch)
    while c.t[c.i].text.lower() in ("made", "completed", "formed"):
        c.i += 1
    ends = c.i == close if close is not None else c.kind in (",", ";", ".", "")
    counted = any(token.kind in ("counts", "as") for token in c.t[start : c.i])
    if not named or not ends or not (first or counted or c.t[start].kind == "for" or c.t[c.i - 1].kind == "w"):
        c.i = start
        return None
    c.i += close is not None
    c.out[made[-2]] = replace(chain, counts=False, stands_for=())
    by_name = any(a.kind == "grp" and a.val == "cl" and b.kind in ("in", "over") for a, b in pairwise(c.t[c.i :]))
    c.out[made[-1]] = replace(last, stitch="cl" if by_name else f"{last.stitch}2tog", closes=2)
    return [Aside(id=c.id(), span=c.span(start))]


def _cluster(c: Cursor, stitch: str) -> bool:
    """Past "cluster", "2-dc cluster", "dc2tog", "beg cl"."""
    begin = c.i
    if c.kind == "n" and c.t[c.i].val == 2:
        c.i += 1
        c.take("-")
        if c.kind != "st" or c.us(str(c.t[c.i].val)) != stitch:
            c.i = begin
            return False
        c.i += 1
    if c.kind == "grp" and c.t[c.i].val == "cl":
        c.i += 1
        return True
    if c.kind == "st" and c.us(str(c.t[c.i].val)) == stitch and c.look().val == 2 and c.look(2).kind == "tog":
        c.i += 3
        return True
    c.i = begin
    return False
