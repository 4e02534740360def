"""The gap beside the stitch on a row's edge: "between first dc and next group", "in gap after last group"."""

from __future__ import annotations

from ...pattern import Place
from .cursor import Cursor
from .spots import CLOSE, ONE, Spot

EXAMPLES = (
    ("ch 3, 3 dc in sp between first dc and next group, ch 1", "ch3, 3dc@first st between, ch1"),
    ("3 dc between last group and turning chain, dc in tch", "3dc@last st between, dc@named tch"),
    ("3 dc in the gap before the first group, ch 1", "3dc@first st between, ch1"),
)

_GAPS = frozenset(("sp", "lp"))
_EDGE = frozenset(("edge", "end", "edging", "border", "beginning", "side"))
_ENDS = frozenset((*CLOSE, "and", "turn", "st", "ch"))


def edge_gap(c: Cursor) -> Spot | None:
    """From the preposition on; None with the cursor unmoved."""
    start = c.i
    if c.kind == "in":
        c.i += 1
        c.drop("the", "first", "last")
        if c.kind == "o":
            c.i += 1
        if c.kind not in _GAPS or c.look().kind not in ("between", "before", "after"):
            c.i = start
            return None
        c.i += 1
    side = _side(c)
    if side is None or c.kind not in _ENDS:
        c.i = start
        return None
    return Spot(Place(where="first" if side == "first" else "last", between=True), ONE)


def _side(c: Cursor) -> str | None:
    """Which edge is told, from "between", "before" or "after" on."""
    word = c.kind
    c.i += 1
    one = _neighbour(c)
    if one is None:
        return None
    if word != "between":
        sided = one == ("first", "group") if word == "before" else one == ("last", "group")
        return one[0] if sided else None
    if not c.take("and"):
        return None
    other = _neighbour(c)
    if other is None or {one[1], other[1]} != {"edge", "group"}:
        return None
    edge, group = (one, other) if one[1] == "edge" else (other, one)
    if edge[0] in ("first", "edge") and group[0] in ("first", "next"):
        return "first"
    return "last" if edge[0] in ("last", "edge", "") and group[0] == "last" else None


def _neighbour(c: Cursor) -> tuple[str, str] | None:
    """ "First dc", "next group", "last 3-dc cluster", "the turning ch": which, and whether it is a group or the stitch on the edge."""
    c.drop("the")
    if c.kinds("top", "of"):
        c.i += 2
        c.drop("the")
    which = ""
    if c.kind == "o" and c.t[c.i].val == 1:
        which = "first"
    elif c.kind in ("first", "last", "next"):
        which = c.kind
    c.i += bool(which)
    if c.t[c.i].text.lower() in _EDGE and c.look().kind in ("st", "noun"):
        which = which or "edge"
        c.i += 1
    if c.kind == "n" and c.look().kind in ("-", "st") and c.look(2).kind in ("st", "group", "grp"):
        c.i += 1 + (c.look().kind == "-")
    if c.kind == "st" and c.look().kind in ("group", "grp"):
        c.i += 1
    what = "group" if c.kind in ("group", "grp") else "edge" if c.kind in ("st", "noun", "tch") else None
    if what is None:
        return None
    which = "" if c.kind == "tch" else which
    c.i += 1
    return which, what
