"""Tunisian loops in the words of the first tricot books: raised from between two uprights, through several uprights at once, "the last";
what is on the needle when all are raised, and how they are worked off in returning."""

from __future__ import annotations

from ...pattern import ONE, Aside, Count, Make, Place, Refer, Sized, Step
from .counts import add
from .cursor import Cursor
from .numbers import number

EXAMPLES: tuple[tuple[str, str], ...] = ()
_RAISED = frozenset(("raise", "raising", "take", "taking", "pick", "picking"))
_ENDS = frozenset((",", ";", ".", "", "(", ")"))
_STOPS = _ENDS | {"and", "*", "then", "-"}
_BARS = frozenset(("lp", "bar", "post", "noun", "front", "back", "st"))
_RETURN = frozenset(("return", "returning", "returned"))


def raised_here(c: Cursor) -> list[Step] | None:
    """ "Raise the last", "raise a loop through each of the other 14 chain", "raise a loop from the chain between the first and second
    uprights", "raise the loops as before": loops told otherwise than by their number alone."""
    start = c.i
    if not c.ctx.passes or (c.t[c.i].text.lower() not in _RAISED and c.kind != "pick"):
        return None
    c.i += 1
    c.take("along")
    got = _last(c, start) or _all_again(c, start) or _between(c, start) or _each_of(c, start) or _so_many_in_manner(c, start)
    if got is None:
        c.i = start
    return got


def _last(c: Cursor, start: int) -> list[Step] | None:
    """ "(Raise) the last (one)", "a loop in the last"."""
    begin = c.i
    if c.take("a", "n") is not None and not (c.take("lp") and c.take("in", "under", "over")):
        c.i = begin
        return None
    c.drop("in", "under", "over", "the")
    if not c.take("last"):
        c.i = begin
        return None
    c.i += c.t[c.i].text.lower() in ("one", "upright", "loop", "stitch")
    if c.kind not in _STOPS:
        c.i = begin
        return None
    return [Make(id=c.id(), span=c.span(start), stitch="tss", at=Place(where="last"))]


def _all_again(c: Cursor, start: int) -> list[Step] | None:
    """ "(Raise) the loops as before", "all the loops": one in each."""
    begin = c.i
    if c.kind not in ("the", "all"):
        return None
    c.drop("the", "all")
    if not c.take("lp") or c.t[c.i - 1].text.lower() not in ("loops", "lps"):
        c.i = begin
        return None
    _manner(c)
    if c.kind not in _ENDS:
        c.i = begin
        return None
    return [Make(id=c.id(), span=c.span(start), stitch="tss", places="rest")]


def _between(c: Cursor, start: int) -> list[Step] | None:
    """ "(Raise) a loop from the chain between the first and second uprights", "a loop in the thread before the last": one more."""
    begin = c.i
    one = c.take("a", "n")
    if one is None or not c.take("lp") or not c.take("from", "in", "under", "over", "between"):
        c.i = begin
        return None
    beside = c.t[c.i - 1].kind == "between"
    while c.kind not in _ENDS:
        beside = beside or c.kind in ("between", "before", "after")
        if c.kind in ("each", "rep", "skip"):
            break
        c.i += 1
    if not beside or c.kind not in _ENDS:
        c.i = begin
        return None
    return [Make(id=c.id(), span=c.span(start), stitch="tss", at=Place(where="hook"))]


def _each_of(c: Cursor, start: int) -> list[Step] | None:
    """ "(Raise) a loop through each of the other 14 chain", "a loop under each upright up to the last one"."""
    begin = c.i
    if not (c.take("a") and c.take("lp") and c.take("in", "under", "over") and c.take("each", "all")):
        c.i = begin
        return None
    c.drop("of", "the", "other", "rem", "next")
    told = number(c)
    chain = False
    while c.kind in _BARS or c.kind == "ch":
        chain = chain or c.kind == "ch"
        c.i += 1
    upto = _up_to_last(c) if told is None else None
    if c.kind not in _STOPS or (told is None and upto is None):
        c.i = begin
        return None
    at = Place(what="ch") if chain else Place()
    if told is not None:
        return [Make(id=c.id(), span=c.span(start), stitch="tss", places=told, at=at)]
    return [Make(id=c.id(), span=c.span(start), stitch="tss", places="rest", but=upto or Sized((0,)), at=at)]


def _up_to_last(c: Cursor) -> Sized[int] | None:
    """ "up to the last one", "to the last two": how many are left; None with the cursor unmoved."""
    begin = c.i
    c.take("along")
    if c.take("to"):
        c.drop("the")
        if c.take("last"):
            told = number(c)
            c.drop(*_BARS)
            return told or ONE
    c.i = begin
    return None


