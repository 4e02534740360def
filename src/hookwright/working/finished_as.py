"""A row begun in its own words and finished as another one: "sc in same space, 1 s c in each of next 5 s c, finish same as 2nd row"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Aside, Chain, Colour, FastenOff, Make, Repeat, Sized, Skip, Step, Together, Turn

_FREE = (Aside, Colour, Turn, FastenOff)
TALL = 3
"""Chains that stand for a stitch at a row's beginning, at least (common practice, no source)."""


def left_of(other: Sequence[Step], own: Sequence[Step], size: int) -> tuple[Step, ...]:
    """What is left of `other` once `own` has been worked: what goes into the places behind those that `own` goes into; behind its repeat
    where `own` has one, and from its repeat on where they cannot be told. Its turning and cutting are not taken over."""
    steps = tuple(step for step in other if not isinstance(step, _FREE))
    at = next((k for k, step in enumerate(steps) if isinstance(step, Repeat)), len(steps))
    if any(isinstance(step, Repeat) for step in own):
        return steps[at + 1 :]
    gone = _places(own, size)
    for k in range(at if gone else 0):
        so_far, step = _places(steps[: k + 1], size), steps[k]
        if so_far is None or gone is None:
            break
        if so_far == gone:
            return steps[k + 1 :]
        if so_far > gone:
            return (replace(step, places=Sized((so_far - gone,))), *steps[k + 1 :]) if isinstance(step, Make) else steps[at:]
    return steps[at:]


def _places(steps: Sequence[Step], size: int) -> int | None:
    """How many places of the row below steps go into or pass over; None where that is not told in numbers."""
    told = [step for step in steps if not isinstance(step, _FREE)]
    total, begun = 0, False
    for k, step in enumerate(told):
        if isinstance(step, Chain):
            stands = not begun and (step.number.at(size) or 0) >= TALL and not (told[k + 1 :] and isinstance(told[k + 1], Skip))
            total, begun = total + stands, begun or stands
        elif isinstance(step, Skip):
            total += step.number.at(size) or 0
        elif isinstance(step, (Make, Together)) and step.places != "rest" and step.at.where in ("next", "first", "same"):
            each = step.closes if isinstance(step, Make) else 1
            total += (step.places.at(size) or 0) * each if step.at.where != "same" else int(not begun)
            begun = True
        else:
            return None
    return total
