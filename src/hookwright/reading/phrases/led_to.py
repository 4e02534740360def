"""Gone on to a place that is then called "it": "skip to next dc, 1 dc in it", "go to next ch-3 sp and 5 dc in it"."""

from __future__ import annotations

from ...pattern import Aside, Place, Step
from .cursor import Cursor
from .nouns import noun

EXAMPLES = (
    ("ch 3, skip to next dc, 1 dc in it, ch 3", "ch3, dc@next dc, ch3"),
    ("go over to next ch-3 sp and 5 dc in it, ch 1", "5dc@next ch-3 sp, ch1"),
)

_GOING = frozenset(("go", "jump", "pass", "move", "travel"))


def led_to(c: Cursor) -> list[Step] | None:
    """The way to a place that the next stitch is worked into; None, the cursor unmoved, where no such place is told."""
    start = c.i
    if c.kind != "skip" and c.t[c.i].text.lower() not in _GOING:
        return None
    c.i += 1
    c.drop("over", "in", "along")
    if c.take("to"):
        c.drop("the")
        if c.take("next"):
            what = noun(c)
            if what is not None and c.kind in (",", ";", "and", "then", "&"):
                way = Aside(id=c.id(), span=c.span(start))
                c.told["led_to"] = (way.id, Place(what=what))
                return [way]
    c.i = start
    return None


def place_led_to(c: Cursor) -> Place | None:
    """The place that the words just before this stitch led to."""
    told = c.told.get("led_to")
    last = c.out[-1] if c.out else None
    if not isinstance(told, tuple) or not isinstance(last, Aside) or last.id != told[0]:
        return None
    return told[1] if isinstance(told[1], Place) else None
