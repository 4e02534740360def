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


_OPENINGS = frozenset(("hole", "opening", "gap"))


def shut_hole(c: Cursor) -> list[Step] | None:
    """ "Close the hole with the yarn tail": sewn or gathered shut, and no slip stitch that joins a round."""
    if not c.t[c.i].text.lower().startswith("clos"):
        return None
    end = c.i
    while c.t[end].kind not in _BREAKS:
        if c.t[end].kind in ("st", "ch", "slst"):
            return None
        end += 1
    words = c.t[c.i : end]
    kinds = {token.kind for token in words}
    pulled = "turn" in kinds and bool(kinds & {"ring", "mring"}) and "join" not in {token.kind for token in words[1:]}
    if pulled:  # "3 dc in ring. Close ring, turn.": the first row of a piece worked to and fro is joined to nothing
        end = next(k for k in range(c.i, end) if c.t[k].kind in (",", "and", "turn"))
    elif not any(token.text.lower() in _OPENINGS for token in words):
        return None
    start, c.i = c.i, end
    return [Aside(id=c.id(), span=c.span(start), kind="close")]
