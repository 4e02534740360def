"""Increases told over those of the row below: "sc in each sc, making 2 sc in second sc of each 2-sc group"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Make, Place, Sized, Step
from .cursor import Cursor
from .middles import runs_told
from .nouns import noun

EXAMPLES = (
    ("sc in each sc, making 2 sc in 2nd sc of each 2-sc group", "sc×rest@next sc, 2sc×rest@next sc#2"),
    ("sc in each sc, increasing in the first st of each increase", "sc×rest@next sc, 2sc×rest@next st#1"),
)

_OPENS = frozenset(("work", "having", "with", "but", "w"))
_ENDS = frozenset((",", ";", ".", "", "(", "[", "=", "-", "join", ")", ":", "turn", "foff", "drop"))


def in_each_increase(c: Cursor) -> list[Step] | None:
    """ "(Sc around,) making 2 sc in the 2nd sc of each pair", "inc in first st of every increase": one stitch of each run that stands in
    one place, told beside a plain run or alone as the whole row. None with the cursor unmoved."""
    start = c.i
    while c.kind in _OPENS and (c.kind != "w" or c.t[c.i].text.lower() == "putting"):
        c.i += 1
    runs = runs_told(c.out)
    alone = c.kind == "inc" and not any(isinstance(step, Make) for step in c.out)
    told = _so_many(c, runs[-1].stitch if runs else c.main or "")
    found = _which(c) if told is not None and (alone or len(runs) == 1) else None
    if found is None or told is None or any(run.upto or any(run.but.values) for run in runs):
        c.i = start
        return None
    span = c.span(start)
    plain = runs[-1] if runs else Make(id=c.id(), span=span, stitch=c.main or "sc", places="rest")
    more = Make(
        id=c.id(), span=span, stitch=plain.stitch, each=Sized((told,)), places="rest", at=replace(found, loop=plain.at.loop, span=span)
    )
    return [more] if runs else [plain, more]


def _so_many(c: Cursor, stitch: str) -> int | None:
    """How many stitches go into one: "2 sc", "an inc", "2"; None for another stitch than the row's, or one only."""
    told: int | None = None
    if c.kind == "n" and isinstance(c.t[c.i].val, int) and 1 < c.t[c.i].val <= 5:
        told = c.t[c.i].val
        c.i += 1
        if c.kind == "st" and c.us(str(c.t[c.i].val)) == stitch:
            c.i += 1
        elif c.kind != "in":
            return None
    else:
        c.drop("a")
        if c.take("inc") is None:
            return None
        told = 2
        c.drop("n") if c.t[c.i].val == 1 else None
        c.drop("st", "noun")
    return told if c.take("in") else None


def _which(c: Cursor) -> Place | None:
    """ "The 2nd sc of each 2-sc group", "last st of every inc", "first of each pair of sc" up to the clause's end."""
    c.drop("the")
    nth = c.t[c.i].val if c.kind == "o" else -1 if c.kind == "last" else None
    if not isinstance(nth, int):
        return None
    c.i += 1
    what = (noun(c) or "st") if c.kind in ("st", "noun") else "st"
    if not c.take("of"):
        return None
    every = False
    while c.kind in ("the", "each", "all"):
        every = every or c.kind in ("each", "all")
        c.i += 1
    sized, named = _an_increase(c)
    if not named or (sized and nth > sized) or not (every or c.t[c.i - 1].text.lower().endswith("s")):
        return None
    if c.kind in ("of", "in", "on", "from"):
        c.i += 1
        c.drop("the", "prev", "last", "row", "rnd", "around", "below")
    return Place(what=what, nth=nth, of=IN_INCREASE) if c.kind in _ENDS else None


def _an_increase(c: Cursor) -> tuple[int, bool]:
    """Past "2-sc group", "group of 2 sc", "pair", "inc": how many stitches it has where told, else 0; whether it is one."""
    if c.kind == "n" and isinstance(many := c.t[c.i].val, int) and 1 < many <= 5:
        c.i += 1
        c.drop("-")
        pair = c.take("st", "noun") is not None
        named = c.take("group", "grp", "inc") is not None
        return many, pair or named
    if c.take("inc"):
        return 0, True
    if c.t[c.i].val not in ("pair", "group") and c.kind != "group":
        return 0, False
    c.i += 1
    if c.kind == "of" and c.look().kind in ("n", "st", "noun"):
        c.i += 1
        many = c.t[c.i].val if c.kind == "n" and isinstance(c.t[c.i].val, int) else 0
        c.drop("n")
        c.drop("st", "noun")
        return many, True
    return 0, True


IN_INCREASE = "inc"
"""What the stitch lies in: several worked into one place of the row below."""

__all__ = ["EXAMPLES", "in_each_increase"]
