"""Shaping told by what it comes to: "Decrease to 6 s c", "Dec all around until 6 sts remain", "decrease all around to 6 s c, …"."""

from __future__ import annotations

from ...pattern import ONE, Count, Even, Make, Step
from .counts import add
from .cursor import Cursor
from .nouns import noun
from .numbers import number

EXAMPLES = (
    ("Decrease until 6 sc remain", "6sc evenly"),
    ("Increase to 18 sts", "18sc evenly"),
    ("dc around decreasing to 9 dc", "9dc evenly"),
    ("Decrease all around to 6 sc, sl st in next st", "sc2tog×rest, join | 6 sc"),
)
_ENDS = frozenset((",", ";", ".", "", "(", ")", "and", "turn", "join", "foff"))


def shaped_to(c: Cursor) -> list[Step] | None:
    """From the verb, where no stitch and no number is told before "to": so many, spread over the round. None with the cursor unmoved."""
    start = c.i
    c.i += 1
    c.drop("all", "around", "even", "idle")
    until = c.kind == "until"
    around = any(token.kind == "around" for token in c.t[start : c.i])
    if not (c.take("until") or (not around and c.take("to"))):
        c.i = start
        return None
    c.drop("there", "only")
    c.i += c.t[c.i].text.lower() in ("there", "only", "you")
    c.i += c.t[c.i].text.lower() in ("are", "have")
    told = number(c)
    kind = noun(c) if told is not None else None
    left = c.take("rem") is not None or c.t[c.i - 1].val == "left"
    if told is None or kind is None or kind.endswith("sp") or (until and not left) or c.kind not in _ENDS or c.ctx.main is None:
        c.i = start
        return None
    run = c.out[-1] if c.out else None
    plain = isinstance(run, Make) and run.places == "rest" and run.closes == 1 and run.each == ONE and not run.upto
    named = run.stitch if isinstance(run, Even) or (isinstance(run, Make) and plain) else None
    if plain or isinstance(run, Even):
        c.out.pop()  # "work 1 round of sc, decreasing to 9 sc": the run told before is this very row
    return [Make(id=c.id(), span=c.span(start), stitch=named or c.ctx.main, each=told, evenly=True)]


def came_to(c: Cursor) -> list[Step] | None:
    """ "(Decrease all around) to 6 s c, …": the count of a round that is shaped all along; None with the cursor unmoved."""
    start = c.i
    before = c.out[-1] if c.out else None
    if not isinstance(before, Make) or before.places != "rest" or not (before.closes > 1 or before.each != ONE):
        return None
    c.i += 1
    told = number(c)
    kind = noun(c) if told is not None else None
    if told is None or kind is None or kind.endswith("sp") or c.kind not in _ENDS:
        c.i = start
        return None
    add(c, [Count(number=told, kind=kind)], start)
    return []
