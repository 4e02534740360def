"""Numbers, also one for each size: `38 (42, 46)`, `38 (42)(46)`, `21-25-25`."""

from __future__ import annotations

from ...pattern import Sized
from .cursor import Cursor

EXAMPLES = (
    ("sc in next 5 (6, 7) sts", "sc×5 (6, 7)"),
    ("ch 38 (42-46)", "ch38 (42, 46)"),
    ("ch 9 (11)(13)", "ch9 (11, 13)"),
)


def whole(value: object) -> int | None:
    return value if isinstance(value, int) else None


def times_word(c: Cursor) -> int | None:
    """The number "once", "twice" or "thrice" stands for, the cursor then behind it; None, unmoved, elsewhere."""
    if c.kind != "once":
        return None
    c.i += 1
    return TIMES_WORDS[str(c.t[c.i - 1].val)]


def times_sign(c: Cursor) -> bool:
    """Past the "x" of "x 4"; False, unmoved, elsewhere."""
    signed = c.t[c.i].val == "x" and c.look().kind == "n"
    c.i += signed
    return signed


TIMES_WORDS = {"once": 1, "twice": 2, "thrice": 3}


def number(c: Cursor) -> Sized[int] | None:
    """The number (of each size) that stands here, or None; the cursor then stands after it."""
    token = c.t[c.i]
    if token.kind != "n" or not isinstance(token.val, int):
        return None
    c.i += 1
    more = _bracketed(c) or _dashed(c) or _dashed(c, "/")
    if more:
        return Sized((token.val, *more))
    return Sized((token.val,))


def _bracketed(c: Cursor) -> list[int | None] | None:
    """The further sizes in brackets after a first number, or None (the cursor then unmoved)."""
    start = c.i
    found: list[int | None] = []
    while c.kind in ("(", "["):
        values = _inside(c)
        if values is None:
            break
        found += values
        if c.kind == "n" and isinstance(c.t[c.i].val, int) and c.ctx.sizes > len(found) + 1 and c.look().kind in ("(", "["):
            found.append(c.t[c.i].val)
            c.i += 1
    enough = len(found) >= 2 or (len(found) == 1 and c.ctx.sizes == 2)
    if found and c.ctx.sizes > len(found) + 1 and c.kind == "n" and enough and c.ctx.sizes == len(found) + 2:
        found.append(whole(c.t[c.i].val))
        c.i += 1
    if not enough:
        c.i = start
        return None
    return found


def _inside(c: Cursor) -> list[int | None] | None:
    start = c.i
    end = c.close.get(c.i)
    if end is None:
        return None
    values: list[int | None] = []
    c.i += 1
    while c.i < end:
        token = c.t[c.i]
        if token.kind == "n" and isinstance(token.val, int):
            values.append(token.val)
            c.i += 1
        elif token.kind == "-" and (not values or c.t[c.i - 1].kind == ","):
            values.append(None)
            c.i += 1
        elif token.kind in (",", ";", "/", ":") or (token.kind == "-" and values):
            c.i += 1
        else:
            c.i = start
            return None
    c.i = end + 1
    if not values:
        c.i = start
        return None
    return values


def _dashed(c: Cursor, sign: str = "-") -> list[int | None] | None:
    """`21-25-25`, `62/68/74`: only when there are as many sizes."""
    n = c.ctx.sizes
    if n < 3 or c.kind != sign:
        return None
    start = c.i
    values: list[int | None] = []
    while c.kinds(sign, "n") and (sign == "/" or c.t[c.i].val == "tight"):
        values.append(whole(c.look().val))
        c.i += 2
    if len(values) == n - 1:
        return values
    c.i = start
    return None


def count_behind_dash(c: Cursor, ahead: int) -> bool:
    """ "(Sc in every st and ch) - 40 sts": so many tokens ahead a mark stands apart, and what follows it is the row's count."""
    dash, told, kind, end = (c.look(ahead + k) for k in range(4))
    apart = dash.kind == "-" and told.kind == "n" and dash.start > c.look(ahead - 1).end and told.start > dash.end
    return apart and kind.kind in ("noun", "st") and end.kind in ("", ".", ";", ")", "join", "turn")
