"""The side of a yoke that its rounds begin in: "sc across the back to the ch-2 sp, …, sc in last ch-2 sp, join". Where the rounds begin in
mid-side, stitches of it lie behind the last space too; they are of that side, and a count that has them all says so."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ..pattern import Aside, Choice, Colour, Join, Make, Step, Together

BEHIND_LAST = "Are the stitches behind the last space worked with the side that the round began in?"


def side_begun(steps: tuple[Step, ...], fresh: Callable[[], int]) -> tuple[Step, ...]:
    """The steps, with the question what becomes of the stitches behind the last space, where the round goes to spaces by its sides."""
    join = next((k for k, step in enumerate(steps) if isinstance(step, Join) and not step.no), None)
    run = next((step for step in steps if isinstance(step, (Make, Together))), None)
    if join is None or not isinstance(run, Make) or run.places != "rest" or not run.upto.endswith("sp"):
        return steps
    at = next((k for k in range(join - 1, -1, -1) if not isinstance(steps[k], (Aside, Colour))), None)
    last = steps[at] if at is not None else None
    if at is None or not isinstance(last, (Make, Together)) or last is run or last.at.where != "last" or last.at.what != run.upto:
        return steps
    rest = replace(run, id=fresh(), span=last.span, upto="")
    told = Choice(id=fresh(), span=last.span, question=BEHIND_LAST, answers=((), (rest,)))
    return (*steps[: at + 1], told, *steps[at + 1 :])
