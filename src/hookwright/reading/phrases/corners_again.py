"""Corners told once and then only named: "dc in each dc around, making corners in same way", "corners as before"."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from ...pattern import ONE, Make, Place, Repeat, Sized, Special, Step, Together, Unread
from ...pattern.walking import walk
from .cursor import Cursor
from .groups import corner_again
from .numbers import number
from .places import spot
from .specials import anew
from .things import LAST

_ENDS = frozenset((",", ";", ".", "", ")", "(", "]"))
_AS = frozenset("same as before way manner in previous last preceding rnd row round the on of done did established always usual".split())  # noqa: SIM905


def corner_told(steps: tuple[Step, ...]) -> dict[str, Special]:
    """The last group that the steps put into a corner, by `LAST`: to be made again where a later round only says "corners as before"."""
    told = [step for step in walk(steps) if isinstance(step, (Make, Together)) and step.at.what == "corner" and _several(step)]
    return {LAST: Special(name=LAST, steps=(told[-1],), counts=0, span=told[-1].span)} if told else {}


def _several(step: Make | Together) -> bool:
    return bool(step.body) and not step.name if isinstance(step, Together) else step.each != ONE


def _between(c: Cursor, start: int, k: int) -> list[Step] | None:
    """ "(Corners as before) having 3 dc between corners in each ch-1 space": the corners of the round before, and what fills the spaces
    between them. None with the cursor unmoved."""
    c.i = k + 1
    told = number(c)
    made = c.take("st") if told is not None else None
    if c.take("between"):
        c.drop("the")
        c.take("corner")
    found = spot(c) if made is not None and c.kind == "in" else None
    corner = c.specials.get(LAST)
    if (
        told is None
        or made is None
        or found is None
        or not found.each
        or not found.at.what.endswith("sp")
        or c.kind not in _ENDS
        or not corner
    ):
        c.i = start
        return None
    steps = anew(c, corner.steps, c.span(start, k))
    whole = replace(steps[0], at=Place(what="corner"), places="rest") if isinstance(steps[0], (Make, Together)) else steps[0]
    fill = Make(id=c.id(), span=c.span(k + 1), stitch=c.us(str(made.val)), each=told, places="rest", at=found.at)
    return [fill, whole]


def one_more(c: Cursor) -> list[Step] | None:
    """ "(Make) last corner", "another corner", "the 4th corner in last loop": one more of what the pattern calls a corner; not understood
    where it calls nothing so, or where several are to be made."""
    start = c.i
    work = c.kind == "work"
    k = start + work
    while c.t[k].kind in _WHICH and k < start + 4:
        k += 1
    if c.t[k].kind != "corner" or k == start + work or c.t[k + 1].kind not in (*_ENDS, "in", "as"):
        return None
    if c.t[k + 1].kind == "as" and not c.out:
        return None  # "Work first corner as in last round, * …": how the round begins
    one = all(token.kind != "n" or token.val == 1 for token in c.t[start:k])
    if one and ("corner" in c.defined or {"corner", LAST} & c.specials.keys()):
        c.i = k
        got = as_before(c) if c.look().kind == "as" else corner_again(c)
        c.i = start if got is None else c.i
        return got
    if not work:
        return None
    c.i = k + 1
    return [Unread(id=c.id(), span=c.span(start))]


_WHICH = frozenset(("the", "a", "last", "o", "next", "n", "more"))


def as_before(c: Cursor) -> list[Step] | None:
    """ "(Making) corners in same way" behind a run: the corner of the round before in every corner of this one; "corner as before": in one
    of them. Not understood where no corner was told, or no run goes round."""
    start = c.i
    every = c.kind in ("each", "all")
    at = start + every
    if c.t[at].kind != "corner":
        return None
    k = at + 1
    while c.t[k].kind not in _ENDS and (set(c.t[k].text.lower().split()) <= _AS or c.t[k].kind == "same"):
        k += 1
    said = {word for token in c.t[at + 1 : k] for word in token.text.lower().split()}
    if c.t[k].kind in ("having", "with", "and") and said & {"same", "before", "as"} and (filled := _between(c, start, k)) is not None:
        return filled
    if c.t[k].kind not in _ENDS or not said & {"same", "before", "as", "established", "way", "manner"}:
        return None
    every = every or c.t[at].text.lower() == "corners"
    special = c.specials.get(LAST) or c.specials.get("corner") or c.defined.get("corner")
    run = c.out[-1] if c.out else None
    whole_run = isinstance(run, Make) and run.places == "rest" and not run.upto
    goes_round = whole_run or (isinstance(run, Repeat) and run.times.kind == "rest")
    c.i = k
    if special is None or (every and not goes_round):
        return [Unread(id=c.id(), span=c.span(start))]
    steps = anew(c, special.steps, c.span(start))
    first = steps[0]
    place = Place(what="corner")
    places: Sized[int] | Literal["rest"] = "rest" if every else ONE
    if len(steps) == 1 and isinstance(first, (Make, Together)):
        return [replace(first, at=place, places=places)]
    return [Together(id=c.id(), span=c.span(start), body=steps, at=place, places=places)]
