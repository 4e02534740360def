"""Pieces and sides told as another: "work same as back to underarm", "complete other side to correspond, reversing shaping"."""

from __future__ import annotations

import re

from ...pattern import Refer, Step
from .cursor import Cursor
from .numbers import number
from .row_lists import one_row, row_numbers

EXAMPLES = (
    ("Complete other side to correspond", "as side before reversed"),
    ("Work other side to match", "as side before reversed"),
    ("Complete same as first side, reversing shaping", "as side before reversed"),
    ("Work second half to correspond to first half", "as side before reversed"),
    ("Finish to correspond with opposite side reversing all shapings", "as side before reversed"),
)

_MATCH = frozenset(("correspond", "match", "corresponding", "matching", "correspondingly"))
SIDES = frozenset(("half", "side", "opp"))
_SIDE_WORDS = frozenset(("shoulder", "strap", "half", "side", "edge", "flap", "section", "armhole", "neck", "point"))
_BEFORE = frozenset(
    """the idle other o to with as for same in and piece work front back shaping all both of next last end a""".split()  # noqa: SIM905
)
_DONE = frozenset(("are", "completed", "is", "complete", "done", "worked", "inclusive", "incl", "been"))
_HEADS = {"underarm": "armhole", "underarms": "armhole", "armhole": "armhole", "armholes": "armhole", "neck": "neck", "neckline": "neck",
          "shoulder": "shoulder", "shoulders": "shoulder"}  # fmt: skip


_ALSO = frozenset(("complete", "finish", "completing", "exactly", "manner", "way", "long", "short"))


def side_before(c: Cursor) -> list[Step] | None:
    """The side just worked (or the piece named), worked again from the other end; None with the cursor unmoved."""
    start = c.i
    if c.kind not in ("work", "cont", "w", "end", "same", "complete") or (
        c.kind == "w" and c.t[c.i].val not in ("complete", "finish", "completing", "exactly")
    ):
        return None
    matched = named = same = False
    part: str | None = None
    for _ in range(14):
        token = c.t[c.i]
        if (matched or same) and part is None and (part := named_part(c)) is not None:
            continue
        if token.val in _MATCH:
            matched = True
        elif token.kind in SIDES or token.val in _SIDE_WORDS:
            named = True
        elif token.kind in ("same", "as"):
            same = True
        elif not (token.kind in _BEFORE or token.val in _ALSO or c.i == start):
            break
        c.i += 1
    if not (matched or (same and named)) or (part is not None and not matched):
        c.i = start
        return None
    if c.kind not in (",", ";", ".", "", ")", "reversing", "but"):
        c.i = start
        return None
    told = reversing(c)
    if part is not None:
        return [Refer(id=c.id(), span=c.span(start), part=part, reverse=told or matched)]
    return [Refer(id=c.id(), span=c.span(start), upto="side", reverse=True)]


def shaped_as(c: Cursor) -> list[Step] | None:
    """ "Shape armholes same as Back", "shape shoulder as for back": the rows that stand under that heading there."""
    start = c.i
    c.i += 1
    c.drop("the", "o", "other")
    if c.t[c.i].val not in _HEADS:
        c.i = start
        return None
    c.i += 1
    c.drop("shaping")
    if not c.take("same", "as", "like"):
        c.i = start
        return None
    c.drop("same", "as", "for", "in", "on", "the", "idle")
    part = named_part(c)
    if part is None:
        c.i = start
        return None
    return [Refer(id=c.id(), span=c.span(start), part=part, reverse=reversing(c))]


def reversing(c: Cursor) -> bool:
    """ ", reversing (all) shaping(s)", "with shaping reversed": True when passed over."""
    begin = c.i
    c.take(",")
    c.take("with") if c.look().kind == "shaping" else None
    if c.kind == "shaping" and c.look().kind == "reversing":
        c.i += 2
        return True
    if c.kind == "reversing":
        c.i += 1
        while c.kind in ("the", "idle", "shaping", "all", "of", "patt", "w") and c.kind:
            c.i += 1
        return True
    c.i = begin
    return False


