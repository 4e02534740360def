"""More stitches in the middle of a row that is plain otherwise: "dc in each st, working 2 in the st at middle of back"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Make, Step
from .cursor import Cursor
from .numbers import number

EXAMPLES = (("dc in each st, working 3 dc in the center st", "dc×rest to center, 3dc, dc×rest"),)


def more_at_middle(c: Cursor) -> list[Step] | None:
    """ "Working 2 in the st at the middle of the back", "making 3 dc in center st": the run told before it goes up to there and on
    from there. None with the cursor unmoved."""
    start = c.i
    last = c.out[-1] if c.out else None
    if not isinstance(last, Make) or last.places != "rest" or last.upto or any(last.but.values) or not c.take("work"):
        c.i = start
        return None
    told = number(c)
    c.take("st")
    if told is None or not c.take("in", "over"):
        c.i = start
        return None
    c.drop("the", "a")
    middle = bool(c.take("center"))
    if c.kind in ("st", "noun"):
        c.i += 1
    if not middle and c.kind in ("in", "at", "over"):
        c.i += 1
        c.drop("the")
        middle = bool(c.take("center"))
    if middle and c.kind == "of":
        c.i += 1
        c.drop("the")
        c.i += c.kind not in (",", ";", ".", "", "-", "(")
    if not middle or c.kind not in (",", ";", ".", "", "-", "(", "=", "turn", "join"):
        c.i = start
        return None
    c.out[-1] = replace(last, upto="center")
    there = Make(id=c.id(), span=c.span(start), stitch=last.stitch, each=told, places=ONE, at=last.at)  # the run stops right before it
    return [there, replace(last, id=c.id(), span=c.span(start))]
