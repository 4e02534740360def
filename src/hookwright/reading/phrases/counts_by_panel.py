"""A yoke's count told by its sections: "(24 front, 24 back, 16 each sleeve - 80 dc)", "(24-16-24-16 sts)": that of all is the row's."""

from __future__ import annotations

from ...pattern import Count, Sized
from .cursor import Cursor
from .nouns import noun
from .things import PANELS

EXAMPLES = (
    ("dc in each dc around, join (24 front, 24 back, 16 each sleeve - 80 dc)", "dc×rest@next dc, join | 80 dc"),
    ("dc in each dc around, join (80 dc; front and back 24 dc each, sleeves 16 dc each)", "dc×rest@next dc, join | 80 dc"),
    ("dc in each dc around, join (24-16-24-16 sts)", "dc×rest@next dc, join | 80 st"),
    ("dc in each dc around, join (20 + 16 + 24 + 20 = 80 dc)", "dc×rest@next dc, join | 80 dc"),
)

_PARTED = frozenset((",", ";", "-", ":", "and", "/", "&", "="))
_NOT_TOLD = frozenset(("skip", "turn", "join", "inc", "dec", "rep", "work", "next", "foff", "*", "(", "[", "loop", "lp"))
_BEHIND = frozenset((",", ";", ".", "", "turn", "foff"))
"""What may stand behind a count; "(3 sc, dc in front loop) to last st" is work."""
_FEWEST = 3
"""Numbers in a row that are sections, and not a range."""


def by_panel(c: Cursor, close: int) -> list[Count] | None:
    """The count of the bracket here that goes through the sections, none where it tells no number of all; None, unmoved, elsewhere."""
    start = c.i
    inner = c.t[start + 1 : close]
    if (
        c.t[close + 1].kind not in _BEHIND
        or not c.out
        or not any(token.kind == "n" for token in inner)
        or any(token.kind in _NOT_TOLD and token.val != "+" for token in inner)
    ):
        return None
    if (summed := _summed(c, start + 1, close)) is not None:
        return [summed]
    if not any(token.text.lower() in PANELS for token in inner):
        return None
    found: list[Count] = []
    begin = start + 1
    for k in range(start + 1, close + 1):
        told = any(token.kind == "n" for token in c.t[begin:k])
        if k == close or c.t[k].kind in (",", ";") or (told and c.t[k].kind in _PARTED):  # "Back: 24 sts", "front and back 24 dc each"
            found += _whole(c, begin, k)
            begin = k + 1
    c.i = close + 1
    return found[:1]


def _whole(c: Cursor, begin: int, end: int) -> list[Count]:
    """So many stitches, of no section: "80 dc", "80 sts total"."""
    number = c.t[begin]
    if number.kind != "n" or not isinstance(number.val, int):
        return []
    c.i = begin + 1
    kind = noun(c)
    c.drop("total", "in", "all")
    return [Count(number=Sized((number.val,)), kind=kind)] if kind is not None and c.i == end else []


def _summed(c: Cursor, k: int, close: int) -> Count | None:
    """ "24-16-24-16 sts", "20 + 16 + 24 + 20 = 80 dc": numbers of sections one after another, and what they are of."""
    if c.ctx.sizes > 1:
        return None
    numbers: list[int] = []
    while k < close and c.t[k].kind == "n" and isinstance(c.t[k].val, int):
        numbers.append(int(c.t[k].val))
        k += 1
        if k >= close or (c.t[k].kind not in ("-", "/") and c.t[k].val != "+") or c.t[k + 1].kind != "n":
            break
        k += 1
    if len(numbers) < _FEWEST:
        return None
    total = sum(numbers)
    if k < close and c.t[k].kind == "=" and isinstance(c.t[k + 1].val, int):
        total, k = int(c.t[k + 1].val), k + 2
    begin = c.i
    c.i = k
    kind = noun(c) if k < close else None
    if kind is None or c.i != close:
        c.i = begin
        return None
    c.i = close + 1
    return Count(number=Sized((total,)), kind=kind)
