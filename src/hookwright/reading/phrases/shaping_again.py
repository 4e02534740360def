"""A shaping told again for rows to come: "inc 1 st at each end of next row and repeat the increase every 4th row 5 times"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Shape, Sized, Step, Until
from .cursor import Cursor
from .shaping_rows import Block, every_rows, keep_block

EXAMPLES = (
    ("inc 1 st each side and repeat increase every 4th row 5 times", "shape+1 each_end, shape+1 each_end every 4"),
    ("dec 1 st at each end of next 3 rows, then every other row twice", "shape−1 each_end, shape−1 each_end every 2"),
    ("dec 1 st at neck edge on next 3 rows, then at same edge on every alt row until 9 sts remain", "shape−1 end, shape−1 end every 2"),
)


def shaped_again(c: Cursor) -> list[Step] | None:
    """From "repeat": the shaping before, on every k-th row after it; None with the cursor unmoved."""
    start = c.i
    shaped = next((step for step in reversed(c.out) if isinstance(step, Shape)), None)
    if shaped is None or not c.take("rep"):
        c.i = start
        return None
    c.drop("the", "same", "idle")
    if not c.take("inc", "dec", "shaping"):
        c.i = start
        return None
    begin = c.i
    every = every_rows(c)
    rows, until = c.told.pop("shaping_rows", None), c.told.pop("shaping_until", None)
    if c.i == begin or not (isinstance(rows, Sized) or isinstance(until, Until)):
        c.i = start
        return None
    again = replace(shaped, id=c.id(), span=c.span(start), every=every)
    keep_block(c, Block(again.span.start, rows if isinstance(rows, Sized) else None, until if isinstance(until, Until) else None))
    return [again]


def shaped_then(c: Cursor) -> list[Step] | None:
    """ "(…,) then (at each end of) every other row twice": the shaping just told, on other rows after those it was told for; None with the
    cursor unmoved."""
    start = c.i
    shaped = c.out[-1] if c.out else None
    if not isinstance(shaped, Shape) or start == 0 or c.t[start - 1].kind not in ("then", "and", ","):
        return None
    c.drop("at", "in", "on")
    if c.kind in ("each", "both") and c.look().kind in ("end", "ends", "side"):
        c.i += 1 if c.look().kind == "ends" and "row" in str(c.look().val) else 2
    elif c.kind == "same" and c.look().kind in ("end", "ends", "side"):
        c.i += 2
    begin = c.i
    every = every_rows(c)
    rows, until = c.told.pop("shaping_rows", None), c.told.pop("shaping_until", None)
    if c.i == begin or not (isinstance(rows, Sized) or isinstance(until, Until)):
        c.i = start
        return None
    again = replace(shaped, id=c.id(), span=c.span(start), every=every)
    keep_block(c, Block(again.span.start, rows if isinstance(rows, Sized) else None, until if isinstance(until, Until) else None))
    return [again]
