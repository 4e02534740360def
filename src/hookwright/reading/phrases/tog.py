"""Stitches worked together ("sc2tog", "2 sc tog", "sc next 2 sts tog"), and how often a stitch is told to be worked ("x 6", "3 times")."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Chain, Place, Sized, Step, Together
from .cursor import Cursor
from .limits import limit, limit_spot_rest
from .numbers import number, times_word
from .places import spot
from .shapes import make
from .spots import Spot, as_loop


def with_loop(found: Spot | None, loop: str) -> Spot | None:
    if not loop:
        return found
    found = found or Spot(Place())
    old = found.at
    found.at = replace(old, loop=as_loop(loop))
    return found


def worked_together(c: Cursor, start: int, kind: str, told: Sized[int] | None, loop: str) -> list[Step] | None:
    """ "sc2tog", "2 sc tog", "sc 2 tog", "sc next 2 sts tog", "dc 3 together over …"."""
    begin = c.i
    if c.kind == "-" and c.look().kind == "n" and c.look(2).kind == "tog":
        c.i += 1  # "sc-2tog"
    if c.kind == "n" and c.look().kind == "tog" and isinstance(c.t[c.i].val, int):
        closes = c.t[c.i].val
        c.i += 2
        return _tog(c, start, kind, closes, told, loop)
    if c.kind == "tog" and told is not None and told.values[0] and not told.many:
        c.i += 1
        return _tog(c, start, kind, told.values[0], None, loop)
    found = spot(c, bare=True)
    if found and found.tog and isinstance(found.places, Sized) and found.places.values[0]:
        closes = max(2, found.places.values[0])
        found.places = told or ONE
        if told is None:
            limit_spot_rest(c, found)
        name = f"{kind}{closes}tog"
        return [make(c, start, name, found=with_loop(found, loop), closes=closes)]
    c.i = begin
    return None


def next_together(c: Cursor) -> list[Step] | None:
    """ "Next 2 sc together 4 times", "next two sts tog": with no stitch told, in the one named or the piece's own."""
    start = c.i
    if c.kind != "next" or c.look().kind != "n":
        return None
    named = c.look(2).kind in ("st", "noun")
    closes = c.look().val
    if c.look(2 + named).kind != "tog" or not isinstance(closes, int) or closes > MOST_TOGETHER:
        return None
    kind = c.us(str(c.look(2).val)) if c.look(2).kind == "st" else c.main or "sc"
    c.i += 3 + named
    return _tog(c, start, kind, closes, None, "")


MOST_TOGETHER = 12


def _tog(c: Cursor, start: int, kind: str, closes: int, told: Sized[int] | None, loop: str) -> list[Step]:
    """After the name: how often and over what. "dc2tog over next 2 sts" is one, "sc2tog 3 times" three, "sc2tog around" all."""
    name = f"{kind}{closes}tog"
    if c.kind == "(" and c.close.get(c.i, 0) - c.i <= 3 and c.look().kind == "dec":
        c.i = c.close[c.i] + 1
    begin = c.i
    found = spot(c)
    if found is not None and c.t[begin].kind == "in" and told is None and (_in_one_place(c, found) or _one_stitch(c, kind, found, closes)):
        gathered = make(c, start, name, found=with_loop(Spot(Place(where="same")), loop), closes=closes)
        return [Together(id=c.id(), span=c.span(start), body=(gathered,), at=found.at, places=found.places, but=found.but, upto=found.upto)]
    if found is None:
        but = limit(c)
        if but is not None:
            found = Spot(Place(), "rest", but, upto=c.upto)
        elif c.kind in ("next", "last", "o", "same") and told is None:
            found = spot(c, bare=True)
    _as_told(c)
    if found is None:
        count = told or times_after(c)
        found = Spot(Place(), count or ONE)
    elif found.places == "rest":
        pass
    elif isinstance(found.places, Sized):
        over = found.places.values[0]
        if told is None and not found.places.many and over is not None and 1 < over < 2 * closes and over != closes and over % closes:
            found.places, closes = ONE, over  # "dc3tog over next 2 sts": told as it stands, for proofing to see
        else:
            found.places = _groups(found.places, closes, told)
        if found.places == ONE:
            _second_foot(c)
    return [make(c, start, name, found=with_loop(found, loop), closes=closes)]


