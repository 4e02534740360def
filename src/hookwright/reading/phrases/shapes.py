"""Small pieces that several phrases use: numbers of times, closers, making nodes."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import NEXT, ONE, Make, Place, Sized, Span, Times, Together
from .cursor import Cursor
from .limits import is_stitch, limit
from .nouns import noun
from .numbers import number, times_word
from .spots import ZERO, Spot

GLUE = frozenset((",", ";", ".", "then", "and", ":", "-", "idle", "&", "/"))
CLOSERS = frozenset((",", ";", ".", "", ")", "]", "}", "*"))
MANY = 5
"""From so many stitches on, "28 sc around" along an edge tells how many there are in all, and not how many go into each place."""


def make(c: Cursor, start: int, stitch: str, *, each: Sized[int] = ONE, found: Spot | None = None, closes: int = 1, main: str | None = None,
         evenly: bool = False) -> Make:  # fmt: skip
    """A Make from token `start` to the cursor, at the place found."""
    at = found.at if found else NEXT
    if c.start_at is not None:
        at, c.start_at = (c.start_at if at.where == "next" else at), None
    if c.elsewhere is not None or c.below:
        at = _moved(c, at)
    if stitch == "spike":  # a single crochet drawn up from a row further down
        stitch, at = "sc", replace(at, below=max(at.below, 1))
    if found is not None and at.where == "row_end" and found.places == "rest" and (each.values[0] or 0) >= MANY:
        found = replace(found, places=ONE)  # "working along edge of cuff, work 28 sc around": so many in all
    loop = c.loop
    if loop and at.loop == "both" and at.where in ("next", "first", "last", "same"):
        what = "st" if at.what == "sp" and loop.startswith("free") else at.what  # "in next loop": the strand, and no space
        at = Place(where=at.where, what=what, nth=at.nth, loop=loop, post=at.post, below=at.below, between=at.between, row=at.row)  # type: ignore[arg-type]
    return Make(
        id=c.id(), span=c.span(start), stitch=stitch, each=each, places=found.places if found else ONE, but=found.but if found else ZERO,
        at=at, closes=closes, main=main, evenly=evenly or bool(found and found.evenly),
        upto=found.upto if found and found.places == "rest" else "",
    )  # fmt: skip


def _moved(c: Cursor, at: Place) -> Place:
    """The place, where the words before told of another side, loops of an earlier row, or rows below."""
    to = c.elsewhere
    if to is None:
        return replace(at, below=max(at.below, c.below)) if at.where == "next" else at
    if to.where == "under" and at.where in ("next", "last", "first"):
        return replace(at, where="under" if at.where == "next" else at.where)
    if to.where in ("row_end", "ring") and at.where == "next":
        return replace(at, where=to.where, what=to.what)
    if (to.loop != "both" or to.row) and at.where in ("next", "first", "last", "same"):
        return replace(
            at,
            loop=to.loop if at.loop == "both" else at.loop,
            row=at.row or to.row,
            what="st" if at.what == "sp" and to.loop != "both" else at.what,
        )
    return at


def unplaced(c: Cursor, step: Make) -> bool:
    """Whether the stitch told no place of its own; the loop that the whole row is worked in is none."""
    return step.at == Place() or (bool(c.loop) and step.at.loop == c.loop and replace(step.at, loop="both") == Place())


def amount(step: Make) -> int:
    """How many stitches the step makes; those worked to the row's end count as one place."""
    places = step.places.values[0] if step.places != "rest" else 1
    return (step.each.values[0] or 1) * (places or 1)


def times(c: Cursor, *, star: bool = False) -> Times | None:
    """How often a group is worked: "6 times", "x 6", "twice", "across", "to last 3 sts"; None with the cursor unmoved.

    `star`: after "repeat from *", where a bare number of times means so many more (or, by some writers, in all).
    """
    start = c.i
    token = c.t[c.i]
    kind = token.kind
    if kind == "," and c.look().kind in ("around", "across", "rep"):
        return None
    got = _told_times(c, star)
    if got is not None:
        return got
    c.i = start
    if star and kind in _BEFORE_MANY and (got := _once_for_each(c)) is not None:
        return got
    if kind in ("around", "across", "to", "until", "all", "along", "for", "over", "in", "at", "idle"):
        if kind in ("over", "in", "at", "for") and not (c.look().kind == "rem" or c.look(2).kind == "rem"):
            every = _in_every(c) if star else None
            return _until(c) if every is None and star and kind == "for" and _so_many_ahead(c) else every
        but = limit(c)
        if but is not None:
            if c.upto:
                return Times(kind="to_place", number=but, what=c.upto)
            if but == ZERO:
                return Times(kind="rest", loose=any(token.kind in ("beg", "tch") for token in c.t[start : c.i]))
            return Times(kind="to_last", number=but, what=c.last_of if c.last_of not in ("", "ch") and not is_stitch(c.last_of) else "st")
        c.i = start
        return _until(c)
    return None


