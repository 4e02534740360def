"""How many of which places: "each st across", "every dc", "next 3 sts", "3 sts", "sts"."""

from __future__ import annotations

import re
from itertools import pairwise

from ...pattern import Aside, Chain, Colour, Make, Place, Sized, Turn
from ...trade.kinds import HEIGHT
from .closers import CLOSING_STITCHES
from .cursor import FAR, Cursor
from .far_loops import far_loops
from .hung import ALONG, LISTED, chain_of, each_chain, of_last_row, pass_last_row
from .limits import limit_spot, pass_limit
from .nouns import NOUNS, SPACES, count_noun_here, noun
from .numbers import count_behind_dash, number
from .old_books import counted_chain
from .onset import led_to_space
from .parts_of import middle_ones, part_of
from .place_words import (
    between_told,
    loop_choice,
    names_gap,
)
from .row_end_places import along_side, each_row_here
from .spots import CLOSE, ONE, Spot, moved
from .tails import of_what, tail
from .things import STITCHES
from .which_of import from_hook, last, ordinal, remaining, same


def each_place(c: Cursor) -> Spot | None:
    """ "Each st across", "each of next 3 dc", "every 2nd st"; None where no place is told."""
    start = c.i
    c.i += 1
    c.drop("of", "the", "idle", "in")
    if c.kind == "top" and c.t[c.i].text.lower() in ("tip", "tips") and c.look().kind in CLOSE:
        c.i += 1
        return Spot(Place(what="corner"), "rest", each=True)  # "3 sc in each tip" of a star
    if c.kind == "ends" or (c.kind == "row" and (side := _an_edge(c))):
        c.i += 1 if c.kind == "ends" else side
        along_side(c)
        pass_limit(c)
        return Spot(Place(where="row_end", what="row"), "rest", each=True)  # "in each row end", "in each row along the side"
    if c.t[start - 1].kind in ("in", "over") and (ends := each_row_here(c)) is not None:
        return ends
    if c.kind in ("row", "rnd") or (c.kind == "around" and c.t[c.i].val == "round" and c.look().kind in CLOSE):
        return None
    every = 1
    over = c.t[start - 1].kind in ("under", "over") or (
        c.t[start - 1].kind == "in"
        and (
            c.t[start].text.lower() == "every"
            or ((c.ctx.old or c.look().text.lower() == "chain") and c.t[start].val == "each" and c.i == start + 1)
        )
    )  # "7 treble in each 5 chain"
    if c.kind == "n" and c.look().kind == "ch" and over and (c.look(2).kind in LISTED | ALONG | {"n"} or of_last_row(c, 2)):
        loops = each_chain(c)
        if loops is not None:
            pass_last_row(c)
            limit_spot(c, loops)
        return loops
    if c.kind == "ch" and (loops := chain_of(c)) is not None:
        return loops
    if c.kind == "other" and (c.t[c.i - 1].kind == "the" or str(c.t[c.i - 1].val).endswith(" the")):
        c.i += 1  # "in each of the other chains": in all that are left
    elif c.kind in ("other", "alt"):
        c.i += 1
        every = 2
    elif c.kind == "o" and c.t[c.i].val > 1 and c.look().kind in ("st", "noun", "ch", "sp", "lp", "grp", "row"):
        every = c.t[c.i].val
        c.i += 1
    elif c.kind == "o" and c.look().kind in ("and", "&") and c.look(2).kind == "o" and c.look(2).val == c.t[c.i].val + 1:
        if not any(t.kind in ("dec", "tog") for t in c.t[max(0, start - 6) : start]):
            return None
        every = c.look(2).val  # "dec in every 4th and 5th st": over both of them
        c.i += 3
    inner = _inner(c)
    if inner is None:
        if c.kind in ("around", "across", "to", "until", "", "but") or c.kind in (",", ";", ".", "(", ")", "*", "]", "[", "=", "-"):
            inner = Spot(Place(), "rest")
        else:
            return None
    inner.each = True
    inner.every = every
    c.i += c.t[c.i].text.lower() == "following" and c.look().kind in CLOSE  # "in each ch following"
    if inner.at.what == "sp" and names_gap(c):
        inner.at = moved(inner.at, between=True)  # "3 dc in each gap to the corner": before what is told of how far it goes
    if not inner.told and inner.at.where not in ("same", "first") and inner.places != "rest":
        inner.places = "rest"
    if inner.places == "rest":
        limited = limit_spot(c, inner)
        if not limited and not inner.upto and inner.at.what.endswith("sp") and any(t.kind == "side" for t in c.t[start : c.i]):
            inner.upto = "corner"  # "3 dc in each side sp": the corner's own comes next
        if c.kind == "and" and c.look().kind in ("ch", "sp", "st", "noun", "mesh", "each", "grp") and not _starts_item(c, 1):
            _second_kind(c, inner)
    else:
        pass_limit(c)
    return inner


