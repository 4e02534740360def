"""A row told as the pattern's, with the row that is meant: "work in ripple pattern as Row 2", "in mesh pattern, repeating Rnd 4"."""

from __future__ import annotations

from ...pattern import Aside, Colour, Step
from . import references
from .cursor import Cursor

EXAMPLES = (
    ("work in ripple pattern as Row 2", "as rows 2"),
    ("continue in mesh pattern, repeating Row 2", "as rows 2"),
    ("always working sc in dc and dc in sc, repeat Row 2", "as rows 2"),
    ("repeat Row 2 in same color", "as rows 2"),
)
_BEGINS = frozenset(("work", "cont"))
_LONGEST = 4
"""Words that name a pattern, at most (ours)."""
_LED = 14
"""Words of a rule told before a reference, at most (ours)."""


def pattern_as(c: Cursor) -> list[Step] | None:
    """The reference; None with the cursor unmoved where no row is named."""
    start = c.i
    if c.kind not in _BEGINS or any(not isinstance(step, (Aside, Colour)) for step in c.out):
        return None
    k = c.i + 1
    if c.t[k].kind != "in":
        return None
    at = next((j for j in range(k + 1, k + 2 + _LONGEST) if j < len(c.t) and c.t[j].kind == "patt"), None)
    if at is None or any(token.kind in ("n", "st", "ch", ".", ",") for token in c.t[k + 1 : at]):
        return None
    c.i = at + 1 + (c.t[at + 1].kind == ",")
    return _row_named(c, start)


def after_rule(c: Cursor) -> list[Step] | None:
    """ "Always working sc in dc and dc in sc, repeat Row 2": a rule, and then the row that is worked again."""
    start = c.i
    if c.t[c.i].text.lower() != "always" or any(not isinstance(step, (Aside, Colour)) for step in c.out):
        return None
    comma = next((k for k in range(c.i, min(c.i + _LED, len(c.t) - 1)) if c.t[k].kind == "," and c.t[k + 1].kind in ("rep", "as")), None)
    if comma is None:
        return None
    c.i = comma + 1
    return _row_named(c, start)


def _row_named(c: Cursor, start: int) -> list[Step] | None:
    named = c.kind in ("as", "rep", "of") and any(c.look(k).kind in ("row", "rnd", "around") for k in (1, 2, 3))
    got = references.refer(c) if named else None
    if got is None:
        c.i = start
    return got


def in_same_yarn(c: Cursor) -> list[Step] | None:
    """ "(Repeat Row 2) in the same color": no other yarn is taken up."""
    start = c.i
    c.take("in", "with")
    c.take("the")
    if not c.take("same") or c.kind not in ("color", "colour", "yarn"):
        c.i = start
        return None
    c.i += 1
    if c.kind not in (",", ";", ".", "", "(", ")"):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]
