"""Tunisian rows as older books tell them ("tricot"): how loops are raised on the way forward, singly, in runs and together.

What is told of the loops beside it, and how they are worked off, is read in `tricot_told.py`.
"""

from __future__ import annotations

from ...pattern import ONE, Aside, Make, Place, Refer, Sized, Step
from .cursor import Cursor
from .limits import limit
from .numbers import number
from .passes import drawn_up
from .row_lists import one_row
from .spots import CLAUSE

EXAMPLES: tuple[tuple[str, str], ...] = ()
RAISE = frozenset(("raise", "raising", "take", "taking", "pick", "picking"))
_STOPS = CLAUSE | {"and", "*", "then", "-"}
_BAR_WORDS = frozenset(("perpendicular", "upright", "vertical", "front", "raised", "loop", "loops", "bars", "bar"))
_BARS = frozenset(("lp", "bar", "post", "noun", "front", "back", "st"))


def raised(c: Cursor) -> list[Step] | None:
    """ "Raise 3", "raise a loop in each", "raise the last", "raise loops to within 5 of the end", "take the next two loops together",
    "raise a loop from the chain between two uprights", "raise the loops as before"."""
    start = c.i
    if not c.ctx.passes:
        return None
    c.i += c.t[c.i].text.lower() == "so"
    if c.t[c.i].text.lower() in RAISE or c.kind == "pick":
        c.i += 1
        c.take("along")
        begin = c.i
        for form in (_together, _last, _all_again, _between, _others, _loops):
            got = form(c, start)
            if got is not None:
                return got
            c.i = begin
    c.i = start
    return None


def _together(c: Cursor, start: int) -> list[Step] | None:
    """ "(take) the next two perpendicular loops together", "(take) 2 together", "(take) the second and third together"."""
    begin = c.i
    c.drop("the", "next", "last")
    told = _listed(c) or number(c)
    if c.take("of"):
        c.drop("the", "rem")  # "two of these together"
    _pass_bars(c)
    if told is None or told.many or not _as_one(c) or not 1 < (told.values[0] or 0) < 6:
        c.i = begin
        return None
    n = told.values[0] or 2
    if c.kinds("as", "n"):
        c.i += 2  # "together as one"
    return [Make(id=c.id(), span=c.span(start), stitch=f"tss{n}tog", closes=n)]


def _as_one(c: Cursor) -> bool:
    """Past "together", "at once"; False with the cursor unmoved."""
    once = c.kinds("at", "once")
    c.i += 2 if once else 0
    if [token.text.lower() for token in c.t[c.i : c.i + 4]] == ["at", "the", "same", "time"]:
        c.i += 4
        return True
    return once or bool(c.take("tog"))


def _listed(c: Cursor) -> Sized[int] | None:
    """ "The second and third", "the fourth and fifth": so many loops, one after another; None with the cursor unmoved."""
    begin, many = c.i, 0
    while c.kind == "o":
        many += 1
        c.i += 1
        c.drop("and", ",", "the") if c.look(0).kind in ("and", ",") and (c.look().kind == "o" or c.look(2).kind == "o") else None
    if many > 1:
        return Sized((many,))
    c.i = begin
    return None


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
    if c.kind not in CLAUSE:
        c.i = begin
        return None
    return [Make(id=c.id(), span=c.span(start), stitch="tss", places="rest")]


def _between(c: Cursor, start: int) -> list[Step] | None:
    """ "(Raise) a loop from the chain between two uprights", "a loop in the thread before the last": one more."""
    begin = c.i
    one = c.take("a", "n")
    if one is None or not c.take("lp") or not c.take("from", "in", "under", "over", "between"):
        c.i = begin
        return None
    beside = c.t[c.i - 1].kind == "between"
    while c.kind not in CLAUSE:
        beside = beside or c.kind in ("between", "before", "after")
        if c.kind in ("each", "rep", "skip"):
            break
        c.i += 1
    if not beside or c.kind not in CLAUSE:
        c.i = begin
        return None
    return [Make(id=c.id(), span=c.span(start), stitch="tss", at=Place(where="hook"))]


def _others(c: Cursor, start: int) -> list[Step] | None:
    """ "(raise) each of the others to the last three", "(take up) the rest"."""
    if not (
        c.kind == "rem"
        or (c.kind == "the" and c.look().kind in ("rem", "other"))
        or (c.kind == "each" and c.look().kind in ("other", "lp", "bar", "noun", "rem"))
    ):
        return None
    c.i += c.kind in ("each", "the")
    c.drop("other", "rem")
    _pass_bars(c)
    return [Make(id=c.id(), span=c.span(start), stitch="tss", places="rest", but=limit(c) or Sized((0,)))]


def _loops(c: Cursor, start: int) -> list[Step] | None:
    """ "(raise) 3", "(raise) 9 loops in the ordinary manner", "(raise) loops to within 5 of the end", "(raise) a loop in …"."""
    told = number(c)
    c.take("a", "the")
    if c.take("lp") and told is not None:
        _manner(c)
    if told is not None and c.kind in _STOPS:
        return [Make(id=c.id(), span=c.span(start), stitch="tss", places=told)]
    but = limit(c)
    if but is not None and told is None:
        return [Make(id=c.id(), span=c.span(start), stitch="tss", places="rest", but=but)]
    if c.kind not in ("in", "over", "under") or c.look().kind not in ("each", "all", "the", "rem", "next"):
        return None
    c.i += 1
    return _in_each(c, start)


