"""Decreases told as stitches worked together: "work 2 sts together", "2 sts tog all round", "crochet every 2nd and 3rd st together"."""

from __future__ import annotations

from ...pattern import NEXT, ONE, Place, Step
from .cursor import Cursor
from .limits import limit
from .nouns import noun
from .numbers import number
from .shapes import make
from .shaping import every_so_many, where_shaped
from .spots import Spot
from .tog import times_after

EXAMPLES = (
    ("work 2 sts together", "sc2tog"),
    ("sc in each st to last 2 sts, work last 2 sts tog", "sc×rest−2, sc2tog@last st"),
    ("work next 2 sc off as 1 sc", "sc2tog"),
    ("crochet every 2nd and 3rd st together", "[sc, sc2tog]×rest"),
    ("2 sts together all round", "sc2tog×rest"),
)


def worked_together(c: Cursor) -> list[Step] | None:
    """ "work 2 sts together", "work next 2 sts tog", "work last 2 dc tog": a decrease in the stitch named, else in that of the piece."""
    start = c.i
    c.take("work")
    at = which_end(c)
    told = number(c)
    stitch = c.us(str(c.t[c.i].val)) if c.kind == "st" else c.main
    if told is None or told.many or not (noun(c) == "st" or c.t[c.i - 1].kind == "st") or not c.take("tog") or (told.values[0] or 0) < 2:
        c.i = start
        return None
    closes = told.values[0] or 2
    name = f"{stitch}{closes}tog" if stitch else "dec"
    return [make(c, start, name, found=where_shaped(c, False) or (Spot(at) if at != NEXT else None), closes=closes, main=c.main)]


def which_end(c: Cursor) -> Place:
    """ "(Work) the first (2 sts tog)", "next", "the last": which stitches of the row these are."""
    c.drop("the", "idle")
    where = "next"
    if c.kind == "o" and c.t[c.i].val == 1 and c.look().kind == "n":
        where = "first"
        c.i += 1
    elif c.kind == "last" and c.look().kind == "n":
        where = "last"
        c.i += 1
    c.drop("the", "next", "idle")
    return Place(where=where)  # type: ignore[arg-type]


def worked_as_one(c: Cursor) -> list[Step] | None:
    """ "Work off next 2 s c as 1 s c", "work 2 s c off as 1", "work last 2 s c off as 1": a decrease, its stitch named or the piece's."""
    start = c.i
    if not (c.take("work") or (c.kind == "over" and str(c.t[c.i].val) == "off" and c.take("over"))):
        return None
    c.take("from")
    c.drop("the", "idle")
    last = bool(c.take("last"))
    c.drop("next")
    told = number(c)
    named = c.t[c.i]
    if told is None or told.many or (told.values[0] or 0) < 2 or not c.take("st", "noun"):
        c.i = start
        return None
    c.take("from")
    if not (c.take("as") and (c.take("a") or (c.kind == "n" and c.t[c.i].val == 1 and c.take("n")))):
        c.i = start
        return None
    c.take("st", "noun")
    closes = told.values[0] or 2
    stitch = c.us(str(named.val)) if named.kind == "st" else c.main or "sc"
    found = Spot(Place(where="last" if last else "next"))
    return [make(c, start, f"{stitch}{closes}tog", found=found, closes=closes)]


def every_pair(c: Cursor) -> list[Step] | None:
    """ "Decrease every 3rd and 4th stitch", "crochet every 2nd and 3rd st together": the plain ones before the pair, then the pair."""
    start = c.i
    k = c.i + 1
    together = c.kind == "dec"
    if c.kind in ("work", "st") and c.t[k].kind == "tog":
        k += 1
        together = True
    if not (c.t[k].kind == "each" and c.t[k + 1].kind == "o" and c.t[k + 2].kind == "and" and c.t[k + 3].kind == "o"):
        return None
    last = int(c.t[k + 3].val)
    c.i = k + 4
    c.take("noun", "st")
    together = bool(c.take("tog")) or together
    if not together or int(c.t[k + 1].val) != last - 1 or last < 2:
        c.i = start
        return None
    limit(c)
    main = c.us(str(c.t[start].val)) if c.t[start].kind == "st" else c.main or "sc"
    return every_so_many(c, start, make(c, start, f"{main}2tog", found=Spot(Place()), closes=2, main=main), last, main)


def so_many_pairs(c: Cursor) -> list[Step] | None:
    """ "2 sts together all round", "always 2 sts tog", "6x 2 sts together": as many of them as are told, or to the row's end."""
    start = c.i
    always = c.kind == "having" and c.t[c.i].val == "always"
    c.i += always
    often = number(c) if c.look().val == "x" or c.look().kind == "times" else None
    if often is not None:
        c.i += 1
    closes = c.t[c.i].val
    if c.kind != "n" or closes not in (2, 3):
        c.i = start
        return None
    c.i += 1
    c.take("noun")
    if not c.take("tog"):
        c.i = start
        return None
    found = Spot(Place(), often or ONE)
    if often is None:
        often = times_after(c)
        found.places = often or ("rest" if limit(c) is not None or always else ONE)
    main = c.main
    return [make(c, start, f"{main}{closes}tog" if main else "dec", found=found, closes=closes, main=main)]
