"""A place told behind what goes into it: "2 tr, ch 1, in next ch-sp", "[dc, ch 1] 6 times and 1 dc, all in next ch (fan)"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Make, Place, Repeat, Skip, Step, Together
from .cursor import Cursor
from .shapes import unplaced
from .spots import ONE, Spot
from .told_in_brackets import define, here

EXAMPLES = (
    ("skip 2, [dc, ch 1] 3 times and 1 dc, all in next st (fan), skip 2", "skip2, fan{[dc, ch1]×3, dc}, skip2"),
    ("* dc, ch 2 in each sc; repeat from * around", "[{dc, ch2}@next sc]×rest"),
)


def bind_back(c: Cursor, start: int, found: Spot, name: str | None = None) -> list[Step] | None:
    """A place told after a comma ("2 tr, ch 1, in next ch-sp", "(2 tr, ch 3, 2 tr) ch 2, in the corner sp"): of what stands before."""
    named, behind = _name_behind(c)
    after = c.t[behind]
    if (
        not (after.kind in (",", ";", ":", ".", "", ")", "*") or (after.kind == "n" and c.t[behind + 1].kind == "times"))
        or start == 0
        or c.t[start - 1].kind not in (",", ")", "]", "ch", "noun", "skip", "n")
    ):
        return None
    out = c.out
    stop = len(out)
    while stop and isinstance(out[stop - 1], Aside):
        stop -= 1
    every = found.places == "rest" and (c.t[start - 1].kind == "," or (found.each and _listed_whole(c, out[:stop])))
    if every and not (found.each and _listed_whole(c, out[:stop])):
        return None
    while (stop and isinstance(out[stop - 1], Skip)) or (
        stop and not every and isinstance(out[stop - 1], Chain) and c.t[start - 1].kind in (",", ")", "]")
    ):
        stop -= 1
    first = stop
    floor = max((mark.index for mark in c.frames[-1].marks if not mark.used), default=0)
    while first > floor and (isinstance(before := out[first - 1], Chain) or _listed_unit(c, before, stop - first)):
        first -= 1
    while first < stop and isinstance(out[first], Chain) and out[first:stop][-1:] and (every or not isinstance(out[stop - 1], Chain)):
        first += 1
    body = tuple(out[first:stop])
    if not body:
        return None
    rest = out[stop:]
    c.i = behind
    name = name or named
    if name:
        define(c, name, tuple(map(here, body)), start)
    places = ONE if every and any(mark.index == first and not mark.used for mark in c.frames[-1].marks) else found.places
    group = Together(id=c.id(), span=c.span(start), body=body, at=found.at, places=places, but=found.but, upto=found.upto, name=name)
    del out[first:]
    out.append(group)
    out.extend(rest)
    return [Aside(id=c.id(), span=c.span(start))]


def _name_behind(c: Cursor) -> tuple[str | None, int]:
    """The group's name in a bracket behind the place ("all in next ch (fan),", "… (shell made)"), and where that bracket is over."""
    close = c.close.get(c.i) if c.kind in ("(", "[") else None
    inner = [] if close is None else [t for t in c.t[c.i + 1 : close] if t.kind not in ("a", "idle", "made", "o")]
    if close is None or len(inner) != 1 or inner[0].kind != "grp":
        return None, c.i
    return str(inner[0].val), close + 1


def _listed_unit(c: Cursor, step: Step, after: int) -> bool:
    """A stitch of a list whose place is told behind it, or a unit of it told so many times ("[dc, ch 1] 6 times and 1 dc, all in next ch"),
    with `after` steps of the list behind it."""
    if isinstance(step, Repeat):
        plain = all(isinstance(one, (Make, Chain)) and not (isinstance(one, Make) and has_place(c, one)) for one in step.body)
        return plain and after > 0 and step.times.kind == "n" and any(isinstance(one, Chain) for one in step.body)
    return isinstance(step, Make) and not has_place(c, step)


def _listed_whole(c: Cursor, out: list[Step]) -> bool:
    """Whether a list of stitches and chains without places is all that stands before "in every stitch": "1 treble, 1 chain, in …"."""
    body = out
    while body and isinstance(body[0], (Chain, Aside)):
        body = body[1:]
    return (
        any(isinstance(step, Chain) for step in body)
        and all(isinstance(step, (Make, Chain)) for step in body)
        and not any(has_place(c, step) for step in body)
    )


def has_place(c: Cursor, step: Step) -> bool:
    if isinstance(step, Together) and step.name == "picot":
        return False  # it hangs on the stitch before
    if not isinstance(step, (Make, Together)):
        return False
    told = step.at != Place() and not (isinstance(step, Make) and unplaced(c, step))
    return (told and step.at.where != "ring") or step.places == "rest"


def group_with_last(c: Cursor, start: int, got: list[Step]) -> list[Step]:
    """ "V-st and dc in top of tch", "shell and dc in last st": the place told behind is of the group too, which no other was told for."""
    last = got[0] if len(got) == 1 else None
    group = c.out[-1] if c.out else None
    if not isinstance(last, Make) or not isinstance(group, Together) or start < 2 or c.t[start - 1].kind != "and":
        return got
    named = group.name is not None and group.at == Place() and group.places == ONE and c.t[start - 2].kind == "grp"
    at_end = last.at.where == "last" or (last.at.where == "named" and last.at.what.startswith(("tch", "ch-")))
    if not (named and at_end) or last.places != ONE or c.kind not in (",", ";", ".", "", ")", "turn", "(", "join"):
        return got
    c.out.pop()
    inner = replace(last, at=Place(where="same"))
    return [Together(id=c.id(), span=c.span(start), body=(group, inner), at=last.at)]