def section_as(c: Cursor) -> str | None:
    """ "Ribbing as for Back", "work the yoke same as for Vest": the section of that name of the other piece, by its whole name in the
    pattern; None with the cursor unmoved."""
    begin = c.i
    c.drop("work", "the", "idle")
    for name in c.ctx.parts:
        section, of, piece = name.partition(" of ")
        k = _name_ends(c, c.i, section) if of else 0
        after = k
        while k and c.t[after].kind in ("work", "same", "as", "like", "for", "in", "on", "the", "idle"):
            after += 1
        if after > k and any(token.kind in ("same", "as", "like") for token in c.t[k:after]) and (end := _name_ends(c, after, piece)):
            c.i = end
            return name
    c.i = begin
    return None


def named_part(c: Cursor) -> str | None:
    """The name of a piece of this pattern at the cursor, the longest that fits; None with the cursor unmoved."""
    best: str | None = None
    begin = end = c.i
    for name in c.ctx.parts:
        k = _name_ends(c, begin, name)
        if k > end:
            best, end = name, k
    if best is None and c.kind in ("o", "other") and c.look().kind not in ("row", "rnd"):
        c.i += 1  # "first motif": the piece of that name, whichever of its copies
        found = named_part(c)
        c.i = begin if found is None else c.i
        return found
    if best is not None:
        c.i = end
    return best


def _name_ends(c: Cursor, k: int, name: str) -> int:
    """Where the piece's name, standing at token `k`, ends; 0 when it does not stand there. One of several is the same piece."""
    for word in re.split(r"[\s-]+", name.lower().removeprefix("the ")):
        if k >= len(c.t) - 1:
            return 0
        text = c.t[k].text.lower()
        if text != word and str(c.t[k].val) != word and text.rstrip("s") != word.rstrip("s"):
            return 0
        k += 1
    return k if name else 0


def how_far(c: Cursor) -> tuple[tuple[int, ...], str]:
    """How far another piece is followed: its rows ("for first 5 rounds", "until 3 rnds are completed", "to end of 2nd rnd"),
    or the heading it is followed up to ("to underarm"). Nothing told: ((), "")."""
    begin = c.i
    c.take(",")
    word = c.kind
    if word == "as" and c.look().val == "far" and c.look(2).kind == "as":
        word = "to"  # "as far as the armhole"
        c.i += 2
    if c.kind == "work" and c.look().kind in ("rnd", "row") and c.look(2).kind == "n":
        c.i += 2  # "(begin as the small one), working rounds 1 to 3"
        return row_numbers(c), ""
    if c.kind == "along" and c.t[c.i].text.lower() == "up" and c.look().kind == "to":
        word = "to"
    if word in ("for", "until", "to", "over", "up", "in"):
        c.i += 1
        c.drop("to", "up", "until", "the", "idle", "end", "of", "over")
        if c.kind == "w" and c.t[c.i].val in ("through", "completion", "completing"):
            c.i += 1
        c.drop("the", "idle", "of", "and")
        if c.t[c.i].val in _HEADS and word in ("to", "until"):
            what = _HEADS[str(c.t[c.i].val)]
            c.i += 1
            while c.kind in ("shaping", "idle", "is", "counts", "w", "rem") and c.t[c.i].val not in ("complete",):
                c.i += 1
            return (), what
        if c.kind == "shaping" and c.t[c.i + 1].val in _HEADS:
            what = _HEADS[str(c.t[c.i + 1].val)]
            c.i += 2
            return (), what
        rows = _rows(c, word)
        if rows:
            return rows, ""
    c.i = begin
    return (), ""


def _rows(c: Cursor, word: str) -> tuple[int, ...]:
    """The rows told by their last one or by how many."""
    first = c.kind == "o" and c.t[c.i].val == 1
    if first:
        c.i += 1
    upto = one_row(c)
    if upto is None and c.kind == "n" and (first or word == "until"):
        told = number(c)
        upto = told.values[0] if told is not None and not told.many else None
        if not c.take("rnd", "row", "around"):
            return ()
    elif upto is None and first and c.take("rnd", "row", "around"):
        upto = 1
    if upto is None or not 0 < upto <= 500:
        return ()
    while c.kind in ("idle", "counts", "end") or c.t[c.i].val in _DONE:
        c.i += 1
    return tuple(range(1, upto + 1))
