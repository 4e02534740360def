"""What a run has left, drawn together: "sc in each till two remain, and draw these together as one"."""

from __future__ import annotations

from ...pattern import Aside, Make, Repeat, Step
from ...trade.kinds import base
from .cursor import Cursor
from .numbers import number
from .pairs import which_end

EXAMPLES = (
    ("sc in each till two remain, and draw these together as one", "sc×rest−2, sc2tog"),
    ("sc to last 2 sts, work these 2 together", "sc×rest−2, sc2tog"),
    ("*sc in next 4 sts, take 2 together; repeat from * around", "[sc×4, sc2tog]×rest"),
    ("*dc in next dc, draw next 2 dc together with a sc; repeat from * to end", "[dc@next dc, sc2tog]×rest"),
)

_VERBS = frozenset(("draw", "drawing", "pull", "take", "taking", "work", "working", "join", "crochet"))


def left_together(c: Cursor) -> list[Step] | None:
    """The last places, closed as one stitch; None with the cursor unmoved where the run before tells of none left."""
    start = c.i
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    run = last.body[-1] if isinstance(last, Repeat) and last.body and last.times.kind == "to_last" else last
    if c.t[c.i].text.lower() not in _VERBS or not isinstance(run, Make):
        return None
    told_left = last.times.number if isinstance(last, Repeat) else last.but if isinstance(last, Make) and last.places == "rest" else None
    if told_left is None or told_left.many:
        return None
    left = told_left.values[0] or 0
    c.i += 1
    these = c.t[c.i].text.lower() in ("these", "them", "those", "both")
    c.i += these
    told = number(c)
    c.drop("noun")
    if not these or not 1 < left < 6 or (told is not None and told.values[0] != left) or not c.take("tog"):
        c.i = start
        return None
    if c.kind == "as" and c.look().val in (1, "one"):
        c.i += 2
    name = f"{base(run.stitch)}{left}tog"
    return [Make(id=c.id(), span=c.span(start), stitch=name, closes=left, main=run.main)]


def drawn_together(c: Cursor) -> list[Step] | None:
    """ "Take two together", "draw next 2 tr together with a dc", "taking the next 2 sts together as one": the next places closed as one
    stitch, of the kind told, else of that worked before. None with the cursor unmoved."""
    start = c.i
    if c.t[c.i].text.lower() not in _DRAWS or c.ctx.passes or c.look().kind == "up":
        return None
    c.i += 1
    at = which_end(c)
    told = number(c)
    own = c.us(str(c.t[c.i].val)) if c.kind == "st" else ""
    c.drop("st", "noun")
    if told is None or told.many or not 1 < (told.values[0] or 0) <= 6 or not c.take("tog"):
        c.i = start
        return None
    if c.kind in ("as", "in") and c.look().val in (1, "one"):
        c.i += 2
        c.take("noun")
    if c.kind in ("with", "by") and c.look(1 + (c.look().kind in ("a", "n"))).kind == "st":
        c.i += 1 + (c.look().kind in ("a", "n"))
        own = c.us(str(c.t[c.i].val))
        c.i += 1
    made = next((step for step in reversed(c.out) if isinstance(step, Make)), None)
    closes = told.values[0] or 2
    kind = own or (base(made.stitch) if made is not None else c.ctx.main) or "sc"
    return [Make(id=c.id(), span=c.span(start), stitch=f"{kind}{closes}tog", closes=closes, at=at)]


_DRAWS = frozenset(("take", "taking", "draw", "drawing"))
