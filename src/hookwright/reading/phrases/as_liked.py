"""How far rows go where the maker decides it, and which comes last: "until it is as long as you like", "the last row being a Row 4"."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor
from .things import WANTED

EXAMPLES = (
    ("sc in each st until the neck is as high as you like", "sc×rest"),
    ("Rep Rows 2 and 3 for length desired ending with the 3rd row", "as rows 2, 3"),
    ("Rep Rows 2 and 3 to the length you like, the last row being a Row 2", "as rows 2, 3"),
)

_LIKING = WANTED | frozenset("likes wants please prefer needs enough happy suits fits suitable you'd you'll".split())  # noqa: SIM905
_MANY = frozenset(("many", "often", "long", "tall", "high", "deep", "big", "wide", "much", "you"))
_WORK = frozenset(("st", "ch", "skip", "inc", "dec", "turn", "join", "grp", "rep", "foff", "n", "o", "next", "each", "*", "until"))
_ENDS = frozenset((",", ";", ".", "", ")", "]", "(", "[", "=", "-"))
_IS = frozenset("being is be to must should will would a an another of type always".split())  # noqa: SIM905


def as_liked(c: Cursor) -> list[Step] | None:
    """ "Until you are happy with the height", "to the length you like", "as many rounds as you want": a remark, since nothing in it can be
    counted."""
    start = c.i
    if c.kind == "as" and c.look().text.lower() not in _MANY:
        return None
    c.i += 1
    ends = False
    while c.kind not in _ENDS and c.kind not in _WORK and not ends:
        ends = c.kind in ("ending", "end") and c.look().kind in ("with", "at", "on")
        c.i += not ends
    said = {t.text.lower() for t in c.t[start + 1 : c.i]}
    if (c.kind in _ENDS or ends) and said & _LIKING:
        return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


def last_row_is(c: Cursor) -> list[Step] | None:
    """ "(The) last row being a Row 4", "your last row should be a Row 3": which of the rows repeated comes last; asks for nothing."""
    start = c.i
    c.take("the")
    last = c.take("last")
    one = last is not None and c.t[c.i].text.lower() == "one"
    if last is None or not (one or c.kind in ("row", "rnd")):
        c.i = start
        return None
    c.i += 1
    begin = c.i
    while c.t[c.i].text.lower() in _IS:
        c.i += 1
    named = c.i > begin and bool(c.take("row", "rnd")) and bool(c.take("n"))
    if not named or c.kind not in _ENDS:
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]
