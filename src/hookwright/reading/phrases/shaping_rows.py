"""Shaping told for rows of its own, in the middle of a paragraph: "Work 3 rows even, then dec 1 st at beg of next 4 rows"."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ...pattern import Even, Make, Repeat, Shape, Sized, Span, Step, Together, Turn, Until
from .cursor import Cursor
from .numbers import number


@dataclass(frozen=True, slots=True)
class Block:
    """From the character `start` on, `rows` rows, or rows up to `until`."""

    start: int
    rows: Sized[int] | None
    until: Until | None


def next_rows(c: Cursor) -> Sized[int] | None:
    """ "(of) next 4 rows", "the following 6 rows": how many; None with the cursor unmoved."""
    begin = c.i
    c.drop("the", "each", "all", "of")
    if c.take("next") and (told := number(c)) is not None and c.take("row", "rnd", "around"):
        return told
    c.i = begin
    return None


def in_rows_of_their_own(c: Cursor, shaped: Shape) -> list[Step]:
    """The shaping, its rows kept in `c.told`: those of this very row where nothing is worked before it, else of rows after it."""
    rows, until = c.told.pop("shaping_rows", None), c.told.pop("shaping_until", None)
    first = bool(c.told.pop("shaping_next", False))
    rows = rows if isinstance(rows, Sized) else None
    until = until if isinstance(until, Until) else None
    worked = _worked(c)
    if rows is None and until is None and not first:
        return [shaped]
    if first:  # "each end of next and every following 4th row"
        once = replace(shaped, id=c.id(), every=1)
        if worked:
            keep_block(c, Block(once.span.start, Sized((1,)), None))
        again = replace(shaped, id=c.id(), span=Span(shaped.span.end, shaped.span.end))
        keep_block(c, Block(again.span.start, rows, until))
        return [once, again]
    if worked:
        keep_block(c, Block(shaped.span.start, rows, until))
        return [shaped]
    if rows is not None:
        c.told["rows_count"] = rows
    if until is not None:
        c.told["until"] = until
    return [shaped]


def keep_rows(c: Cursor, step: Step, rows: Sized[int]) -> None:
    """So many rows of this step: this very row where nothing is worked before it, else rows after it."""
    if _worked(c):
        keep_block(c, Block(step.span.start, rows, None))
    else:
        c.told["rows_count"] = rows


def _worked(c: Cursor) -> bool:
    return any(isinstance(step, (Make, Even, Repeat, Together, Shape, Turn)) for step in c.frames[0].out)


def keep_block(c: Cursor, block: Block) -> None:
    kept = c.told.get("blocks")
    c.told["blocks"] = [*(kept if isinstance(kept, list) else []), block]
