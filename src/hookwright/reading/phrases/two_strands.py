"""Stitches worked through a second strand at once: "sc in back loop and the free front loop of the row below, across" (thermal stitch)."""

from __future__ import annotations

from .cursor import Cursor
from .limits import limit
from .spots import Spot

EXAMPLES = (
    ("sc in blo and in the free front loop of the row below across", "sc×rest@next st/back"),
    ("sc in back loop of each sc and in the free loop one row down at the same time", "sc×rest@next sc/back"),
)
_FREE = frozenset(("free", "unworked"))
_STOPS = frozenset((",", ";", ".", "", "(", "[", ")", "]", "*", "rep", "around", "across", "turn", "join"))
REACH = 16
"""How many words may tell of the second strand."""


def second_strand(c: Cursor, found: Spot) -> None:
    """Pass over the strand that is taken along, behind a place told by its loop; where the words then go to the row's end, so does it."""
    begin = c.i
    if c.kind not in ("and", "with") or found.at.loop == "both":
        return
    end = next((k for k in range(begin + 1, min(begin + REACH, len(c.t))) if c.t[k].kind in _STOPS), None)
    if end is None:
        return
    words = c.t[begin + 1 : end]
    if not any(_free(t.kind, str(t.val)) for t in words[:6]) or not any(t.kind in ("loop", "lp") for t in words):
        return
    if any(t.kind in ("st", "ch", "skip") and t.kind != "st" for t in words):
        return
    c.i = end
    if found.places != "rest":
        at = c.i
        c.take(",")
        if c.kind in ("around", "across") and (but := limit(c)) is not None:
            found.places, found.but, found.each = "rest", but, True
        else:
            c.i = at


def _free(kind: str, value: str) -> bool:
    return kind in _FREE or (kind == "loop" and value.startswith("free"))
