"""The last round's stitches drawn together with the yarn's end: "Draw remaining 5 sts tog and fasten", "Gather remaining sts"; none is
worked."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor

EXAMPLES = (
    ("sc in each sc. Draw sts tog", "sc×rest@next sc"),
    ("sc in each sc. Pull remaining sts together tightly, fasten off", "sc×rest@next sc, fasten off"),
    ("sc in each st. Draw remaining 5 sts tog and fasten", "sc×rest"),
    ("ch 3, 5 dc in ring. Pull ring closed, turn", "ch3, 5dc@ring ring, turn"),
    ("ch 3, 5 dc in ring. Pull tail to close the ring and turn", "ch3, 5dc@ring ring, turn"),
    ("sc in each st. Gather remaining sts and fasten.", "sc×rest"),
)

_VERBS = frozenset(("draw", "drawing", "pull", "pulling", "gather", "gathering"))
_CLOSED = frozenset("up tight tightly firmly closed close".split())  # noqa: SIM905
_WORK = frozenset(("st", "ch", "skip", "grp", "next", "hook", "lp", "yo", "inc", "dec", "rep", "sp", "each", "in"))
_ON = ("foff", "turn")
"""What the hand does next, told in the same sentence."""
_LEFT = frozenset(("rem", "last", "all", "top"))


def drawn(c: Cursor) -> list[Step] | None:
    """The same behind the row's own work: ", draw sts tog and fasten"; None with the cursor unmoved."""
    start = c.i
    upto = gathered(c, c.stops[c.i])
    if upto is None or start == 0 or c.t[start - 1].kind not in (",", "and", "then"):
        return None
    c.i = upto
    return [Aside(id=c.id(), span=c.span(start), kind="close")]


def gathered(c: Cursor, end: int) -> int | None:
    """Where the sentence at the cursor ends that draws the stitches together (before ", fasten off" and ", turn"); None for any other."""
    first = c.t[c.i]
    if first.text.lower() not in _VERBS:
        return None
    stop = c.i
    while stop < end and c.t[stop].kind not in (".", "!", ";", *_ON):
        stop += 1
    words = c.t[c.i + 1 : stop]
    closed = first.text.lower().startswith("gather") or any(token.kind == "tog" or token.text.lower() in _CLOSED for token in words)
    left = any(token.kind in _LEFT for token in words)
    if not closed or any(token.kind in _WORK or (token.kind == "n" and not left) for token in words):
        return None
    while c.t[stop].kind in _ON and c.t[stop - 1].kind in (",", "and"):
        stop -= 1
    return stop
