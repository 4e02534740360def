"""A count told in free words at a row's end: "I count 36 stitches.", "giving you 36 sts", "so 36 sts now", "36 stitches, I hope!"."""

from __future__ import annotations

from ...pattern import Count, Make, Refer, Repeat, Sized, Step, Together
from .counts import add, used_up
from .cursor import Cursor
from .nouns import noun
from .numbers import number

EXAMPLES = (
    ("(sc in next st, 2 sc in next st) around, giving you 36 sts", "[sc, 2sc]×rest | 36 st"),
    ("(sc in next st, 2 sc in next st) around. I count 36 stitches", "[sc, 2sc]×rest | 36 st"),
    ("(sc in next st, 2 sc in next st) around, having 36 sc in round", "[sc, 2sc]×rest | 36 sc"),
)

_FREE = frozenset(
    (
        "w",
        "idle",
        "the",
        "a",
        "counts",
        "total",
        "and",
        "now",
        "then",
        "but",
        "should",
        "around",
        "counter",
        "to",
        "work",
        ",",
        "!",
        "-",
        "as",
        "with",
    )
)
_COUNTED = frozenset(("noun", "st", "lp", "sp", "grp", "mesh", "group"))
_LONGEST = 16
_FEWEST = 4
"""Fewer than this is as often a tip ("3 sts make a shell") as it is a row's count."""


def told(c: Cursor) -> list[Step] | None:
    """The number a clause or sentence of plain words tells after a row that is used up; None with the cursor unmoved."""
    start, end = c.i, c.stops[c.i]
    if end - start > _LONGEST or len(c.frames) > 1 or not c.out or not used_up(c, start):
        return None
    rows = {k for k in range(start + 1, end) if c.t[k].kind == "n" and c.t[k - 1].kind in ("row", "rnd")}  # "by the end of Row 30"
    numbers = [k for k in range(start, end) if c.t[k].kind == "n" and k not in rows]
    if len(numbers) != 1 or not isinstance(c.t[numbers[0]].val, int) or c.t[numbers[0]].val < _FEWEST:
        return None
    at = numbers[0]
    if c.t[at + 1].kind not in _COUNTED and at + 1 != end:
        return None
    c.i = at + 1
    kind = (noun(c) if at + 1 != end else None) or "st"
    after = c.i
    c.i = start
    others = [c.t[k] for k in range(start, end) if k not in rows and not at <= k < after]
    on_the_round = {"in", "rnd", "row", "end", "of", "at", "by", "after"} if rows else {"in", "rnd", "row"}
    if c.t[start].text.lower() in ("you", "you'll", "you'd", "should"):
        on_the_round |= {"end", "along"}  # "You'll end up with 36 sts"
    if not all(token.kind in _FREE or token.kind in on_the_round for token in others) or at == start == end - 1:
        return None
    c.i = end
    add(c, [Count(number=Sized((c.t[at].val,)), kind=kind)], start)
    return []


def having(c: Cursor) -> list[Step] | None:
    """ "Having 24 sc in round", "having 24 (30) sts on each row": what the row comes to; None with the cursor unmoved."""
    start = c.i
    c.drop(",", "and")
    if not c.take("having", "with"):
        c.i = start
        return None
    c.drop("idle", "w")
    many = number(c)
    kind = noun(c) if many is not None else None
    if many is None or kind is None or not (c.take("in") or c.take("total")):
        c.i = start
        return None
    told = c.t[c.i - 1].kind == "total"
    c.drop("the", "each", "a", "last")
    if not (told or c.take("row", "rnd", "around", "all")) or c.kind not in ("", ".", ",", ";", ")", "]", "("):
        c.i = start
        return None
    add(c, [Count(number=many, kind=kind)], start)
    return []


def so_many_in_row(c: Cursor) -> list[Step] | None:
    """ "(… 7 times more.) 24 sc in rnd.", "24 sc on this round": a sentence of its own at the row's end that tells its count; None with the
    cursor unmoved."""
    start = c.i
    if c.t[start - 1].kind != "." or not any(isinstance(step, (Make, Refer, Repeat, Together)) for step in c.out):
        return None
    many = number(c)
    kind = noun(c) if many is not None else None
    if many is None or kind is None or c.kind != "in" or many.values[0] is None or many.values[0] < FEWEST_COUNTED:
        c.i = start
        return None
    c.drop("in", "total", "the", "each", "all")
    row = c.kind in ("row", "rnd") or c.t[c.i].text.lower() in ("round", "row", "rnd", "rd")
    c.i += row
    c.take(".")
    if not row or c.kind not in ("", "turn", "join", "foff"):
        c.i = start
        return None
    add(c, [Count(number=many, kind=kind)], start)
    return []


FEWEST_COUNTED = 5
"""A number told so of a whole row, at least (ours)."""