def _shut_before(c: Cursor, start: int) -> bool:
    """Whether a unit has just been closed, the word "repeat" behind it or not: "(1 sc, inc) 6", "(1 sc, inc) rep 6"."""
    before = start - 1 - (c.t[start - 1].kind == "rep")
    return c.t[before].kind in (")", "]", "}", "*")


def _so_many_ahead(c: Cursor) -> bool:
    """ "for 8 groups", "for a total of 8 groups"."""
    return c.look().kind == "n" or "total" in (c.look().kind, c.look(2).kind)


_BEFORE_MANY = frozenset(("for", "over", "in", "at", "around", "across", "along"))
_MORE_OF = frozenset(("next", "rem", "other", "more"))
_UNITS = frozenset(("side", "corner", "group", "grp", "lp", "sp"))
_PARTS = frozenset("points scallops sections quarters petals leaves wedges ends groups loops spaces meshes shells".split())  # noqa: SIM905


def _once_for_each(c: Cursor) -> Times | None:
    """ "Repeat from * for the next 2 groups", "on each of the other 3 sides", "in next 4 loops": the unit once more for each of them; None,
    unmoved, where they are stitches, of which a unit takes any number."""
    start = c.i
    c.i += 1
    while c.kind in ("the", "each", "of", *_MORE_OF):
        c.i += 1
    many = number(c) if c.kind == "n" else None
    c.drop(*_MORE_OF)
    said = any(token.kind in _MORE_OF for token in c.t[start : c.i])
    named = c.kind in _UNITS or c.t[c.i].text.lower() in _PARTS
    spaces = c.kind in ("lp", "sp")
    if many is None or not said or not named or (spaces and not _one_place(c)) or (noun(c) is None and not c.take("w", "ends")):
        c.i = start
        return None
    if c.kind not in CLOSERS:
        c.i = start
        return None
    return Times(kind="n", number=plus_one(many))


def _one_place(c: Cursor) -> bool:
    """Whether the unit just told works into one space only: "* ch 5, sc in next loop"."""
    mark = next((one for one in reversed(c.frames[-1].marks) if not one.used), None)
    told = c.out[mark.index :] if mark is not None else []
    spaces = [step for step in told if isinstance(step, (Make, Together)) and step.at.what.endswith("sp")]
    return len(spaces) == 1 and spaces[0].places == ONE


def _in_every(c: Cursor) -> Times | None:
    """ "Repeat from * in each loop (around)", "over every sp": the unit names the place itself, and it goes on to the last of them."""
    start = c.i
    c.i += 1
    c.take("each", "all")
    c.drop("rem", "the", "of")
    if c.t[c.i - 1].kind not in ("each", "all", "rem", "the", "of") or noun(c) is None:
        c.i = start
        return None
    but = limit(c)
    if c.kind not in CLOSERS:
        c.i = start
        return None
    return Times(kind="rest") if but is None or but == ZERO else Times(kind="to_last", number=but)


def _told_times(c: Cursor, star: bool) -> Times | None:
    start = c.i
    if c.kind == "for" and "total" in (c.look().kind, c.look(2).kind):
        c.i += 1  # "for a total of 8 times"
    if c.kind == "a" and c.look().kind == "total":
        c.i += 1
    total = bool(c.take("total"))
    if total:
        c.take("of")
    extra = so_many_more(c)
    if c.kind in ("w", "x") and c.t[c.i].val == "x":
        c.i += 1
        value = number(c)
        if value is not None:
            c.take("times")
            return Times(kind="n", number=value)
        c.i = start
        return None
    shut = c.t[c.i - 1].kind in (")", "]", "}") and c.look(2).kind in ("", ".", ",", "(", "[", "=")
    shut = shut or (c.t[c.i - 1].kind in (")", "]", "}") and c.look(2).kind in ("(", "[") and c.look(3).kind == "n")
    if c.kind == "*" and c.look().kind == "n" and (c.look().gap is False or shut):
        c.i += 1
        value = number(c)
        return Times(kind="n", number=value) if value else None
    glued = c.kind == "n" and c.t[c.i - 1].kind in (")", "]", "}", "*") and not c.t[c.i].gap and c.ctx.rounds
    if glued and (c.look().kind in ("", ".", ",", "(", "[", "=") or (c.look().kind == "n" and c.look(2).kind in ("", ".", "noun", "st"))):
        value = number(c)
        return Times(kind="n", number=value) if value else None  # "(1 sc, inc)6"
    if (often := times_word(c)) is not None:
        value = Sized((often,))
    elif c.kind == "n":
        got = number(c)
        if got is None:
            return None
        value = got
        if c.kind == "more" and c.look().kind in ("times", "once"):
            c.i += 1
            extra = True
        if c.kind == "more" and c.look().val == "x":
            c.i += 1
            extra = True
        if c.kind == "w" and c.t[c.i].val == "x":
            c.i += 1
        elif not c.take("times"):
            if total and c.t[start].kind == "for" and c.kind in ("grp", "group"):
                c.i = start
                return None  # "for a total of 4 clusters": those made before are among them
            bare = not (extra or total)
            if bare and (star or c.kind not in ("", ".", "(", "[", "=", ",", ";") or not _shut_before(c, start)):
                c.i = start
                return None
    else:
        c.i = start
        return None
    if c.kind == "more":
        c.i += 1
        extra = True
    if (c.kind == "in" and c.look().kind == "total") or c.kind == "total":
        c.drop("in", "total")
        total = True
    if c.kind in ("around", "across") and c.look().kind in CLOSERS:
        c.i += 1
    if extra:
        return Times(kind="n", number=plus_one(value))
    if total or not star:
        return Times(kind="n", number=value)
    return Times(kind="more", number=value)


