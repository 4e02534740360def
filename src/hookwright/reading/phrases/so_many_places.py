"""A number of stitches that goes one into each of as many places: along the row's own chain, into what an opening left."""

from __future__ import annotations

from ...pattern import ONE, Aside, Chain, Join, Make, Place, Sized, Step, Turn
from .cursor import Cursor
from .spots import Spot
from .things import STITCHES

EXAMPLES = (
    ("ch 3, sc 12 around first leg, sc 3 along the ch", "ch3, sc×12@marked piece, sc×3@next ch"),
    ("10 hdc in the skipped sts", "hdc×10@skipped st"),
)


def over_own_chain(c: Cursor, start: int, found: Spot, told: Sized[int]) -> bool:
    """Whether so many stitches go along a chain that this row has made: "ch 3, sc 12 around first leg, 3 sc along the ch"."""
    if c.t[c.i - 1].kind != "ch" or c.i - start > 6:
        return False
    made = [step for step in c.out if isinstance(step, Chain) and not step.foundation]
    if found.at == Place() and found.places == "rest":
        return bool(made)
    one = c.t[c.i - 2].kind == "the" and found.at == Place(what="ch") and found.places == ONE and told != ONE
    return one and not c.ctx.old and any(step.number == told for step in made)


_LOOP = 6
"""Chains of the shortest loop that is made to be covered with stitches (ours)."""


def over_loop_just_made(c: Cursor, found: Spot, told: Sized[int]) -> bool:
    """ "Ch 16, sl st in same place, ch 1, turn, 24 sc over loop": the chain just closed into a loop, and no space below."""
    if found.at != Place(what="sp") or found.places != ONE or (told.at(0) or 0) < _LOOP or c.t[c.i - 1].kind not in ("lp", "ch", "sp"):
        return False
    before = [step for step in c.out if not isinstance(step, (Aside, Turn))]
    if before and isinstance(before[-1], Chain) and (before[-1].number.at(0) or 0) < _LOOP:
        before.pop()
    if len(before) < 2 or not isinstance(chain := before[-2], Chain) or (chain.number.at(0) or 0) < _LOOP:
        return False
    closing = before[-1]
    slipped = isinstance(closing, Make) and closing.stitch == "sl st" and closing.at.where == "same"
    return slipped or (isinstance(closing, Join) and closing.to is not None and closing.to.where == "same")


def one_each(c: Cursor, found: Spot, told: Sized[int]) -> bool:
    """Whether so many stitches go one into each of so many places: "10 hdc in the skipped sts", "2 hdc in the underside of the 2 ch"."""
    if found.at.where == "under":
        return found.told and found.places == told and not found.each
    many = c.t[c.i - 1].text.lower() in STITCHES or (c.t[c.i - 1].kind == "skip" and c.t[c.i - 2].text.lower() in STITCHES)
    return found.at.where == "skipped" and found.places == ONE and not (found.each or found.told) and many


def ordinals_from_hook(c: Cursor, begin: int, kind: str) -> list[Step] | None:
    """ "(Dc) in 4th, 5th and 6th ch from hook": the stitch `kind` (told from token `begin` on) in the first and in those after it; None,
    unmoved, where no such row of chains is told."""
    start = c.i
    if not c.take("in", "over"):
        return None
    c.take("the")
    told: list[int] = []
    while c.kind == "o" and isinstance(c.t[c.i].val, int):
        told.append(c.t[c.i].val)
        c.i += 1
        c.drop(",", "and", "the") if c.kind in (",", "and") else None
    rows = len(told) > 1 and told == list(range(told[0], told[0] + len(told)))
    if not rows or not c.take("ch") or not c.take("from"):
        c.i = start
        return None
    c.take("the")
    if not c.take("hook"):
        c.i = start
        return None
    span, hook = c.span(begin), Place(where="from_hook", what="ch", nth=told[0])
    others = Make(id=c.id(), span=span, stitch=kind, places=Sized((len(told) - 1,)), at=Place(what="ch"))
    return [Make(id=c.id(), span=span, stitch=kind, at=hook), others]
