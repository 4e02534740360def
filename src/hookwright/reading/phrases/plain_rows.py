"""A row told as so much work: "1 rnd sc", "a round of plain sc", "hdc row", "Even round: …"."""

from __future__ import annotations

from ...pattern import Aside, Chain, Colour, Even, Place, Step, Turn
from .cursor import Cursor
from .numbers import number
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("1 row sc", "sc×rest"),
    ("a round of hdc", "hdc×rest"),
    ("even round: sc in each st", "sc×rest"),
    ("hdc for 4 rows", "even hdc"),
)

_ENDS = frozenset((",", ";", ".", "", "(", "[", "=", "-", "join", "turn"))


def plain_row(c: Cursor) -> list[Step] | None:
    """The stitch that a row consists of, where that is all that is told of it."""
    start = c.i
    if len(c.frames) > 1 or not all(isinstance(step, (Aside, Turn, Colour)) or _starts(step) for step in c.out):
        return None
    if c.kind == "work":
        c.i += 1
    if not ((c.kind == "n" and c.t[c.i].val == 1 and _row(c, 1)) or (c.kind == "a" and (_row(c, 1) or c.look().val in _PLAIN))):
        if not _row(c, 0) and not (c.t[c.i].val in _PLAIN and _row(c, 1)) and not (c.kind == "st" and _row(c, 1)):
            c.i = start
            return None
    else:
        c.i += 1
    _plain(c)
    kind = _stitch(c) if c.kind == "st" else None
    if not _row(c, 0):
        c.i = start
        return None
    c.i += 1
    c.take("of", "in")
    _plain(c)
    kind = kind or _stitch(c)
    if kind is None or c.kind not in _ENDS or (c.kind == "(" and c.look().kind != "n"):
        c.i = start
        return None
    return [make(c, start, kind, found=Spot(Place(), "rest"))]


def so_many_rows(c: Cursor) -> list[Step] | None:
    """ "Sc 3 rows.", "Hdc for 4 rounds even": so many rows of the stitch, each along all of the row below."""
    start = c.i
    if len(c.frames) > 1 or not all(isinstance(step, (Aside, Turn, Colour)) for step in c.out):
        return None
    kind = _stitch(c)
    c.take("for")
    many = number(c) if kind is not None and c.kind == "n" else None
    _plain(c)
    if kind is None or many is None or not _row(c, 0) or (many.values[0] or 0) > MOST_ROWS:
        c.i = start
        return None
    c.i += 1
    _plain(c)
    if c.kind not in _ENDS:
        c.i = start
        return None
    c.told["rows_count"] = many
    return [Even(id=c.id(), span=c.span(start), stitch=kind)]


MOST_ROWS = 400


def headed(c: Cursor) -> list[Step] | None:
    """ "Even round:", "Plain row -": what kind of row it is, before what it holds."""
    if c.i or not (c.t[0].kind == "even" or c.t[0].val in _PLAIN) or not _row(c, 1) or c.look(2).kind not in (":", "-"):
        return None
    c.i = 3
    return [Aside(id=c.id(), span=c.span(0))]


_PLAIN = ("plain", "even", "more")


def _starts(step: Step) -> bool:
    return isinstance(step, Chain) and not step.foundation


def _row(c: Cursor, ahead: int) -> bool:
    token = c.look(ahead)
    return token.kind in ("row", "rnd") or (token.kind == "around" and token.text.lower() == "round")


def _plain(c: Cursor) -> None:
    while c.t[c.i].val in _PLAIN:
        c.i += 1


def _stitch(c: Cursor) -> str | None:
    token = c.take("st")
    return None if token is None or token.val == "sl st" else c.us(str(token.val))
