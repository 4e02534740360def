"""How often a bracket is worked: "(inc) x3", "(shell) 4 times", "(dec) once"."""

from __future__ import annotations

from ...pattern import Times
from .cursor import Cursor
from .shapes import times


def how_often(c: Cursor) -> Times | None:
    """ "3 times", "x3", "; repeat" behind a bracket; None with the cursor unmoved."""
    begin = c.i
    c.take(",")
    c.take(";")
    starred = c.look().kind == "n" and (c.i > begin or c.look(2).kind in ("ch", "st", "grp"))
    if (c.kind == "*" or c.t[c.i].text.startswith("*")) and starred:
        c.i = begin  # "(first bobble), *2 ch, …": a star, and no sign of times
        return None
    again = bool(c.take("rep"))
    c.take("the")
    if again and c.ctx.old and c.kind in (".", ",", ";", "and", ""):
        c.i = begin  # "(4 chain, miss 3, 1 plain 6 times); repeat.": all of the row
        return None
    if again and c.kind in ("from", "*", "row", "rnd", "o", "last"):
        c.i = begin
        return None
    if not again and c.i > begin and c.kind in ("to", "in", "until"):
        c.i = begin
        return None
    got = times(c)
    if got is None and again:
        return Times(kind="rest")
    if got is None:
        c.i = begin
    elif not again and c.i > begin and c.t[begin].kind in (",", ";") and c.t[begin + 1].kind == "once":
        c.i = begin
        return None
    return got


def told_often(c: Cursor, close: int) -> bool:
    """Whether the bracket is worked a number of times ("(inc) x3", "(shell) 4 times", "(dec) once")."""
    begin = c.i
    c.i = close + 1
    got = how_often(c)
    c.i = begin
    return got is not None and got.kind == "n"
