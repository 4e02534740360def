"""What the words of a row ask for, one thing after the other with its number, and where its repeats begin and end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal, TypeAlias

from ...pattern import Chain, Choice, Make, Place, Refer, Repeat, Sized, Skip, Step, Together
from ...trade.kinds import base, closes
from .units import Unit

AskedKind: TypeAlias = Literal["st", "inc", "dec", "ch", "skip"]


@dataclass(frozen=True, slots=True)
class Asked:
    """One thing asked for. `numbers` it may be told with (empty: no number, "in each stitch across"); `most` the largest of them.

    `start` the place of the repeat's first thing where this one ends a repeat, else -1; `free` that may go unsaid (a starting chain)."""

    kind: AskedKind
    what: str
    numbers: frozenset[int] = frozenset()
    start: int = -1
    free: bool = False
    group: int = -1
    """The place of the first thing of the group it stands in, all of which goes into one place; -1 where it stands in none."""
    where: Where = ""
    """Into what it goes, where its words name more than the next stitch."""
    loops: tuple[Loop, ...] = field(default=(), compare=False)
    """Every repeat that this thing ends and that is worked so many times, the innermost first."""
    places: int = field(default=0, compare=False)
    """Into how many places it goes, several into each; 0 where it is one into each, or as far as the row goes."""


Loop: TypeAlias = tuple[int, frozenset[int], frozenset[int]]
"""A repeat: the place of its first thing, how often in all it is worked, and how often in the other sizes."""
Where: TypeAlias = Literal["", "same", "first", "last", "ring", "hole"]
"""The places that people name: the stitch just worked into, the row's first and last, the ring, a space or corner."""
_HOLES = ("sp", "corner", "center", "centre", "loop", "arch", "point", "tip")


def where_of(at: Place) -> Where:
    """The place of a step, as far as people name it."""
    if at.where in ("same", "first", "last", "ring"):
        return at.where
    return "hole" if any(word in at.what for word in _HOLES) else ""


def asked_of(unit: Unit, units: Sequence[Unit] = ()) -> tuple[Asked, ...] | None:
    """The row's own words as things asked for, or those of the one row of its part (among `units`) that it is to be worked as; None where
    they refer to several rows, or to one and something besides, or hold what is not told one by one."""
    steps = steps_meant(unit, units)
    if any(isinstance(step, Refer) for step in steps):
        return None
    found = list(_asked(steps, unit.size, 0))
    found = [replace(one, free=True) if one.what == "sl st" else one for one in found]
    first = first_worked(found)
    found[:first] = [replace(one, free=True) for one in found[:first]]
    return tuple(found) or None


def first_worked(asked: Sequence[Asked]) -> int:
    """The place of the first thing worked, behind the slip stitches and the chain a row starts with; of slip stitches, where there is
    nothing else; 0 where none is."""
    worked = [k for k, one in enumerate(asked) if one.kind not in ("ch", "skip")]
    return next((k for k in worked if asked[k].what != "sl st"), worked[0] if worked else 0)


def steps_meant(unit: Unit, units: Sequence[Unit]) -> Sequence[Step]:
    """The row's steps; where these only name one other row, its steps."""
    steps = unit.rows[0].written.steps
    for _ in range(MOST_REFERRED):
        refer = next((step for step in steps if isinstance(step, Refer)), None)
        if refer is None or refer.changes or refer.part or refer.reverse or refer.rest or refer.grow or len(set(refer.rows)) != 1:
            break
        if any(isinstance(step, _WORK) for step in steps):
            break
        other = next((one for one in units if one.part == unit.part and refer.rows[0] in one.numbers and one is not unit), None)
        if other is None:
            break
        unit, steps = other, other.rows[0].written.steps
    return steps


MOST_REFERRED = 3
"""So many rows are followed that each only name another; more are a circle."""
_WORK = (Chain, Choice, Make, Repeat, Skip, Together)


def _asked(steps: Sequence[Step], size: int, at: int) -> Iterator[Asked]:
    """The steps from place `at` on."""
    for step in steps:
        made = list(_one(step, size, at))
        at += len(made)
        yield from made


def _one(step: Step, size: int, at: int) -> Iterator[Asked]:
    if isinstance(step, Chain):
        yield Asked("ch", "", _numbers(step.number, size))
    elif isinstance(step, Skip):
        if not step.ordinal:
            yield Asked("skip", "", _numbers(step.number, size), free=step.first)
    elif isinstance(step, Make):
        yield _make(step, size)
    elif isinstance(step, Together):
        where = where_of(step.at)
        yield from (replace(one, start=-1, free=True, group=at, where=where or one.where) for one in _asked(step.body, size, at))
    elif isinstance(step, Repeat):
        body = list(_asked(step.body, size, at))
        if body:
            others = frozenset(n for n in step.times.number.values if n is not None)
            times, sized = _times(step, size), others if len(others) > 1 else frozenset()
            loops = (*body[-1].loops, (at, times, sized)) if times else body[-1].loops
            body[-1] = replace(body[-1], start=at, loops=loops)
        yield from body
        yield from _asked(step.last, size, at + len(body))
    elif isinstance(step, Choice):
        yield from _asked(step.answers[0], size, at)


def _numbers(number: Sized[int], size: int) -> frozenset[int]:
    told = number.at(size)
    return frozenset() if told is None else frozenset((told,))


def _times(step: Repeat, size: int) -> frozenset[int]:
    """How often a repeat is worked in all; where its last time is told by itself, that may be counted or not."""
    times = step.times.number.at(size) if step.times.kind == "n" else None
    return frozenset() if times is None else frozenset((times, times - 1) if step.last else (times,))


def _make(step: Make, size: int) -> Asked:
    """A stitch with the number of its places; of several in one place, how many these are."""
    each = step.each.at(size) or 1
    places = 0 if step.places == "rest" else step.places.at(size) or 0
    name = step.main or step.stitch if step.stitch in ("inc", "dec") else step.stitch
    post, where = name[:2] if name[:2] in ("FP", "BP") else "", where_of(step.at)
    what = f"{post}{base(name)}"
    if step.stitch == "dec" or closes(step.stitch) > 1:
        return Asked("dec", what, frozenset((places,)) if places > 1 else frozenset(), where=where)
    if step.stitch == "inc" or (each > 1 and step.at.where != "ring" and not step.at.what.endswith("sp")):
        return Asked("inc", what, frozenset({each, places} - {0, 1}), where=where, places=places)
    numbers = frozenset({each * max(places, 1), each, places} - {0} if each > 1 else {places} - {0})
    return Asked("st", what, numbers, where=where)