def _an_edge(c: Cursor) -> int:
    """How many tokens "row along the side", "row down left edge" has; 0 where no edge is told."""
    if c.look().kind not in ("along", "across") and c.look().val not in ("down", "up", "of"):
        return 0
    return next((k + 1 for k in range(2, 6) if c.look(k).kind in ("side", "sides", "opp")), 0)


def _second_kind(c: Cursor, inner: Spot) -> None:
    """ "each dc and ch-1 sp across", "each sc and each space": any place will do."""
    start = c.i
    c.i += 1
    c.drop("each", "in", "the")
    what = str(c.take("ch") and "ch") if c.kind == "ch" and count_behind_dash(c, 1) else noun(c, chains=True)
    if what is None or c.kind in ("in", "n") or (c.kinds_apart and what not in ("ch", "sl st")):
        c.i = start
        return
    inner.at = moved(inner.at, what="any")
    limit_spot(c, inner)


def _starts_item(c: Cursor, ahead: int) -> bool:
    """A new instruction begins `ahead` tokens on ("and ch 3", "and dc in …")."""
    first, second = c.look(ahead), c.look(ahead + 1)
    if first.kind == "ch":
        if count_behind_dash(c, ahead + 1):
            return False
        return second.kind in ("n", "-") and not (c.look(ahead + 2).kind in SPACES or c.look(ahead + 3).kind in SPACES)
    if first.kind == "st":
        return second.kind in ("in", "n", "over", "around") or (second.kind == "to" and c.look(ahead + 2).kind == "n")
    return first.kind == "n"


def _inner(c: Cursor) -> Spot | None:
    """What follows "each (of)": next/first/last/remaining n, or a noun."""
    c.drop("the")
    kind = c.kind
    if kind == "next":
        return next_place(c)
    if kind == "o" and c.t[c.i].val == 1:
        return ordinal(c)
    if kind == "last":
        return last(c)
    if kind == "rem":
        return remaining(c)
    if kind == "same":
        return same(c)
    if kind == "other":
        c.i += 1
        return _inner(c)
    if kind == "n":
        return numbered_places(c)
    if kind in ("center", "top"):
        return part_of(c)
    if kind == "loop":
        loop = loop_choice(c)
        if c.kind == "of" and (c.look().kind in ("row", "rnd", "around") or c.look(2).kind in ("row", "rnd", "around")):
            return Spot(moved(tail(c, "st"), loop=loop), "rest")  # "in each front loop of Rnd 2"
        found = _inner(c) if c.kind in NOUNS or c.kind in ("st", "noun", "grp", "of", "next") else Spot(Place(), "rest")
        if found:
            found.at = moved(found.at, loop=loop)
        return found
    if c.kind == "w" and c.look().kind in ("noun", "ch") and len(c.t[c.i].text) > 2:
        c.i += 1  # "in each underarm ch", "each sleeve st": whose they are
    named = noun(c, chains=True)
    if named is None:
        return None
    if named in HEIGHT and c.kind in ("row", "rnd") and c.look().kind in CLOSE | {"and"}:
        c.i += 1  # "2 sc over each dc row", along their ends
        return Spot(Place(where="row_end", what="row"), "rest")
    if named == "ch" and (chains := _chains_of_one(c)) is not None:
        return Spot(Place(what="ch"), chains, told=True)
    return Spot(tail(c, named), "rest")


def _chains_of_one(c: Cursor) -> Sized[int] | None:
    """How many places "(each ch) of the ch-18", "of next ch-3 sp", "in ch 5" are: the chains of that one; None with the cursor unmoved."""
    begin = c.i
    if c.kind in ("of", "in"):
        c.i += 1
        c.drop("the", "next", "same", "beg")
        told = re.match(r"ch-(\d{1,3})\b", noun(c, chains=True) or "")
        if told and c.kind not in ("of", "in", "to", "around", "across"):
            return Sized((int(told[1]),))
    c.i = begin
    return None


def every_one(c: Cursor) -> Spot | None:
    """ "all (of the) 36 sts", "all stitches", from the word all."""
    c.i += 1
    c.drop("of", "the", "other", "rem")
    told = number(c)
    c.drop("other", "rem", "the")
    what = noun(c) or "st"
    found = Spot(tail(c, what), told or "rest", each=True, told=told is not None)
    if found.places == "rest":
        limit_spot(c, found)
    return found


