"""A row with every so-many-th place passed over: "sc around, skipping every 8th st", "double crochet, missing every fourth stitch"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Even, Make, Place, Repeat, Sized, Skip, Step, Times, Together
from .cursor import Cursor
from .nouns import noun

EXAMPLES = (
    ("sc around, skipping every 8th st", "[sc×7, skip]×rest"),
    ("1 dc in each st, missing every fourth stitch", "[dc×3, skip]×rest"),
    ("sc in each st to end but skip every 6th st", "[sc×5, skip]×rest"),
    ("sc in each st around, skipping every other st", "[sc, skip]×rest"),
)


def every_kth(c: Cursor, start: int) -> list[Step] | None:
    """Behind "skip": "every 4th st". The row of stitches told before it becomes the repeat, which may end anywhere (common practice)."""
    kth = 2 if c.look().kind in ("other", "alt") else c.look().val
    if c.kind != "each" or c.look().kind not in ("o", "other", "alt") or not isinstance(kth, int) or kth < 2:
        return None
    at = next((k for k in range(len(c.out) - 1, -1, -1) if not isinstance(c.out[k], Aside)), None)
    row = c.out[at] if at is not None else None
    begin = c.i
    c.i += 2
    alone = sum(isinstance(step, (Make, Together)) for step in c.out) == 1
    if noun(c) is None or at is None or not isinstance(row, (Make, Even)) or (isinstance(row, Make) and not _whole_row(row, alone)):
        c.i = begin
        return None
    stitch = row.stitch if isinstance(row, Make) else row.stitch or c.ctx.main or "sc"
    run = Make(id=c.id(), span=row.span, stitch=stitch, places=Sized((kth - 1,)))
    if isinstance(row, Make):
        run = replace(run, at=row.at)
    if c.ctx.old and run.at == Place():
        run = replace(run, at=Place(what="any"))  # over lace, chains are stitches to these books (from memory)
    passed = Skip(id=c.id(), span=c.span(start), what="any" if run.at.what == "any" else "st")
    del c.out[at]
    return [Repeat(id=c.id(), span=c.span(start), body=(run, passed), times=Times(kind="rest", loose=True))]


def _whole_row(row: Make, alone: bool) -> bool:
    """Worked all along the row, or a stitch whose place was not told at all, as old books tell whole rows ("3rd row. Double crochet")."""
    return row.each == ONE and row.at.where == "next" and (row.places == "rest" or (alone and row.places == ONE)) and row.but.values == (0,)
