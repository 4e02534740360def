"""Which way a row is worked, told beside it: "working from left to right" (reverse single crochet), "right to left"."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor

EXAMPLES = (
    ("working from left to right, reverse sc in each st across", "rsc×rest"),
    ("working left to right, reverse sc in each st across", "rsc×rest"),
    ("from right to left, sc in each st across", "sc×rest"),
)


def direction(c: Cursor) -> list[Step] | None:
    """The words pass: which way the stitches run is the stitch's own matter."""
    start = c.i
    c.drop("work", "idle")
    c.take("from")
    words = [token.text.lower() for token in c.t[c.i : c.i + 3]]
    if words not in (["left", "to", "right"], ["right", "to", "left"]):
        c.i = start
        return None
    c.i += 3
    return [Aside(id=c.id(), span=c.span(start))]
