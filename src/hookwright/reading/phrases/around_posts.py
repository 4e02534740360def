"""Stitches round the posts of others: "dc around the post of next st", "1 hdc round front of next, 1 hdc round back of next"."""

from __future__ import annotations

from ...pattern import ONE, Sized, Step
from .cursor import Cursor
from .places import spot
from .shapes import make

EXAMPLES = (
    ("1 hdc round front of next st, 1 hdc round back of next st", "FPhdc, BPhdc"),
    ("FPdc around post of next st, BPdc around the post of each st across", "FPdc, BPdc×rest"),
)


def round_a_side(c: Cursor) -> bool:
    """ "(1 hdc) round front of next", "around the back of each dc": the post, from that side."""
    k = 1 + (c.look().kind == "the")
    return (
        c.look(k).kind in ("front", "back") and c.look(k + 1).kind == "of" and c.look(k + 2).kind in ("next", "each", "same", "o", "last")
    )


def around_post(c: Cursor, start: int, kind: str, told: Sized[int] | None) -> list[Step] | None:
    """ "dc around the post of next st (from front)", "dc around front post of next dc"."""
    side = "FP"
    while c.kind in ("around", "the", "front", "back", "post", "of"):
        side = "BP" if c.kind == "back" else side
        c.i += 1
    if c.kind == "join" and c.look().kind == "st" and (joined := spot(c, bare=True)) is not None and joined.at.where == "first":
        return [make(c, start, kind, each=told or ONE, found=joined)]
    found = spot(c, bare=True)
    if c.kind == "from" and c.look().kind in ("front", "back", "the"):
        c.i += 1
        c.take("the")
        side = "BP" if c.kind == "back" else "FP"
        c.drop("front", "back")
    if kind[:2] in ("FP", "BP"):
        side = ""  # "FPdc around the post of next st": the stitch has said it
    return [make(c, start, side + kind, each=told if told and (found is None or found.places == ONE) else ONE, found=found)]