def _in_one_place(c: Cursor, found: Spot) -> bool:
    """ "dc3tog in next ch-2 sp", "dc2tog in same st": all its feet in one place; "in same st and next st" and "over next 2 sps" are not."""
    alone = not (c.kind == "and" and c.look().kind in ("next", "last", "same", "in", "o"))
    space = found.at.what == "sp" or found.at.what.endswith(" sp")
    return alone and ((space and found.places in (ONE, "rest")) or (found.at.where == "same" and found.places == ONE))


def _one_stitch(c: Cursor, kind: str, found: Spot, closes: int) -> bool:
    """ "3trtog in next st", "dc4tog in each ch": of three or more, with one stitch named, all feet stand in it; so do two of tall stitches
    amid chains ("*dc2tog in next st, ch 1")."""
    singular = found.places == ONE and not found.told and found.at.where == "next" and c.t[c.i - 1].text.lower() in _ONE_STITCH
    chained = bool(c.out) and isinstance(c.out[-1], Chain) and not c.out[-1].foundation and any(not isinstance(one, Chain) for one in c.out)
    amid = ((c.kind == "," and c.look().kind == "ch") or chained) and kind in ("dc", "tr", "dtr")
    return (closes >= 3 or amid) and singular and not (c.kind == "and" and c.look().kind in ("next", "last", "same", "in", "o"))


_ONE_STITCH = frozenset("st stitch sc dc hdc tr htr ch".split())  # noqa: SIM905


def _second_foot(c: Cursor) -> None:
    """ "over same and next st", "in next st and last st": one together-stitch whose second place is told apart."""
    if c.kind == "and" and c.look().kind in ("next", "last", "same", "in", "o"):
        begin = c.i
        c.i += 1
        if spot(c, bare=True) is None:
            c.i = begin


def _as_told(c: Cursor) -> None:
    """Past "(work 2 dc together) as before", "(sc2tog) sts"."""
    if c.kind == "noun":
        c.i += 1
    if c.kind == "as" and c.look().kind in ("before", "prev"):
        c.i += 2


def _groups(places: Sized[int], closes: int, told: Sized[int] | None) -> Sized[int]:
    """Over n places: n / closes stitches (one when it does not divide, or so many as told)."""
    if told is not None:
        return told
    return Sized(tuple(None if n is None else max(1, n // closes) for n in places.values))


_AFTER_TIMES = frozenset(("", "(", "[", "{", ".", ",", ";", "="))


def times_after(c: Cursor) -> Sized[int] | None:
    """ "sc2tog x 3", "sc2tog 3 times", "inc x6", "sl st 3"."""
    start = c.i
    if c.kind == "w" and c.t[c.i].val == "x":
        c.i += 1
        value = number(c)
        if value is not None:
            c.take("times")
            return value
        c.i = start
        return None
    if c.kind == "*" and c.look().kind == "n" and not c.t[c.i].gap and not c.look().gap and c.look(2).kind in _AFTER_TIMES:
        c.i += 1
        return number(c)  # "inc*6"
    if (often := times_word(c)) is not None:
        return Sized((often,))
    if c.kind == "n" and c.t[c.i].val and not _starts_next(c):
        listed = _number_last(c)
        value = number(c)
        if value is None or (c.kind == "st" and not listed):
            c.i = start  # "…, hdc2tog. 19 (21, 23) hdc": the row's count
            return None
        if c.kind in ("times",) or (c.kind == "w" and c.t[c.i].val == "x" and c.look().kind != "n") or c.kind == "noun":
            c.i += 1
        return value
    return None


def _starts_next(c: Cursor) -> bool:
    """The number here belongs to the next stitch ("sc 2 dc in next")."""
    after = c.look()
    if _number_last(c):
        return False
    if after.kind in ("st", "ch", "grp", "inc", "dec", "more") or (after.kind == "-" and c.look(2).kind in ("st", "ch")):
        return True
    return after.kind in ("(", "[") and c.close.get(c.i + 1, 0) - c.i > 3 and c.look(2).kind != "n"


def _number_last(c: Cursor) -> bool:
    """ "sc 2 inc 1 sc 2 dec 1": without a comma between them, each number belongs to the word before it, as the last one shows."""
    t, k = c.t, c.i
    first = k - 1
    while first > 1 and t[first - 1].kind == "n" and t[first - 2].kind in ("st", "inc", "dec"):
        first -= 2
    if first > 0 and t[first - 1].kind == "n":
        return False
    while t[k].kind == "n" and t[k + 1].kind in ("st", "inc", "dec"):
        k += 2
    return k > c.i and t[k].kind == "n" and t[k + 1].kind in _AFTER_TIMES
