"""How much a row gains or loses, told by a noun in brackets: "(a decrease of 1 shell)", "(an increase of 4 sts)"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Sized, Step
from .counts import add
from .counts_listed import listed
from .cursor import Cursor

EXAMPLES = (
    ("sc in each sc across, turn (a decrease of 2 sts)", "sc×rest@next sc, turn | -2 st"),
    ("2 sc in each sc around, join (an increase of 6 sc)", "2sc×rest@next sc, join | 6 sc"),
)

_ENDS_ROW = frozenset(("turn", "join", "across", "around", "end", ".", "foff"))
"""Words after which the bracket speaks of the whole row, and not of the stitches just made."""


def change_told(c: Cursor, close: int) -> list[Step] | None:
    """From the bracket: the change as the row's count where it ends the row, a remark elsewhere; None, unmoved, for other brackets."""
    start = c.i
    c.i += 1
    c.drop("the", "a", "total")
    verb = c.kind
    if verb not in ("inc", "dec") or c.look().kind != "of" or c.look(2).kind != "n":
        c.i = start
        return None
    c.i += 2
    found = listed(c, close)
    whole = found is not None and len(found) == 1 and c.i == close
    c.i = close + 1
    if found is None or not whole:
        c.i = start
        return None
    if c.t[start - 1].kind in _ENDS_ROW and len(c.frames) == 1:
        sign = -1 if verb == "dec" else 1
        number = Sized(tuple(None if n is None else sign * n for n in found[0].number.values))
        add(c, [replace(found[0], number=number, change=True)], start)
        return []
    return [Aside(id=c.id(), span=c.span(start))]
