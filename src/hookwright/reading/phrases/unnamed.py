"""Numbers that stand for stitches nobody names again: "2 in each", "*1, 2 in next* 6 times", where the piece has one plain stitch."""

from __future__ import annotations

from ...pattern import ONE, Make, Sized, Step
from .cursor import Cursor
from .places import spot
from .shapes import make
from .spots import CLOSE, Spot

EXAMPLES: tuple[tuple[str, str], ...] = ()
_OPENS = frozenset(("", "*", "(", "[", ",", ";", ":"))
MOST_IN_ONE = 5
"""Stitches of that kind in one place, at most (from memory): more is a count."""


def in_places(c: Cursor) -> list[Step] | None:
    """ "2 in each", "1 in each of next 3", "1" before ", 2 in next": of the piece's stitch. None, unmoved, where a stitch was named in the
    row already or the number is something else."""
    many = c.t[c.i].val
    before = c.t[c.i - 1].kind if c.i else ""
    if not c.ctx.rounds or not c.ctx.main or before not in _OPENS or not isinstance(many, int):
        return None
    listed = c.look().kind == "," and c.look(2).kind == "n" and c.look(3).kind == "in" and 0 < many < _LONGEST_RUN
    if not (listed or (0 < many <= MOST_IN_ONE and c.look().kind == "in")):
        return None
    if any(isinstance(step, Make) and step.at.where != "next" for frame in c.frames for step in frame.out):
        return None
    start = c.i
    if listed:
        c.i += 3
        beside = spot(c)
        c.i = start
        if beside is not None and beside.at.where == "next" and beside.places == ONE and c.look(2).val == 2:
            c.i += 1
            return [make(c, start, c.ctx.main, found=Spot(beside.at, Sized((many,))))]
    if not 0 < many <= MOST_IN_ONE or c.look().kind != "in" or any(token.kind == "st" for token in c.t[:start]):
        return None
    c.i += 1
    found = spot(c)
    if found is None or found.at.where != "next" or found.at.what != "st" or found.skip or c.kind not in CLOSE | {"*", "around"}:
        c.i = start
        return None
    c.take("around")
    return [make(c, start, c.ctx.main, each=Sized((many,)), found=found)]


_LONGEST_RUN = 60
