"""Row ends as a place, and how many: "over end of each of next 9 rows", "in side of each dc row", "in end of each row along side"."""

from __future__ import annotations

import re

from ...pattern import Make, Place
from .cursor import Cursor
from .limits import pass_limit
from .numbers import number
from .spots import CLOSE, Spot

EXAMPLES = (
    ("2 sc in the end of each row along side edge, ch 1", "2sc×rest@row_end row, ch1"),
    ("2 dc over end of each of the next 9 rows", "2dc×9@row_end row"),
    ("2 sc in side of each dc row", "2sc×rest@row_end row"),
    ("sc in the end of each of the other 35 brim rows", "sc×35@row_end row"),
    ("1 sc in each ribbing row around", "sc×rest@row_end row"),
    ("2 sc in end of each row down to point, 3 sc in point", "2sc×rest@row_end row, 3sc@next corner"),
    ("ch 1, sc evenly along row ends, turn", "ch1, sc×rest@row_end row evenly, turn"),
    ("hdc evenly across ends of rows", "hdc×rest@row_end row evenly"),
    ("1 sc in each row end along one side, ch 1", "sc×rest@row_end row, ch1"),
    ("18 sc along row ends, 3 sc in corner", "sc×18@row_end row evenly, 3sc@next corner"),
    ("18 sc evenly across the ends of the rows up other side, join", "sc×18@row_end row evenly, join"),
)

_ROW = ("row", "rnd")
_TAIL = frozenset("of on along across down up over the other each both opp side sides end edge same w last".split())  # noqa: SIM905


def ends_told(c: Cursor) -> Spot | None:
    """From behind "in" or "over": the ends of how many rows; None, with the cursor unmoved, where no row is told behind its end."""
    start = c.i
    c.drop("the")
    if c.kind not in ("end", "side", "sides"):
        c.i = start
        return None
    several = c.t[c.i].text.lower() in ("ends", "sides", "edges")
    c.i += 1
    if c.kind in ("st", "noun") and c.look().kind in ("of", "in"):
        c.i += 1  # "in end st of each row"
    if not c.take("of"):
        c.i = start
        return None
    c.drop("the")
    each = c.take("each", "all") is not None
    c.drop("of", "the")
    only = c.take("next", "rem", "last", "other") is not None
    told = number(c) if c.kind == "n" else None
    if (c.kind == "st" or c.t[c.i].text.lower() in _BANDS) and c.look().kind in _ROW:
        c.i += 1  # "of each dc row", "of each of the other 35 brim rows"
    row = c.take(*_ROW)
    if row is None or not (each or several or told is not None) or (only and told is None and not each and not several):
        c.i = start
        return None
    if told is None and not each and c.kind == "n":
        c.i = start
        return None  # "in ends of Row 3"
    along_side(c)
    pass_limit(c)
    return Spot(Place(where="row_end", what="row"), told or "rest", each=each, told=told is not None)


def along_row_ends(c: Cursor, each: bool = True) -> Spot | None:
    """ "(sc evenly) along the row ends", "across both row ends", "along ends of rows": the side of the piece, and not the row below."""
    begin = c.i
    if c.kind in ("along", "across", "around") or c.t[c.i - 1].val == "evenly across":
        row = c.t[c.i].val in ("along row", "across row")
        c.i += c.kind in ("along", "across", "around")
        c.drop("all", "the", "both", "each", "o", "other", "rem", "one", "side")
        if (row and c.take("end", "side")) or c.take("ends"):
            pass_limit(c)
            return Spot(Place(where="row_end", what="row"), "rest", each=each)
        if (ends := ends_told(c)) is not None and ends.places == "rest":
            ends.each = each
            return ends
    c.i = begin
    return None


def along_ends(c: Cursor, *, led: bool = False) -> Spot | None:
    """ "(18 sc) along (the) row ends", "across the ends of the rows", from "along" on (`led`: behind it); None with the cursor unmoved."""
    if not led and c.kind not in ("along", "across", "around"):
        return None
    start = c.i
    said = ""
    while len(said) < _LONGEST and c.kind != "":  # the lexicon parts these words in several ways ("along row", "ends of rows")
        token = c.t[c.i]
        said = f"{said} {token.val if ' ' in str(token.val) else token.text.lower()}".strip()
        c.i += 1
        if _ENDS_OF_ROWS.fullmatch(said):
            along_side(c)
            if c.kind in CLOSE or c.kind in ("and", "to"):
                return Spot(Place(where="row_end", what="row"), "rest", evenly=True)
            break
    c.i = start
    return None


_ENDS_OF_ROWS = re.compile(r"(?:(?:along|across|around|round|over|up|down) )?(?:the )?(?:rows? ends|ends of (?:the )?rows)")
_LONGEST = 24
_BANDS = frozenset("brim ribbing rib ribbed cuff band waistband collar strap hatband headband neckband heel".split())  # noqa: SIM905
"""What is worked in rows first, and then met at their ends."""


def each_band_row(c: Cursor) -> Spot | None:
    """ "(1 sc) in each brim row (around)", from the preposition on: their ends; None with the cursor unmoved."""
    start = c.i
    if not (c.take("in", "over") and c.take("each", "all")):
        c.i = start
        return None
    c.drop("of", "the")
    if c.t[c.i].text.lower() not in _BANDS or c.look().kind not in _ROW or c.look(2).kind == "n":
        c.i = start
        return None
    c.i += 2
    pass_limit(c)
    return Spot(Place(where="row_end", what="row"), "rest", each=True)


def each_row_here(c: Cursor) -> Spot | None:
    """ "(Working along side,) 2 sc in each row", "(sc in end of each row,) 2 sc over each of next 3 rows" from the word "row" on: row ends,
    where the work goes along them. None elsewhere."""
    along = c.elsewhere is not None and c.elsewhere.where == "row_end"
    along = along or any(isinstance(step, Make) and step.at.where == "row_end" for step in c.out)
    if not along or c.kind not in _ROW or c.look().kind not in (*CLOSE, "along", "across", "around", "to", "and"):
        return None
    c.i += 1
    along_side(c)
    pass_limit(c)
    return Spot(Place(where="row_end", what="row"), "rest", each=True)


def along_side(c: Cursor) -> None:
    """Pass over "along side edge", "of the other side", "down one side to corner", "up to point" behind row ends; anything else stays."""
    begin = c.i
    while c.kind in _TAIL and (c.kind != "w" or c.t[c.i].text.lower() in _WHICH):
        c.i += 1
        c.i += c.t[c.i].text.lower() == "one" and c.t[c.i - 1].kind in ("along", "across", "of", "on", "up", "down")
    words = c.t[begin : c.i]
    sided = any(t.kind in ("side", "sides", "opp") or t.text.lower() in ("edge", "edges") for t in words)
    leads = not words or (words[0].kind in ("along", "across", "over") and (sided or len(words) == 1))
    if leads and c.kind == "to" and (k := 1 + (c.look().kind == "the")) and c.look(k + 1).kind in CLOSE:
        c.i += k + 1 if c.look(k).kind == "corner" or c.look(k).text.lower() in _AT_ENDS else 0
        sided = sided or c.t[c.i - 1].kind == "corner" or c.t[c.i - 1].text.lower() in _AT_ENDS
    if not sided or (words and words[0].kind in ("end", "last", "the")):
        c.i = begin


_AT_ENDS = frozenset("point tip corner bottom top end apex".split())  # noqa: SIM905
"""Where the side of a piece is over."""
_WHICH = frozenset("long short left right straight lower upper outer inner front back edge edges selvage selvedge".split())  # noqa: SIM905
