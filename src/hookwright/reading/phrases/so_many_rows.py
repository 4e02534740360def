"""How many rows a run goes on for, told loosely behind it: "sc around, 9 rounds", "9 rounds or to the height you want"."""

from __future__ import annotations

from ...pattern import Aside, Step
from .counts import used_up
from .cursor import Cursor
from .numbers import number
from .things import WANTED

EXAMPLES = (
    ("sc in each st around, 9 rounds or to the height you want", "sc×rest"),
    ("hdc across for about 12 rows or until it is long enough", "hdc×rest"),
)
_ABOUT = frozenset("for about approx approximately roughly around do work at least maybe say ca".split())  # noqa: SIM905
_ENDS = frozenset((",", ";", ".", "", "(", ")", "[", "]", "=", "-"))
_LIKED = WANTED | frozenset("so enough fits fit suits suit tall long deep high big likes prefer wanted you".split())  # noqa: SIM905
_CRAFT = frozenset(("st", "ch", "inc", "dec", "skip", "turn", "join", "grp", "*"))


def so_many_rows(c: Cursor) -> list[Step] | None:
    """So many rows of what is told before, or as many as are liked; None with the cursor unmoved."""
    start = c.i
    if len(c.frames) > 1 or not used_up(c, start):
        return None
    while c.t[c.i].text.lower() in _ABOUT or c.kind == "a":
        c.i += 1
    c.i += c.kind == "." and c.t[c.i - 1].text.lower() == "approx"
    told = number(c)
    c.drop("more")
    c.i += told is not None and c.t[c.i].val in ("complete", "full", "whole")
    if told is None or not c.take("row", "rnd") or c.kind == "n":
        c.i = start
        return None
    if c.t[start].kind != "for" and c.kind == "total":
        c.i = start
        return None  # "…, 43 rows in all": how many the piece has
    c.drop("total", "more")
    if c.kind == "or" and not _as_liked(c):
        c.i = start
        return None
    if c.kind not in _ENDS:
        c.i = start
        return None
    c.told.setdefault("rows_count", told)
    return [Aside(id=c.id(), span=c.span(start))]


def _as_liked(c: Cursor) -> bool:
    """Past "or so", "or to the height you want", "or until it's tall enough", "or as many as you like"."""
    begin = c.i
    while c.kind not in _ENDS and (c.kind not in _CRAFT or c.t[c.i].text.lower() == "long"):
        c.i += 1
    if c.kind in _ENDS and {token.text.lower() for token in c.t[begin : c.i]} & _LIKED:
        return True
    c.i = begin
    return False
