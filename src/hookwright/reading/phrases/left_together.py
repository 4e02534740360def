"""What a run has left, drawn together: "sc in each till two remain, and draw these together as one"."""

from __future__ import annotations

from ...pattern import Aside, Make, Step
from .cursor import Cursor
from .numbers import number

EXAMPLES = (
    ("sc in each till two remain, and draw these together as one", "sc×rest−2, sc2tog"),
    ("sc to last 2 sts, work these 2 together", "sc×rest−2, sc2tog"),
)

_VERBS = frozenset(("draw", "drawing", "pull", "take", "taking", "work", "working", "join", "crochet"))


def left_together(c: Cursor) -> list[Step] | None:
    """The last places, closed as one stitch; None with the cursor unmoved where the run before tells of none left."""
    start = c.i
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if c.t[c.i].text.lower() not in _VERBS or not isinstance(last, Make) or last.places != "rest" or last.but.many:
        return None
    left = last.but.values[0] or 0
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
    name = f"{last.stitch}{left}tog"
    return [Make(id=c.id(), span=c.span(start), stitch=name, closes=left, main=last.main)]
