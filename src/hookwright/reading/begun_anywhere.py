"""A row whose first stitch goes into "any" place of the row below ("Make a loop on hook, 3 s c in any corner sp"): the yarn joins there,
and the round comes back to it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import replace

from ..pattern import ONE, Aside, Chain, Colour, Make, Skip, Step, Together, Turn
from ..trade.kinds import HEIGHT, base
from .wording.token import Token


def begun_anywhere(steps: tuple[Step, ...], found: Sequence[Token], fresh: Callable[[], int]) -> tuple[Step, ...]:
    """The steps, the yarn joined in where the first stitch goes, where that is any place of its kind; others as they are."""
    steps = _in_that_stitch(steps)
    k = next((k for k, step in enumerate(steps) if not isinstance(step, (Aside, Colour, Turn))), len(steps))
    first = steps[k] if k < len(steps) else None
    if not isinstance(first, (Make, Together)) or first.at.where != "next" or first.places != ONE or not _any_told(first, found):
        return steps
    if isinstance(first, Make) and first.stitch == "sl st":
        return steps  # it goes along to that place by itself
    before = list(steps[:k])
    yarn = next((j for j, step in enumerate(before) if isinstance(step, Colour)), None)
    old = before[yarn] if yarn is not None else None
    if isinstance(old, Colour):
        if old.at is not None:
            return steps
        before[yarn or 0] = replace(old, join_in=True, at=first.at)
    else:
        before.append(Colour(id=fresh(), span=first.span, yarn="same", join_in=True, at=first.at))
    return (*before, replace(first, at=replace(first.at, where="same")), *steps[k + 1 :])


def _in_that_stitch(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """ "Attach White in 2nd sc, sc in same space": the place that the yarn was joined in is a stitch, whatever it is called then."""
    k = next((k for k, step in enumerate(steps) if not isinstance(step, (Aside, Colour, Turn, Chain, Skip))), len(steps))
    first = steps[k] if k < len(steps) else None
    joined = next((step.at.what for step in steps[:k] if isinstance(step, Colour) and step.at is not None), "")
    stitch = joined == "st" or base(joined) in HEIGHT
    if not isinstance(first, (Make, Together)) or first.at.where != "same" or first.at.what != "sp" or not stitch:
        return steps
    return (*steps[:k], replace(first, at=replace(first.at, what="st")), *steps[k + 1 :])


def _any_told(step: Step, found: Sequence[Token]) -> bool:
    at = bisect_left(found, step.span.start, key=lambda token: token.start)
    while at < len(found) and found[at].start < step.span.end:
        if found[at].kind == "any":
            return True
        at += 1
    return False