def _in_each(c: Cursor, start: int) -> list[Step] | None:
    """ "(a loop in) each of the remaining chain", "each of the other 14 chain", "each upright up to the last one", "the next upright"."""
    single = c.kind == "next" or (c.kind == "the" and c.look().kind == "next")
    many: Sized[int] | None = None
    but: Sized[int] | None = None
    chain = False
    if not single:
        c.drop("each", "all", "of", "the", "other", "rem")
        many = number(c)
    while c.kind not in _STOPS and c.kind not in (":", "until"):
        if c.kind in ("along", "to") and (but := _up_to_last(c)) is not None:
            break
        if c.kind in ("st", "grp", "rep", "skip", "n"):
            return None
        chain = chain or c.kind == "ch"
        c.i += 1
    at = Place(what="ch") if chain else Place()
    return [Make(id=c.id(), span=c.span(start), stitch="tss", places=many or (ONE if single else "rest"), but=but or Sized((0,)), at=at)]


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


def _manner(c: Cursor) -> None:
    """Past "as before", "as usual", "in the ordinary manner"."""
    if c.kind == "as" and c.look().kind:
        c.i += 2
    elif c.kind == "in" and any(c.look(k).text.lower() in ("manner", "way") for k in (2, 3)):
        while c.t[c.i].text.lower() not in ("manner", "way"):
            c.i += 1
        c.i += 1


def _pass_bars(c: Cursor) -> None:
    while c.kind in _BARS or c.t[c.i].text.lower() in _BAR_WORDS:
        c.i += 1


def inserted_together(c: Cursor) -> list[Step] | None:
    """ "Insert the hook under the next two uprights together and raise a loop": drawn through as one; "hook under 2 bars tog, draw lp
    through, yrh": and the loop told after them."""
    start = c.i
    if not c.ctx.passes:
        return None
    c.i += 1
    c.drop("hook", "the", "a")
    led = c.take("in", "under", "over") is not None
    c.take("under")
    made = _together(c, start) if led else None
    if made is None:
        c.i = start
        return None
    begin = c.i
    drawn_up(c)
    if c.i == begin:
        c.drop(",", "and")
        if c.t[c.i].text.lower() in RAISE:
            while c.kind not in _STOPS:
                c.i += 1
        else:
            c.i = begin
    begin = c.i
    if c.take(",") and c.take("yo") and c.kind in (";", "rep", ")", ".", "", "*"):
        return [*made, Make(id=c.id(), span=c.span(begin), stitch="tss", at=Place(where="hook"))]
    c.i = begin
    return made


def the_others(c: Cursor) -> list[Step] | None:
    """ "(Take up the second and third together,) the fourth and fifth together", "then the last": the verb goes on."""
    start = c.i
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not c.ctx.passes or not isinstance(before, Make) or not before.stitch.startswith("tss"):
        return None
    c.take("the")
    if c.kind == "last" and c.look().kind in (",", ";", ".", ""):
        c.i += 1
        return [Make(id=c.id(), span=c.span(start), stitch="tss")]
    got = _together(c, start) if c.kind in ("o", "next", "n") else None
    if got is None:
        c.i = start
    return got


def from_second(c: Cursor) -> list[Step] | None:
    """ "(Pick up a loop through each stitch,) beginning with the second from hook", "skipping the first": the first is on the hook."""
    start = c.i
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not c.ctx.passes or not isinstance(last, Make) or last.places != "rest":
        return None
    c.i += 1
    c.take("with", "in", "at")
    c.drop("the")
    nth = c.t[c.i].val if c.kind == "o" else None
    if not c.take("o"):
        c.i = start
        return None
    c.drop("noun", "ch", "o")
    if c.t[start].kind == "skip" and nth == 1:
        while c.kind not in (".", ";", "", ","):
            c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]
    if c.t[start].kind != "beg" or nth != 2 or not (c.take("from") and (c.take("the") or True) and c.take("hook")):
        c.i = start
        return None
    at = next(k for k in range(len(c.out) - 1, -1, -1) if c.out[k] is last)
    c.out[at : at + 1] = [Make(id=c.id(), span=last.span, stitch="tss", at=Place(where="from_hook", what="ch", nth=2)), last]
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
    row = one_row(c)
    if row is None:
        c.i = start
        return None
    changes = run_between(c) if c.ctx.passes else ()
    return [Refer(id=c.id(), span=c.span(start), rows=(row,), changes=changes)]


def run_between(c: Cursor) -> tuple[Step, ...]:
    """ "(Decrease as in the 3rd row,) but raising 7 loops between instead of 9": how long the plain run is now; nothing, the cursor
    unmoved, where something else is told."""
    begin = c.i
    c.drop(",", "but", "with", "having")
    if c.t[c.i].text.lower() in RAISE:
        c.i += 1
    told = number(c)
    c.drop("lp", "noun")
    if told is None or not c.take("between"):
        c.i = begin
        return ()
    if c.t[c.i].text.lower() == "instead":
        while c.kind not in (",", ";", ".", ""):
            c.i += 1
    return (Make(id=c.id(), span=c.span(begin), stitch="tss", places=told, at=Place(what="inc", between=True)),)
