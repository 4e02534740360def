"""Shaping told for rows of its own, in the middle of a paragraph: "Work 3 rows even, then dec 1 st at beg of next 4 rows"."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ...pattern import ONE, Even, Make, Repeat, Shape, Sized, Span, Step, Together, Turn, Until
from .cursor import Cursor
from .limits import limit
from .numbers import number, times_word
from .spots import CLOSE


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
    if c.take("next"):
        told = number(c)
        if told is not None and c.take("row", "rnd", "around"):
            return told
        if told is None and _worked(c) and c.take("row", "rnd") and c.kind in CLOSE and c.look().kind not in ("each", "and", "then"):
            return ONE  # "work 4 rows even, inc 1 st at each end of next row"
    c.i = begin
    return None


def in_rows_of_their_own(c: Cursor, shaped: Shape) -> list[Step]:
    """The shaping, its rows kept in `c.told`: those of this very row where nothing is worked before it, else of rows after it."""
    rows, until = c.told.pop("shaping_rows", None), c.told.pop("shaping_until", None)
    first = bool(c.told.pop("shaping_next", False))
    even = c.told.pop("shaping_even", 0)
    rows = rows if isinstance(rows, Sized) else None
    until = until if isinstance(until, Until) else None
    worked = _worked(c)
    if rows is None and until is None and not first:
        return [shaped]
    if first:  # "each end of next and every following 4th row"
        once = replace(shaped, id=c.id(), every=1)
        plain: list[Step] = []
        if isinstance(even, int) and even > 0:
            plain = [Even(id=c.id(), span=shaped.span)]
            once = replace(once, span=Span(shaped.span.end - 1, shaped.span.end))
            keep_rows(c, plain[0], Sized((even,)))
        if worked or plain:
            keep_block(c, Block(once.span.start, Sized((1,)), None))
        again = replace(shaped, id=c.id(), span=Span(shaped.span.end, shaped.span.end))
        keep_block(c, Block(again.span.start, rows, until))
        return [*plain, once, again]
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


def _until_when(c: Cursor) -> None:
    from .untils import until

    if c.kind in ("until",):
        got = until(c)
        if got is not None:
            c.told["shaping_until"] = got


def _how_often(c: Cursor, from_here: bool) -> None:
    """ ", 2-3-3 times in all", " 5 times": for so many rows. "5 more times" are five, the first having been told before; but where they
    count on from the row at hand (`from_here`: "this row and every other row 5 more times") six."""
    from .shapes import times

    begin = c.i
    c.take(",")
    if (word := times_word(c)) is not None:
        c.told["shaping_rows"] = Sized((word,))
        return
    got = times(c) if c.kind == "n" else None
    if got is None or got.kind != "n":
        c.i = begin
        return
    more = not from_here and any(token.kind == "more" for token in c.t[begin : c.i])
    c.told["shaping_rows"] = Sized(tuple(None if n is None else n - more for n in got.number.values))


def recurring(c: Cursor) -> bool:
    """ "(Of) every row 4 times", "(of) each row until", "(of) next row and every alt row", "(of) next and foll 3 alt rows": whether rows
    behind the cursor are told by how they come again."""
    if c.kind == "each" and c.look().kind in ("row", "rnd"):
        return c.look(2).kind in ("n", "until", "once") or c.kinds("each", "row", ",", "n") or c.kinds("each", "row", ",", "until")
    the = c.kind == "the"
    ahead = the + (2 if c.look(1 + the).kind in ("row", "rnd") else 1)
    if c.look(the).kind not in ("next", "o") or c.look(ahead).kind != "and":
        return False
    return c.look(ahead + 1).kind == "each" or (c.look(the).kind == "next" and _so_many_after(c, ahead + 1) is not None)


def _so_many_after(c: Cursor, ahead: int) -> tuple[int, int, int] | None:
    """ "(next row and) following 3 alt rows": how many, every which, and how many words that takes up; None elsewhere."""
    k = ahead + (c.look(ahead).kind == "the")
    if c.look(k).kind != "next" or c.look(k + 1).kind != "n" or not isinstance(c.look(k + 1).val, int):
        return None
    other = c.look(k + 2).kind in ("other", "alt")
    return (c.look(k + 1).val, 1 + other, k + 3 + other) if c.look(k + 2 + other).kind in ("row", "rnd") else None


def every_rows(c: Cursor) -> int:
    """ "every 3rd row", "every other row", "each row"; 1 when nothing is said."""
    begin = c.i
    if c.t[c.i - 1].kind == "ends" and "row" in str(c.t[c.i - 1].val):  # "at each end of every row 4 times"
        _how_often(c, False)
        _until_when(c)
        return 1
    if c.t[c.i - 1].kind == "ends" and c.kind in ("until", "n"):  # "(at each) end of every row until 20 sts remain"
        _how_often(c, from_here=False)
        _until_when(c)
        if c.i > begin:
            return 1
    c.drop("on", "in", "at", "of", "and")
    if c.kind == "ends" and "row" in str(c.t[c.i].val):
        c.i += 1
        return every_rows(c)
    if c.kind == "the" and recurring(c):
        c.i += 1
    after = 2 if c.look().kind in ("row", "rnd") else 1
    if c.kind == "o" and recurring(c):
        c.told["shaping_even"] = int(c.t[c.i].val) - 1  # "the 3rd and every following 4th row"
    if c.kind == "next" and c.look(after).kind == "and" and (more := _so_many_after(c, after + 1)) is not None:
        many, step, words = more
        c.i += words
        c.told["shaping_next"] = True
        c.told["shaping_rows"] = Sized((many * step,))
        return step  # "next row and following 3 alt rows"
    from_here = c.kind == "the" and c.look().kind in ("row", "rnd") and c.look(2).kind == "and"
    if from_here:
        c.i += 3  # "at each end of this row and every following alternate row"
        if c.kind == "next":
            c.i += 1
    ahead = 2 if c.look().kind in ("row", "rnd") else 1
    if c.kind in ("next", "o") and c.look(ahead).kind == "and" and c.look(ahead + 1).kind == "each":
        c.i += ahead + 1
        c.told["shaping_next"] = True
    if c.kind == "each" and c.look().kind == "next":
        c.i += 1
        c.t[c.i] = c.t[c.i - 1]
    if c.kind == "each":
        c.i += 1
        step = 1
        if c.kind in ("other", "alt"):
            step = 2
            c.i += 1
        elif c.kind == "o":
            step = c.t[c.i].val
            c.i += 1
        if c.take("row", "rnd", "around", "ends"):
            c.i += c.t[c.i].val in ("thereafter", "following", "after")
            _how_often(c, from_here)
            rows = c.told.get("shaping_rows")
            if isinstance(rows, Sized):
                c.told["shaping_rows"] = Sized(tuple(None if n is None else n * step for n in rows.values))
            _until_when(c)
            return step
    c.i = begin
    if c.kind == "until" and c.t[c.i - 1].kind in ("row", "rnd", "end", "ends"):
        _until_when(c)
    limit(c)
    return 1
