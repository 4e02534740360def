"""Rows written for their own width, worked again where the piece has grown: their plain runs taken longer."""

from __future__ import annotations

from dataclasses import replace

from ..pattern import ONE, Make, Repeat, Sized, Step


def stretchable(work: tuple[Step, ...]) -> tuple[int, Step] | None:
    """The row's one plain run ("dc in each of next 25"), when it has exactly one: (its place, the step)."""
    runs = [(i, s) for i, s in enumerate(work) if isinstance(s, Make) and s.places != "rest" and (s.places.at(0) or 0) > 2]
    if len(runs) != 1 or any(isinstance(s, Repeat) for s in work):
        return None
    return runs[0]


def stretchable_alike(work: tuple[Step, ...], left: int) -> tuple[Step, ...] | None:
    """The steps with their plain runs of one length ("dc in next 9 sts, 3 dc in next, dc in next 9 sts") all made longer, so that `left`
    more places are used; None where there are not two such runs, or they cannot share."""
    runs = [step for step in work if isinstance(step, Make) and step.places != "rest" and step.each == ONE and step.closes == 1]
    long = [step for step in runs if (step.places.values[0] or 0) > 2]  # type: ignore[union-attr]
    if len(long) < 2 or any(isinstance(step, Repeat) for step in work) or len({step.places for step in long}) > 1 or left % len(long):
        return None
    more = left // len(long)
    return tuple(
        replace(step, places=Sized(tuple(None if n is None else n + more for n in step.places.values)))
        if any(step is one for one in long) and isinstance(step, Make) and isinstance(step.places, Sized) else step
        for step in work
    )  # fmt: skip


def stretched(work: tuple[Step, ...], at: int) -> tuple[Step, ...]:
    """The same steps with the plain run taking whatever is left."""
    step = work[at]
    assert isinstance(step, Make)
    place = replace(step.at, where="next") if step.at.where in ("first", "last") else step.at
    return (*work[:at], replace(step, places="rest", at=place), *work[at + 1 :])