def next_place(c: Cursor) -> Spot | None:
    """ "Next st", "next 3 dc", "next ch-2 sp"; None where no place is told."""
    c.i += 1
    if c.kind == "n" and (loop := counted_chain(c)) is not None:
        return Spot(loop)  # "1 treble in the next 3 chain"
    c.drop("idle")
    if c.kind == "o":
        nth = c.t[c.i].val
        c.i += 1
        what = noun(c) or "st"
        return Spot(tail(c, what), skip=nth - 1)
    if c.kind in ("center", "top", "base"):
        return part_of(c)
    if c.kinds("corner", "ch", "n"):
        c.i += 1  # "in next corner ch 1"
        return Spot(Place(what=f"{noun(c, chains=True)} sp"))
    told: Sized[int] | None = None
    if c.t[c.i].text.lower() == "one" and c.look().kind in CLOSE and c.last_place is not None and c.last_place.what.endswith("sp"):
        c.i += 1  # "9 long in the next loop, 1 dc in the following one"
        return Spot(Place(what=c.last_place.what))
    if c.kind == "n" and not count_noun_here(c):
        told = number(c)
    c.drop("-") if c.kind == "-" and c.look().kind in ("ch",) else None
    if told is not None and c.kind == "center":
        c.i += 1
        return middle_ones(c, told)
    c.drop("idle")
    named = noun(c, chains=c.kind == "ch" and c.look().kind == "n" and c.look(2).kind in (",", ";", ".", ""))
    at = tail(c, named or "st")
    if told is None and _all_along(c):
        return Spot(at, "rest", each=True)
    return Spot(at, told or ONE, told=told is not None)


def _all_along(c: Cursor) -> bool:
    """ "2 sc in next sc around": into each of them, where nothing is told that it could go round with."""
    work = (one for one in c.out if not isinstance(one, (Aside, Chain, Colour, Turn)))
    begun = (
        len(c.frames) > 1 or c.frames[-1].marks or any(not isinstance(one, Make) or one.at.where not in ("same", "first") for one in work)
    )
    return c.kind in ("around", "across") and c.look().kind in (*CLOSE, "join", "turn") and not begun


def numbered_places(c: Cursor) -> Spot | None:
    """ "in 3 dc", "over 2 sts", "in 3-ch loop", "in the 3 chain"."""
    if c.t[c.i].val == 2 and c.look().kind == "lp" and c.look(2).kind == "of":
        c.i += 3  # "in the 2 loops of next sc": both of them, as any stitch is worked
        from .places import after_prep

        return after_prep(c, "in")
    if c.look().kind == "ch" and c.t[c.i - 1].kind == "the" and (_each_of(c) or _one_in_each(c)) and (many := number(c)) is not None:
        c.i += 1  # "in each of those 3 chains", "sc in the 18 ch": one by one
        return Spot(tail(c, "ch"), many, each=True, told=True)
    loop = counted_chain(c)
    if loop is not None:
        found = Spot(tail(c, loop.what) if loop.where == "next" else loop)
        if loop.where == "next" and limit_spot(c, found):
            found.places, found.each = "rest", True
        return found
    if count_noun_here(c):
        what = noun(c)
        if what is None:
            return None
        found = Spot(tail(c, what))
        if limit_spot(c, found):
            found.places, found.each = "rest", True
        return found
    start = c.i
    told = number(c)
    if told is None:
        return None
    c.drop("-") if c.kind == "-" and c.t[c.i].val == "tight" else None
    if c.kind == "center":
        c.i += 1  # "on the 5 centre ones of the 7 dc"
        return middle_ones(c, told)
    if far_loops(c):
        return Spot(FAR, told, told=True)  # "in the 18 free loops of the chain"
    skipped = c.kind == "skip"
    single = c.t[c.i - 2].kind == "the" and c.kind == "noun" and c.t[c.i].val in ("st", "stitch") and told.values[0] != 1
    if single and not told.many:
        c.i += 1
        return Spot(Place())
    if c.kind in ("rem", "more", "other", "idle", "next", "unworked", "free", "skip"):
        c.i += 1
    elif (
        c.kind == "w"
        and c.look().kind in ("noun", "ch")
        and told.values[0] != 1
        and (c.t[start - 1].kind == "the" or _each_of(c) or c.look().text.lower() in STITCHES)
    ):
        c.i += 1  # "in the 7 thumb stitches", "in each of 30 (32, 36) sleeve sts"
    if c.kind in ("row", "rnd") and c.look().kind in ("below",):
        c.i = start
        return None
    what = noun(c)
    if what is None:
        counted = c.kind in ("(", "[", "{") and c.look().kind in ("n", "=", "total")  # "sc in 8 (8)"
        if counted or c.kind in (",", ";", ".", ")", "]", "", "*", "tog", "=") or (c.kind == "-" and c.t[c.i].val == "loose"):
            return Spot(Place(), told, told=True)
        if c.kind in ("of", "in") and c.look().kind in ("the", "prev", "last", "row", "rnd"):
            return Spot(tail(c, "st"), told, told=True)
        c.i = start
        return None
    at = tail(c, what)
    return Spot(moved(at, where="skipped") if skipped else at, told, told=True)


