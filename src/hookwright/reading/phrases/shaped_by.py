"""How an increase or decrease is made, told with it: "increase by working 2 stitches in every other loop", "dec 1 st by working the next 2
sts together", "decrease by missing a stitch"."""

from __future__ import annotations

from ...pattern import Aside, Join, Make, Place, Sized, Step
from .cursor import Cursor
from .numbers import number
from .spots import CLOSE, Spot

EXAMPLES = (
    ("Increase by working 2 sts in every other st", "[sc, 2sc]×rest"),
    ("dec 1 st by working next 2 sts together, sc in next st", "sc2tog, sc"),
    ("decrease by missing 1 st, sc in next st", "sc2tog, sc"),
    ("sc in next 9 sc, dec in next 2 sts 4 times, dec again in same manner twice", "sc×9@next sc, sc2tog×4, sc2tog×2"),
    ("sc in each st around without joining", "sc×rest, no join"),
)
_LONGEST = 16
_BEFORE_PLACES = frozenset(("in", "over", "next", "each", "same", "last", "o"))


def without(c: Cursor) -> list[Step] | None:
    """ "Without increase", "without any further decreasing": plainly; it asks for nothing of its own."""
    start = c.i
    c.i += 1
    while c.kind in ("any", "more", "the", "idle", "a"):
        c.i += 1
    if c.kind == "join" and c.look().kind in (".", ",", ";", "", ")", "for", "until", "rnd"):
        c.i += 1
        c.take("rnd")
        return [Join(id=c.id(), span=c.span(start), no=True)]  # "sc around without joining"
    if c.kind not in ("inc", "dec", "shaping"):
        c.i = start
        return None
    c.i += 1
    c.drop("noun")
    return []


def so_many_in_one(c: Cursor, main: str | None) -> Sized[int] | None:
    """ "(inc) with 2 sc in next st", "by working two stitches in every other loop": how many go into one place; the cursor then stands
    before the place. None with the cursor unmoved."""
    begin = c.i
    if c.kind in ("with", "by"):
        c.i += 1
        worked = c.take("work") is not None
        c.drop("the", "idle")
        told = number(c)
        stitch = c.kind == "st" and c.us(str(c.t[c.i].val)) == main
        c.i += stitch or (worked and c.kind == "noun")
        if told is not None and (stitch or (worked and c.kind in _BEFORE_PLACES)):
            return told
    c.i = begin
    return None


def decreased_by(c: Cursor) -> Spot | None:
    """After "dec": "1 st by working next 2 sts together", "by missing a stitch", "by drawing up a loop in each of next 2 sc": one decrease
    in the next stitches; how often and where are told by the rest of the row. None with the cursor unmoved."""
    begin = c.i
    told = number(c) if c.kind == "n" else None
    if told is None:
        c.take("a")
    if (told is not None and told.values != (1,)) or not _this_way(c):
        c.i = begin
        return None
    return Spot(Place())


def _this_way(c: Cursor) -> bool:
    """Pass over the words that tell it: True when two stitches become one by them."""
    c.take("noun", "st")
    if c.kind != "by":
        return False
    c.i += 1
    start = c.i
    if not (c.kind in ("work", "skip", "pull", "yo", "insert", "st") or c.t[c.i].val in ("taking", "joining", "crocheting")):
        return False
    while c.kind not in CLOSE and c.i - start < _LONGEST:
        if c.kind == "each" and c.look().kind != "of":
            return False  # "by missing every 6th stitch": how often is told with it
        c.i += 1
    words = c.t[start : c.i]
    one = any(t.kind == "tog" or t.val in ("one", "once") for t in words)
    lost = words[0].kind == "skip" and not any(t.kind == "n" and t.val != 1 for t in words)
    loops = words[0].kind in ("pull", "yo", "insert") and any(t.kind == "n" and t.val == 2 for t in words)
    return one or lost or loops


def alone_so_often(c: Cursor) -> bool:
    """Whether "3 times", "twice" here are told of the one shaping before: behind a long run, or with nothing before it to repeat."""
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not (c.kind == "once" or (c.kind == "n" and c.look().kind == "times")) or len(c.frames) > 1 or c.frames[-1].marks:
        return False
    long = isinstance(last, Make) and (last.places == "rest" or (last.places.values[0] or 0) >= LONG_RUN)
    return last is None or long


LONG_RUN = 8
"""From so many stitches on, a plain run before a shaping told so many times is taken to be worked once (from memory)."""


def same_again(c: Cursor) -> None:
    """Pass over "again (in same manner)" before how often."""
    begin = c.i
    if c.t[c.i].text.lower() == "again":
        c.i += 1
        same_way(c)
        if c.kind in ("n", "once", ",", ".", ";"):
            return
    c.i = begin


def same_way(c: Cursor) -> None:
    """Pass over "in the same way", "in same manner", "in this manner": as the rows before do it."""
    begin = c.i
    if c.take("in"):
        c.drop("the", "same")
        c.i += c.t[c.i].text.lower() in ("this", "like", "that")
        if c.t[c.i].val in ("way", "ways", "manner", "fashion", "same-way"):
            c.i += 1
            return
    c.i = begin