def _so_many_in_manner(c: Cursor, start: int) -> list[Step] | None:
    """ "(Raise) 9 loops in the ordinary manner"."""
    begin = c.i
    told = number(c)
    if told is None or not c.take("lp") or c.kind not in ("in", "as"):
        c.i = begin
        return None
    _manner(c)
    if c.kind not in _STOPS:
        c.i = begin
        return None
    return [Make(id=c.id(), span=c.span(start), stitch="tss", places=told)]


def _manner(c: Cursor) -> None:
    """Past "as before", "as usual", "in the ordinary manner"."""
    if c.kind == "as" and c.look().kind:
        c.i += 2
    elif c.kind == "in" and any(c.look(k).text.lower() in ("manner", "way") for k in (2, 3)):
        while c.t[c.i].text.lower() not in ("manner", "way"):
            c.i += 1
        c.i += 1


def uprights_together(c: Cursor) -> list[Step] | None:
    """ "Insert the hook under the second and third uprights together and raise one loop": drawn through as one."""
    start = c.i
    if not c.ctx.passes:
        return None
    c.i += 1
    c.drop("hook", "the", "a")
    if not c.take("in", "under", "over"):
        c.i = start
        return None
    c.drop("under", "the")
    named = 0
    while c.kind == "o":
        named += 1
        c.i += 1
        c.i += (c.kind in ("and", ",")) and c.look(1 + (c.look().kind == "the")).kind == "o"
        c.drop("the")
    c.drop(*_BARS)
    if not 1 < named < 6 or not c.take("tog"):
        c.i = start
        return None
    begin = c.i
    c.drop(",", "and")
    if c.t[c.i].text.lower() in _RAISED or c.kind == "pull":
        while c.kind not in _STOPS:
            c.i += 1
    else:
        c.i = begin
    return [Make(id=c.id(), span=c.span(start), stitch=f"tss{named}tog", closes=named)]


def loops_there_are(c: Cursor) -> list[Step] | None:
    """ "(There will be) 15 loops on the needle", "13 loops on the hook;": how many the way forward leaves."""
    start = c.i
    told = number(c)
    if not c.ctx.passes or told is None or not c.take("lp") or not any(isinstance(step, Make) for step in c.out):
        c.i = start
        return None
    if c.take("in"):
        c.drop("the", "your")
        if not c.take("hook"):
            c.i = start
            return None
    if c.kind not in _ENDS or c.t[start - 1].text.lower() in _RAISED:
        c.i = start
        return None
    add(c, [Count(number=told, kind="sp", span=c.span(start))], start)
    return []


def returned(c: Cursor) -> list[Step] | None:
    """ "Return as before", "to return, draw the wool through the first loop, then through two loops together until one only remains", "draw
    through one, then through two": how the loops are worked off. To the end of the sentence."""
    start = c.i
    if not c.ctx.passes or not any(isinstance(step, (Make, Refer)) for step in c.out):
        return None
    at = c.i + (c.kind in ("to", "in"))
    says = c.t[at].text.lower() in _RETURN and c.t[at + 1].kind in (*_ENDS, "as", "in", "by")
    drawn = c.kind == "pull" and _through_loops(c)
    if not says and not drawn:
        return None
    while c.kind not in (".", "") and not (c.kind == "(" and c.look().kind == "n"):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start), kind="note")]


def _through_loops(c: Cursor) -> bool:
    """Whether "draw" is said of loops on the needle: "through the first", "through one loop, then through two", "through as before"."""
    k = c.i + 1
    while c.t[k].kind in ("the", "color", "bar", "w", "idle", "a") and k - c.i < 5:
        k += 1
    if c.t[k].kind != "over":
        return False
    k += 1 + (c.t[k + 1].kind in ("the", "a"))
    after = c.t[k + 1].kind
    return (c.t[k].kind in ("o", "n", "lp") and after in (*_ENDS, "lp", "tog", "and", "then")) or (c.t[k].kind == "as")


def by_taking(c: Cursor) -> list[Step] | None:
    """ "(Decrease at both ends) by taking two uprights together": how, told beside it."""
    start = c.i
    if not c.ctx.passes or c.look().text.lower() not in ("taking", "raising", "working", "drawing"):
        return None
    end = c.i
    while c.t[end].kind not in _ENDS:
        end += 1
    words = c.t[start:end]
    if not any(token.kind == "tog" for token in words) or any(token.kind in ("rep", "skip", "turn", "each") for token in words):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]
