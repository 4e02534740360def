"""Tunisian rows as older books tell them: loops are raised, and taken together; the way back is told apart ("tricot")."""

from __future__ import annotations

from ...pattern import ONE, Aside, Make, Place, Refer, Step
from .counts import add
from .counts_listed import listed
from .cursor import Cursor
from .limits import limit
from .numbers import number
from .passes import drawn_up

EXAMPLES: tuple[tuple[str, str], ...] = ()
_RAISE = frozenset(("raise", "raising", "take", "taking", "pick", "picking"))
_BARS = frozenset(("perpendicular", "upright", "vertical", "front", "raised", "loop", "loops", "bars", "bar"))
_STOPS = frozenset((",", ";", ".", "", "(", ")", "and", "*", "then", "-"))


def raised(c: Cursor) -> list[Step] | None:
    """ "Raise 3", "raise a loop in each", "raise loops to within 5 of the end", "take the next two loops together"."""
    start = c.i
    if not c.ctx.passes:
        return None
    c.i += c.t[c.i].text.lower() == "so"
    if c.t[c.i].text.lower() not in _RAISE and c.kind != "pick":
        c.i = start
        return None
    c.i += 1
    c.take("along")
    got = _together(c, start) or _loops(c, start)
    if got is None:
        c.i = start
    return got


def _together(c: Cursor, start: int) -> list[Step] | None:
    """ "(take) the next two perpendicular loops together", "(take) 2 together"."""
    begin = c.i
    c.drop("the", "next")
    told = number(c)
    _pass_bars(c)
    if told is None or told.many or not c.take("tog") or not 1 < (told.values[0] or 0) < 6:
        c.i = begin
        return None
    n = told.values[0] or 2
    return [Make(id=c.id(), span=c.span(start), stitch=f"tss{n}tog", closes=n)]


def _loops(c: Cursor, start: int) -> list[Step] | None:
    """ "(raise) 3", "(raise) a loop in each of the remaining chain", "(raise) loops to within 5 of the end"."""
    told = number(c)
    c.take("a", "the")
    c.take("lp")
    if told is not None and c.kind in _STOPS:
        return [Make(id=c.id(), span=c.span(start), stitch="tss", places=told)]
    but = limit(c)
    if but is not None and told is None:
        return [Make(id=c.id(), span=c.span(start), stitch="tss", places="rest", but=but)]
    if c.kind not in ("in", "over", "under") or c.look().kind not in ("each", "all", "the", "rem", "next"):
        return None
    c.i += 1
    single = c.kind == "next" or (c.kind == "the" and c.look().kind == "next")
    chain = False
    while c.kind not in _STOPS:
        if c.kind in ("st", "grp", "rep", "skip", "n"):
            return None
        chain = chain or c.kind == "ch"
        c.i += 1
    at = Place(what="ch") if chain else Place()
    return [Make(id=c.id(), span=c.span(start), stitch="tss", places=ONE if single else "rest", at=at)]


def bars_together(c: Cursor) -> list[Step] | None:
    """ "Insert hook under next 2 bars tog, yrh and draw lp through, yrh": two drawn through as one, and the loop told after them."""
    start = c.i
    if not c.ctx.passes:
        return None
    c.i += 1
    c.drop("hook", "the", "a")
    if not c.take("in", "under", "over"):
        c.i = start
        return None
    c.take("under")
    made = _together(c, start)
    if made is None:
        c.i = start
        return None
    drawn_up(c)
    begin = c.i
    if c.take(",") and c.take("yo") and c.kind in (";", "rep", ")", ".", "", "*"):
        return [*made, Make(id=c.id(), span=c.span(begin), stitch="tss", at=Place(where="hook"))]
    c.i = begin
    return made


def _pass_bars(c: Cursor) -> None:
    while c.kind in ("lp", "bar", "post", "noun", "front") or c.t[c.i].text.lower() in _BARS:
        c.i += 1


def loop_there(c: Cursor) -> list[Step] | None:
    """ "The loop on the needle counts for the first stitch": told of every row, and always so."""
    start = c.i
    if not c.ctx.passes or c.look().kind != "lp" or not any(c.look(k).kind == "hook" for k in range(2, 6)):
        return None
    end = start
    while c.t[end].kind not in (",", ";", ".", ""):
        end += 1
    if not any(t.kind == "counts" for t in c.t[start:end]):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def loops_told(c: Cursor) -> list[Step] | None:
    """ "(raise a loop in each,) 32 loops; work back": how many the way forward leaves, told before the way back."""
    start = c.i
    if not c.ctx.passes or not any(isinstance(step, Make) for step in c.out):
        return None
    end = c.i + 1 + (c.look().kind in ("lp", "noun"))
    ahead = [token.kind for token in c.t[end : end + 3]]
    if ahead[:1] not in ([","], [";"]) or ahead[1:2] not in (["work"], ["to"]):
        return None
    found = listed(c, end)
    if found is None or c.i != end:
        c.i = start
        return None
    add(c, found, start)
    return []


def to_work_back(c: Cursor) -> list[Step] | None:
    """ "To work back, draw the wool through 1 loop, then * …": to the end of the sentence."""
    start = c.i
    if not c.ctx.passes or c.look().kind != "work" or c.look(2).kind != "back":
        return None
    while c.kind not in (".", ""):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


def nearest_missed(c: Cursor) -> list[Step] | None:
    """ "Miss the chain nearest the needle": the next loop is raised in the second chain from it."""
    start = c.i
    words = [c.look(k) for k in range(1, 6)]
    if not c.ctx.passes or not any(t.text.lower() in ("nearest", "next-to") for t in words) or not any(t.kind == "hook" for t in words):
        return None
    while c.kind not in (",", ";", ".", ""):
        c.i += 1
    c.start_at = Place(where="from_hook", what="ch", nth=2)
    return [Aside(id=c.id(), span=c.span(start))]


def plain(c: Cursor) -> list[Step] | None:
    """ "11th Row: Plain.": a loop in every stitch."""
    if not c.ctx.passes or c.i or c.t[0].val != "plain" or c.look().kind not in (".", "", ",", ";"):
        return None
    c.i = 1
    return [Make(id=c.id(), span=c.span(0), stitch="tss", places="rest")]


def shaped_as_row(c: Cursor) -> list[Step] | None:
    """ "Decrease as in the tenth row", "increase as in Row 4": that row again."""
    start = c.i
    c.i += 1
    if not c.take("as") or not c.take("in", "for", "over"):
        c.i = start
        return None
    c.take("the")
    row: object = None
    if c.kind == "o" and c.look().kind in ("row", "rnd"):
        row = c.t[c.i].val
    elif c.kind in ("row", "rnd") and c.look().kind == "n":
        row = c.look().val
    if not isinstance(row, int):
        c.i = start
        return None
    c.i += 2
    return [Refer(id=c.id(), span=c.span(start), rows=(row,))]
