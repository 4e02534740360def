"""Where the last stitch of a run goes, told after the run: "…; rep from * across, working last dc in top of ch-3"."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

from ...pattern import ONE, Aside, Make, Place, Repeat, Sized, Step, Together
from ...trade.kinds import HEIGHT
from .cursor import Cursor
from .places import spot
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("*dc in next sp, dc in next dc; rep from * across, working last dc in top of ch-3", "[dc@next sp, dc@next dc]×rest"),
    ("sc in each st across, with last sc in top of tch", "sc×rest"),
    ("sc in each st, the last in top of tch", "sc×rest"),
    ("dc in each of last 3 sts, the last of them in top of tch", "dc×3@last st"),
    ("*5 dc in next sc, sc in next shell; rep from * across, placing last sc in top of tch",
     "[5dc@next sc, sc@next shell]×rest last (5dc@next sc, sc@named tch)"),
    ("*ch 2, skip 2 dc, dc in next 2 dc; rep from * across, last dc in last dc", "[ch2, skip2 dc, dc×2@next dc]×rest, dc@last dc"),
    ("*dc in next sc, sc in next dc* across, and the last st is a dc in the last sc", "[dc@next sc, sc@next dc]×rest, dc@last sc"),
)  # fmt: skip

_VERBS = frozenset(("work", "with", "place", "having", "ending"))
_COMES = frozenset(
    "being is be will to should goes go going falls fall falling coming comes come sits sit sitting lands land landing lies lie".split()  # noqa: SIM905
)
_OPEN = frozenset(("rest", "to_last", "more", "n"))


def last_of_run(c: Cursor) -> list[Step] | None:
    """ "working (the) last dc in …", "with last dc worked in …": a remark where the run before ends with such a stitch."""
    start = c.i
    run = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    over_last = isinstance(run, Make) and run.at.where == "last"  # "2 tr on the last 2 tr, the second of these on the top of …"
    goes_on = isinstance(run, (Make, Together)) and (run.places == "rest" or over_last)
    if not (isinstance(run, Repeat) and run.times.kind in _OPEN) and not goes_on:
        return None
    told = c.kind in _VERBS or (c.kind == "w" and c.t[c.i].val in ("placing", "the"))
    c.i += told
    c.drop("the")
    if c.kind != "last":
        c.i = start
        return None
    c.i += 1
    several = c.kind == "n" and c.t[c.i].val == 2 and isinstance(run, Repeat) and len(run.body) > 1
    group = not several and isinstance(run, Repeat) and c.kind == "n" and _groups_of(run, c.t[c.i].val)
    c.i += several or group  # "working last 2 dc into 4 ch": into the chain's space, and into its top
    c.i += 2 if c.kind == "of" and c.look().text.lower() in ("them", "these", "which") else 0
    bare = c.kind in ("in", "over")  # "the last into the top of the 3 ch"
    if not bare and c.kind not in ("st", "noun", "grp", "inc") and c.t[c.i].text.lower() != "one":
        c.i = start
        return None
    named = c.us(str(c.t[c.i].val)) if c.kind == "st" else ""
    c.i += not bare
    c.drop("idle")
    while c.t[c.i].text.lower() in _COMES:
        c.i += 1
    c.take("work", "place")
    c.i += c.t[c.i].text.lower() in ("made", "placed")
    c.drop("idle")
    ends_with = _last_stitch(run) if run is not None else ""
    own = (bool(ends_with) and named in ("", ends_with)) or group
    found = (_gap_at_the_end(c) or spot(c)) if c.kind in ("in", "over", "around", "at") and own else None
    if found is None or (group and not found.at.what.endswith("sp")):
        c.i = start
        return None
    if group:
        return [Aside(id=c.id(), span=c.span(start))]  # "3 dc in each sp, …, putting the last 3 dc in the tch sp"
    if several and not (found.at.what.startswith("ch") or found.at.what == "tch"):
        c.i = start
        return None
    _where_begun(c)
    if named and not told and found.at.where == "last" and isinstance(run, Repeat) and _ends_in_run(run):
        return [make(c, start, named, found=found)]  # worked after whole units, or the very last of them: the places left decide
    if not several and isinstance(run, Repeat) and (ended := _ended_there(c, run, found.at)) is not None:
        c.out[max(k for k, step in enumerate(c.out) if step is run)] = ended
    return [Aside(id=c.id(), span=c.span(start))]


def _groups_of(run: Repeat, many: object) -> bool:
    """Whether the unit puts so many stitches into one place."""
    return isinstance(many, int) and any(isinstance(one, Make) and one.each == Sized((many,)) for one in run.body)


def stops_after(c: Cursor) -> list[Step] | None:
    """ "…; rep from * across, stopping after the sl st in the last space": a remark where the unit ends in that stitch anyhow."""
    start = c.i
    run = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not isinstance(run, Repeat) or c.t[c.i].text.lower() not in ("stop", "stopping", "ending", "finishing", "end", "finish"):
        return None
    c.i += 1
    c.drop("with", "idle")
    if not c.take("after"):
        c.i = start
        return None
    c.drop("the", "last", "a")
    stitch = c.take("st", "grp")
    if stitch is None or _last_stitch(run) != c.us(str(stitch.val)):
        c.i = start
        return None
    spot(c)
    return [Aside(id=c.id(), span=c.span(start))]


def _gap_at_the_end(c: Cursor) -> Spot | None:
    """ "In the big gap at the end where you skipped those chains": under the chain that begins the row below."""
    k = c.i + 1
    while c.t[k].kind in ("the", "w", "idle") and c.t[k].text.lower() not in _HOLES and k - c.i < 5:
        k += 1
    hole = c.t[k].kind in ("sp", "lp") or c.t[k].text.lower() in _HOLES
    at = k + 1
    ends = c.t[at].kind == "at" and any(token.kind in ("end", "beg", "side") for token in c.t[at + 1 : at + 4])
    if not hole or not ends:
        return None
    while c.t[at].kind not in (".", ";", "", "(", "[", ",", "turn"):
        at += 1
    c.i = at
    return Spot(Place(where="named", what="tch sp"))


_HOLES = frozenset(("gap", "hole", "loop", "space", "opening"))


def last_is(c: Cursor) -> list[Step] | None:
    """ "…across, and the last st is a dc in the last sc": what the row ends with."""
    start = c.i
    c.drop("the", "idle")
    if c.kind != "last" or c.look().kind not in ("st", "noun") or c.look(2).text.lower() not in ("is", "will", "being"):
        c.i = start
        return None
    c.i += 2
    while c.t[c.i].text.lower() in ("is", "will", "be", "being", "a", "an", "always"):
        c.i += 1
    stitch = c.take("st")
    found = spot(c) if stitch is not None and c.kind in ("in", "over", "around") else None
    if stitch is None or found is None:
        c.i = start
        return None
    return [make(c, start, c.us(str(stitch.val)), found=found)]


_BEGUN = frozenset("you the work round row was is it had have has from which began begun begin started start starting commenced".split())  # noqa: SIM905


def _where_begun(c: Cursor) -> None:
    """Pass over "(the last dc into the loop) where you started", "from which the round began"."""
    begin = c.i
    c.i += c.kind == "from"
    if c.t[c.i].text.lower() in ("where", "which", "that"):
        c.i += 1
        while c.t[c.i].text.lower() in _BEGUN or c.kind in ("beg", "rnd", "row", "the"):
            c.i += 1
        if c.kind in (",", ".", ";", "") and c.t[c.i - 1].text.lower() in _BEGUN | {"beginning", "from", "in"}:
            return
    c.i = begin


def _ended_there(c: Cursor, run: Repeat, at: Place) -> Repeat | None:
    """The repeat with its last unit ending in that place, where its own last stitch goes into something else ("… sc in next shell")."""
    last = run.body[-1]
    if run.times.kind != "rest" or run.last or run.cut is not None or not isinstance(last, Make) or len(run.body) < 2:
        return None
    if last.at.what in ("st", "any", *HEIGHT) or at.what == last.at.what or at.nth == last.at.nth == 0:
        return None
    before = tuple(replace(step, id=c.id()) for step in run.body[:-1])
    return replace(run, last=(*before, replace(last, id=c.id(), at=at)))


def ends_in_fewer(steps: list[Step], new_id: Callable[[], int]) -> list[Step]:
    """ "*sc in shell, 5 dc in next sc; rep from * across, 3 dc in last sc": the last unit ends so, and not the row after whole units."""
    out: list[Step] = []
    for step in steps:
        run = out[-1] if out else None
        unit = run.body[-1] if isinstance(run, Repeat) and run.times.kind == "rest" and len(run.body) > 1 else None
        if isinstance(run, Repeat) and isinstance(unit, Make) and isinstance(step, Make) and not run.last and run.cut is None:
            same = step.stitch == unit.stitch and step.at.what == unit.at.what and unit.at.what not in ("st", "any")
            if same and step.at.where == "last" and unit.at.where == "next" and step.each != unit.each and step.places == unit.places:
                out[-1] = replace(run, last=(*(replace(one, id=new_id()) for one in run.body[:-1]), step))
                continue
        out.append(step)
    return out


def of_one_group(steps: Sequence[Step]) -> list[Step]:
    """ "*sc in each dc and in ch-1 sp of next V-st; rep from *": in a unit, what is told of each stitch and of a group's space is told of
    the stitches of that group."""
    out: list[Step] = []
    for step in steps:
        if isinstance(step, Repeat):
            step = replace(step, body=tuple(of_one_group(step.body)))
            body = list(step.body)
            for k, (run, within) in enumerate(pairwise(body)):
                plain = isinstance(run, Make) and run.places == "rest" and run.at.where == "next" and not (run.at.of or run.upto)
                grouped = isinstance(within, Make) and within.at.of and within.at.what.endswith("sp") and within.places == ONE
                if isinstance(run, Make) and isinstance(within, Make) and plain and grouped and within.at.where == "next":
                    body[k] = replace(run, at=replace(run.at, of=within.at.of))
            step = replace(step, body=tuple(body))
        out.append(step)
    return out


def _ends_in_run(run: Repeat) -> bool:
    """Whether the unit ends in several stitches side by side ("… dc in next 2 dc")."""
    last = run.body[-1]
    return isinstance(last, Make) and isinstance(last.places, Sized) and (last.places.values[0] or 0) > 1


def _last_stitch(step: Step) -> str:
    """The kind of the last stitch a step works."""
    if isinstance(step, Make):
        return step.stitch
    if isinstance(step, (Repeat, Together)):
        made = [inner for inner in step.body if not isinstance(inner, Aside)]
        return _last_stitch(made[-1]) if made else ""  # a body that ends in a chain leaves its last stitch to be told
    return ""