def so_many_more(c: Cursor) -> bool:
    """ "more", "another (5 times)", "an additional (5 times)", and the "for" in "for 5 more times"."""
    if c.kind == "for" and c.look().kind == "n" and "times" in (c.look(2).kind, c.look(3).kind):
        c.i += 1
    if c.t[c.i].val == "another" and c.look().kind == "n":
        c.i += 1
        return True
    if c.kind == "a" and c.look().kind == "more":
        c.i += 1
    return bool(c.take("more"))


def plus_one(value: Sized[int]) -> Sized[int]:
    return Sized(tuple(None if one is None else one + 1 for one in value.values))


def _until(c: Cursor) -> Times | None:
    """ "until there are 8 groups", "until 8 groups are made", "until you have 12 petals", "for 8 groups"."""
    start = c.i
    if c.kind not in ("until", "for"):
        return None
    word = c.kind
    c.i += 1
    while c.kind in ("w", "idle", "the", "counts") and c.t[c.i].val in ("there", "you", "are", "have", "is", "a"):
        c.i += 1
    c.drop("total", "of", "a")
    value = number(c)
    if value is None:
        if word == "until":
            while c.kind not in (",", ";", ".", "", ")", "]", "("):
                c.i += 1
            closes = {"opening", "hole", "gap"} & {token.text.lower() for token in c.t[start : c.i]}
            return Times(kind="rest", loose=bool(closes))  # "until opening is 1 inch across": round and round, wherever it ends
        c.i = start
        return None
    if c.kind in ("grp", "group", "sp", "lp", "st", "mesh", "noun", "w"):
        what = str(c.t[c.i].val)
        kind = c.kind
        c.i += 1
        while c.kind in ("w", "idle", "counts", "in", "total", "of", "the", "work") and c.kind:
            c.i += 1
        if word == "until" and kind in ("noun", "st") and c.take("rem"):
            return Times(kind="to_last", number=value)  # "until 3 sts are left"
        if kind == "noun":
            return Times(kind="until", number=value)
        while c.kind in ("of", "st", "ch") or (c.kind == "n" and c.t[c.i - 1].kind == "of"):
            c.i += 1  # "until there are 6 groups of 7 dc"
        if c.kind == "with" and c.look().kind == "ch" and "between" in (c.look(2).kind, c.look(3).kind):
            c.i += 3 + (c.look(3).kind == "between")  # "… with ch 2 between": which the repeat has told
            c.take("them", "each")
        _each_told(c)
        if c.in_ring and kind in ("group", "grp", "sp", "lp") and (more := _groups_more(c, value)) is not None:
            return Times(kind="n", number=more)  # a ring has no places that run out
        return Times(kind="rest") if kind in ("group", "grp", "sp", "lp", "w", "mesh") else Times(kind="until", number=value, what=what)
    c.i = start
    return None


def _each_told(c: Cursor) -> None:
    """ "… until 6 groups are completed, 9 dc in each": how large each of them is, and no stitches more."""
    k = c.i + (c.kind in (",", "with"))
    k += c.t[k].kind == "with"
    if k == c.i or c.t[k].kind != "n" or c.t[k + 1].kind not in ("st", "noun"):
        return
    k += 2
    if c.t[k].kind != "in" or c.t[k + 1].kind != "each":
        return
    k += 2 + (c.t[k + 2].kind in ("group", "grp"))
    if c.t[k].kind in (".", ";", ""):
        c.i = k


def _groups_more(c: Cursor, wanted: Sized[int]) -> Sized[int] | None:
    """How many of so many groups the repeat makes: all but those that stand before it."""
    frame = c.frames[-1]
    mark = next((one for one in reversed(frame.marks) if not one.used), None)
    before = frame.out[: mark.index] if mark is not None else frame.out
    made = any(isinstance(step, (Make, Together)) for step in before)
    left = tuple(None if n is None else n - made for n in wanted.values)
    return Sized(left) if all(n is None or n > 0 for n in left) else None


def nowhere(c: Cursor) -> Span:
    return c.span(c.i)
