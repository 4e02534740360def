"""A row that begins as another one does, and is told from there on: "work the first corner as in the last round, * …"."""

from __future__ import annotations

from ...pattern import Aside, Chain, Colour, Make, Refer, Repeat, Step, Together, Turn
from .cursor import Cursor
from .row_lists import is_row, one_row

EXAMPLES = (
    ("Work first corner as in last round, * ch 1, dc in next dc; repeat from * around", "as last 1 to beginning, [ch1, dc@next dc]×rest"),
    ("Begin as in 2nd row, * dc in next dc, ch 1, skip 1; repeat from * across", "as rows 2 to beginning, [dc@next dc, ch1, skip]×rest"),
)  # fmt: skip

_PASSED = frozenset(("the", "a", "idle", "o", "corner", "row", "rnd", "with", "at", "beg", "first", "group", "grp", "in", "this"))
BEGINNING = "beginning"


def begins_as(c: Cursor) -> list[Step] | None:
    """The steps of the row named up to its repeat, where the row's own repeat follows; None with the cursor unmoved."""
    start = c.i
    if any(isinstance(step, (Make, Together, Repeat)) for step in c.frames[0].out) or len(c.frames) > 1:
        return None
    said = c.t[c.i]
    c.i += 1
    opens = said.kind == "beg" or said.text.lower() in ("commence", "begin", "start")
    while (c.kind in _PASSED or c.t[c.i].val == "round") and c.i - start < 6 and not (c.kind == "in" and c.t[c.i - 1].kind == "as"):
        opens = opens or c.kind in ("o", "beg", "first", "corner")
        c.i += 1
    row = _row(c) if opens and (c.kind in ("as", "same") or c.t[c.i].text.lower() == "like") else None
    if row is None or not _repeats_next(c):
        c.i = start
        return None
    rows, last = row
    kept = [step for step in c.out if not isinstance(step, (Chain, Turn, Aside, Colour))]
    if kept:
        c.i = start
        return None
    return [Refer(id=c.id(), span=c.span(start), rows=rows, last=last, upto=BEGINNING)]


def _row(c: Cursor) -> tuple[tuple[int, ...], int] | None:
    """ "As in (the) last round", "like 2d row", "as before"."""
    while c.kind in ("as", "same", "in", "the", "for", "at", "idle") or c.t[c.i].text.lower() == "like":
        c.i += 1
    if c.kind == "before" and c.look().kind in (",", ";"):
        c.i += 1
        return (), 1
    if c.kind in ("last", "prev") and is_row(c, 1):
        c.i += 2
        return (), 1
    row = one_row(c)
    return None if row is None else ((row,), 0)


def _repeats_next(c: Cursor) -> bool:
    """Whether the row's own unit follows, behind a comma."""
    k = c.i
    while c.t[k].kind in (",", ";", "then", "and", "."):
        k += 1
    return k > c.i and c.t[k].kind == "*"