LONGEST_LOOP = 8
"""So many chains, and not more, are called by their number as a loop ("dc in the 5 ch"); from memory."""


def _one_in_each(c: Cursor) -> bool:
    """Whether "sc in the 18 ch" means one in each: no number stands before the stitch, and several chains behind it."""
    many, before = c.t[c.i].val, c.t[max(0, c.i - 4) : c.i]
    if c.ctx.old or not isinstance(many, int) or [token.kind for token in before[-3:]] != ["st", "in", "the"]:
        return False
    if c.look(2).kind in (*SPACES, "n", "-") or (len(before) > 3 and before[0].kind in ("n", "a")):
        return False
    return many > LONGEST_LOOP or c.look().text.lower() in STITCHES


def _each_of(c: Cursor) -> bool:
    """Whether each of the places is told to be worked into; not "(1 sc, 4 dc, 1 sc,) all in the 4 chain": these go into one."""
    near = c.t[max(0, c.i - 3) : c.i + 1]
    return any(t.kind == "each" or (t.kind == "all" and after.kind not in ("in", "over", "under")) for t, after in pairwise(near))


_PLURALS = ("corners", "sps", "spaces", "lps", "loops", "dcs", "scs", "hdcs", "trs", "dc's", "sc's", "tr's", "shells", "clusters")


def _all_of_them(c: Cursor, start: int, end: int) -> bool:
    """ "3 sc in corners", "2 dc in the ch-2 sps": in every one of them; not "in any of the sps"."""
    led = start - (c.t[start - 1].kind == "the")
    return c.t[led - 1].kind in ("in", "at", "around", "over", "under") and c.t[end - 1].text.lower().endswith(_PLURALS)


def plain_place(c: Cursor) -> Spot | None:
    """A noun without next/each: "in ring", "in ch-2 sp", "in corner", "in dc"."""
    c.drop("prev", "other", "alt") if c.kind in ("prev", "other", "alt") else None
    joined = c.kind == "join"
    skipped = c.kind == "skip"
    marked = c.kind == "marker"
    start = c.i
    what = noun(c, chains=True)
    if what is None:
        return None
    if what == "sp" and c.kind == "before" and c.look().kind in ("next", "first"):
        begin = c.i
        c.i += 2
        if noun(c) is not None:
            return Spot(Place(what="sp", between=True))  # "sc in sp before next V-st": the gap that lies there
        c.i = begin
    if what == "ring":
        between_told(c)
        return Spot(Place(where="ring", what="ring"))
    if what in ("row", "piece", "side"):
        found = Spot(Place(where="row_end", what="row"), "rest")
        limit_spot(c, found)
        return found
    if what == "join":
        facts: dict[str, object] = {}
        of_what(c, facts)
        c.take("below")
        return Spot(Place(where="same", what="join"))
    if what.startswith("ch") and c.kind == "from" and c.look().kind in ("hook", "the"):
        return from_hook(c, int(what[3:]) if what[3:].isdigit() else 1)
    if (what == "st" or what in HEIGHT) and c.kind == "at" and c.look().kind == "base":
        c.i += 1
        part_of(c)  # "st at base of ch-3"
        return Spot(Place(where="same", what="st"))
    begin = c.i
    at = tail(c, what)
    every = any(a.kind == "of" and b.kind == "each" for a, b in pairwise(c.t[begin : c.i]))  # "in the ch-1 sp of each shell"
    every = every or (_all_of_them(c, start, begin) and what not in ("st", "ch", "any"))
    if joined and what in ("st", "ch", "sl st"):
        return Spot(Place(where="same", what="join"))
    if joined and what in CLOSING_STITCHES:
        return Spot(Place(where="first", what="sp"))  # "around joining dc": the loop that this stitch closed
    if what in ("tch", "tch sp") or (what.startswith("ch-") and not what.endswith(" sp")):
        return Spot(moved(at, where="named"))
    if skipped:
        return Spot(moved(at, where="skipped"))
    if marked or what == "marker":
        return Spot(moved(at, where="marked", what="st"))
    found = Spot(at, "rest" if every else ONE, each=every)
    if what == "st" and c.kind == "n" and c.look().kind == "noun" and c.look(2).kind != "tog":
        told = number(c)  # "in st 5 sts": the scanner's "1st 5 sts"
        c.take("noun")
        return Spot(at, told or ONE, told=True)
    if led_to_space(c, what):
        return Spot(moved(at, where="same"))
    if limit_spot(c, found):
        found.places, found.each = "rest", True
    return found
