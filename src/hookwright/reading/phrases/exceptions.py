"""What a plain round does otherwise at some places: "sc in each st around, with 3 sc in each corner"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Even, Make, Place, Repeat, Sized, Step, Times, Together
from .cursor import Cursor
from .in_increases import in_each_increase
from .middles import at_centre, runs_told

EXAMPLES = (
    ("sc in each st around, with 3 sc in each corner", "sc×rest, 3sc×rest@next corner"),
    ("dc in each st around, with (2 dc, ch 2, 2 dc) in each corner sp", "dc×rest, {dc×2, ch2, dc×2}×rest@next corner"),
)


def at_every(c: Cursor) -> list[Step] | None:
    """ "Sc around, with an increase in every other stitch", "…, but put two in every third one": what the run told
    before does at every so manieth place; None, unmoved, elsewhere."""
    if (told := in_each_increase(c)) is not None:
        return told
    start = c.i
    before = c.out[-1] if c.out else None
    if not isinstance(before, Make) or before.places != "rest" or before.but != Sized((0,)) or before.upto or before.closes > 1:
        return None
    while c.kind in _LEADS_IN or c.t[c.i].text.lower() in ("doubling", "up"):
        c.i += 1
    what = c.kind
    twice = any(t.text.lower() == "doubling" for t in c.t[start : c.i])
    alike = c.t[start].kind == "with" and c.look().kind == "st" and c.us(str(c.look().val)) == before.stitch
    if what in ("inc", "dec") or (what == "n" and c.t[c.i].val == 2 and (alike or c.look().kind != "st")):
        c.i += 1 + (what == "n" and alike)  # "with 2 sc in every 3rd st"
    elif not twice:
        what = ""
    c.drop("in", "at", "st", "noun", "into")
    every = 2 if c.look().kind in ("other", "alt") else int(c.look().val) if c.look().kind == "o" else 0
    if not what or c.kind != "each" or every < 2:
        c.i = start
        return None
    c.i += 2
    c.i += c.kind in ("st", "noun") or c.t[c.i].text.lower() in ("one", "place")
    if c.kind not in _STOPS:
        c.i = start
        return None
    c.out.pop()
    plain = replace(before, places=Sized((every - (2 if what == "dec" else 1),)))
    once = replace(before, id=c.id(), span=c.span(start), places=Sized((1,)))
    if what == "dec":
        last = replace(once, stitch=f"{before.stitch}2tog", closes=2, main=before.stitch)
    else:
        last = replace(once, each=Sized((2,)))
    body = (plain, last) if plain.places != Sized((0,)) else (last,)
    return [Repeat(id=c.id(), span=c.span(start), body=body, times=Times(kind="rest", loose=True))]


_LEADS_IN = frozenset((",", "and", "but", "with", "a", "work", "then", "idle"))
_STOPS = frozenset((",", ";", ".", "", "(", "[", "=", "-", "join", ")", ":"))
_FURTHEST = 24


def exception(c: Cursor) -> list[Step] | None:
    """ "with 3 sc in each corner", "having 2 dc, ch 2 and 2 dc in each corner" after a run to the end; None, unmoved, elsewhere."""
    start = c.i
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not (isinstance(before, Even) or (isinstance(before, Make) and before.places == "rest" and before.upto != "corner")):
        return None  # "dc in each dc to next corner, work (2 dc, ch 2, 2 dc) in corner": there, not in every one
    if c.look().kind not in ("n", "a", "(", "[", "st", "grp"):
        return None
    from .one_phrase import one

    if c.kind == "work" and not _of_corners(c, ("corner", "center")):
        return None
    verb = c.kind == "work"
    c.i += 1
    got = one(c)
    if got and any(run.upto == "center" for run in runs_told(c.out)):
        return got  # "making 1 dec at center": the run before has been parted there already
    if got and isinstance(got[-1], (Make, Together)) and ((got[-1].places == "rest" and not verb) or got[-1].at.what == "corner"):
        if got[-1].at == Place(what="corner", span=got[-1].at.span) and got[-1].places == ONE:
            got[-1] = replace(got[-1], places="rest")  # "with 3 sc in the corner": in every one that there is
        return got
    middle = at_centre(c, got) if isinstance(before, Make) else None
    if middle is not None:
        return middle
    one_space = got[0].at if got and len(got) == 1 and isinstance(got[0], (Make, Together)) else None
    if one_space is not None and not verb and one_space == Place(what=one_space.what) and one_space.what.endswith("sp"):
        return got  # "sc in each dc and ch-1 sp across, with 3 sc in ch-2 sp": where the run meets it
    c.i = start
    if not verb and _of_corners(c):
        c.i += 1
        return []  # a list told before its corner: each of its steps is read in turn
    return None


def including(c: Cursor) -> list[Step] | None:
    """ "Sc around, incl. the 4 ch", "sc in each st, including the chs": the run goes over these as well."""
    start = c.i
    runs = runs_told(c.out)
    if c.t[c.i].text.lower() not in ("including", "incl", "include") or not runs:
        return None
    c.i += 1
    c.take(".")
    while c.kind in ("the", "n", "each", "all", "of", "in", "one", "new", "idle"):
        c.i += 1
    chains = c.kind == "ch"
    while c.kind not in (",", ".", ";", "", "(", "[", "join", "turn"):
        c.i += 1
    if not chains:
        return [Aside(id=c.id(), span=c.span(start))]
    return [replace(runs[-1], id=c.id(), span=c.span(start), at=Place(what="ch"))]


def _of_corners(c: Cursor, names: tuple[str, ...] = ("corner",)) -> bool:
    """Whether the clause names corners before it ends."""
    k = c.i + 1
    while c.t[k].kind not in (";", ".", "") and k < c.i + _FURTHEST:
        if c.t[k].kind in names:
            return True
        k += 1
    return False
