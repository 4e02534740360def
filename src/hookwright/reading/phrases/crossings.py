"""Cables and other groups of a pattern's own that lie over several places: "C4F: skip next 2 sts, FPtr around next 2 sts, …"."""

from __future__ import annotations

from collections.abc import Iterable

from ...pattern import ONE, Make, Repeat, Sized, Skip, Step, Times, Turn
from .cursor import Cursor
from .limits import limit
from .places import spot
from .specials import anew
from .tog import times_after

CUSTOMARY = frozenset(
    ("shell", "V-st", "fan", "petal", "cl", "puff", "popcorn", "bobble", "picot", "star", "beg shell", "bullion", "cable")
)
"""Groups of custom: worked into the place that the row tells, whatever their own words pass over."""


def crosses(steps: Iterable[Step]) -> bool:
    """Whether a definition passes places over and comes back to them: it is worked where it stands, not into one place."""
    told = tuple(steps)
    passed = any(isinstance(step, Skip) for step in told)
    return passed and any(isinstance(step, Make) and step.at.where == "skipped" for step in told)


def in_sequence(steps: Iterable[Step]) -> bool:
    """Whether a definition is steps in a row, one behind the other, and no group in one place: it turns, or passes places over."""
    told = tuple(steps)
    skip = next((k for k, step in enumerate(told) if isinstance(step, Skip)), len(told))
    return any(isinstance(step, Turn) for step in told) or any(
        isinstance(step, Make) and step.at.where == "next" for step in told[skip + 1 :]
    )


def crossing(c: Cursor) -> list[Step] | None:
    """ "C4F", "C4F twice", "2 cables", "cable over next 4 sts": what its definition says, so often."""
    start = c.i
    told = c.t[start].val if c.kind == "n" and isinstance(c.t[start].val, int) else None
    if told is not None:
        c.i += 1
    own = c.specials.get(str(c.t[c.i].val)) if c.kind == "grp" else None
    if own is None or not (crosses(own.steps) or (own.name not in CUSTOMARY and in_sequence(own.steps))):
        c.i = start
        return None
    c.i += 1
    c.drop("noun")
    if c.kind in ("over", "in", "across", "on", "around"):
        begin = c.i
        if limit(c) is not None:
            return [_again(c, start, own.steps, Times(kind="rest"))]
        c.i = begin
        spot(c)
    number = Sized((told,)) if told is not None else times_after(c) or ONE
    if number == ONE:
        return list(anew(c, own.steps, c.span(start)))
    return [_again(c, start, own.steps, Times(kind="n", number=number))]


def _again(c: Cursor, start: int, steps: tuple[Step, ...], times: Times) -> Repeat:
    return Repeat(id=c.id(), span=c.span(start), body=anew(c, steps, c.span(start)), times=times)
