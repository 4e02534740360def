"""How a toy or a thumb is shut: "cut yarn and draw through remaining sts to close", "pull tail through rem 6 sts and close"."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor

_BREAKS = frozenset((".", ";", "", ")", "]", "(", "["))
_BETWEEN = frozenset(("color", "tail", "the", "idle", "a", "o", "w"))


def draw_through(c: Cursor) -> list[Step] | None:
    """The end drawn through the stitches that are left: nothing is worked into them."""
    start = c.i
    if not c.take("pull"):
        return None
    while c.kind in _BETWEEN or (c.kind in ("top", "end", "along", "beg", "base", "side") and c.look().kind in ("tog", "over", "the")):
        c.i += 1
    if c.kind == "tog" and c.i > start + 1 and c.look().kind in _BREAKS | {"and", ","}:
        c.i += 1  # "Draw opening together"
        return [Aside(id=c.id(), span=c.span(start), kind="close")]
    if c.kind != "over" or c.t[c.i].val != "through":
        return None
    c.i += 1
    c.drop("the", "all", "idle")
    if not c.take("rem"):
        return None
    while c.kind not in _BREAKS:
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start), kind="close")]
